"""What goes wrong while tension goes on."""

from riglint.hazards.hazard import Hazard
from riglint.model.values.sources import Source

TENSION = (
    Hazard(
        "too_many_hands",
        "tension",
        "Many hands on a large ratio reach a tension that nobody meant or noticed.",
        "One person reads the tension and says stop, and everybody who pulls knows who it is.",
        "tightened",
        source=Source("rope rescue: people times ratio no more than 12, or 18", "unnamed"),
    ),
    Hazard(
        "tension_guessed",
        "tension",
        "Nobody reads the tension, so every other number of the plan is a guess.",
        "The tension was read: with a gauge, by a pulse on the line or from the sag under somebody of known weight.",
    ),
    Hazard(
        "high_tension_on_sewn_end",
        "tension",
        "A line meant for hard tension ends in stitching, because that was quicker.",
    ),
    Hazard(
        "webbing_slips_in_its_anchor",
        "tension",
        "Webbing of another width, or wet, creeps through its anchor until the tail is gone.",
        "Marks on the webbing beside each webbing anchor stay where they are as the tension goes up.",
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
        "A twist was laid out with the webbing; it wears at the anchors and makes the catch uneven.",
        "Somebody looked along main line and backup at hand tension: flat from end to end.",
        source=Source("account of four rigs at one gathering with twists pulled in", "unnamed"),
    ),
    Hazard(
        "anchor_pin_open",
        "tension",
        "The pin of a webbing anchor is not through or not locked, and the webbing leaves it under load.",
    ),
    Hazard(
        "people_in_line_of_fire",
        "tension",
        "Somebody stands or pulls in the line's axis when a part goes and flies along it.",
        "While tension goes on, nobody is in the line's axis or beside the pulley, and others are kept away.",
        source=Source("accounts: parts flew along the axis, one of them 9 m", "unnamed"),
    ),
    Hazard(
        "drawn_into_the_block",
        "tension",
        "Fingers, hair or a loose sleeve are drawn into a block, the brake or a puller.",
        "Hair, sleeves and cords are tied away, hands stay clear of what moves, gloves fit tight.",
        "tightened",
    ),
    Hazard(
        "warning_noise_ignored",
        "tension",
        "Something crackles, fluffs or slips, and the crew pulls on until it breaks.",
        "Everybody knows to call stop at any crack, fluff or slip; nothing of the kind was heard or seen.",
        source=Source("account of a webbing that crackled before it broke", "unnamed"),
    ),
    Hazard(
        "tension_drifts",
        "tension",
        "Creep, heat, cold or wet changes the tension overnight, and the line is walked as if it stood as before.",
    ),
    Hazard(
        "no_stop_at_hand_tension",
        "tension",
        "Nobody looks at everything once more while the line is only hand-tight, where errors cost nothing.",
        source=Source(
            "Swiss federation, principle 7: hand-tight, then look at everything again",
            "published",
            ("swiss_ten_principles",),
        ),
    ),
    Hazard(
        "raised_after_the_check",
        "tension",
        "Two more pulls go on after the check, and what was checked is no longer what stands.",
    ),
)
