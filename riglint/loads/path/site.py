"""Where a line lies: its places in the files, its span, the heights of its ends and the ground below."""

from __future__ import annotations

from riglint.loadpath import LoadPath, Placed
from riglint.loads.inputs import At, MissingInput, need, unanswered
from riglint.loads.path.ground import GroundProfile, elevation
from riglint.model.documents.spot import Spot
from riglint.model.library import Item
from riglint.model.reads import Memory, remembered
from riglint.model.values.policy import Values


class Site:
    """What the files say of span, heights and ground, in SI units, end A being the first of the chain."""

    def __init__(self, path: LoadPath, values: Values) -> None:
        self.path, self.values = path, values
        self.rig = path.rig
        self._grounds: Memory[tuple[tuple[float, float], ...]] = {}

    def on_part(self, placed: Placed, *key: str | int) -> At:
        """Return a place below a part of the chain."""
        return At(self.rig.document, (*placed.key, *key), placed.id)

    def on_item(self, item: Item, key: str, placed: Placed) -> At:
        """Return a place on the shelf, as it concerns one part."""
        return At(item.document, (*item.key, key), placed.id)

    def on_spot(self, *key: str | int) -> At:
        """Return a place in the spot."""
        return At(self.rig.spot_document, self.rig.spot_place(key))

    @property
    def spot(self) -> Spot:
        """The spot.

        Raises:
            MissingInput: the rig names none.
        """
        if self.rig.spot is None:
            raise MissingInput(At(self.rig.document, ("spot",)))
        return self.rig.spot

    @property
    def span_m(self) -> float:
        """Distance between the two anchors, as `span_between` says."""
        span = self.spot.span
        if span is None:
            raise MissingInput(self.on_spot("span"))
        return span.si

    @property
    def walk_zone_m(self) -> tuple[float, float]:
        """Nearest that a user comes to the first and to the last end of the webbing."""
        plan = self.rig.rig.plan
        zone = plan.walk_zone if plan else None
        return (zone[0].si, zone[1].si) if zone else (self.values["walk_zone"],) * 2

    # Heights and ground

    def height_m(self, end: int) -> float:
        """Height of the sling or bolt above the ground at one end, 0 or 1.

        Raises:
            MissingInput: the chain does not say.
            NotComputable: it does not begin and end with its anchors.
        """
        placed = self.path.anchors[end]
        return need(placed.part.height, lambda: self.on_part(placed, "height")).si

    def ground(self) -> tuple[tuple[float, float], ...]:
        """Return the ground as (distance from end A's face, elevation above the ground there), in m.

        Raises:
            MissingInput: the spot does not say, or its profile stops short of the far end.
        """
        return remembered(self._grounds, "ground", self._ground)

    def _ground(self) -> tuple[tuple[float, float], ...]:
        spot = self.spot
        ground = need(spot.ground, lambda: self.on_spot("ground"))
        profile = need(ground.profile, lambda: self.on_spot("ground", "profile"))
        points = sorted((x.si, y.si) for x, y in profile)
        if not points or points[-1][0] < self.span_m * self.values["profile_reach"]:
            at = self.on_spot("ground", "profile")
            do = "Measure the ground on to the far anchor, and add its points to the profile."
            raise MissingInput(unanswered(at, "ends before the far anchor", do))
        if ground.profile_from is not None and ground.profile_from == self.path.anchors[1].part.at:
            points = sorted((self.span_m - x, y) for x, y in points)
        first = elevation(points, 0.0)
        return tuple((x, y - first) for x, y in points)

    def over_ground(self) -> GroundProfile | None:
        """Return the ground to tell heights from; None where the files do not say enough."""
        try:
            return GroundProfile(self.ground(), self.height_m(0))
        except MissingInput:
            return None

    @property
    def rise_m(self) -> float:
        """Height of end B above end A; what is not said of ground and heights counts as level (rules ask for it)."""
        try:
            ground = elevation(self.ground(), self.span_m)
        except MissingInput:
            ground = 0.0
        a, b = (placed.part.height for placed in self.path.anchors)
        return ground + (b.si - a.si if a is not None and b is not None else 0.0)

    def least_height_m(self, low: float, high: float) -> tuple[float, float]:
        """Return the least height of the straight line between the anchors above the ground, and where from end A.

        Exact between two shares of the span, since the ground is straight between the points of its profile. The
        standing line hangs a little lower.

        Raises:
            MissingInput: span, profile or a height are not said.
        """
        return min(self._heights_m(low, high))

    def greatest_height_m(self) -> tuple[float, float]:
        """Return the greatest height of that line between the anchors above the ground; else as the least."""
        return max(self._heights_m(0.0, 1.0))

    def _heights_m(self, low: float, high: float) -> list[tuple[float, float]]:
        ground, first, last = self.ground(), self.height_m(0), self.height_m(1)
        rise = elevation(ground, self.span_m) + last - first
        from_m, to_m = low * self.span_m, high * self.span_m
        places = [from_m, *(x for x, _ in ground if from_m < x < to_m), to_m]
        return [(first + rise * x / self.span_m - elevation(ground, x), x) for x in places]
