"""How a webbing stretches: strain against tension."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import inf, isfinite
from typing import NamedTuple, Self

from riglint.mechanics.valid_range import OutOfRange, plain
from riglint.records import dataclass


class StretchPiece(NamedTuple):
    """A straight piece of a stretch law, extended to no tension."""

    until: float
    """Tension where it ends [N]; infinite for the last."""
    growth: float
    """Stretched over unstressed length, extended to no tension [-]."""
    slope: float
    """Growth of strain with tension [1/N]."""
    constant: float
    """Complementary energy, extended to no tension [N, that is J per metre of unstressed webbing]."""


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
    pieces: tuple[StretchPiece, ...]
    """In order of tension."""

    @classmethod
    def linear(cls, stiffness_n: float) -> Self:
        """One straight line, strain = T / EA.

        Args:
            stiffness_n: axial stiffness EA [N], above 0.

        Raises:
            ValueError: the stiffness is not a positive number.
        """
        if not (isfinite(stiffness_n) and stiffness_n > 0.0):
            raise OutOfRange(f"stiffness is {plain(stiffness_n)} N; more than 0 N is needed")
        return cls(inf, (StretchPiece(inf, 1.0, 1.0 / stiffness_n, 0.0),))

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
            raise OutOfRange("a stretch curve needs at least one point besides the origin")
        pieces: list[StretchPiece] = []
        complementary = 0.0  # at the beginning of each piece
        for (tension, strain), (next_tension, next_strain) in pairwise(knots):
            if not (next_tension > tension >= 0.0 and next_strain > strain):
                raise OutOfRange(
                    f"strain must rise with tension, at {plain(next_tension)} N and {plain(next_strain)}"
                )
            slope = (next_strain - strain) / (next_tension - tension)
            offset = strain - slope * tension
            constant = complementary - (offset + 0.5 * slope * tension) * tension
            pieces.append(StretchPiece(next_tension, 1.0 + offset, slope, constant))
            complementary += 0.5 * (strain + next_strain) * (next_tension - tension)
        pieces[-1] = pieces[-1]._replace(until=inf)
        return cls(knots[-1][0], tuple(pieces))

    def stiffer(self, times: float) -> StretchLaw:
        """The same curve with every strain divided by a number: webbing so many times as stiff.

        Args:
            times: above 0; 1 leaves the curve as it is.

        Raises:
            ValueError: not a positive number.

        >>> StretchLaw.linear(90e3).stiffer(1.5).strain(1_350.0)
        0.01
        """
        if not (isfinite(times) and times > 0.0):
            raise OutOfRange(f"a stiffness of {plain(times)} times the curve; more than 0 is needed")
        pieces = (
            StretchPiece(until, 1.0 + (growth - 1.0) / times, slope / times, constant / times)
            for until, growth, slope, constant in self.pieces
        )
        return StretchLaw(self.last_tension_n, tuple(pieces))

    @property
    def is_straight(self) -> bool:
        """One piece: strain is proportional to tension."""
        return len(self.pieces) == 1

    @property
    def first_slope(self) -> float:
        """Growth of strain with tension at no tension [1/N]."""
        return self.pieces[0].slope

    def piece(self, tension_n: float) -> StretchPiece:
        """The piece that holds at a tension [N]; at a knot, the one above."""
        for piece in self.pieces:
            if tension_n < piece.until:
                return piece
        return self.pieces[-1]

    def at(self, tension_n: float) -> tuple[float, float, float]:
        """Strain [-], slope [1/N] and complementary energy [N] at a tension [N], in one look-up."""
        _, growth, slope, constant = self.piece(tension_n)
        offset = growth - 1.0
        stretch = slope * tension_n
        return offset + stretch, slope, constant + (offset + 0.5 * stretch) * tension_n

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
