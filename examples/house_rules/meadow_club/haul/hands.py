"""No more than three haul at once in the meadow."""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    Case,
    Fault,
    Limit,
    Placed,
    Signal,
    Source,
    faulty,
    need,
    open_,
    rule,
    sound,
    the_haul,
)

MOST = Limit(
    name="most_haulers",
    text="3",
    dimension=None,
    tighter="lower",
    because="There is room for three beside the brook; a fourth stands in line with the rope.",
    source=Source("the club's own rule after a haul on wet grass", "own"),
)


@rule(
    title="More people on the rope than there is room for",
    each=the_haul,
    signal=Signal.CAUTION,
    why="Whoever stands in line with a loaded rope is where it goes when a part fails.",
    formula="haulers ≤ most haulers in the meadow",
    limits=(MOST,),
    examples=(
        sound("long_haul", {"plan.crew.haulers": 3}),
        faulty("long_haul", {"plan.crew.haulers": 4}, at="plan.crew.haulers"),
        open_("long_haul", {"plan.crew.haulers": REMOVE}, at="plan.crew.haulers"),
    ),
)
def hands(case: Case, _: Placed) -> Iterator[Fault]:
    at = case.at("plan", "crew", "haulers")
    haulers = need(case.plan.crew.haulers if case.plan and case.plan.crew else None, at)
    most = case.limit(MOST)
    if haulers > most:
        yield Fault(
            at,
            f"{haulers} haul at once; beside the brook there is room for {most:g}.",
            f"Let {most:g} haul and the others keep the path clear.",
            value=haulers,
            limit=most,
            unit="1",
        )
