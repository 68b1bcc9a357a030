"""The force on each part of the main line against its strength."""

from __future__ import annotations

from riglint.loads import Loads
from riglint.records import dataclass
from riglint.views.judged_parts import main_parts


@dataclass(frozen=True, slots=True)
class Bar:
    """One part in the state that leaves it the least."""

    id: str
    words: str
    force_kn: float
    strength_kn: float  # in place
    ratio: float
    asked: float | None  # None where no ratio will do

    @property
    def short(self) -> bool:
        """Whether it has not the ratio that is asked."""
        return self.asked is None or self.ratio < self.asked


def bars_of(loads: Loads) -> tuple[Bar, ...]:
    """Return every part whose force and strength are known; none where the parts are not."""
    found = []
    for part in main_parts(loads):
        load, strength, worst = part.load, part.strength, part.worst
        if worst is not None and strength is not None:
            held = strength.strength_n / 1000.0
            found.append(Bar(load.id, load.words, worst.force_n / 1000.0, held, worst.ratio, part.asked))
    return tuple(found)
