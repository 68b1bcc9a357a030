"""The ground under a line: its elevation, and how high a point hangs above it."""

from __future__ import annotations

from bisect import bisect_left
from typing import TYPE_CHECKING

from riglint.loads.inputs import MissingInput

if TYPE_CHECKING:
    from riglint.loads.geometry import Geometry


def elevation(ground: tuple[tuple[float, float], ...] | list[tuple[float, float]], x_m: float) -> float:
    """Return the elevation at a distance of ground whose points are in order: straight between, level beyond them."""
    after = bisect_left(ground, (x_m,))
    if after == 0:
        return ground[0][1]
    if after == len(ground):
        return ground[-1][1]
    (x1, y1), (x2, y2) = ground[after - 1], ground[after]
    return y1 + (y2 - y1) * (x_m - x1) / (x2 - x1)


class Ground:
    """The ground under a line, where the spot describes it."""

    def __init__(self, geometry: Geometry) -> None:
        try:
            self._profile: tuple[tuple[float, float], ...] | None = geometry.ground()
            self._anchor_height: float | None = geometry.height_m(0)
        except MissingInput:
            self._profile, self._anchor_height = None, None

    def clearance_m(self, x_m: float, y_m: float) -> float | None:
        """Return the height of a point above the ground straight below it; None where the spot does not say."""
        if self._profile is None or self._anchor_height is None:
            return None
        return y_m + self._anchor_height - elevation(self._profile, x_m)
