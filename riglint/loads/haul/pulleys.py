"""The haul: strand forces, what the crew can reach, rope, holding, and letting down to zero."""

from __future__ import annotations

from typing import Literal

from riglint.loadpath import Placed
from riglint.loads.inputs import At, need, within_range
from riglint.loads.path.geometry import Geometry
from riglint.loads.states.standing import Standing, rest_of
from riglint.mechanics.rope.friction import hold_force_n, turns_to_hold
from riglint.mechanics.rope.tackle import HaulForces, StrandForces, hand_needed, hauled, strand_forces
from riglint.mechanics.span.line import hang
from riglint.mechanics.valid_range import Numbers
from riglint.model.documents.gear import Gear
from riglint.model.documents.parts import Part
from riglint.model.library import Item
from riglint.model.reads import computed
from riglint.model.values.knots import KNOTS
from riglint.records import dataclass


@dataclass(frozen=True, slots=True)
class Efficiency(Numbers):
    """Share of the tension that comes out of one sheave: low end, usual, high end."""

    low: float
    usual: float
    high: float


class Haul:
    """A rope pulley system in the chain, computed from what the files say of it."""

    def __init__(self, geometry: Geometry, placed: Placed) -> None:
        self.geometry, self.placed = geometry, placed
        self.part: Part = placed.part
        self.values = geometry.values

    def on(self, *key: str | int) -> At:
        """Return a place inside the haul."""
        return self.geometry.on_part(self.placed, *key)

    def gear(self, name: str | None, *key: str) -> Item:
        """Return gear of the haul by the name at a key.

        Raises:
            MissingInput: the file names none.
        """
        item = self.geometry.rig.items.get(need(name, lambda: self.on(*key)))
        return need(item, lambda: self.on(*key))

    @property
    def strands(self) -> int:
        """Strands that carry the moving block."""
        return need(self.part.strands, lambda: self.on("strands"))

    @property
    def multiplier(self) -> int:
        """Ratio of the multiplier; 1 where there is none."""
        tackle = self.part.multiplier
        return need(tackle.ratio, lambda: self.on("multiplier", "ratio")) if tackle else 1

    @property
    def dead_end_on(self) -> Literal["moving", "fixed"]:
        """The block that the rope ends on: an odd number of strands ends on the moving block."""
        return "moving" if self.strands % 2 else "fixed"

    @property
    def sheaves_needed(self) -> tuple[int, int]:
        """Sheaves that the strands need on the moving and on the fixed block.

        The lead comes off the moving block. Each of its sheaves brings two strands, a dead end one more;
        the fixed block turns every strand but the lead and the dead end, in pairs.
        """
        return self.strands // 2, (self.strands - 1) // 2

    @property
    def multiplier_sheaves_needed(self) -> int:
        """Sheaves that the multiplier needs on the pulley at its grip: each brings two of its strands."""
        return self.multiplier // 2

    # Friction

    @computed
    def sheaves(self) -> Efficiency:
        """Efficiency of the blocks: as measured on this haul, else the worse of the two."""
        if self.part.efficiency is not None:
            return Efficiency(self.part.efficiency, self.part.efficiency, self.part.efficiency)
        blocks = [self.gear(getattr(self.part, name), name) for name in ("moving_block", "fixed_block")]
        found = [
            self._of_pulley(item, name)
            for item, name in zip(blocks, ("moving_block", "fixed_block"), strict=True)
        ]
        return min(found, key=lambda one: one.usual)

    @computed
    def multiplier_sheave(self) -> Efficiency:
        """Efficiency of the multiplier's pulley; of the blocks where it names none."""
        tackle = self.part.multiplier
        if tackle is None or tackle.pulley is None:
            return self.sheaves
        return self._of_pulley(self.gear(tackle.pulley, "multiplier", "pulley"), "multiplier.pulley")

    def _of_pulley(self, item: Item, name: str) -> Efficiency:
        gear: Gear = item.gear
        if gear.efficiency is not None:
            return Efficiency(gear.efficiency, gear.efficiency, gear.efficiency)
        at = At(item.document, (*item.key, "bearing"), f"{self.placed.id}.{name}")
        bearing = need(gear.bearing, at) if gear.kind == "pulley" else "none"
        low, usual, high = (self.values[f"sheave.{bearing}{end}"] for end in ("_low", "", "_high"))
        return Efficiency(low, usual, high)

    # Forces

    @within_range("the pulley system")
    def at_rest(self, tension_n: float) -> StrandForces:
        """Return the strands at a line tension, as they stand after hauling."""
        # The poorest sheaves leave the lead tightest.
        return strand_forces(
            tension_n, self.strands, self.sheaves.low, lowering=False, dead_end_on=self.dead_end_on
        )

    @within_range("the pulley system")
    def let_down(self, tension_n: float) -> StrandForces:
        """Return the strands at a line tension, as they stand while lowering or after it."""
        # And after lowering they leave the dead end tightest.
        return strand_forces(
            tension_n, self.strands, self.sheaves.low, lowering=True, dead_end_on=self.dead_end_on
        )

    @within_range("the pulley system")
    def _pulled(self, line_n: float, blocks: float, multiplier: float) -> HaulForces:
        return hand_needed(
            line_n,
            self.strands,
            self.multiplier,
            efficiency=blocks,
            multiplier_efficiency=multiplier,
            brake_efficiency=self.values["brake_redirect"],
            multiplier_on=self._multiplier_on(),
        )

    def _multiplier_on(self) -> Literal["lead", "tail"]:
        tackle = self.part.multiplier
        return tackle.strand if tackle is not None and tackle.strand is not None else "lead"

    def to_reach(self, line_n: float) -> HaulForces:
        """Return the forces while hauling to a line tension, at the usual efficiency."""
        return self._pulled(line_n, self.sheaves.usual, self.multiplier_sheave.usual)

    def to_reach_at_worst(self, line_n: float) -> HaulForces:
        """Return the same at the low end of the efficiencies: what the crew must be able to pull."""
        return self._pulled(line_n, self.sheaves.low, self.multiplier_sheave.low)

    def overshoot(self) -> HaulForces:
        """Return what the crew could reach with all that it can keep up, at the high end of the efficiencies.

        Raises:
            MissingInput: the plan does not say how many haul.
        """
        plan = self.geometry.rig.rig.plan
        planned = plan.crew.pull_each if plan and plan.crew else None
        each = max(planned.si if planned else 0.0, self.values["overshoot_pull"])
        return self._pulled_with(each * self.haulers)

    def heave(self) -> HaulForces:
        """Return what the crew could reach heave by heave, each pulling as hard as it can for a moment.

        Raises:
            MissingInput: the plan does not say how many haul.
        """
        return self._pulled_with(self.values["heave_pull"] * self.haulers)

    def one_heave_n(self, standing: Standing) -> float:
        """Return the line tension (N) after one heave past the standing tension: by force or by stroke, the less.

        Raises:
            MissingInput: the plan does not say how many haul.
        """
        # Friction costs force and no way: the hands move n·m times as far as the line comes in.
        taken_in_m = self.values["heave_stroke"] / (self.strands * self.multiplier)
        side = self.geometry.path.side(self.placed)
        rest = rest_of(hang(standing.with_longer_reach(side, -taken_in_m)))
        return min(self.heave().line_n, rest.tension_a_n if side == "a" else rest.tension_b_n)

    @property
    def haulers(self) -> int:
        """People who haul.

        Raises:
            MissingInput: the plan does not say how many.
        """
        plan = self.geometry.rig.rig.plan
        crew = plan.crew if plan else None
        return need(
            crew.haulers if crew else None, At(self.geometry.rig.document, ("plan", "crew", "haulers"))
        )

    @within_range("the pulley system")
    def _pulled_with(self, hand_n: float) -> HaulForces:
        """Return what hands reach together at the high end of all efficiencies, the brake's too."""
        return hauled(
            hand_n,
            self.strands,
            self.multiplier,
            efficiency=self.sheaves.high,
            multiplier_efficiency=self.multiplier_sheave.high,
            brake_efficiency=self.values["brake_redirect_high"],
            multiplier_on=self._multiplier_on(),
        )

    # Rope

    def rope_in_blocks_m(self, blocks_m: float) -> float:
        """Return the rope between blocks so far apart, with what the blocks and the brake take."""
        return self.strands * blocks_m + self.values["reeving"]

    def behind_brake_m(self, blocks_m: float) -> float:
        """Return the rope behind the brake, computed from its whole length.

        Raises:
            MissingInput: the rope's length is not given.
        """
        rope = self.part.rope
        length = need(rope.length if rope else None, self.on("rope", "length")).si
        return length - self.rope_in_blocks_m(blocks_m)

    @property
    def stopper_holds(self) -> bool | None:
        """Whether the knot behind the brake stops the rope; None where the file does not say which it is."""
        tail = self.part.rope_tail
        stops = "not known" if tail is None or tail.stopper is None else KNOTS[tail.stopper].behind_brake
        return None if stops == "not known" else stops == "stops"

    def slip_m(self, blocks_m: float | None) -> float | None:
        """Return how far the rope can run through the brake to its stopper; None where nothing holds it.

        Raises:
            MissingInput: stopper, its place or the tail are not given.
        """
        tail = need(self.part.rope_tail, self.on("tail"))
        need(tail.stopper, self.on("tail", "stopper"))
        if self.stopper_holds:
            return need(tail.stopper_at, self.on("tail", "stopper_at")).si
        if not need(tail.tied_off, self.on("tail", "tied_off")):
            return None
        left = need(tail.left, self.on("tail", "left")).si
        reach = tail.stopper_at.si if tail.stopper_at else 0.0
        behind = self.behind_brake_m(blocks_m) if blocks_m is not None and self.part.rope else reach + left
        # No more can run than the rope has behind the brake, whatever tail the file claims.
        return min(reach + left, behind)

    def to_anchor_m(self, blocks_m: float) -> float:
        """Return the way from the webbing side of the haul to the face of its anchor, the blocks so far apart."""
        path, geometry = self.geometry.path, self.geometry
        n, side = path.number(self.placed), path.side(self.placed)
        behind = [
            one
            for one in path.on_side(side)
            if (path.number(one) < n) == (side == "a") and one is not self.placed
        ]
        return blocks_m + geometry.reach_m(self.placed) + sum(geometry.reach_m(one) for one in behind)

    # Lowering

    @within_range("the pulley system")
    def hold_n(self, tension_n: float) -> float:
        """Return what the hand on the tail must hold while lowering.

        While the rope runs out friction only helps, so the lead carries at most its share T/n.

        Raises:
            MissingInput: the plan does not say how many turns.
        """
        plan = self.geometry.rig.rig.plan
        turns = need(
            plan.tail_wraps if plan else None, At(self.geometry.rig.document, ("plan", "tail_wraps"))
        )
        return hold_force_n(
            tension_n / self.strands, self.values["brake_holding"], self.values["bark_holds"], turns
        )

    @within_range("the pulley system")
    def turns_to_hold(self, tension_n: float, hand_n: float) -> float:
        """Return the turns of the tail round the trunk with which a hand of that force holds the line."""
        lead_n = tension_n / self.strands
        return turns_to_hold(lead_n, hand_n, self.values["brake_holding"], self.values["bark_holds"])
