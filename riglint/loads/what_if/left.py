"""One part that may go, and what is then left to hold: a row of the table of `riglint.loads.what_if.removal`."""

from __future__ import annotations

from collections.abc import Iterable

from riglint.loads.inputs import At
from riglint.loads.path.parts import PartLoad
from riglint.loads.states.line import State
from riglint.records import dataclass

ALIKE = 1e-9  # ratios that differ by no more share are the same


@dataclass(frozen=True, slots=True)
class Left:
    """The weakest part of what catches: its force with everybody on the line, and how many times it holds that."""

    words: str
    at: At
    force_n: float
    ratio: float
    load: PartLoad | None = None  # where it is a part of a chain
    before: float | None = None  # its ratio with nothing gone, where it is a part of a chain


@dataclass(frozen=True, slots=True)
class Removal:
    """One thing that may go, and what is then left."""

    what: str  # what goes: series, haul, tie-back, leg, bolt, backup, shared, ring; backup leg or bolt
    gone: str  # in words
    at: At
    caught_by: str | None  # None: nothing catches
    left: Left | None
    then_on: str  # what all hangs on afterwards
    fall_m: float | None = None  # of a harness, or how deep the walker sinks in the first dip
    clearance_m: float | None = None  # of the lowest body point, or of the line under the walker
    flies: str | None = None  # what flies at people
    after: str | None = None  # what catches where the part that catches goes too; None: nothing

    @property
    def holds(self) -> bool:
        """Whether something catches, and does not part itself: a chain of failures goes on below a ratio of 1."""
        return self.caught_by is not None and (self.left is None or self.left.ratio >= 1.0)


def weakest_in(states: list[State], loads: Iterable[PartLoad]) -> Left | None:
    """Return the part that keeps least in the worst of some states, with what is left as it was.

    Raises:
        MissingInput, NotComputable: a strength or a state is not known.
    """
    worst = [(load, load.worst(states)) for load in loads]
    return weakest([(load, one.force_n, one.ratio, one.ratio) for load, one in worst if one is not None])


def weakest(found: list[tuple[PartLoad, float, float, float]]) -> Left | None:
    """Return the part that keeps least of some with their force, their ratio, and their ratio with nothing gone."""
    if not found:
        return None
    least = min(ratio for _, _, ratio, _ in found)
    # The first of two alike, as a symmetric rig has them: their last digits differ by chance.
    load, force, ratio, before = next(one for one in found if one[2] <= least * (1.0 + ALIKE))
    return Left(f"{load.words} ({load.id})", load.at, force, ratio, load, before)
