"""A stopper knot behind the brake catches the rope when the brake slips."""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    Case,
    Fault,
    Limit,
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
)

FARTHEST = Limit(
    name="farthest_stopper",
    text="1 m",
    dimension="length",
    tighter="lower",
    because=(
        "The rope runs that far before the knot holds; 0.3 m to 1 m leaves a hand's room and little slip."
    ),
    source=Source("two pages on rigging: stopper 0.3-1 m behind the brake", "published"),
)
SEEN = [{"what": "stopper", "date": "2026-05-02", "after_tension": "6 kN"}]


@rule(
    title="No stopper knot behind the brake",
    each=the_haul_that_stays,
    signal=Signal.WARNING,
    raised={"fall": Signal.WARNING, "life": Signal.DANGER},
    why=(
        "When the brake slips or its lever opens, only the stopper keeps the rope from running out and "
        "the line from falling."
    ),
    formula="a knot that is too thick for the brake, no farther behind it than the limit",
    limits=(FARTHEST,),
    sources=(
        Source("field notes: never a single overhand; match the knot to the gap of the brake", "published"),
    ),
    prevents=("no_stopper_knot", "stopper_slips_through"),
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
        faulty("long_haul", {"chain[8].tail.stopper": "clove_hitch"}, at="chain[8].tail.stopper"),
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
    tail = placed.part.rope_tail
    knot = tail.stopper if tail else None
    what = "No stopper knot stands behind the brake"
    if knot is not None and knot != "none":
        what = f"The {knot.replace('_', ' ')} behind the brake stops no rope: it slips through or falls open"
    do = "Tie a double overhand or a figure-eight 0.3 m to 1 m behind the brake, and see that it cannot pass."
    yield from tick(case, case.haul.stopper_holds, case.on_part(placed, "tail", "stopper"), what, do)
    if case.haul.stopper_holds:
        yield from _far(case, placed)


def _far(case: Case, placed: Placed) -> Iterator[Fault]:
    at, farthest = case.on_part(placed, "tail", "stopper_at"), case.limit(FARTHEST)
    tail = placed.part.rope_tail
    if tail is None or tail.stopper_at is None:
        yield from due(case, at, "Measure from the brake to the stopper knot and fill it in.")
    elif tail.stopper_at.si > farthest:
        ways = case.put_right(at, one_value(at.key, "tie the stopper {} behind the brake", "down", "m", 0.05))
        yield Fault(
            at,
            f"The stopper sits {tail.stopper_at.text} behind the brake: so far the rope can run "
            "before it holds.",
            f"Tie the stopper {farthest:g} m behind the brake or closer.",
            value=tail.stopper_at.si,
            limit=farthest,
            unit="m",
            inputs=(case.given("brake to stopper", "s", tail.stopper_at, at),),
            signal=Signal.CAUTION,
            remedies=ways,
        )
