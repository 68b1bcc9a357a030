"""The line and the states of one rig, each computed when it is first asked for."""

from __future__ import annotations

from datetime import date

from riglint.loadpath import LoadPath
from riglint.loads.haul.puller import Puller
from riglint.loads.haul.pulleys import Haul
from riglint.loads.inputs import At, MissingInput, NotComputable, known, need
from riglint.loads.measure.measured import Reading, reading
from riglint.loads.measure.standing_from import standing_reading
from riglint.loads.path.geometry import Geometry
from riglint.loads.states.backup import BackupLine
from riglint.loads.states.brake_slip import after_slip
from riglint.loads.states.line import Band, State, force_state
from riglint.loads.states.load_case import Alongside, LoadCase
from riglint.loads.states.standing import Standing, planned_standing_tension_n, stand, tension_for_sag_target
from riglint.loads.states.sweep import Sweep
from riglint.loads.states.tie_back import TieBackLine
from riglint.mechanics.span.along import most_stretched_m
from riglint.model.reads import computed
from riglint.model.values.policy import Values
from riglint.model.values.sources import OWN, PRACTICE

NO_LEASH = "nobody wears a leash, so there is no fall on it"


class RigStates:
    """What the line of one rig goes through."""

    def __init__(self, path: LoadPath, values: Values, on: date) -> None:
        self.path, self.values, self.on = path, values, on
        self.load_case: LoadCase = LoadCase(path.rig, values, self._alongside)
        self.geometry = Geometry(path, values, self.load_case.hung_n)

    @computed
    def backups(self) -> list[BackupLine]:
        """Every entry of `backups`, each with its own chain."""
        rig = self.path.rig
        return [BackupLine(rig, n, self.values) for n in range(len(rig.rig.backups or []))]

    def _alongside(self) -> list[Alongside]:
        # Whatever holds the main line is taken to be taped to it, and so to hang on it.
        taped = [backup for backup in self.backups if backup.backs_main]
        return [backup.alongside(self.geometry.span_m) for backup in taped]

    @computed
    def standing(self) -> Standing:
        """The line with nobody on it, webbing as listed.

        Raises:
            MissingInput, NotComputable: see `riglint.loads.states.standing.stand`.
        """
        return self._stand(self.geometry)

    @computed
    def standing_in_use(self) -> Standing:
        """The same with webbing as stiff as it is in use; errors as `standing`."""
        return self._stand(self.geometry.in_use())

    def _stand(self, geometry: Geometry) -> Standing:
        read = self.tension_reading
        return stand(geometry, read.tension_n if read else None)

    @computed
    def tension_reading(self) -> Reading | None:
        """The reading that the standing tension is taken from; None where the plan gives it.

        Raises:
            MissingInput, NotComputable: see `riglint.loads.measure.measured.standing_reading`.
        """
        return standing_reading(self.geometry, self.on)

    @computed
    def sweep(self) -> Sweep:
        """Users moved along the line, webbing as listed."""
        return Sweep(self.geometry, self.standing)

    @computed
    def band(self) -> Band:
        """The line at both edges of its stiffness."""
        standing = self.standing_in_use
        return Band(self.load_case, self.sweep, Sweep(self.geometry.in_use(), standing))

    @computed
    def haul(self) -> Haul | None:
        """The haul, where the chain has one that the load runs through."""
        placed = self.path.haul
        return Haul(self.geometry, placed) if placed is not None else None

    @computed
    def puller(self) -> Puller | None:
        """The ratchet, hoist or webbing tackle, where the chain has one."""
        placed = next((one for one in self.path.parts if one.part.part == "puller"), None)
        return Puller(self.geometry, placed) if placed is not None else None

    @computed
    def tie_back(self) -> TieBackLine | None:
        """What catches the line when the haul or the puller lets go, where there is one."""
        puller = self.haul if self.haul is not None and self.haul.part.stays else self.puller
        if puller is None or puller.placed.part.tie_back is None:
            return None
        return TieBackLine(self.geometry, puller.placed)

    @computed
    def standing_tension_n(self) -> float:
        """The standing tension that the rig is judged at, which needs no computing where the plan states it.

        As planned; as read on site where the plan says `standing_from: measured`.
        """
        read = self.tension_reading
        return read.tension_n if read else self.planned_standing_tension_n

    @computed
    def planned_standing_tension_n(self) -> float:
        """The standing tension as planned, whatever was read on site."""
        try:
            return planned_standing_tension_n(self.geometry)
        except MissingInput:
            meant = tension_for_sag_target(self.geometry) if self.tension_reading else None
            plan = self.path.rig.rig.plan
            if meant is not None:
                return meant
            if plan is None or plan.sag_target is None:
                raise
            return self.standing.tension_n

    def sag_target_tension_n(self) -> float | None:
        """Return the standing tension that the plan's sag target means; None without a target."""
        return tension_for_sag_target(self.geometry)

    def reading(self, number: int) -> Reading:
        """Return one entry of `measured` as a standing tension; see `riglint.loads.measure.measured.reading`."""
        return reading(self.geometry, self.standing, self.haul, number)

    # States; which there are stands in riglint.loads.states.state_kinds

    @computed
    def standing_state(self) -> State:
        """The state with nobody on the line."""
        return self.band.standing()

    @computed
    def leash_fall(self) -> State:
        """A fall on the leash.

        Raises:
            NotComputable: nobody wears one.
            MissingInput: how far the user hangs, or who they are, is not given.
        """
        return self.band.leash_fall(*self.leash_reach())

    def leash_reach(self) -> tuple[float, float]:
        """Return how far the user hangs below the line, in m, and the leash's give, in m/N; errors as `leash_fall`."""
        leash, document = self.path.rig.rig.leash, self.path.rig.document
        if leash is None:
            raise NotComputable(NO_LEASH)
        hang = need(leash.hang, At(document, ("leash", "hang"), "leash")).si
        item = self.path.rig.items.get(leash.gear or "")
        stretch = item.gear.stretch_per_kn if item else None
        return hang, hang * stretch.si / 1000.0 if stretch else 0.0

    @computed
    def wind_state(self) -> State:
        """Everybody on the line in a gust.

        Raises:
            MissingInput: the plan names no wind, or the users are not given.
        """
        plan = self.load_case.plan
        need(plan.wind if plan else None, At(self.path.rig.document, ("plan", "wind")))
        return self.band.in_gust()

    @computed
    def brake_slip(self) -> State:
        """The line after its rope has run through the brake."""
        return after_slip(self.band, self._haul_in_chain("brake_slip"))

    @computed
    def haul_state(self) -> State:
        """What the crew could reach: what it can keep up, or one heave past the planned tension, the greater.

        Raises:
            NotComputable: nothing is pulled with.
            MissingInput: the crew, or what it pulls with, is not given.
        """
        if self.haul is None and self.puller is not None:
            words = self.puller.overshoot_words()
            return force_state("haul", words, OWN, self.puller.overshoot_n())
        haul = self._haul_in_chain("haul")
        kept_n = haul.overshoot().line_n
        # What one of these lacks must not hide what the crew can reach by the others.
        heaved_n = known(lambda: haul.one_heave_n(self.standing_in_use)) or 0.0
        planned_n = known(lambda: self.standing_tension_n) or 0.0
        words = "the crew pulls on as hard as it can keep up"
        if max(heaved_n, planned_n) > kept_n:
            words = "the crew heaves once more past the planned tension"
        return force_state("haul", words, OWN, max(kept_n, heaved_n, planned_n))

    @computed
    def tie_back_catch(self) -> State:
        """The tie-back when the haul or the puller lets go.

        Raises:
            NotComputable: there is no tie-back.
            MissingInput: its gear, length, slack or strength is not given.
        """
        if self.tie_back is None:
            raise NotComputable("the rig has no tie-back")
        caught_n = self.tie_back.catch_n(self.standing_tension_n, self.standing)
        words = "the pulley system lets go with nobody on the line, and the tie-back catches"
        return force_state("tie_back_catch", words, OWN, caught_n)

    @computed
    def lowering_state(self) -> State:
        """The line at standing tension while it is let down."""
        self._haul_in_chain("lowering")
        words = "lowering from the standing tension, with friction helping"
        return force_state("lowering", words, PRACTICE, self.standing_tension_n)

    def _haul_in_chain(self, state: str) -> Haul:
        if self.haul is None:
            raise NotComputable(f"the rig has no pulley system, so there is no state {state}")
        return self.haul

    def haul_tension_n(self, state: State) -> float:
        """Return the tension that the haul sees in a state, N."""
        side = self.path.side(self.path.haul) if self.path.haul else "line"
        return {"a": state.tension_a_n, "b": state.tension_b_n}.get(side, state.tension_n)

    def growth(self, state: State) -> float:
        """Return how much longer the webbing is in a state than with nobody on it, as a share of that; the greatest."""
        standing = self.standing.equilibrium.stretched_m
        return most_stretched_m(state.soft_positions) / standing - 1.0
