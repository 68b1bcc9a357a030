"""Where each segment of a solved chain lies, and what it stores."""

from __future__ import annotations

from math import sqrt
from typing import NamedTuple

from riglint.mechanics.chain import Chain, Segment, march_segment


class Placed(NamedTuple):
    """A segment in its place in the equilibrium."""

    segment: Segment
    x: float
    y: float
    """Near end, from the first anchor point [m]."""
    h: float
    v: float
    """Force at the near end, along the chain [N]."""
    end_x: float
    end_y: float
    end_v: float
    """Vertical force at the far end, before the load there [N]."""
    complementary: float
    """φ of `chain` [J]."""
    mean_tension: float
    """At the mean of the vertical forces; the stretch is taken there [N]."""
    elongation: float
    """[m]"""
    elastic: float
    """The part of φ that stretch makes [J]."""

    @property
    def near_tension(self) -> float:
        """At the near end [N]."""
        return sqrt(self.h * self.h + self.v * self.v)

    @property
    def far_tension(self) -> float:
        """At the far end, before the load there [N]."""
        return sqrt(self.h * self.h + self.end_v * self.end_v)

    @property
    def stretch_energy(self) -> float:
        """∫ T d(strain) over the segment [J]."""
        return self.mean_tension * self.elongation - self.elastic + self._spread

    @property
    def stretched(self) -> float:
        """Length as stretched, ∫ (1 + strain) ds [m]."""
        mean_strain = self.elongation / self.segment.length
        tension_along = self.complementary - self.elastic  # ∫ T ds
        return self.segment.length + mean_strain * tension_along / self.mean_tension

    @property
    def _spread(self) -> float:
        """Stretch energy that comes from the tension not being the mean one everywhere [J].

        The same in every state, so it moves no force; with it two halves store what the whole does.
        """
        weight = self.segment.weight * self.segment.length
        return self.segment.give * weight * weight / 24.0

    def position(self, share: float) -> tuple[float, float]:
        """Of the point after a share of the segment's unstressed length [m]."""
        give = share * self.elongation / self.mean_tension
        part = Segment(self.segment.weight, share * self.segment.length, give, None, 0.0)
        dx, dy, *_ = march_segment(self.h, self.v, part)
        return self.x + dx, self.y + dy


def place(chain: Chain, h: float, v0: float) -> tuple[Placed, ...]:
    """Every segment in its place, from the forces that `chain.solve` found."""
    x = y = 0.0
    v = v0
    placed: list[Placed] = []
    for segment in chain:
        dx, dy, _, _, _, phi, end_v = march_segment(h, v, segment)
        mean_v = 0.5 * (v + end_v)
        tension = sqrt(h * h + mean_v * mean_v)
        elongation, elastic = _stretch(segment, tension)
        placed.append(Placed(segment, x, y, h, v, x + dx, y + dy, end_v, phi, tension, elongation, elastic))
        x, y, v = x + dx, y + dy, end_v + segment.load
    return tuple(placed)


def _stretch(segment: Segment, tension: float) -> tuple[float, float]:
    """Elongation [m] and complementary stretch energy [J] of a segment at a tension."""
    _, length, give, law, _ = segment
    if law is None:
        return give * tension, 0.5 * give * tension * tension
    strain, _, complementary = law.at(tension)
    return length * strain, length * complementary


def lowest(placed: tuple[Placed, ...]) -> tuple[float, float]:
    """The lowest point: where the line stops going down."""
    if placed[0].v >= 0.0:
        return placed[0].x, placed[0].y
    for piece in placed:
        if piece.end_v >= 0.0:
            return piece.position(piece.v / (piece.v - piece.end_v)) if piece.v < 0.0 else (piece.x, piece.y)
    return placed[-1].end_x, placed[-1].end_y
