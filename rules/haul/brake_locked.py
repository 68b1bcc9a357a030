"""The brake is locked or tied off once the tension stands."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    OnCard,
    Placed,
    Signal,
    faulty,
    need,
    open_,
    review,
    rule,
    sound,
    the_haul_that_stays,
    tick,
)

SEEN = [{"what": "locked", "date": "2026-05-02", "after_tension": "6 kN"}]


@rule(
    title="Brake not locked",
    each=the_haul_that_stays,
    signal=Signal.WARNING,
    raised={"fall": Signal.WARNING, "life": Signal.DANGER},
    why="If a foot, a child or the shaking line opens the lever, the whole tension runs out under the walker.",
    formula="the brake is locked or tied off",
    sources=(PRACTICE,),
    prevents=("brake_not_locked",),
    on_card=OnCard(closing="The brake is locked, or the rope is tied off behind it."),
    examples=(
        sound("long_haul"),
        sound("long_haul", {"stage": "walking", "checks": SEEN}),
        faulty("long_haul", {"chain[8].brake.locked": False}, at="chain[8].brake.locked"),
        faulty(
            "long_haul",
            {"chain[8].brake.locked": False, "plan.consequence": "life"},
            signal=Signal.DANGER,
        ),
        review("long_haul", {"chain[8].brake.locked": REMOVE}, at="chain[8].brake.locked"),
        open_("long_haul", {"chain[8].brake.locked": REMOVE, "stage": "built"}, at="chain[8].brake.locked"),
        open_("long_haul", {"stage": "built"}, at="checks"),
        open_("long_haul", {"chain[8].brake": REMOVE}, at="chain[8].brake"),
    ),
)
def brake_locked(case: Case, placed: Placed) -> Iterator[Fault]:
    brake = need(placed.part.brake, case.on_part(placed, "brake"))
    at = case.on_part(placed, "brake", "locked")
    name = f"brake {brake.gear}" if brake.gear else "brake"
    what = f"The {name} is not locked"
    do = f"Lock the {name}. If it has no lock, tie the rope off behind it with a mule knot or two half hitches."
    yield from tick(case, brake.locked, at, what, do)
