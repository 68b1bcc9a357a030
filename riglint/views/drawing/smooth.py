"""A curve without kinks through points: a cubic between each two, never beyond them."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

Point = tuple[float, float]
PIECES = 8  # between two points


def smooth(points: Sequence[Point]) -> list[Point]:
    """Return points with more of them between; what was given stays, and nothing lies above or below its neighbours.

    Source: F. N. Fritsch and J. Butland, SIAM J. Sci. Stat. Comput. 5 (1984), 300-304: the harmonic mean of the two
    slopes at a point, zero where they change their sign, keeps each piece monotone. From memory.
    """
    if len({x for x, _ in points}) < len(points):
        return list(points)
    rises = [(q[1] - p[1]) / (q[0] - p[0]) for p, q in pairwise(points)]
    inner = [2.0 * a * b / (a + b) if a * b > 0.0 else 0.0 for a, b in pairwise(rises)]
    slopes = [*rises[:1], *inner, *rises[-1:]]
    found = list(points[:1])
    for (p, q), (at_p, at_q) in zip(pairwise(points), pairwise(slopes), strict=True):
        found += [_between(p, q, at_p, at_q, n / PIECES) for n in range(1, PIECES)]
        found.append(q)
    return found


def _between(p: Point, q: Point, at_p: float, at_q: float, t: float) -> Point:
    """Return the place on a cubic in Hermite's form."""
    wide = q[0] - p[0]
    own = (1.0 + 2.0 * t) * (1.0 - t) ** 2 * p[1] + t * t * (3.0 - 2.0 * t) * q[1]
    return p[0] + t * wide, own + wide * (t * (1.0 - t) ** 2 * at_p - t * t * (1.0 - t) * at_q)
