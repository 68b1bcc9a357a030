"""The brake sits on the fixed side, at the anchor plate that joins it to block and anchor."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Placed,
    Signal,
    faulty,
    need,
    open_,
    review,
    rule,
    sound,
    the_haul_that_stays,
)


@rule(
    title="The brake is on the moving side",
    each=the_haul_that_stays,
    signal=Signal.CAUTION,
    raised={"fall": Signal.WARNING, "life": Signal.WARNING},
    why=(
        "A brake on the webbing side hangs in the line and shakes with every step. You can't "
        "reach it to lower the line."
    ),
    formula="the brake sits at the anchor plate",
    sources=(PRACTICE,),
    prevents=("brake_on_the_moving_side",),
    examples=(
        sound("low"),
        sound("long_haul"),
        faulty("low", {"chain[8].brake.side": "moving"}, at="chain[8].brake.side", signal=Signal.CAUTION),
        faulty("long_haul", {"chain[8].brake.side": "moving"}, signal=Signal.WARNING),
        review("long_haul", {"chain[8].plate": REMOVE}, at="chain[8].plate", signal=Signal.CAUTION),
        open_("long_haul", {"chain[8].brake.side": REMOVE}, at="chain[8].brake.side"),
        open_("long_haul", {"chain[8].brake": REMOVE}, at="chain[8].brake"),
    ),
)
def brake_side(case: Case, placed: Placed) -> Iterator[Fault]:
    brake = need(placed.part.brake, case.on_part(placed, "brake"))
    at = case.on_part(placed, "brake", "side")
    if placed.part.plate is None:
        yield Fault(
            case.on_part(placed, "plate"),
            "The file names no plate. We don't check the part that joins fixed block, brake and anchor.",
            "Look at the part that joins fixed block, brake and tail to the anchor. If it is a plate, name it.",
            kind="review",
            signal=Signal.CAUTION,
        )
    if need(brake.side, at) == "moving":
        plate = f"plate {placed.part.plate}" if placed.part.plate else "anchor"
        yield Fault(
            at,
            "The brake is on the moving side, in the line with the webbing.",
            f"Fix the brake to the {plate} on the fixed side, and run the lead strand to it from "
            "the moving block.",
            value="moving",
            limit="fixed",
        )
