"""Two lines of one spot: where they meet in plan, how high each is there, and how far apart people walk on them."""

from __future__ import annotations

from itertools import pairwise
from math import hypot

from riglint.loads.inputs import MissingInput, known, need
from riglint.loads.path.ground import elevation
from riglint.loads.rig_loads import Loads
from riglint.mechanics.anchors.vector_sum import Vector
from riglint.model.documents.spot_plan import place_of
from riglint.records import dataclass

STATIONS = 9  # places at which two lines between the same anchors are compared


@dataclass(frozen=True, slots=True)
class Laid:
    """One line in plan, from its first anchor to its last."""

    loads: Loads
    first: Vector
    last: Vector

    def at(self, x_m: float) -> Vector:
        """Return the place of a distance from the face of the first anchor."""
        share = x_m / self.loads.geometry.span_m
        (x1, y1), (x2, y2) = self.first, self.last
        return x1 + (x2 - x1) * share, y1 + (y2 - y1) * share

    def walked(self) -> tuple[Vector, Vector]:
        """Return where the walk zone begins and ends; errors as the line at rest."""
        first, last = self.loads.sweep.walked_m()
        return self.at(first), self.at(last)


@dataclass(frozen=True, slots=True)
class Meeting:
    """A place where two lines lie one over the other: how far along each it is."""

    x_one_m: float
    x_other_m: float


def names_of(loads: Loads) -> tuple[str, str]:
    """Return the names of a line's two anchors on the spot."""
    first, last = (one.part.at or one.id for one in loads.path.anchors)
    return first, last


def laid(loads: Loads) -> Laid:
    """Return a line in plan.

    Raises:
        MissingInput: the spot does not say where its anchors stand.
    """
    spot = loads.geometry.spot
    names = names_of(loads)
    places = [place_of(spot.anchors.get(name)) for name in names]
    missing = [
        loads.geometry.on_spot("anchors", name, "plan")
        for name, place in zip(names, places, strict=True)
        if place is None
    ]
    if places[0] is None or places[1] is None:
        raise MissingInput(*missing)
    return Laid(loads, places[0], places[1])


def meetings(one: Loads, other: Loads) -> list[Meeting]:
    """Return where two lines meet in plan: all along where they run between the same anchors.

    Raises:
        MissingInput: the spot does not say where their anchors stand, or a span is not given.
    """
    mine, theirs = names_of(one), names_of(other)
    if set(mine) == set(theirs):
        span = one.geometry.span_m
        places = [span * n / (STATIONS + 1) for n in range(1, STATIONS + 1)]
        return [Meeting(x, x if mine == theirs else span - x) for x in places]
    if set(mine) & set(theirs):
        return []  # two lines from one anchor go apart from there
    a, b = laid(one), laid(other)
    shares = crossing((a.first, a.last), (b.first, b.last))
    return (
        []
        if shares is None
        else [Meeting(shares[0] * one.geometry.span_m, shares[1] * other.geometry.span_m)]
    )


def crossing(one: tuple[Vector, Vector], other: tuple[Vector, Vector]) -> tuple[float, float] | None:
    """Return where two straight lines cross in plan, as shares of both; None where they do not.

    Source: plane geometry, two lines p + t·r and q + u·s meet at t = (q − p) × s / (r × s).
    """
    (px, py), (p2x, p2y) = one
    (qx, qy), (q2x, q2y) = other
    rx, ry, sx, sy = p2x - px, p2y - py, q2x - qx, q2y - qy
    cross = rx * sy - ry * sx
    # Parallel. Lines between the same anchors never come here, see `meetings`.
    if cross == 0.0:
        return None
    t = ((qx - px) * sy - (qy - py) * sx) / cross
    u = ((qx - px) * ry - (qy - py) * rx) / cross
    return (t, u) if 0.0 <= t <= 1.0 and 0.0 <= u <= 1.0 else None


def distance_m(one: tuple[Vector, Vector], other: tuple[Vector, Vector]) -> float:
    """Return the least distance between two straight stretches in plan; 0 where they cross."""
    if crossing(one, other) is not None:
        return 0.0
    ends = [_to_stretch(p, other) for p in one] + [_to_stretch(p, one) for p in other]
    return min(ends)


def walked_apart_m(one: Loads, other: Loads) -> float:
    """Return how far apart people walk on two lines in plan; 0 where they may walk one above the other.

    Raises:
        MissingInput, NotComputable: the spot does not say where the anchors stand, or the line at rest is not known.
    """
    mine, theirs = names_of(one), names_of(other)
    if set(mine) != set(theirs):
        return distance_m(laid(one).walked(), laid(other).walked())
    span = one.geometry.span_m
    (first, last), (start, end) = one.sweep.walked_m(), other.sweep.walked_m()
    if mine != theirs:
        start, end = span - end, span - start
    return max(start - last, first - end, 0.0)


def _to_stretch(p: Vector, stretch: tuple[Vector, Vector]) -> float:
    (ax, ay), (bx, by) = stretch
    long = (bx - ax) ** 2 + (by - ay) ** 2
    share = 0.0 if long == 0.0 else ((p[0] - ax) * (bx - ax) + (p[1] - ay) * (by - ay)) / long
    share = min(max(share, 0.0), 1.0)
    return hypot(p[0] - ax - share * (bx - ax), p[1] - ay - share * (by - ay))


def bare_m(loads: Loads, x_m: float) -> float:
    """Return how high the line hangs above the ground with nobody on it, as stiff as in use.

    Raises:
        MissingInput, NotComputable: the line or the ground below is not known.
    """
    return _over_ground(loads, x_m, loads.bare_line)


def lowest_m(loads: Loads, x_m: float) -> float:
    """Return how deep the line or whoever hangs on it comes at a place, in any state with people or in a gust.

    Between the anchors and the nearest place of a user the line is taken straight, and the lowest state of all counts.
    Errors as `bare_m`.
    """
    states = loads.people()
    gust = known(lambda: loads.wind_state)
    found = [_over_ground(loads, x_m, _loaded(one.soft_positions)) for one in states if one.soft_positions]
    if gust is not None:
        found.append(_over_ground(loads, x_m, _loaded(gust.positions)))
    lowest = min(found)
    if loads.path.rig.rig.leash is None:
        return lowest
    hang, _ = loads.leash_reach()
    fallen = _over_ground(loads, x_m, _loaded(loads.leash_fall.soft_positions))
    return min(lowest, fallen - hang - loads.values["body_below_harness"])


def _loaded(rests: tuple[object, ...]) -> list[Vector]:
    return [(rest.load_x_m, rest.load_y_m) for rest in rests]  # type: ignore[attr-defined]


def _over_ground(loads: Loads, x_m: float, places: list[Vector]) -> float:
    geometry = loads.geometry
    ground, height = geometry.ground(), geometry.height_m(0)
    need(geometry.path.anchors[1].part.height, geometry.on_part(geometry.path.anchors[1], "height"))
    points = [(0.0, 0.0), *sorted(places), (geometry.span_m, geometry.rise_m)]
    for (x1, y1), (x2, y2) in pairwise(points):
        if x1 <= x_m <= x2 and x2 > x1:
            return height + y1 + (y2 - y1) * (x_m - x1) / (x2 - x1) - elevation(ground, x_m)
    return height - elevation(ground, x_m)
