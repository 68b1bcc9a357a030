"""What a reading on site means, before it is printed: the tension with its ±, what it rests on, the plan."""

from __future__ import annotations

from typing import Literal

from riglint.model.values.sources import Source
from riglint.records import dataclass
from riglint.views.blocks import WorkedInput

Verdict = Literal[
    "fits", "may fit", "does not fit"
]  # over the whole range of the reading, its ± and its curve


@dataclass(frozen=True, slots=True)
class Planned:
    """What the plan says, and whether the reading fits it."""

    tension_n: float
    apart: float  # share by which a reading may be off it
    verdict: Verdict
    at: str

    @property
    def fits(self) -> bool:
        """Whether the reading fits the plan whatever lies within its range."""
        return self.verdict == "fits"


@dataclass(frozen=True, slots=True)
class Gauge:
    """One reading as a standing tension."""

    what: str
    rig: str | None
    tension_n: float
    low_n: float
    high_n: float
    symbol: str
    formula: str
    working: str
    inputs: tuple[WorkedInput, ...]
    source: Source
    notes: tuple[str, ...]
    caution: str
    bare_sag_m: float | None = None  # of the bare line, from the same pulse
    planned: Planned | None = None
    settings: tuple[str, ...] = ()  # what the library's mark file sets

    @property
    def fits_by_range_alone(self) -> bool:
        """Whether the reading lies too far off the plan, and only how unsure it is lets it fit."""
        plan = self.planned
        return (
            plan is not None
            and plan.verdict == "may fit"
            and abs(self.tension_n - plan.tension_n) > plan.apart * plan.tension_n
        )
