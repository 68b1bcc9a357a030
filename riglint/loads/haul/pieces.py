"""The pieces of a haul that stays in the chain: blocks, rope, plate, dead end, brake and multiplier."""

from __future__ import annotations

from collections.abc import Callable

from riglint.loadpath import Placed
from riglint.loads.haul.pulleys import Haul
from riglint.loads.inputs import At, need
from riglint.loads.path.geometry import Geometry
from riglint.loads.path.parts import PartLoad, strength_class
from riglint.loads.states.state_kinds import RatioKind
from riglint.loads.strength.strength import Strength
from riglint.loads.strength.strengths import Strengths
from riglint.model.documents.parts import Part
from riglint.model.library import Item

# The multiplier is off when people walk, so it sees the haul alone.
HAUL_ONLY: tuple[RatioKind, ...] = ("overshoot",)


class HaulPieces:
    """Lists the pieces of one haul."""

    def __init__(self, geometry: Geometry, haul: Haul, placed: Placed) -> None:
        self.geometry, self.haul, self.placed = geometry, haul, placed
        self.part: Part = placed.part
        self.strengths = Strengths(geometry)

    def all(self) -> list[PartLoad]:
        """Return every piece that carries load, in order."""
        part = self.part
        found = [
            self._piece("moving_block", part.moving_block, "metal", _whole),
            # It bears T less the lead, so most where the lead bears least: after lowering.
            self._piece(
                "fixed_block", part.fixed_block, "metal", lambda t: self.haul.let_down(t).fixed_block_n
            ),
            self._piece("rope", part.rope.gear if part.rope else None, "rope", self._lead, ("rope", "gear")),
            self._piece("plate", part.plate, "metal", _whole),
            *self._dead_end(),
            *self._brake(),
            *self._multiplier(),
        ]
        return [load for load in found if load.gear is not None or load.part != "plate"]

    def _dead_end(self) -> list[PartLoad]:
        end = self.part.rope.dead_end if self.part.rope else None
        if end is None:
            return []
        key = ("rope", "dead_end", "by")
        # Lowering leaves the dead end the tightest of all strands.
        return [self._piece("dead_end", end.by, "metal", lambda t: self.haul.let_down(t).dead_end_n, key)]

    def _brake(self) -> list[PartLoad]:
        brake = self.part.brake
        if brake is None:
            return []
        return [
            self._piece("brake", brake.gear, "brake", self._lead, ("brake", "gear")),
            self._piece("brake_connector", brake.connector, "metal", self._lead, ("brake", "connector")),
        ]

    def _multiplier(self) -> list[PartLoad]:
        tackle, found = self.part.multiplier, []
        for name in ("pulley", "connector") if tackle is not None else ():
            key = ("multiplier", name)
            piece = self._piece(f"multiplier.{name}", getattr(tackle, name), "metal", self._grip, key)
            piece.only_in = HAUL_ONLY
            found.append(piece)
        return found

    def _lead(self, line_n: float) -> float:
        """Return the force in the lead strand as it stands after hauling."""
        return self.haul.at_rest(line_n).lead_n

    def _grip(self, line_n: float) -> float:
        """Return the pull of the multiplier while the line is hauled to a tension."""
        return self.haul.to_reach(line_n).grip_n

    def _piece(
        self,
        name: str,
        gear: str | None,
        kind: str,
        force_of: Callable[[float], float],
        key: tuple[str, ...] | None = None,
    ) -> PartLoad:
        path, placed = key or (name,), self.placed
        words = f"{name.replace('_', ' ').replace('.', ' ')} {gear or ''}".strip()
        at = At(self.geometry.rig.document, (*placed.key, *path), f"{placed.id}.{name}")
        item = self.geometry.rig.items.get(gear or "")
        chosen = strength_class("connector", item) if name.endswith("connector") else kind
        chosen = "metal" if chosen == "aluminium" else chosen  # it carries one strand, not the line
        return PartLoad(
            f"{placed.id}.{name}",
            name,
            words,
            gear,
            at,
            chosen,
            self.geometry.path.side(placed),
            lambda: self._strength(name, item, at),
            force_of,
        )

    def _strength(self, name: str, item: Item | None, at: At) -> Strength:
        found = need(item, at)
        if name != "rope":
            return self.strengths.of_gear(found, at.part or name)
        end = self.part.rope.dead_end if self.part.rope else None
        ends = need(end.ends if end else None, self.haul.on("rope", "dead_end", "ends"))
        return self.strengths.of_rope(found, ends, at.part or name)


def _whole(tension_n: float) -> float:
    """Return the force of a piece that carries the whole line."""
    return tension_n
