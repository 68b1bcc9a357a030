"""What a part breaks at in its place, and what takes strength off it there."""

from __future__ import annotations

from math import prod
from typing import NamedTuple

from riglint.loads.inputs import At
from riglint.mechanics.valid_range import Numbers
from riglint.model.values.sources import Source
from riglint.records import dataclass


class Reduction(NamedTuple):
    """One thing that takes strength off a part."""

    why: str
    factor: float
    source: Source


@dataclass(frozen=True, slots=True)
class Strength(Numbers):
    """What a part breaks at in its place, N, and how that was found."""

    breaking_n: float
    breaking_from: str  # "label" or the rated load and its factor, in words
    at: At  # where its strength is written
    reductions: tuple[Reduction, ...] = ()
    rated_n: float | None = None  # rated load in its place, where the label gives one
    no_rating: str | None = None  # why its strength in this place is not known to anybody

    @property
    def kept(self) -> float:
        """Share of its breaking strength that it keeps in its place."""
        return prod(reduction.factor for reduction in self.reductions)

    @property
    def strength_n(self) -> float:
        """Breaking strength in place; 0 where nothing rates it."""
        return 0.0 if self.no_rating else self.breaking_n * self.kept
