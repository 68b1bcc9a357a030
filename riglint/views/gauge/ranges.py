"""How far a reading may be off: by the ± of its inputs, and by what the files leave out."""

from __future__ import annotations

from collections.abc import Sequence

from riglint.loads import Loads
from riglint.loads.measure.measured import Best

FIRST_ORDER = (
    "The range holds the inputs' own ±, to first order and independent of each other, and webbing from as stiff as "
    "listed to as stiff as it is in use."
)


def over_all(first: Best, others: Sequence[Best | None]) -> Best:
    """Return a reading as its first end has it, with the least and the greatest of all ends."""
    each = [first, *(one for one in others if one is not None)]
    return first[0], min(low for _, low, _ in each), max(high for _, _, high in each)


def assumed_notes(loads: Loads, first: Best, best: Best) -> tuple[str, ...]:
    """Say what widens the range, where something does that no file says; else how the ± was found, if there is one."""
    if best == first:
        return how_unsure(best)
    with_two = [one for one in loads.path.rig.assumed if len(one.ends) > 1]
    names = "; ".join(f"{one.name}, {one.value}" for one in with_two)
    ends = ", ".join(one.ends[0].text for one in with_two)
    ask = " and ".join(one.look_up for one in with_two)
    return (
        f"The files leave out: {names}. The range covers all of that; the formula is worked with {ends}.",
        f"{ask[0].upper()}{ask[1:]}: the reading says more then.",
    )


def how_unsure(best: Best) -> tuple[str, ...]:
    """Return how the ± was found, where there is one."""
    return (FIRST_ORDER,) if best[2] > best[1] else ()
