"""Where each segment of a solved chain lies, and what it stores."""

from __future__ import annotations

from math import sqrt
from typing import NamedTuple

from riglint.mechanics.span.chain import LoadedChain, Segment, made, march, straightened


class PlacedPiece(NamedTuple):
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
        """∫∫ T d(strain) over the segment [J]."""
        found, v = 0.0, self.v
        for part in straightened(self.h, v, self.segment):
            end_v = v + part.weight * part.length
            mean_square = self.h**2 + (v * v + v * end_v + end_v * end_v) / 3.0  # of the tension
            found += 0.5 * part.give * mean_square - part.constant * part.length
            v = end_v
        return found

    @property
    def stretched(self) -> float:
        """Length as stretched, ∫ (1 + strain) ds [m]."""
        return stretched(self.h, self.v, self.segment)

    def position(self, share: float) -> tuple[float, float]:
        """Of the point after a share of the segment's unstressed length [m]."""
        dx, dy, *_ = march(self.h, self.v, (self.segment.shortened(share),))
        return self.x + dx, self.y + dy


def stretched(h: float, v: float, segment: Segment) -> float:
    """Length of a segment as stretched under the force at its near end, ∫ (1 + strain) ds [m]."""
    found = 0.0
    for weight, length, give, growth, _, _ in straightened(h, v, segment):
        rigid = made(Segment, (weight, length, 0.0, 1.0, 0.0, None))
        *_, tension_along, v = march(h, v, (rigid,))  # φ of a rigid segment is ∫ T ds
        found += growth * length + give * tension_along / length
    return found


def stretched_between(chain: LoadedChain, h: float, v0: float) -> float:
    """Length as stretched of all but the first and the last segment of a solved chain [m]."""
    v, found, segments = v0, [], chain.ahead + chain.behind
    for number, segment in enumerate(segments):
        if number == len(chain.ahead):
            v += chain.load
        found.append(stretched(h, v, segment) if 0 < number < len(segments) - 1 else 0.0)
        v += segment.weight * segment.length
    return sum(found)


def place(chain: LoadedChain, h: float, v0: float) -> tuple[PlacedPiece, ...]:
    """Every segment in its place, from the forces that `chain.solve` found."""
    x = y = 0.0
    v = v0
    placed: list[PlacedPiece] = []
    for number, segment in enumerate(chain.ahead + chain.behind):
        if number == len(chain.ahead):
            v += chain.load
        dx, dy, *_, end_v = march(h, v, (segment,))
        placed.append(PlacedPiece(segment, x, y, h, v, x + dx, y + dy, end_v))
        x, y, v = x + dx, y + dy, end_v
    return tuple(placed)
