"""The ground under a line: its elevation, and how high a point hangs above it."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence

from riglint.records import dataclass

Profile = Sequence[tuple[float, float]]
"""Distance from end A's face and elevation above the ground there, in m, in order of distance."""


def elevation(ground: Profile, x_m: float) -> float:
    """Return the elevation at a distance of ground whose points are in order: straight between, level beyond them."""
    after = bisect_left(ground, (x_m,))
    if after == 0:
        return ground[0][1]
    if after == len(ground):
        return ground[-1][1]
    (x1, y1), (x2, y2) = ground[after - 1], ground[after]
    return y1 + (y2 - y1) * (x_m - x1) / (x2 - x1)


@dataclass(frozen=True, slots=True)
class GroundProfile:
    """The ground under a line."""

    profile: Profile
    anchor_height_m: float  # of end A above it

    def clearance_m(self, x_m: float, y_m: float) -> float:
        """Return the height of a point, told from anchor point A, above the ground straight below it."""
        return y_m + self.anchor_height_m - elevation(self.profile, x_m)
