"""Pulls of several lines on one point, added as vectors in plan; and the worst that any of them make together."""

from collections.abc import Sequence
from math import atan2, cos, hypot, pi, sin

from riglint.mechanics.valid_range import require_within
from riglint.records import dataclass

Vector = tuple[float, float]
LARGEST = 1e9  # N or Nm; far above what stands on any meadow
ALIKE = 1e-9  # directions so near to square of each other are square but for rounding


@dataclass(frozen=True, slots=True)
class Sum:
    """The length of a sum of vectors, and which of them, by number, are in it."""

    size: float
    members: tuple[int, ...]


def sum_of(vectors: Sequence[Vector]) -> float:
    """Length of the sum of plane vectors: √((Σx)² + (Σy)²).

    Args:
        vectors: their two parts, each −1e9 to 1e9, all in one unit.

    Returns:
        The length in that unit.

    Raises:
        ValueError: an argument outside its range.

    Valid: forces through one point, or moments about one.

    Source: statics, resultant of concurrent forces in a plane.

    >>> sum_of([(3.0, 0.0), (0.0, 4.0)])
    5.0
    """
    for x, y in vectors:
        require_within("component", x, -LARGEST, LARGEST)
        require_within("component", y, -LARGEST, LARGEST)
    return hypot(sum(x for x, _ in vectors), sum(y for _, y in vectors))


def worst_of_any(vectors: Sequence[Vector]) -> Sum:
    """The longest sum that some of the vectors make, any of the others being absent: max |Σ vᵢ|.

    Args:
        vectors: their two parts, each −1e9 to 1e9, all in one unit.

    Returns:
        Its length in that unit, and which are in it. It never shrinks when a vector is added.

    Raises:
        ValueError: an argument outside its range.

    Valid: what pulls the other way is a help only while it is there: a line that is let down or breaks leaves the
    rest alone.

    Source: the corners of the sums of plane vectors are those of which each member has a part along one direction
    (zonotope, plane geometry).

    >>> worst_of_any([(5.0, 0.0), (-4.0, 0.0), (0.0, 1.0)]).members
    (0, 2)
    """
    best = Sum(sum_of(vectors), tuple(range(len(vectors))))
    # The longest sum has every vector that points to its own side; which these are changes only where its
    # direction comes square to one of them. So these directions are enough, looked at on both sides.
    square = [atan2(y, x) + turn for x, y in vectors for turn in (pi / 2.0, -pi / 2.0)]
    for direction in square:
        for nudge in (-ALIKE, ALIKE):
            along = cos(direction + nudge), sin(direction + nudge)
            members = tuple(n for n, (x, y) in enumerate(vectors) if x * along[0] + y * along[1] > 0.0)
            size = sum_of([vectors[n] for n in members])
            if size > best.size * (1.0 + ALIKE):
                best = Sum(size, members)
    return best


def toward(here: Vector, there: Vector) -> Vector | None:
    """The direction from one place of a plan to another: (x, y)/√(x² + y²).

    Args:
        here: from where, m.
        there: to where, m.

    Returns:
        A vector of length 1; None where both are one place.

    Valid: a flat plan.

    Source: plane geometry.

    >>> toward((1.0, 1.0), (1.0, 5.0))
    (0.0, 1.0)
    """
    x, y = there[0] - here[0], there[1] - here[1]
    length = hypot(x, y)
    return (x / length, y / length) if length > 0.0 else None
