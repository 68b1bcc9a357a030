"""What goes wrong while people watch, let the line down and pack."""

from riglint.hazards.hazard import Hazard
from riglint.model.values.sources import Source

AFTER = (
    Hazard(
        "nobody_watches",
        "after",
        "Nobody watches while children, cyclists or dogs come near the line.",
        source=Source(
            "Swiss federation, principle 4: somebody watches", "published", ("swiss_ten_principles",)
        ),
    ),
    Hazard(
        "line_not_seen",
        "after",
        "Passers-by don't see a grey line at eye or neck height.",
        source=Source("town rule: flags above 50 ft", "published", ("boulder_rules",)),
    ),
    Hazard(
        "slip_and_twist_grow",
        "after",
        "Catch by catch a little webbing slips and a twist creeps in, until no tail or no flat line is left.",
        "Somebody looks at tails, marks and twists after every few catches and after each break.",
        source=Source("account of four rigs at one gathering; article on slippage 2016", "unnamed"),
    ),
    Hazard(
        "lip_wears_through",
        "after",
        "Wind and bouncing move the pads, and the lines wear through at the lip during the session.",
        "Somebody looks at pads and webbing at each lip every session, and after wind.",
        "edge",
        source=Source(
            "ISA notice 41, 2022: edges are the main source of abrasion", "published", ("isa_webbing_2022",)
        ),
    ),
    Hazard(
        "line_gallops",
        "after",
        "Wind sets a long line swinging until tapes, pads or parts give.",
        "The line hangs quiet in this wind. If it starts to swing, damp it or let it off.",
        "long",
    ),
    Hazard(
        "let_off_hard",
        "after",
        "Somebody cuts the line or knocks a pin out, and everything flies.",
    ),
    Hazard(
        "panic_lever_pulled",
        "after",
        "Somebody panics and pulls the brake handle wide open, and the line runs.",
        "The person who lowers knows what this brake does when you pull its handle all the way.",
        "haul",
        source=Source(
            "EN 12841:2006, panic lever cases, from a supplier's summary", "standard", ("en_12841",)
        ),
    ),
    Hazard(
        "brake_opened_without_hand",
        "after",
        "Somebody opens the brake with no hand on the rope behind it.",
        "One hand holds the rope beyond the stopper before anyone touches brake or stopper. Gloves are on.",
        "haul",
    ),
    Hazard(
        "too_much_for_the_hand",
        "after",
        "The open brake passes more pull than a hand can hold, and the rope runs through it.",
    ),
    Hazard(
        "stopper_ends_the_letting_down",
        "after",
        "The stopper reaches the brake with tension still in the line, or somebody unties it "
        "with no hand on the rope.",
    ),
    Hazard(
        "beside_the_line_as_it_goes",
        "after",
        "Somebody stands beside the line or in line with it as the tension comes off.",
        "While tension comes off, nobody stands in line with it, under it or beside it.",
    ),
    Hazard(
        "grip_overloaded_unloading",
        "after",
        "A multiplier frees a jammed brake, and its grip takes more than allowed.",
        "Free a jammed brake slowly, with less pull than the greatest load stamped on the grip.",
        "grip",
    ),
    Hazard(
        "line_falls_on_people",
        "after",
        "The crew lets the line go, and it drops or whips onto people, a path or a road.",
        "Before you let the line go, the ground below and beside it is empty, and somebody keeps it empty.",
    ),
    Hazard(
        "main_lost_over_the_edge",
        "after",
        "Somebody opens an end with nothing tied to it. Webbing and metal fall over the edge.",
        "Before you open an end, tie a tag line to it. Both sides have called ready.",
        "highline",
    ),
    Hazard(
        "packed_wet",
        "after",
        "Gear is packed wet and dirty, and moulds or corrodes in its bag.",
        "Set wet or dirty gear aside for washing and drying before it goes back into the store.",
        source=Source("gear instructions in general", "unnamed"),
    ),
    Hazard(
        "log_not_kept",
        "after",
        "Nobody writes down days, catches and damage, so age and events are unknown next time.",
        "Today's days rigged, hard catches and damage are in the gear list.",
    ),
    Hazard(
        "left_behind",
        "after",
        "Gear, pads and tape stay behind, and nobody sees or reports damage to bark.",
        "Nothing stays behind at the spot. You have looked at bark and rock where the slings were.",
    ),
    Hazard(
        "file_changed_after_the_build",
        "after",
        "Somebody edits the file after the check, so paper and rig no longer match.",
        "The rig here matches today's file: tension, parts, tails and heights.",
    ),
)
