"""What each bolt, boulder or other anchor sees, with all points holding and with one lost."""

from __future__ import annotations

from riglint.loadpath import Contact, Placed, leg_target
from riglint.loads.inputs import At, MissingInput, need, need_all, unanswered
from riglint.loads.path.geometry import Geometry
from riglint.mechanics.anchors.bolts import bolt_pull, bolt_use, boulder_resistance_n, leg_forces_n
from riglint.model.documents.spot import Anchor, Point
from riglint.model.vocabulary.words import Share
from riglint.records import dataclass

NO_LEGS = "are in no part of the chain, so nobody knows which bolts hold this end"
SPREAD = (
    "Put a part next to the anchor '{}': {{part: legs, share: fixed, included_angle: …, legs: "
    "[{{to: …, chain: […]}}, …]}}, "
    "one leg for each bolt that holds."
)


@dataclass(frozen=True, slots=True)
class PointLoad:
    """One bolt: its force with all holding and with any one other lost, and how many times it could bear that.

    A spare that hangs slack bears nothing, any number of times; that its forces are numbers, `bolt_pull` looks after.
    """

    name: str
    at: At
    force_n: float
    ratio: float
    force_one_lost_n: float | None  # None where there is no other point
    ratio_one_lost: float | None


class AnchorLoads:
    """The anchor structures of one chain."""

    def __init__(self, geometry: Geometry) -> None:
        self.geometry, self.path = geometry, geometry.path

    def legs(self, anchor: Placed) -> Placed | None:
        """Return the spread of legs at an anchor, where there is one."""
        side = "a" if anchor is self.path.anchors[0] else "b"
        return next((placed for placed in self.path.on_side(side) if placed.part.part == "legs"), None)

    def points(self, anchor: Placed, tension_n: float, structure: str | None = None) -> list[PointLoad]:
        """Return every bolt of a structure that an anchor's line is tied to; of its own one if none is named.

        Raises:
            MissingInput: share, angle, or a bolt's strength, test or pull are not given.
        """
        name = structure or anchor.part.at or ""
        spot = self.path.rig.spot
        held = spot.anchors.get(name) if spot else None
        if held is None or held.kind != "bolts":
            return []
        forces, lost = self._shares(anchor, tension_n)
        ours = set(self.names(anchor, name))
        return [
            self._point((name, held), point, force, lost.get(point))
            for point, force in forces.items()
            if point in ours
        ]

    def names(self, anchor: Placed, structure: str | None = None) -> list[str]:
        """Return the points that an anchor's line is tied to, as its legs name them; the only one without legs.

        Of one structure only, where one is named.

        Raises:
            MissingInput: a leg does not say where it goes, or one of several points is meant.
        """
        legs, own = self.legs(anchor), self.path.structure(anchor)
        if legs is None:
            names = list(own.points) if own else []
            if len(names) != 1:
                at = self.geometry.on_spot("anchors", anchor.part.at or "", "points")
                spread = self.geometry.on_part(anchor, "legs")
                raise MissingInput(
                    unanswered(spread, NO_LEGS, SPREAD.format(anchor.part.at)) if names else at
                )
            return names
        entries = legs.part.legs or []
        named = [need(leg.to, self.geometry.on_part(legs, "legs", n, "to")) for n, leg in enumerate(entries)]
        targets = [leg_target(self.path, legs, leg) for leg in entries]
        return [
            self._only_point(target) if target.kind == "bolts" and to == target.anchor else to
            for to, target in zip(named, targets, strict=True)
            if structure in {None, target.anchor} or target.anchor is None
        ]

    def _only_point(self, target: Contact) -> str:
        """Return the only bolt of an anchor that a leg goes to; the anchor itself where it has several."""
        points = list(target.structure.points) if target.structure else []
        return points[0] if len(points) == 1 else str(target.anchor)

    def structures(self, anchor: Placed) -> list[str]:
        """Return every structure of the spot that an anchor's line is tied to: its own, and those of its legs."""
        legs = self.legs(anchor)
        own = anchor.part.at or anchor.id
        if legs is None:
            return [own]
        targets = [leg_target(self.path, legs, leg) for leg in legs.part.legs or []]
        return list(dict.fromkeys(target.anchor or own for target in targets)) or [own]

    def on_structure_n(self, anchor: Placed, structure: str, tension_n: float) -> float:
        """Return what a structure sees of the line's tension: all of it, or the sum of the legs that go there.

        A spare leg counts as if the first had gone: then it bears the line.

        Raises:
            MissingInput: share or angle of the legs are not given.
        """
        legs = self.legs(anchor)
        if legs is None or self.structures(anchor) == [structure]:
            return tension_n
        share: Share = need(legs.part.share, self.geometry.on_part(legs, "share"))
        angle = need(legs.part.included_angle, self.geometry.on_part(legs, "included_angle")).si
        entries = legs.part.legs or []
        forces = leg_forces_n(tension_n, len(entries), share, angle)
        targets = [leg_target(self.path, legs, leg).anchor or anchor.part.at for leg in entries]
        here = sum(force for force, target in zip(forces, targets, strict=True) if target == structure)
        return tension_n if share == "slack_spare" else min(here, tension_n)

    def _shares(self, anchor: Placed, tension_n: float) -> tuple[dict[str, float], dict[str, float]]:
        """Return the force on each point with all holding, and the worst with one lost."""
        legs = self.legs(anchor)
        names = self.names(anchor)
        if legs is None:
            return {names[0]: tension_n}, {}
        share: Share = need(legs.part.share, self.geometry.on_part(legs, "share"))
        angle = need(legs.part.included_angle, self.geometry.on_part(legs, "included_angle")).si
        forces = leg_forces_n(tension_n, len(names), share, angle)
        held = dict.fromkeys(names, 0.0)
        for name, force in zip(
            names, forces, strict=True
        ):  # two legs on one bolt pull no harder than the line
            held[name] = min(held[name] + force, tension_n)
        if len(held) == 1:
            return held, {}
        # With one gone the rest take over; of two the other carries all, spares come in by themselves.
        left = leg_forces_n(tension_n, len(held) - 1, share, angle)
        return held, dict.fromkeys(held, max(left))

    def _point(self, held: tuple[str, Anchor], name: str, force_n: float, lost_n: float | None) -> PointLoad:
        anchor, structure = held
        at = self.geometry.on_spot("anchors", anchor, "points", name)
        point = need(structure.points.get(name), at)
        use = self._use(point, at, force_n)
        lost = None if lost_n is None else self._use(point, at, lost_n)
        return PointLoad(name, at, force_n, _inverse(use), lost_n, None if lost is None else _inverse(lost))

    def _use(self, point: Point, at: At, force_n: float) -> float:
        """Return the share of a bolt's strength that a force uses; an unmarked, untested bolt is not credited."""

        def field(name: str) -> At:
            return At(at.document, (*at.key, name), at.part)

        if point.standard is None and point.tested is None:
            raise MissingInput(field("tested"))
        need_all((point.radial, field("radial")), (point.pull_from_radial, field("pull_from_radial")))
        angle = need(point.pull_from_radial, field("pull_from_radial")).si
        radial = need(point.radial, field("radial")).si
        axial = point.axial.si if point.axial else None
        if axial is None and angle > 0.0:
            raise MissingInput(field("axial"))
        # Pulled straight across nothing goes along the bolt, so that its strength along it can be any.
        return bolt_use(bolt_pull(force_n, angle), radial_strength_n=radial, axial_strength_n=axial or radial)

    def resistance_n(self, name: str, structure: Anchor | None, uplift_n: float) -> float | None:
        """Return the pull at which a boulder slides, or that a ground anchor or structure was tested or designed for.

        None for trees and bolts, which are judged otherwise.

        Raises:
            MissingInput: mass, friction, or the tested value are not given.
        """
        if structure is None or structure.kind in {"tree", "bolts"}:
            return None

        def field(key: str) -> At:
            return self.geometry.on_spot("anchors", name, key)

        if structure.kind == "boulder":
            need_all((structure.mass, field("mass")), (structure.friction, field("friction")))
            mass = need(structure.mass, field("mass")).si
            return boulder_resistance_n(mass, need(structure.friction, field("friction")), uplift_n)
        if structure.kind == "structure" and structure.design_force is not None:
            return structure.design_force.si
        return need(structure.tested_force, field("tested_force")).si


def _inverse(use: float) -> float:
    return 1.0 / use if use > 0.0 else float("inf")
