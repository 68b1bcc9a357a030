"""How a webbing stretches: strain against tension."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import inf, isfinite
from typing import Self


@dataclass(frozen=True, slots=True)
class StretchLaw:
    """Strain of a webbing against tension: straight lines through the origin and the measured points.

    Beyond the last point the last slope goes on; compare a tension with `last_tension_n` to know. Build one
    with `linear` or `through`.

    >>> law = StretchLaw.through([(5_000.0, 0.04), (10_000.0, 0.06)])
    >>> round(law.strain(7_500.0), 6)
    0.05
    """

    last_tension_n: float
    """End of the measured curve [N]; infinite for a law given as one stiffness."""
    _tensions: tuple[float, ...]
    """Where each straight piece begins [N]; the first begins at 0."""
    _strains: tuple[float, ...]
    _slopes: tuple[float, ...]
    _complementaries: tuple[float, ...]
    """∫ strain dT from 0 to the beginning of each piece [N]."""

    @classmethod
    def linear(cls, stiffness_n: float) -> Self:
        """One straight line, strain = T / EA.

        Args:
            stiffness_n: axial stiffness EA [N], above 0.

        Raises:
            ValueError: the stiffness is not a positive number.
        """
        if not (isfinite(stiffness_n) and stiffness_n > 0.0):
            raise ValueError(f"stiffness must be above 0 N, got {stiffness_n}")
        return cls(inf, (0.0,), (0.0,), (1.0 / stiffness_n,), (0.0,))

    @classmethod
    def through(cls, points: Sequence[tuple[float, float]]) -> Self:
        """Straight lines from the origin through the points; the order of the points does not matter.

        Args:
            points: pairs of tension [N] and strain [-] (0.04 for 4 %). The origin may be among them.

        Raises:
            ValueError: no point, or the strain does not rise with the tension all the way from the origin.
        """
        knots = sorted({(0.0, 0.0), *points})
        if len(knots) < 2:  # noqa: PLR2004  (the origin and one point make a line)
            raise ValueError("a stretch curve needs at least one point besides the origin")
        slopes: list[float] = []
        complementaries = [0.0]
        for (tension, strain), (next_tension, next_strain) in pairwise(knots):
            if not (next_tension > tension >= 0.0 and next_strain > strain):
                raise ValueError(f"strain must rise with tension, at {next_tension} N and {next_strain}")
            slopes.append((next_strain - strain) / (next_tension - tension))
            area = 0.5 * (strain + next_strain) * (next_tension - tension)
            complementaries.append(complementaries[-1] + area)
        starts = knots[:-1]
        tensions, strains = tuple(t for t, _ in starts), tuple(e for _, e in starts)
        return cls(knots[-1][0], tensions, strains, tuple(slopes), tuple(complementaries[:-1]))

    @property
    def is_straight(self) -> bool:
        """One piece: strain is proportional to tension."""
        return len(self._slopes) == 1

    @property
    def first_slope(self) -> float:
        """Growth of strain with tension at no tension [1/N]."""
        return self._slopes[0]

    def at(self, tension_n: float) -> tuple[float, float, float]:
        """Strain [-], slope [1/N] and complementary energy [N] at a tension [N], in one look-up."""
        piece = bisect_right(self._tensions, tension_n) - 1 if tension_n > 0.0 else 0
        beyond = tension_n - self._tensions[piece]
        slope = self._slopes[piece]
        start = self._strains[piece]
        complementary = self._complementaries[piece] + (start + 0.5 * slope * beyond) * beyond
        return start + slope * beyond, slope, complementary

    def strain(self, tension_n: float) -> float:
        """Strain [-] at a tension [N], 0 or more."""
        return self.at(tension_n)[0]

    def slope(self, tension_n: float) -> float:
        """Growth of strain with tension [1/N] at a tension [N]; at a knot, that of the piece above."""
        return self.at(tension_n)[1]

    def complementary(self, tension_n: float) -> float:
        """∫ strain dT from 0 [N, that is J per metre of unstressed webbing]."""
        return self.at(tension_n)[2]

    def energy(self, tension_n: float) -> float:
        """∫ T d(strain) from 0: stored energy [J per metre of unstressed webbing]."""
        strain, _, complementary = self.at(tension_n)
        return tension_n * strain - complementary
