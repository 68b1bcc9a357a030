"""From the load path to the line that the mechanics computes: slings, reaches, webbings."""

from __future__ import annotations

from collections.abc import Callable
from math import cos, hypot, pi

from riglint.loadpath import Contact, LoadPath, Placed, contact_of
from riglint.loads.inputs import At, MissingInput, advised, known, need, need_all
from riglint.loads.path.site import Site
from riglint.mechanics.anchors import sling as sling_mechanics
from riglint.mechanics.span.line import Reach, Webbing
from riglint.mechanics.span.stretch import StretchLaw
from riglint.mechanics.valid_range import STANDARD_GRAVITY_M_S2
from riglint.model.documents.gear import Gear
from riglint.model.reads import Memory, remembered
from riglint.model.values.defaults import DEFAULTS
from riglint.model.values.policy import Values
from riglint.records import dataclass

G = STANDARD_GRAVITY_M_S2


@dataclass(frozen=True, slots=True)
class SlingShape:
    """A sling round its anchor: girth with the protector, included angle at the point where its ends meet."""

    girth_m: float
    length_m: float
    angle_rad: float | None  # None: too short to meet at all


def _nothing() -> float:
    return 0.0


class Geometry(Site):
    """What the files say of the rig's shape, in SI units, end A being the first of the chain.

    Args:
        path: the chain.
        values: model values in force.
        hung_n: gives the weight (N) that hangs along the line beside its own.
        in_use: whether webbing and rope stretch as they do once they have been worked, rather than as listed.
    """

    def __init__(
        self, path: LoadPath, values: Values, hung_n: Callable[[], float] = _nothing, *, in_use: bool = False
    ) -> None:
        super().__init__(path, values)
        self.hung_n, self.is_in_use = hung_n, in_use
        # What is asked for again in every state.
        self._contacts: Memory[Contact] = {}
        self._shapes: Memory[SlingShape] = {}
        self._reaches: Memory[float] = {}

    def in_use(self) -> Geometry:
        """Return the same with webbing and rope as stiff as they are once they have been worked."""
        return Geometry(self.path, self.values, self.hung_n, in_use=True)

    # Slings

    def contact(self, placed: Placed) -> Contact:
        """Return what a sling goes round or hangs in."""
        return remembered(self._contacts, placed.key, lambda: contact_of(self.path, placed))

    def girth_m(self, placed: Placed) -> float:
        """Girth that a sling goes round: the trunk, and a protector where one lies between.

        Raises:
            MissingInput: the spot does not say.
        """
        contact, trunk = self.contact(placed), self._trunk_m(placed)
        if not contact.covers:
            return trunk
        item = contact.covers[0].item
        thickness = item.gear.thickness if item else None
        # The protector makes the radius larger by its thickness.
        return trunk + 2.0 * pi * (thickness.si if thickness else self.values["protector_thickness"])

    def _trunk_m(self, placed: Placed) -> float:
        contact = self.contact(placed)
        structure = contact.structure
        at = self.on_spot("anchors", contact.anchor or self.anchor_of(placed).part.at or "", "girth")
        return need(structure.girth if structure else None, at).si

    def anchor_of(self, placed: Placed) -> Placed:
        """Return the anchor on a part's side."""
        return self.path.anchor_of(placed)

    def sling_shape(self, placed: Placed) -> SlingShape:
        """Return how a sling lies round a trunk.

        Raises:
            MissingInput: its length or the girth is not said.
        """
        return remembered(self._shapes, placed.key, lambda: self._sling_shape(placed))

    def _sling_shape(self, placed: Placed) -> SlingShape:
        item = need(placed.item, self.on_part(placed, "gear"))
        if item.gear.length is None:
            at = self.on_item(item, "length", placed)
            advice = known(lambda: self.sling_advice(placed))
            raise MissingInput(advised(at, advice) if advice else at)
        girth, length = self.girth_m(placed), item.gear.length.si
        if placed.part.included_angle is not None and length > girth:
            return SlingShape(girth, length, placed.part.included_angle.si)
        # A very long sling lies nearly parallel; beyond the range of the formula its angle changes no answer.
        taken = min(length, sling_mechanics.LARGEST_LENGTH_TO_GIRTH * girth)
        try:
            return SlingShape(girth, length, sling_mechanics.included_angle_rad(taken, girth))
        except ValueError:
            return SlingShape(girth, length, None)

    def sling_length_m(self, placed: Placed, angle_rad: float) -> float:
        """Length of sling that closes round its trunk, protector included, at an included angle.

        Raises:
            MissingInput: the girth is not said.
        """
        return sling_mechanics.length_for_angle(self.girth_m(placed), angle_rad)

    def sling_advice(self, placed: Placed) -> str:
        """Say how long a sling must be for its trunk; beyond 90° between its legs a basket holds less.

        Raises:
            MissingInput: the girth is not said.
        """
        least = self.sling_length_m(placed, pi / 2.0)
        return f"A basket round {self.girth_m(placed):.2f} m of girth needs at least {least:.2f} m."

    def contact_m(self, placed: Placed) -> float:
        """Length of bark under a sling: D/2·(π + θ) in basket, all the way round in any other hitch.

        Source: geometry, the arc between the two tangents. D is the trunk's, since a protector lies on the bark.

        Raises:
            MissingInput: hitch, length or girth are not said.
        """
        hitch = need(placed.part.hitch, self.on_part(placed, "hitch"))
        bark = self._trunk_m(placed)
        if hitch != "basket":
            return bark
        shape = self.sling_shape(placed)
        # Too short to close, it lies against the bark all the way round.
        angle = pi if shape.angle_rad is None else shape.angle_rad
        return bark / (2.0 * pi) * (pi + angle)

    def sling_reach_m(self, placed: Placed) -> float:
        """Length that a sling adds to the path, from the face of its trunk; a default where its shape is not known."""
        gear, contact = placed.item.gear if placed.item else None, self.contact(placed)
        if contact.kind != "tree" or placed.part.hitch == "straight":
            # Doubled through something thin, a sling reaches half as far as it is long.
            doubled = contact.thin and placed.part.hitch in {"basket", "wrap"}
            return (
                (0.5 if doubled else 1.0) * gear.length.si
                if gear and gear.length
                else self.values["reach.sling"]
            )
        try:
            shape = self.sling_shape(placed)
        except MissingInput:
            return self.values["reach.sling"]
        if placed.part.hitch in {"choke", "larks_foot"}:
            return max(shape.length_m - shape.girth_m, 0.0)  # once round, the rest runs to the line
        if shape.angle_rad is None:
            return 0.0
        return sling_mechanics.reach_from_face_m(shape.girth_m, shape.angle_rad)

    # Reaches

    def reach_m(self, placed: Placed) -> float:
        """Length that one part adds to the path between anchor point and webbing."""
        part = placed.part
        if part.reach is not None:
            return part.reach.si
        if placed.item and placed.item.gear.reach is not None:
            return placed.item.gear.reach.si
        if part.part == "sling":
            return self.sling_reach_m(placed)
        if part.part == "haul":
            return self.blocks_reach_m(placed)
        if part.part == "legs":
            return self.legs_reach_m(placed)
        name = f"reach.{part.part}"
        return self.values[name] if name in DEFAULTS else 0.0

    def legs_reach_m(self, placed: Placed) -> float:
        """Length of a spread from its points to where its legs meet: the longest leg, seen along the line.

        Half the included angle lies between a leg and the line; an angle that is not said counts as none.
        """
        legs = self.path.leg_runs(placed)
        longest = max((sum(self.reach_m(one) for one in leg) for leg in legs), default=0.0)
        angle = placed.part.included_angle
        return longest * cos(angle.si / 2.0 if angle else 0.0) or self.values["reach.sling"]

    def blocks_reach_m(self, haul: Placed) -> float:
        """Length of a haul beside the distance between its axles; of what carries instead where it does not stay."""
        if not haul.part.stays:
            return sum(self.reach_m(one) for one in self.path.made_fast(haul))
        # At both ends, from the axle to the eye of the block.
        return 2.0 * self.values["reach.block"] + (self.values["reach.plate"] if haul.part.plate else 0.0)

    def side_reach_m(self, side: str) -> float:
        """Length from an anchor point to the webbing on one side, without the distance between blocks."""
        return remembered(self._reaches, side, lambda: self._side_reach_m(side))

    def _side_reach_m(self, side: str) -> float:
        # The span was measured from fitting to fitting, so nothing lies between.
        if self.spot.span_between == "webbing":
            return 0.0
        return sum(self.reach_m(placed) for placed in self.path.on_side(side))

    def seating_m(self) -> float:
        """What slings and webbing anchors give while they seat."""
        kinds = [placed.part.part for placed in self.path.carrying]
        anchors = kinds.count("webbing_anchor") * self.values["webbing_anchor_seating"]
        return kinds.count("sling") * self.values["sling_seating"] + anchors

    # Webbing

    def webbings(self, over_m: float | None = None) -> tuple[Webbing, ...]:
        """Return the webbings in order; one whose length is not stated gets a length of 1 m until it is found.

        Args:
            over_m: unstressed length of them all, over which what hangs along the line is spread; until it is found
                the distance between the end fittings.

        Raises:
            MissingInput: with every field that is missing.
        """
        pairs: list[tuple[object, At]] = []
        for placed in self.path.webbings:
            item = placed.item
            if item is None:
                pairs.append((None, self.on_part(placed, "gear")))
                continue
            pairs.append((item.gear.mass_per_metre, self.on_item(item, "mass_per_metre", placed)))
            pairs.append((item.gear.stretch, self.on_item(item, "stretch", placed)))
        need_all(*pairs)
        hung_n = self.hung_n()
        hung_n_per_m = hung_n / (over_m or self.between_fittings_m) if hung_n else 0.0
        return tuple(self._webbing(placed, hung_n_per_m) for placed in self.path.webbings)

    def _webbing(self, placed: Placed, hung_n_per_m: float) -> Webbing:
        gear = placed.item.gear if placed.item else None
        if gear is None or gear.mass_per_metre is None or gear.stretch is None:
            raise AssertionError("asked for before it was needed")
        length = placed.part.length.si if placed.part.length else 1.0
        return Webbing(length, gear.mass_per_metre.si * G + hung_n_per_m, self.law(gear))

    def law(self, gear: Gear) -> StretchLaw:
        """Return how webbing or rope stretches: as listed, or in use; its `stretch` must be given."""
        if gear.stretch is None:
            raise AssertionError("asked for before it was needed")
        listed = StretchLaw.through(gear.stretch)
        if not self.is_in_use:
            return listed
        if gear.stretch_in_use is not None:
            return StretchLaw.through(gear.stretch_in_use)
        return listed.stiffer(self.in_use_factor(gear))

    def in_use_factor(self, gear: Gear) -> float:
        """Return how many times as stiff as listed webbing or rope is once it has been worked, by its fibre."""
        return self.values[self.fibre_value("in_use", gear)]

    def relaxed(self) -> tuple[str, float]:
        """Return the greatest share of its tension that a webbing of the line loses in an hour, after its name."""
        names = [self.fibre_value("relaxation", one.item.gear) for one in self.path.webbings if one.item]
        return max(
            ((one, self.values[one]) for one in names or ["relaxation.unknown"]), key=lambda pair: pair[1]
        )

    @staticmethod
    def fibre_value(what: str, gear: Gear) -> str:
        """Return the name of a model value that goes by the fibre of webbing or rope."""
        name = f"{what}.{gear.material}"
        return name if name in DEFAULTS else f"{what}.unknown"

    @property
    def between_fittings_m(self) -> float:
        """Straight distance between the end fittings of the webbing, a haul's blocks pulled together."""
        return hypot(self.span_m, self.rise_m) - self.side_reach_m("a") - self.side_reach_m("b")

    def strain_at(self, placed: Placed, tension_n: float) -> float:
        """Return the strain of a webbing at a tension, as its shelf has it; past the last point its slope goes on.

        Raises:
            MissingInput: the part names no gear, or the shelf gives no stretch.
        """
        item = need(placed.item, self.on_part(placed, "gear"))
        need(item.gear.stretch, self.on_item(item, "stretch", placed))
        return self.law(item.gear).strain(tension_n)

    def floating(self) -> int | None:
        """Return the number of the webbing whose length the standing tension leaves open; None if all are stated.

        Raises:
            MissingInput: two of them float.
        """
        floating = [n for n, placed in enumerate(self.path.webbings) if placed.part.length is None]
        if len(floating) > 1:
            raise MissingInput(*(self.on_part(self.path.webbings[n], "length") for n in floating[1:]))
        return floating[0] if floating else None

    def reach(self, side: str) -> Reach:
        """Return one side's reach as the mechanics takes it."""
        return Reach(self.side_reach_m(side))
