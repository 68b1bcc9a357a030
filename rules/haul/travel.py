"""The blocks have room to run until the tension stands."""

from collections.abc import Iterator
from math import ceil

from riglint.rulekit import (
    OWN,
    REMOVE,
    Case,
    Fault,
    Input,
    Placed,
    Quantity,
    Remedy,
    Signal,
    either,
    faulty,
    need,
    open_,
    open_blocks,
    rounded,
    rule,
    sound,
    the_haul_that_stays,
)


@rule(
    title="The blocks meet before the line is tight",
    each=the_haul_that_stays,
    signal=Signal.WARNING,
    why=(
        "When the blocks touch, hauling stops. You then tie the line off and reset under load, "
        "with hands in it."
    ),
    formula=(
        "open − closed ≥ travel, the webbing's stretch from hand-tight to standing plus what seats itself; "
        "closed ≤ distance at standing ≤ open"
    ),
    sources=(OWN,),
    prevents=("blocks_meet_early",),
    examples=(
        sound("low"),
        sound("long_haul"),
        # The haul of the long line takes in 2.23 m, so blocks that cannot close past 4.77 m are at their end.
        sound("long_haul", {"chain[8].closed": "4.72 m"}),
        faulty("long_haul", {"chain[8].closed": "4.82 m"}, at="chain[8].open", signal=Signal.CAUTION),
        faulty("long_haul", {"chain[8].open": "2.5 m"}, at="chain[8].open", signal=Signal.CAUTION),
        faulty("long_haul", {"chain[8].open": "0.5 m"}, at="chain[8].open", signal=Signal.WARNING),
        faulty(
            "long_haul",
            {"chain[8].open": REMOVE, "chain[8].at_standing": "0.6 m"},
            at="chain[8].closed",
            signal=Signal.CAUTION,
        ),
        open_("long_haul", {"chain[8].open": REMOVE}, at="chain[8].open"),
        open_("long_haul", {"chain[8].closed": REMOVE}, at="chain[8].closed"),
        open_("long_haul", {"plan.standing_tension": REMOVE}, at="plan.standing_tension"),
        open_("long_haul", {"shelf[0].items.W-1.stretch": REMOVE}, at="shelf[0].items.W-1.stretch"),
        sound("long_haul", {"chain[8].at_standing": "4.8 m"}),
        sound("long_haul", {"chain[8].at_standing": "6.95 m"}),
        faulty(
            "long_haul",
            {"chain[8].at_standing": "7.05 m"},
            at="chain[8].at_standing",
            signal=Signal.CAUTION,
        ),
        faulty(
            "long_haul", {"chain[8].at_standing": "9 m"}, at="chain[8].at_standing", signal=Signal.CAUTION
        ),
        faulty("long_haul", {"chain[8].closed": "6.5 m"}, at="chain[8].open", signal=Signal.CAUTION),
        faulty("long_haul", {"chain[8].closed": "6.95 m"}, at="chain[8].open", signal=Signal.CAUTION),
        faulty("long_haul", {"chain[8].closed": "7.05 m"}, at="chain[8].open", signal=Signal.WARNING),
    ),
)
def travel(case: Case, placed: Placed) -> Iterator[Fault]:
    if placed.part.open and placed.part.at_standing and placed.part.at_standing.si > placed.part.open.si:
        yield _grown(case, placed, placed.part.open, placed.part.at_standing)
        return
    if placed.part.open and placed.part.closed and placed.part.closed.si > placed.part.open.si:
        yield _closer_than_closed(case, placed, placed.part.open, placed.part.closed)
        return
    run = case.loads.standing.block_run
    closed = need(placed.part.closed, case.on_part(placed, "closed"))
    if run.standing_m >= closed.si:
        return
    room, wanted = run.hand_tight_m - closed.si, closed.si + run.travel_m
    at = case.on_part(placed, "open" if placed.part.open else "closed")
    remedies = case.put_right(at, open_blocks(placed, "up"))
    do: list[Remedy | str] = [
        *remedies.or_else(f"lay the line out with at least {rounded(wanted, 'up')} m between the blocks")
    ]
    if room > 0.0:
        # The first run of the blocks needs no reset.
        times = ceil(run.travel_m / room) - 1
        do.append(f"tie the line off and reset the blocks {'once' if times == 1 else f'{times} times'}")
    yield Fault(
        at,
        f"The blocks need {run.travel_m:.2f} m of travel. They have {max(room, 0.0):.2f} m before they touch.",
        either(*do),
        value=max(room, 0.0),
        limit=run.travel_m,
        unit="m",
        signal=Signal.CAUTION,
        inputs=(
            Input("between the blocks, hand-tight", "b₀", run.hand_tight_m, "m"),
            case.given("between the blocks, closed", "b₁", closed, case.on_part(placed, "closed")),
        ),
        state="standing",
        remedies=remedies,
    )


def _grown(case: Case, placed: Placed, laid_out: Quantity, standing: Quantity) -> Fault:
    """Say that two distances between the blocks cannot both be right."""
    at = case.on_part(placed, "at_standing")
    return Fault(
        at,
        f"At standing tension the blocks are {standing.text} apart. That is more than the "
        f"{laid_out.text} hand-tight, and hauling brings them together.",
        "Measure both again, axle to axle. Until then, everything calculated from them is wrong.",
        value=standing.si,
        limit=laid_out.si,
        unit="m",
        signal=Signal.CAUTION,
        inputs=(case.given("between the blocks, hand-tight", "b₀", laid_out, case.on_part(placed, "open")),),
    )


def _closer_than_closed(case: Case, placed: Placed, laid_out: Quantity, closed: Quantity) -> Fault:
    """Say that blocks cannot be laid out closer together than they come when closed."""
    at = case.on_part(placed, "open")
    return Fault(
        at,
        f"The blocks are {laid_out.text} apart when hand-tight, but they come no closer than {closed.text}.",
        "Measure both again, axle to axle. Until then, everything calculated from them is wrong.",
        value=laid_out.si,
        limit=closed.si,
        unit="m",
        inputs=(case.given("between the blocks, closed", "b₁", closed, case.on_part(placed, "closed")),),
    )
