"""Edges that the ground's profile shows: where it drops steeply under a line that has just left its anchor."""

from __future__ import annotations

from itertools import pairwise
from math import atan2

from riglint.loads.inputs import MissingInput
from riglint.loads.path.geometry import Geometry
from riglint.loads.path.ground import elevation
from riglint.records import dataclass


@dataclass(frozen=True, slots=True)
class Drop:
    """Where the ground begins to drop, counted from an anchor, and how far it goes down at one stretch."""

    from_anchor_m: float
    depth_m: float
    line_above_m: float  # the straight line between the anchors above the ground there


def drops_at(geometry: Geometry, end: int, steep_rad: float) -> list[Drop]:
    """Return every stretch steeper than an angle (rad) on one end's half of the span, nearest first.

    None where the files do not say enough of ground and heights.
    """
    try:
        ground, heights = geometry.ground(), (geometry.height_m(0), geometry.height_m(1))
        span, rise = geometry.span_m, geometry.rise_m
    except MissingInput:
        return []
    points = list(ground) if end == 0 else [(span - x, y) for x, y in reversed(ground)]

    def line_above(from_anchor_m: float) -> float:
        x = from_anchor_m if end == 0 else span - from_anchor_m
        return heights[0] + rise * x / span - elevation(ground, x)

    found: list[Drop] = []
    begins: tuple[float, float] | None = None
    for (x, y), (x_next, y_next) in pairwise(points):
        if x >= span / 2.0:
            break
        if atan2(y - y_next, x_next - x) <= steep_rad:
            begins = None
            continue
        begins = begins or (x, y)
        drop = Drop(begins[0], begins[1] - y_next, line_above(max(begins[0], 0.0)))
        if found and found[-1].from_anchor_m == drop.from_anchor_m:
            found[-1] = drop
        else:
            found.append(drop)
    return found
