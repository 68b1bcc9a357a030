"""A stopper knot behind the brake catches the rope when the brake slips."""

from collections.abc import Iterator
from dataclasses import replace

from riglint.rulekit import (
    KNOTS,
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Limit,
    MissingInput,
    OnCard,
    Placed,
    Signal,
    Source,
    due,
    faulty,
    one_value,
    open_,
    review,
    rule,
    sound,
    the_haul_that_stays,
    tick,
    unanswered,
)

FARTHEST = Limit(
    name="farthest_stopper",
    text="1 m",
    dimension="length",
    tighter="lower",
    because=(
        "The rope runs this far before the knot holds. 0.3 m to 1 m leaves room for a hand and little slip."
    ),
    source=Source("two pages on rigging: stopper 0.3-1 m behind the brake", "unnamed"),
)
NEAREST = Limit(
    name="nearest_stopper",
    text="0.1 m",
    dimension="length",
    tighter="higher",
    because="A knot this close jams against the brake. Nobody can untie it under load, so you can't lower the line.",
    source=PRACTICE,
)
NOTES = Source(
    "Raleigh, Knots & Ropes for Climbers, p. 12: a double overhand is bulkier than an overhand and unties less",
    "published",
    ("raleigh_knots",),
)
SEEN = [{"what": "stopper", "date": "2026-05-02", "after_tension": "6 kN"}]
STOPPER = "chain[8].tail.stopper"
AT = "chain[8].tail.stopper_at"
WORDS = {
    "may come through": "can roll or be pulled through the brake",
    "falls open": "falls open with nothing inside it",
}


@rule(
    title="No stopper knot behind the brake",
    each=the_haul_that_stays,
    signal=Signal.WARNING,
    raised={"fall": Signal.WARNING, "life": Signal.DANGER},
    why=(
        "If the brake slips or its lever opens, only the stopper keeps the rope from running out "
        "and the line from falling."
    ),
    formula="a knot that cannot pass the brake, between the nearest and the farthest place behind it",
    limits=(FARTHEST, NEAREST),
    sources=(NOTES,),
    prevents=("no_stopper_knot", "stopper_slips_through"),
    on_card=OnCard(closing="The stopper knot is tied behind the brake, and the rope's end is tied off."),
    examples=(
        sound("long_haul"),
        sound("long_haul", {"chain[8].tail.stopper_at": "0.99 m"}),
        faulty(
            "long_haul",
            {"chain[8].tail.stopper_at": "1.01 m"},
            at="chain[8].tail.stopper_at",
            signal=Signal.CAUTION,
        ),
        faulty(
            "long_haul",
            {"chain[8].tail.stopper": "none"},
            at="chain[8].tail.stopper",
            signal=Signal.WARNING,
            shows="no_stopper_knot",
        ),
        faulty(
            "long_haul",
            {"chain[8].tail.stopper": "overhand"},
            at="chain[8].tail.stopper",
            shows="stopper_slips_through",
        ),
        *(
            faulty("long_haul", {STOPPER: knot}, at=STOPPER, signal=Signal.WARNING)
            for knot in ("clove_hitch", "round_turn", "water_knot", "bowline")
        ),
        *(sound("long_haul", {STOPPER: knot}) for knot in ("figure_eight", "figure_nine", "butterfly")),
        open_("long_haul", {STOPPER: "other"}, at=STOPPER),
        sound("long_haul", {AT: "0.102 m"}),
        faulty("long_haul", {AT: "0.098 m"}, at=AT, signal=Signal.CAUTION),
        faulty("long_haul", {AT: "0 m"}, at=AT, signal=Signal.CAUTION),
        faulty(
            "long_haul",
            {"chain[8].tail.stopper": "none", "plan.consequence": "life"},
            signal=Signal.DANGER,
        ),
        review("long_haul", {"chain[8].tail": REMOVE}, at="chain[8].tail.stopper"),
        review("long_haul", {"chain[8].tail.stopper_at": REMOVE}, at="chain[8].tail.stopper_at"),
        sound("long_haul", {"stage": "built", "checks": SEEN}),
        open_("long_haul", {"stage": "built"}, at="checks"),
        open_("long_haul", {"chain[8].tail.stopper": REMOVE, "stage": "built"}, at="chain[8].tail.stopper"),
        open_(
            "long_haul",
            {"chain[8].tail.stopper_at": REMOVE, "stage": "built", "checks": SEEN},
            at="chain[8].tail.stopper_at",
        ),
    ),
)
def stopper(case: Case, placed: Placed) -> Iterator[Fault]:
    tail, at = placed.part.rope_tail, case.on_part(placed, "tail", "stopper")
    knot = tail.stopper if tail else None
    stops = KNOTS[knot].behind_brake if knot is not None else None
    if stops == "not known":
        do = (
            "Name the knot, or tie a double overhand or figure-eight. Push it against the "
            "brake: it must not pass."
        )
        raise MissingInput(unanswered(at, "doesn't say which knot is behind the brake", do))
    what = "There is no stopper knot behind the brake"
    if stops in WORDS:
        what = f"The {str(knot).replace('_', ' ')} behind the brake {WORDS[stops]}"
    do = (
        "Tie a double overhand or figure-eight 0.3 m to 1 m behind the brake. Push it against "
        "the brake by hand: it must not pass."
    )
    for fault in tick(case, None if stops is None else stops == "stops", at, what, do):
        yield replace(fault, source=NOTES)
    if stops == "stops":
        yield from _far(case, placed)


def _far(case: Case, placed: Placed) -> Iterator[Fault]:
    at, farthest, nearest = (
        case.on_part(placed, "tail", "stopper_at"),
        case.limit(FARTHEST),
        case.limit(NEAREST),
    )
    tail = placed.part.rope_tail
    if tail is None or tail.stopper_at is None:
        yield from due(case, at, "Measure from the brake to the stopper knot and enter it.")
    elif tail.stopper_at.si > farthest:
        remedies = case.put_right(
            at, one_value(at.key, "tie the stopper {} behind the brake", "down", "m", 0.05)
        )
        yield Fault(
            at,
            f"The stopper is {tail.stopper_at.text} behind the brake. The rope can run that far "
            "before it holds.",
            f"Tie the stopper at most {farthest:g} m behind the brake.",
            value=tail.stopper_at.si,
            limit=farthest,
            unit="m",
            inputs=(case.given("brake to stopper", "s", tail.stopper_at, at),),
            signal=Signal.CAUTION,
            source=FARTHEST.source,
            remedies=remedies,
        )
    elif tail.stopper_at.si < nearest:
        remedies = case.put_right(
            at, one_value(at.key, "tie the stopper {} behind the brake", "up", "m", 0.05)
        )
        yield Fault(
            at,
            f"The stopper is {tail.stopper_at.text} behind the brake and jams there. Nobody can "
            "untie it under load.",
            f"Tie the stopper 0.3 m behind the brake, and at least {nearest:g} m.",
            value=tail.stopper_at.si,
            limit=nearest,
            unit="m",
            inputs=(case.given("brake to stopper", "s", tail.stopper_at, at),),
            signal=Signal.CAUTION,
            source=NEAREST.source,
            remedies=remedies,
        )
