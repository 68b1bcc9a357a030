"""Force against strength, part by part: everything that carries the line, the haul's pieces one by one."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from riglint.loadpath import SPANNING, Placed
from riglint.loads.geometry import Geometry
from riglint.loads.haul import Haul
from riglint.loads.inputs import At, MissingInput, need
from riglint.loads.states import State
from riglint.loads.strength import Strength, Strengths
from riglint.mechanics.bolts import leg_forces_n
from riglint.model.library import Item
from riglint.model.policy import Values
from riglint.model.ratios import PEAK, Required
from riglint.model.words import Consequence, Share

# States whose force a part must bear many times over.
PEAKS = ("bounce", "surf", "jump", "leash_fall", "crowd")
# The multiplier is off when people walk, so it sees the haul alone.
HAUL_ONLY = ("haul",)


@dataclass(frozen=True, slots=True)
class Worst:
    """The state in which a part has the least to spare."""

    state: str
    force_n: float
    ratio: float


@dataclass(slots=True)
class PartLoad:
    """One part that carries load, with its strength in place and its force in every state."""

    id: str
    part: str  # its kind, as the file names it; of a piece of the haul the piece
    words: str
    gear: str | None
    at: At  # where the rig names it
    strength_class: str  # row of the table of required ratios
    end: str  # a, b: the end whose tension it bears; line: the greatest anywhere
    find_strength: Callable[[], Strength]
    force_of: Callable[[float], float] = field(default=lambda tension_n: tension_n)
    only_in: tuple[str, ...] | None = None
    states: dict[str, State] = field(default_factory=dict)
    values: Values = field(default_factory=Values)
    row: str | None = None  # row of required ratios, where its place rather than its kind decides
    _strength: Strength | None = None

    @property
    def strength(self) -> Strength:
        """Its strength in place.

        Raises:
            MissingInput: something that it rests on is not given.
        """
        if self._strength is None:
            self._strength = self.find_strength()
        return self._strength

    def force_n(self, state: State) -> float | None:
        """Return its force in a state; None where it carries nothing then."""
        if self.only_in is not None and state.name not in self.only_in:
            return None
        tension = {"a": state.tension_a_n, "b": state.tension_b_n}.get(self.end, state.tension_n)
        return self.force_of(tension)

    def ratio(self, state: State) -> float | None:
        """Return strength over force in a state."""
        force = self.force_n(state)
        return None if not force else self.strength.strength_n / force

    def worst(self, states: list[State]) -> Worst | None:
        """Return the state among these with the least ratio; None where it carries nothing in any."""
        found = []
        for state in states:
            force = self.force_n(state)
            if force:
                found.append(Worst(state.name, force, self.strength.strength_n / force))
        return min(found, key=lambda worst: worst.ratio, default=None)

    @property
    def required(self) -> Required:
        """The ratios asked of its class."""
        return PEAK[self.row or self.strength_class]

    def required_at(self, consequence: Consequence) -> float | None:
        """Return the ratio asked of it at a consequence class."""
        return self.values.required(self.row or self.strength_class, consequence)

    @property
    def metal(self) -> bool:
        """Whether it is metal rather than textile."""
        return self.strength_class in {"metal", "aluminium", "brake"}


class PartLoads:
    """Lists the parts of one rig."""

    def __init__(self, geometry: Geometry, haul: Haul | None) -> None:
        self.geometry, self.haul = geometry, haul
        self.strengths = Strengths(geometry)

    def all(self) -> list[PartLoad]:
        """Return every part that carries load, in order."""
        found: list[PartLoad] = []
        for placed in self.geometry.path.carrying:
            if placed.part.part == "haul":
                found += self._of_haul(placed)
            elif placed.part.part == "legs":
                found += self._of_legs(placed)
            else:
                found += self._of_part(placed)
        for load in found:
            load.values = self.geometry.values
        return found

    def _end(self, placed: Placed) -> str:
        side = self.geometry.path.side(placed)
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
            for inner in leg:
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
        share: Share = need(placed.part.share, self.geometry.on_part(placed, "share"))
        angle = need(placed.part.included_angle, self.geometry.on_part(placed, "included_angle"))
        return leg_forces_n(tension_n, len(placed.part.legs or []), share, angle.si)[leg]

    # The haul

    def _of_haul(self, placed: Placed) -> list[PartLoad]:
        part, haul = placed.part, self.haul
        if not part.stays:
            return [load for one in self._made_fast(placed) for load in self._of_part(one)]
        if haul is None:
            return []
        found = [
            self._piece(placed, "moving_block", part.moving_block, "metal", force_of=_whole),
            self._piece(
                placed,
                "fixed_block",
                part.fixed_block,
                "metal",
                force_of=lambda t: haul.let_down(t).fixed_block_n,
            ),
            *self._of_rope(placed, haul),
            self._piece(placed, "plate", part.plate, "metal", force_of=_whole),
            *self._of_dead_end(placed, haul),
            *self._of_brake(placed, haul),
            *self._of_multiplier(placed),
        ]
        return [
            load for load in found if load.gear is not None or load.part not in {"plate", "brake_connector"}
        ]

    def _of_rope(self, placed: Placed, haul: Haul) -> list[PartLoad]:
        rope = placed.part.rope
        gear, key = rope.gear if rope else None, ("rope", "gear")
        return [self._piece(placed, "rope", gear, "rope", force_of=lambda t: haul.at_rest(t).lead_n, key=key)]

    def _of_dead_end(self, placed: Placed, haul: Haul) -> list[PartLoad]:
        end = placed.part.rope.dead_end if placed.part.rope else None
        if end is None or end.by is None:
            return []
        key = ("rope", "dead_end", "by")
        return [
            self._piece(
                placed, "dead_end", end.by, "metal", force_of=lambda t: haul.let_down(t).dead_end_n, key=key
            )
        ]

    def _of_brake(self, placed: Placed, haul: Haul) -> list[PartLoad]:
        brake = placed.part.brake
        if brake is None:
            return []

        def lead_n(tension_n: float) -> float:
            return haul.at_rest(tension_n).lead_n

        return [
            self._piece(placed, "brake", brake.gear, "brake", force_of=lead_n, key=("brake", "gear")),
            self._piece(
                placed,
                "brake_connector",
                brake.connector,
                "metal",
                force_of=lead_n,
                key=("brake", "connector"),
            ),
        ]

    def _of_multiplier(self, placed: Placed) -> list[PartLoad]:
        tackle, found = placed.part.multiplier, []
        for name in ("pulley", "connector") if tackle is not None else ():
            gear = getattr(tackle, name)
            if gear is not None:
                key = ("multiplier", name)
                piece = self._piece(placed, f"multiplier.{name}", gear, "metal", force_of=self._grip, key=key)
                piece.only_in = HAUL_ONLY
                found.append(piece)
        return found

    def _grip(self, line_n: float) -> float:
        """Return the pull of the multiplier while the line is hauled to a tension."""
        assert self.haul is not None  # noqa: S101 - for the type checker
        return self.haul.to_reach(line_n).grip_n

    def _made_fast(self, placed: Placed) -> tuple[Placed, ...]:
        parts = self.geometry.path.made_fast(placed)
        if not parts:
            raise MissingInput(self.geometry.on_part(placed, "made_fast"))
        return parts

    def _piece(
        self,
        placed: Placed,
        name: str,
        gear: str | None,
        kind: str,
        *,
        force_of: Callable[[float], float],
        key: tuple[str, ...] | None = None,
    ) -> PartLoad:
        path = key or (name,)
        words = f"{name.replace('_', ' ').replace('.', ' ')} {gear or ''}".strip()
        end = self.geometry.path.side(placed)
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
            end,
            lambda: self._strength(name, item, at),
            force_of,
        )

    def _strength(self, name: str, item: Item | None, at: At) -> Strength:
        found = need(item, at)
        if name != "rope":
            return self.strengths.of_gear(found, at.part or name)
        assert self.haul is not None  # noqa: S101 - for the type checker
        rope = self.haul.part.rope
        end = rope.dead_end if rope else None
        ends = need(end.ends if end else None, self.haul.on("rope", "dead_end", "ends"))
        return self.strengths.of_rope(found, ends, at.part or name)


def _whole(tension_n: float) -> float:
    """Return the force of a piece that carries the whole line."""
    return tension_n


def strength_class(kind: str, item: Item | None) -> str:
    """Return the row of required ratios that a part falls under."""
    tackle = (
        kind == "puller" and item is not None and item.gear.form == "webbing_tackle"
    )  # webbing over rings
    if tackle or kind in {"webbing", "sewn_end", "webbing_knot", "webbing_join"}:
        return "webbing"
    if kind in {"rope", "rope_knot"}:
        return "rope"
    if kind == "sling":
        return "textile"
    if kind == "connector" and item is not None and item.gear.material == "aluminium":
        return "aluminium"
    return "metal"
