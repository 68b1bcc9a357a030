"""What goes wrong before anybody leaves home."""

from riglint.hazards.hazard import Hazard
from riglint.model.values.sources import Source

PLAN = (
    Hazard(
        "low_line_kit_up_high",
        "plan",
        "A kit made for knee height is put up where a fall kills, with nothing that catches the walker.",
        source=Source(
            "EN 1176-1: free fall of 3 m at most; taken over by analogy", "standard", ("en_1176_1",)
        ),
    ),
    Hazard(
        "no_way_down",
        "plan",
        "How tension comes off and how somebody who hangs is fetched back is made up on the spot, under load.",
        "Everybody knows how somebody who hangs on the leash gets back, and the gear for it lies at the anchor.",
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
        "The line or a piece that flies off it touches an overhead wire, and whoever holds on is electrocuted.",
        "Somebody looked up all along the line and around both anchors: no wire that the file does not name.",
        source=Source("safety plans that quote the US work rules for power lines", "unnamed"),
    ),
    Hazard(
        "aircraft_meets_line",
        "plan",
        "A low-flying aircraft meets a long or high line that its pilot could not see or know of.",
        source=Source(
            "14 CFR 77: notice above 200 ft; an accident on a line over 1 km long, 2026",
            "standard",
            ("cfr_14_77",),
        ),
    ),
    Hazard(
        "no_leave_to_rig",
        "plan",
        "The owner never agreed, or leave has run out, and the spot is closed to everybody.",
    ),
    Hazard(
        "local_tree_rule_broken",
        "plan",
        "The place asks for thicker trees, lower lines or more padding than usual, and nobody knew.",
        "The rules of the town or owner for trees, height, length and padding were read, and this line keeps them.",
        "tree",
        source=Source("rules of ten towns and clubs; they contradict each other", "unnamed"),
    ),
    Hazard(
        "crew_too_small",
        "plan",
        "Too few or too green a crew rigs, so that nobody checks and nobody can help.",
        source=Source(
            "Swiss alpine club and ten points: skill and rescue in the team",
            "published",
            ("sac_highline", "swiss_ten_points"),
        ),
    ),
    Hazard(
        "help_cannot_come",
        "plan",
        "Somebody is hurt, and help cannot be called or does not find the place.",
        "A phone has signal here, and somebody can say where helpers must come to.",
    ),
    Hazard(
        "weather_turns",
        "plan",
        "Wind, thunder or heat comes that nobody planned for, with people on the line and tension in it.",
        "No thunder is near, and the wind is below what was planned; somebody looks at the sky.",
    ),
    Hazard(
        "line_left_alone",
        "plan",
        "The line stands alone over lunch or overnight, and strangers walk on it, loosen it or run into it.",
        source=Source("a national code and the rules of four towns", "published", ("uk_code",)),
    ),
    Hazard(
        "day_gear_left_up",
        "plan",
        "Gear meant for a day stays up for months, and sun and wind take half its strength unseen.",
        source=Source(
            "tests of lines that stayed up: about half the strength gone; main and backup broke", "unnamed"
        ),
    ),
    Hazard(
        "plan_out_of_date",
        "plan",
        "A plan of last season is rigged as if it were today's, with other gear, trees, people and weather.",
    ),
    Hazard(
        "place_beyond_the_line",
        "plan",
        "An edge, a bench or the walkers are entered where the line is not, so nobody judges where they are.",
    ),
    Hazard(
        "used_in_the_dark",
        "plan",
        "The session runs into the dark, where nobody sees the line, its ends or a twist in it.",
    ),
)
