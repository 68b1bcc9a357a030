"""A second person has checked how the rope runs through the brake."""

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
    the_haul,
    tick,
)

SEEN = [{"what": "threading_checked", "by": "second person", "date": "2026-05-02", "after_tension": "6 kN"}]


@rule(
    title="The threading of the brake isn't checked",
    each=the_haul,
    signal=Signal.DANGER,
    why="A brake threaded backwards holds nothing. The rope runs out when you let go.",
    formula="a second person has checked the threading",
    sources=(PRACTICE,),
    prevents=("brake_threaded_wrong",),
    on_card=OnCard(second_person=True),
    examples=(
        sound("long_haul"),
        sound("long_haul", {"stage": "built", "checks": SEEN}),
        faulty(
            "long_haul",
            {"chain[8].brake.threading_checked": False},
            at="chain[8].brake.threading_checked",
            signal=Signal.DANGER,
        ),
        review("long_haul", {"chain[8].brake.threading_checked": REMOVE}),
        open_(
            "long_haul",
            {"chain[8].brake.threading_checked": REMOVE, "stage": "built"},
            at="chain[8].brake.threading_checked",
        ),
        open_("long_haul", {"stage": "built"}, at="checks"),
        open_("long_haul", {"chain[8].brake": REMOVE}, at="chain[8].brake"),
    ),
)
def brake_threading(case: Case, placed: Placed) -> Iterator[Fault]:
    brake = need(placed.part.brake, case.on_part(placed, "brake"))
    at = case.on_part(placed, "brake", "threading_checked")
    name = f"brake {brake.gear}" if brake.gear else "brake"
    what = f"Nobody has checked how the rope runs through the {name}"
    do = (
        f"Have a second person trace the rope through the {name} and compare it with the icon. "
        "Then pull the lead by hand."
    )
    yield from tick(case, brake.threading_checked, at, what, do)
