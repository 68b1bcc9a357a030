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
        "A grey line at the height of eyes or necks is not seen by those who pass.",
        source=Source("town rule: flags above 50 ft", "published", ("boulder_rules",)),
    ),
    Hazard(
        "slip_and_twist_grow",
        "after",
        "Catch by catch a little webbing slips and a twist is pulled in, until the tail or the flat line is gone.",
        "Tails, marks and twists are looked at again after every few catches and after each break.",
        source=Source("account of four rigs at one gathering; article on slippage 2016", "unnamed"),
    ),
    Hazard(
        "lip_wears_through",
        "after",
        "Wind and bouncing shift the pads, and the lines wear through at the lip during the session.",
        "Pads and webbing at each lip are looked at every session, and after wind.",
        "edge",
        source=Source(
            "ISA notice 41, 2022: edges are the main source of abrasion", "published", ("isa_webbing_2022",)
        ),
    ),
    Hazard(
        "line_gallops",
        "after",
        "Wind sets a long line swinging until tapes, pads or parts give.",
        "The line hangs quiet in this wind; where it starts to swing it is damped or let off.",
        "long",
    ),
    Hazard(
        "let_off_hard",
        "after",
        "Tension is let off in one blow, by cutting or by knocking a pin out, and everything flies.",
    ),
    Hazard(
        "panic_lever_pulled",
        "after",
        "The handle of the brake is pulled wide open in fright, and the line runs.",
        "Whoever lets down knows what this brake does when its handle is pulled right through.",
        "haul",
        source=Source(
            "EN 12841:2006, panic lever cases, from a supplier's summary", "standard", ("en_12841",)
        ),
    ),
    Hazard(
        "brake_opened_without_hand",
        "after",
        "The brake is opened with no hand on the rope behind it.",
        "One hand holds the rope beyond the stopper before brake or stopper is touched, and gloves are on.",
        "haul",
    ),
    Hazard(
        "too_much_for_the_hand",
        "after",
        "More pulls through the open brake than a hand can hold, and the rope runs through it.",
    ),
    Hazard(
        "stopper_ends_the_letting_down",
        "after",
        "The stopper reaches the brake with tension still in the line, or is untied with no hand on the rope.",
    ),
    Hazard(
        "beside_the_line_as_it_goes",
        "after",
        "Somebody stands beside the line or in its axis as the tension is let off.",
        "While tension comes off, nobody stands in the axis, under the line or beside it.",
    ),
    Hazard(
        "grip_overloaded_unloading",
        "after",
        "A multiplier is put on to free a jammed brake, and its grip takes more than it may.",
        "A jammed brake is freed slowly, with less pull than the greatest load stamped on the grip.",
        "grip",
    ),
    Hazard(
        "line_falls_on_people",
        "after",
        "The line is let go and drops or whips onto people, a path or a road.",
        "Before the line is let go, the ground below and beside it is empty and somebody keeps it so.",
    ),
    Hazard(
        "main_lost_over_the_edge",
        "after",
        "An end is opened with nothing tied to it, and webbing and metal fall over the edge.",
        "Before an end is opened a tag line is tied to it, and both sides have said so.",
        "highline",
    ),
    Hazard(
        "packed_wet",
        "after",
        "Gear is packed wet and dirty, and moulds or corrodes in its bag.",
        "What is wet or dirty is set aside for washing and drying before it goes on the shelf.",
        source=Source("gear instructions in general", "unnamed"),
    ),
    Hazard(
        "log_not_kept",
        "after",
        "Days, catches and damage are not written down, so that age and events are unknown the next time.",
        "Days rigged, hard catches and damage of today are in the gear book.",
    ),
    Hazard(
        "left_behind",
        "after",
        "Gear, pads and tape are left, and damage to bark is not seen or told.",
        "Nothing is left at the spot, and bark and rock were looked at where the slings lay.",
    ),
    Hazard(
        "file_changed_after_the_build",
        "after",
        "The file is edited after the rig was checked, so that paper and rig part ways.",
        "What stands here is what the file says today: tension, parts, tails and heights.",
    ),
)
