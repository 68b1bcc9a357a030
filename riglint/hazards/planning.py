"""What goes wrong before anybody leaves home."""

from riglint.hazards.hazard import Hazard
from riglint.model.values.sources import Source

PLAN = (
    Hazard(
        "low_line_kit_up_high",
        "plan",
        "A kit for knee height is up where a fall kills, and nothing catches the walker.",
        source=Source(
            "EN 1176-1: free fall of 3 m at most; taken over by analogy", "standard", ("en_1176_1",)
        ),
    ),
    Hazard(
        "no_way_down",
        "plan",
        "The crew makes up how to lower, or how to reach a hanging walker, on the spot and under load.",
        "Everyone knows how to get a hanging walker back, and the gear for it is at the anchor.",
        "highline",
        source=Source(
            "Swiss alpine club: highline only with rescue skill in the team", "published", ("sac_highline",)
        ),
    ),
    Hazard(
        "line_across_a_way",
        "plan",
        "The line crosses a path, a road or a waterway, and somebody walks, rides or sails into it.",
        source=Source("club and town rules: never over a path", "published", ("portuguese_rules",)),
    ),
    Hazard(
        "wire_in_reach",
        "plan",
        "The line or a flying part touches an overhead wire, and people holding on are electrocuted.",
        "Somebody looked up all along the line and round both anchors: no wire that isn't in the file.",
        source=Source("safety plans that quote the US work rules for power lines", "unnamed"),
    ),
    Hazard(
        "aircraft_meets_line",
        "plan",
        "A low-flying aircraft hits a long or high line. Its pilot could not see it or know of it.",
        source=Source(
            "14 CFR 77: notice above 200 ft; an accident on a line over 1 km long, 2026",
            "standard",
            ("cfr_14_77",),
        ),
    ),
    Hazard(
        "no_leave_to_rig",
        "plan",
        "The owner never agreed, or the permission has run out, and the spot closes to everyone.",
    ),
    Hazard(
        "local_tree_rule_broken",
        "plan",
        "The place asks for thicker trees, lower lines or more padding than usual, and nobody knew.",
        "You have read the rules of the town or owner for trees, height, length and padding, and "
        "this line keeps them.",
        "tree",
        source=Source("rules of ten towns and clubs; they contradict each other", "unnamed"),
    ),
    Hazard(
        "crew_too_small",
        "plan",
        "The crew is too small or too inexperienced, so nobody checks and nobody can help.",
        source=Source(
            "Swiss alpine club and ten points: skill and rescue in the team",
            "published",
            ("sac_highline", "swiss_ten_points"),
        ),
    ),
    Hazard(
        "help_cannot_come",
        "plan",
        "Somebody is hurt. Nobody can call help, or help doesn't find the place.",
        "A phone has signal here, and somebody can say where helpers come to.",
    ),
    Hazard(
        "weather_turns",
        "plan",
        "Wind, thunder or heat arrives that nobody planned for, with people on the tensioned line.",
        "No thunder is near, and the wind is below the plan. Somebody watches the sky.",
    ),
    Hazard(
        "line_left_alone",
        "plan",
        "The line is alone over lunch or overnight. Strangers walk on it, loosen it or run into it.",
        source=Source("a national code and the rules of four towns", "published", ("uk_code",)),
    ),
    Hazard(
        "day_gear_left_up",
        "plan",
        "Gear for a day stays up for months. Sun and wind take half its strength, and nobody sees it.",
        source=Source(
            "tests of lines that stayed up: about half the strength gone; main and backup broke", "unnamed"
        ),
    ),
    Hazard(
        "plan_out_of_date",
        "plan",
        "The crew rigs last season's plan with other gear, trees, people and weather.",
    ),
    Hazard(
        "place_beyond_the_line",
        "plan",
        "The file puts an edge, a bench or the walkers beyond the line, so nobody judges them.",
    ),
    Hazard(
        "used_in_the_dark",
        "plan",
        "The session runs into the dark, where nobody sees the line, its ends or a twist in it.",
    ),
)
