"""Published values as data: one YAML file for each source, with its citation, mark and tolerance."""

import os
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml

HERE = Path(__file__).parent
Case = dict[str, Any]  # one row of a file; its keys are that source's own

KEYS = {"citation", "origin", "mark", "tolerance", "because", "cases"}
ORIGINS = {"published", "standard", "unnamed", "practice", "library", "own"}
MARKS = {"read", "memory", "calculated"}
TOLERANCES = {"absolute", "relative", "last_digit"}


@dataclass(frozen=True)
class Compared:
    """One comparison that a test made."""

    source: "PublishedSource"
    check: str
    expected: float
    computed: float

    @property
    def relative_error(self) -> float:
        return abs(self.computed - self.expected) / (abs(self.expected) or 1.0)


LISTENERS: list[Callable[[Compared], None]] = []
"""Who is told of every comparison; the table of outside checks (`table.py`) is made that way."""


@dataclass(frozen=True)
class PublishedSource:
    """What one file holds. Tolerance `last_digit` counts units of the last printed digit: kept as text."""

    name: str
    citation: str
    origin: str
    mark: str
    tolerance: dict[str, float]
    because: str
    cases: tuple[Case, ...]

    def allowance(self, printed: str | float) -> float:
        ((kind, size),) = self.tolerance.items()
        if kind == "absolute":
            return size
        if kind == "relative":
            return size * abs(float(printed))
        if not isinstance(printed, str):
            raise TypeError(f"{self.name}: {printed} must be text, its last digit counts")
        decimals = len(printed.partition(".")[2])
        return float(size) * 10.0**-decimals

    def agrees(self, computed: float, printed: str | float) -> bool:
        test = os.environ.get("PYTEST_CURRENT_TEST", "").partition("::")[2].partition(" (")[0]
        for listen in LISTENERS:
            listen(Compared(self, test, float(printed), computed))
        rounding = 1e-12 * abs(computed)
        return abs(computed - float(printed)) <= self.allowance(printed) + rounding


def read_source(name: str) -> PublishedSource:
    content = yaml.safe_load((HERE / f"{name}.yaml").read_text(encoding="utf-8"))
    if set(content) != KEYS:
        raise ValueError(f"{name}.yaml needs exactly {sorted(KEYS)}, has {sorted(content)}")
    return PublishedSource(name=name, **{**content, "cases": tuple(content["cases"])})
