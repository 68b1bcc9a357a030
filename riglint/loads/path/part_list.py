"""Every part that carries the line, in order: the chain, the legs of a spread, the pieces of a haul."""

from __future__ import annotations

from riglint.loadpath import IDLE, SPANNING, Placed
from riglint.loads.haul.pieces import HAUL_ONLY, HaulPieces
from riglint.loads.haul.pulleys import Haul
from riglint.loads.inputs import MissingInput, need
from riglint.loads.path.geometry import Geometry
from riglint.loads.path.parts import PartLoad, strength_class
from riglint.loads.strength.strengths import Strengths
from riglint.mechanics.anchors.bolts import leg_forces_n
from riglint.model.vocabulary.words import Share


class PartList:
    """Lists the parts of one rig."""

    def __init__(self, geometry: Geometry, haul: Haul | None) -> None:
        self.geometry, self.haul = geometry, haul
        self.strengths = Strengths(geometry)

    def all(self) -> list[PartLoad]:
        """Return every part that carries load, in order."""
        found: list[PartLoad] = []
        for placed in self.geometry.path.carrying:
            if placed.part.part == "haul" and not placed.part.stays:
                found += [load for one in self._made_fast(placed) for load in self._of_part(one)]
                found += self._while_hauling(placed)
            elif placed.part.part == "haul":
                found += [] if self.haul is None else HaulPieces(self.geometry, self.haul, placed).all()
            elif placed.part.part == "legs":
                found += self._of_legs(placed)
            else:
                found += self._of_part(placed)
        for load in found:
            load.values = self.geometry.values
        return found

    def _while_hauling(self, placed: Placed) -> list[PartLoad]:
        """Return the pieces of a haul that comes off again: they see the heave, and nobody on the line."""
        pieces = [] if self.haul is None else HaulPieces(self.geometry, self.haul, placed).all()
        for piece in pieces:
            piece.only_in = HAUL_ONLY
        return pieces

    def _end(self, placed: Placed) -> str:
        side = self.geometry.path.side(placed)
        # Webbing bears the greatest tension anywhere along it, a part at one end what arrives there.
        return side if side in {"a", "b"} and placed.part.part not in SPANNING else "line"

    def _of_part(self, placed: Placed) -> list[PartLoad]:
        kind, find = placed.part.part, lambda: self.strengths.of_part(placed)
        load = PartLoad(
            placed.id,
            kind,
            placed.words,
            placed.part.gear,
            self.geometry.on_part(placed),
            strength_class(kind, placed.item),
            self._end(placed),
            find,
        )
        if kind != "webbing_anchor":
            return [load]
        inside = PartLoad(
            placed.id,
            "webbing",
            f"webbing inside {placed.words}",
            self._webbing_beside(placed),
            self.geometry.on_part(placed),
            "webbing",
            load.end,
            lambda: self.strengths.in_webbing_anchor(placed),
        )
        return [load, inside]

    def _webbing_beside(self, placed: Placed) -> str | None:
        return next((one.part.gear for one in self.geometry.path.spanning_beside(placed)), None)

    def _of_legs(self, placed: Placed) -> list[PartLoad]:
        found: list[PartLoad] = []
        for m, leg in enumerate(self.geometry.path.leg_runs(placed)):
            for inner in (one for one in leg if one.part.part not in IDLE):
                load = PartLoad(
                    inner.id,
                    inner.part.part,
                    inner.words,
                    inner.part.gear,
                    self.geometry.on_part(inner),
                    strength_class(inner.part.part, inner.item),
                    self._end(placed),
                    lambda inner=inner: self.strengths.of_part(inner),  # type: ignore[misc]
                    lambda tension, m=m: self._leg_force(placed, m, tension),  # type: ignore[misc]
                )
                found.append(load)
        return found

    def _leg_force(self, placed: Placed, leg: int, tension_n: float) -> float:
        share: Share = need(placed.part.share, lambda: self.geometry.on_part(placed, "share"))
        angle = need(placed.part.included_angle, lambda: self.geometry.on_part(placed, "included_angle"))
        return leg_forces_n(tension_n, len(placed.part.legs or []), share, angle.si)[leg]

    def _made_fast(self, placed: Placed) -> tuple[Placed, ...]:
        parts = self.geometry.path.made_fast(placed)
        if not parts:
            raise MissingInput(self.geometry.on_part(placed, "made_fast"))
        return parts
