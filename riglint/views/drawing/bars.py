"""The force on each part of the main line against its strength."""

from __future__ import annotations

from dataclasses import dataclass

from riglint.loads import Loads
from riglint.loads.inputs import known
from riglint.views.sheet.parts import states_for, worst_of


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
    for load in known(lambda: loads.parts) or []:
        worst = worst_of(load, states_for(load, loads))
        strength = known(lambda load=load: load.strength)  # type: ignore[misc]
        if worst is not None and strength is not None:
            asked = load.required_at(loads.consequence.word)
            held = strength.strength_n / 1000.0
            found.append(Bar(load.id, load.words, worst.force_n / 1000.0, held, worst.ratio, asked))
    return tuple(found)
