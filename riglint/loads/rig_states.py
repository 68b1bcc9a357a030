"""The line and the states of one rig, each computed when it is first asked for."""

from __future__ import annotations

from datetime import date
from functools import cached_property

from riglint.loadpath import LoadPath
from riglint.loads.geometry import G, Geometry
from riglint.loads.haul import Haul
from riglint.loads.inputs import At, MissingInput, NotComputable, need
from riglint.loads.measured import Reading, reading
from riglint.loads.parts import PEAKS
from riglint.loads.standing import Standing, stand, tension_for_sag_target, tension_n
from riglint.loads.standing_from import standing_reading
from riglint.loads.states import State, Sweep, after_slip, masses_kg, planned_states
from riglint.model.policy import Values
from riglint.model.sources import OWN, PRACTICE

NO_LEASH = "nobody wears a leash, so there is no fall on it"


class RigStates:
    """What the line of one rig goes through."""

    def __init__(self, path: LoadPath, values: Values, on: date) -> None:
        self.path, self.values, self.on = path, values, on
        self.geometry = Geometry(path, values)

    @cached_property
    def standing(self) -> Standing:
        """The line with nobody on it.

        Raises:
            MissingInput, NotComputable: see `riglint.loads.standing.stand`.
        """
        read = self.tension_reading
        return stand(self.geometry, read.tension_n if read else None)

    @cached_property
    def tension_reading(self) -> Reading | None:
        """The reading that the standing tension is taken from; None where the plan gives it.

        Raises:
            MissingInput, NotComputable: see `riglint.loads.measured.standing_reading`.
        """
        return standing_reading(self.geometry, self.on)

    @cached_property
    def sweep(self) -> Sweep:
        """Users moved along the line."""
        return Sweep(self.geometry, self.standing)

    @cached_property
    def haul(self) -> Haul | None:
        """The haul, where the chain has one that the load runs through."""
        placed = self.path.haul
        return Haul(self.geometry, placed) if placed is not None else None

    @cached_property
    def standing_tension_n(self) -> float:
        """The standing tension at the end that the plan means."""
        rest = self.standing.equilibrium
        return rest.tension_a_n if self.standing.at == "a" else rest.tension_b_n

    @cached_property
    def planned_tension_n(self) -> float:
        """The standing tension that the rig is judged at, which needs no computing where the plan states it.

        As planned; as read on site where the plan says `standing_from: measured`.
        """
        read = self.tension_reading
        return read.tension_n if read else self.tension_in_plan_n

    @cached_property
    def tension_in_plan_n(self) -> float:
        """The standing tension as planned, whatever was read on site."""
        try:
            return tension_n(self.geometry)
        except MissingInput:
            meant = tension_for_sag_target(self.geometry) if self.tension_reading else None
            plan = self.path.rig.rig.plan
            if meant is not None:
                return meant
            if plan is None or plan.sag_target is None:
                raise
            return self.standing_tension_n

    def sag_target_tension_n(self) -> float | None:
        """Return the standing tension that the plan's sag target means; None without a target."""
        return tension_for_sag_target(self.geometry)

    def reading(self, number: int) -> Reading:
        """Return one entry of `measured` as a standing tension; see `riglint.loads.measured.reading`."""
        return reading(self.geometry, self.standing, self.haul, number)

    @cached_property
    def standing_state(self) -> State:
        """The state with nobody on the line."""
        return self.sweep.standing_state()

    @cached_property
    def _planned(self) -> dict[str, State]:
        plan = self.path.rig.rig.plan
        moves = plan.moves if plan else ["walk"]
        return {state.name: state for state in planned_states(self.sweep, moves)}

    @cached_property
    def leash_fall(self) -> State:
        """A fall on the leash.

        Raises:
            NotComputable: nobody wears one.
            MissingInput: how far the user hangs, or who they are, is not given.
        """
        hang, give = self._leash()
        return self.sweep.leash_fall(masses_kg(self.geometry)[0], hang, give)

    def _leash(self) -> tuple[float, float]:
        """Return how far the user hangs below the line, in m, and the leash's give, in m/N."""
        leash, document = self.path.rig.rig.leash, self.path.rig.document
        if leash is None:
            raise NotComputable(NO_LEASH)
        hang = need(leash.hang, At(document, ("leash", "hang"), "leash")).si
        item = self.path.rig.items.get(leash.gear or "")
        stretch = item.gear.stretch_per_kn if item else None
        return hang, hang * stretch.si / 1000.0 if stretch else 0.0

    @cached_property
    def wind_state(self) -> State:
        """The bare line in the strongest wind of the plan.

        Raises:
            MissingInput: wind or webbing width are not given.
        """
        plan = self.path.rig.rig.plan
        wind = need(plan.wind if plan else None, At(self.path.rig.document, ("plan", "wind")))
        sweep = self.sweep  # a chain that is broken has none
        placed = self.path.webbings[0]
        item = need(placed.item, self.geometry.on_part(placed, "gear"))
        return sweep.in_wind(wind.si, need(item.gear.width, self.geometry.on_item(item, "width", placed)).si)

    @cached_property
    def brake_slip(self) -> State:
        """The line after its rope has run through the brake."""
        haul = self._haul_in_chain("brake_slip")
        slip = haul.slip_m(self.standing.blocks_m)
        return after_slip(self.sweep, slip, haul.strands, masses_kg(self.geometry)[0] * G)

    @cached_property
    def haul_state(self) -> State:
        """What the crew could reach in a heave."""
        forces = self._haul_in_chain("haul").overshoot()
        words = "the crew heaves as hard as it can"
        return State("haul", words, OWN, None, forces.line_n, forces.line_n, forces.line_n)

    @cached_property
    def lowering_state(self) -> State:
        """The line at standing tension while it is let down."""
        self._haul_in_chain("lowering")
        tension = self.planned_tension_n
        words = "let down from the standing tension, friction helping"
        return State("lowering", words, PRACTICE, None, tension, tension, tension)

    def _haul_in_chain(self, state: str) -> Haul:
        if self.haul is None:
            raise NotComputable(f"the rig has no haul, so there is no state {state}")
        return self.haul

    def state(self, name: str) -> State:
        """Return a state by name.

        Raises:
            MissingInput, NotComputable: it cannot be computed.
            KeyError: it is not planned.
        """
        single = {
            "standing": "standing_state",
            "leash_fall": "leash_fall",
            "brake_slip": "brake_slip",
            "haul": "haul_state",
            "lowering": "lowering_state",
            "wind": "wind_state",
        }
        if name in single:
            state: State = getattr(self, single[name])
            return state
        return self._planned[name]

    def peaks(self) -> list[State]:
        """Return the states whose force parts must bear many times over."""
        return [state for state in self.people() if state.name in PEAKS]

    def people(self) -> list[State]:
        """Return the states that people on the line cause, walker first."""
        leashed = [self.leash_fall] if self.path.rig.rig.leash is not None else []
        return [*self._planned.values(), *leashed]

    def growth(self, state: State) -> float:
        """Return how much longer the webbing is in a state than with nobody on it, as a share of that; the greatest."""
        standing = self.standing.equilibrium.stretched_m
        return max(rest.stretched_m for rest in state.positions) / standing - 1.0

    def haul_tension_n(self, state: State) -> float:
        """Return the tension that the haul sees in a state, N."""
        side = self.path.side(self.path.haul) if self.path.haul else "line"
        return {"a": state.tension_a_n, "b": state.tension_b_n}.get(side, state.tension_n)
