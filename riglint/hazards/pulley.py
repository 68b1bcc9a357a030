"""What goes wrong while the pulley is built."""

from riglint.hazards.hazard import Hazard
from riglint.model.values.sources import Source

PULLEY = (
    Hazard(
        "blocks_meet_early",
        "pulley",
        "The blocks touch before the line is tight, and the crew improvises on a half-tight line.",
    ),
    Hazard(
        "haul_rope_too_short",
        "pulley",
        "The rope is too short to lay out the blocks, or to lower the line again.",
    ),
    Hazard(
        "brake_threaded_wrong",
        "pulley",
        "The rope runs through the brake the wrong way, and the brake holds nothing.",
    ),
    Hazard(
        "reeved_otherwise",
        "pulley",
        "The block has more or fewer strands than you think, and every force in the pulley system is wrong.",
    ),
    Hazard(
        "brake_slips",
        "pulley",
        "The brake holds less than the rope pulls, and the line sinks under the walker.",
        source=Source(
            "EN 12841:2006 type C: held 3 kN for 3 minutes, from a supplier's summary",
            "standard",
            ("en_12841",),
        ),
    ),
    Hazard(
        "grip_the_wrong_way",
        "pulley",
        "The grip of the multiplier faces the hands and slides off at the first pull.",
    ),
    Hazard(
        "multiplier_on_the_tail",
        "pulley",
        "The multiplier pulls behind the brake, which eats half of it and wears the rope.",
    ),
    Hazard(
        "strands_twisted",
        "pulley",
        "The strands wrap round each other as a block turns. You lose pull, and friction holds the tension.",
        "The strands of the pulley system run side by side without a turn, before and after the first pull.",
        "haul",
    ),
    Hazard(
        "brake_on_the_moving_side",
        "pulley",
        "The brake is on the moving block, travels with it and pulls askew.",
    ),
    Hazard(
        "no_stopper_knot",
        "pulley",
        "Nothing stops the rope when it slips through the brake.",
        source=Source(
            "rigging essay 2015; a checklist: stopper behind the brake", "published", ("rigging_essay_2015",)
        ),
    ),
    Hazard(
        "stopper_slips_through",
        "pulley",
        "The stopper knot is so small that it is pulled through the brake.",
        "You have pushed the stopper knot against the brake by hand: it can't enter.",
        "haul",
        source=Source("field notes: a double overhand can pass some devices", "unnamed"),
    ),
    Hazard(
        "rope_tail_short",
        "pulley",
        "So little rope is left behind the stopper that nobody can hold or tie it.",
        source=Source("one author 1 m, cavers 2 m", "unnamed"),
    ),
    Hazard(
        "plate_loaded_askew",
        "pulley",
        "Too many parts hang in one hole of the plate or pull it over, and the plate turns or tears.",
        "With tension on, the plate hangs in line with the load, and each hole carries one part.",
        "plate",
    ),
    Hazard(
        "pulley_label_misread",
        "pulley",
        "The figure on a pulley is for both sides together and was read for one, or the other way round.",
        "You have read each pulley's figure on the pulley itself: for the whole block, not for one side.",
        "haul",
    ),
    Hazard(
        "grip_overloaded",
        "pulley",
        "The multiplier pulls its grip harder than allowed. The grip cuts the sheath or lets go.",
        source=Source(
            "EN 567:2013 and EN 12841 type B: tested with 4 kN", "standard", ("en_567", "en_12841")
        ),
    ),
    Hazard(
        "pulley_alone_holds",
        "pulley",
        "One rope, pin or block of the pulley system fails, and nothing else holds the line.",
        source=Source(
            "Swiss federation, principle 9: metal tied back", "published", ("swiss_ten_principles",)
        ),
    ),
    Hazard(
        "tie_back_weak_or_slack",
        "pulley",
        "The tie-back is there but too thin, or so slack that it catches a flying line.",
        source=Source("ISA backup tests 2020: catches above 20 kN", "published", ("isa_backups_2020",)),
    ),
)
