"""What goes wrong while tension goes on."""

from riglint.hazards.hazard import Hazard
from riglint.model.values.sources import Source

TENSION = (
    Hazard(
        "too_many_hands",
        "tension",
        "Many hands on a large ratio pull past the planned tension, and nobody notices.",
        "One person reads the tension and calls stop. Everyone who pulls knows that person.",
        "tightened",
        source=Source("rope rescue: people times ratio no more than 12, or 18", "unnamed"),
    ),
    Hazard(
        "tension_guessed",
        "tension",
        "Nobody reads the tension, so every other number of the plan is a guess.",
        "You have read the tension: with a gauge, by a pulse on the line, or from the sag under a known weight.",
    ),
    Hazard(
        "high_tension_on_sewn_end",
        "tension",
        "A line for high tension ends in stitching, because that was quicker.",
    ),
    Hazard(
        "webbing_slips_in_its_anchor",
        "tension",
        "Webbing of another width, or wet, creeps through its anchor until the tail is gone.",
        "Marks on the webbing beside each webbing anchor stay in place as you tension.",
        source=Source("US federation article on slippage, 2016", "published", ("us_slippage_2016",)),
    ),
    Hazard(
        "webbing_tail_short",
        "tension",
        "Hardly any webbing is left behind its anchor, so a little slip lets the line go.",
        source=Source(
            "US federation article on slippage and tie-offs, 2016", "published", ("us_slippage_2016",)
        ),
    ),
    Hazard(
        "twist_in_the_line",
        "tension",
        "A twist stays in the webbing from laying it out. It wears at the anchors and makes the catch uneven.",
        "Somebody looked along main line and backup at hand tension. Both are flat from end to end.",
        source=Source("account of four rigs at one gathering with twists pulled in", "unnamed"),
    ),
    Hazard(
        "anchor_pin_open",
        "tension",
        "The pin of a webbing anchor isn't through or isn't locked, and the webbing leaves it under load.",
    ),
    Hazard(
        "people_in_line_of_fire",
        "tension",
        "Somebody stands or pulls in line with the tension when a part fails and flies along it.",
        "While you tension, nobody is in line with the webbing or beside the pulley system. Keep others away.",
        source=Source("accounts: parts flew along the axis, one of them 9 m", "unnamed"),
    ),
    Hazard(
        "drawn_into_the_block",
        "tension",
        "A block, the brake or a tensioner draws in fingers, hair or a loose sleeve.",
        "Tie back hair, sleeves and cords, keep hands off moving parts, and wear tight gloves.",
        "tightened",
    ),
    Hazard(
        "warning_noise_ignored",
        "tension",
        "A part crackles, fluffs or slips, and the crew pulls on until it breaks.",
        "Everyone knows to call stop at any crackle, fluff or slip. You have heard and seen none.",
        source=Source("account of a webbing that crackled before it broke", "unnamed"),
    ),
    Hazard(
        "tension_drifts",
        "tension",
        "Heat, cold, wet or creep changes the tension overnight, and people walk the line as if "
        "nothing had changed.",
    ),
    Hazard(
        "no_stop_at_hand_tension",
        "tension",
        "Nobody looks over everything once more at hand tension, when errors cost nothing.",
        source=Source(
            "Swiss federation, principle 7: hand-tight, then look at everything again",
            "published",
            ("swiss_ten_principles",),
        ),
    ),
    Hazard(
        "raised_after_the_check",
        "tension",
        "Two more pulls follow the check, and the check no longer counts.",
    ),
)
