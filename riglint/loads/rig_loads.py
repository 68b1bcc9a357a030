"""All loads of one rig, each computed when it is first asked for."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from copy import copy
from datetime import date

from riglint.loadpath import BROKEN, LoadPath
from riglint.loads.haul.working import HaulSheet, haul_sheet
from riglint.loads.inputs import MissingInput, NotComputable, known
from riglint.loads.path.ends import End, ends_of
from riglint.loads.path.part_list import PartList
from riglint.loads.path.parts import PartLoad
from riglint.loads.path.runs import Run, runs_of
from riglint.loads.states.backup import BackupLine
from riglint.loads.states.catch import Catch, Catching
from riglint.loads.states.consequence import ConsequenceClass, classify
from riglint.loads.states.line import State
from riglint.loads.states.rig_states import RigStates
from riglint.loads.states.state_kinds import STATES, ClearanceKind, RatioKind, StateKind
from riglint.loads.strength.points import AnchorLoads
from riglint.loads.strength.strengths import Strengths
from riglint.model.differences import changes, read_elsewhere
from riglint.model.reads import Memory, computed, decided, remembered
from riglint.model.values.policy import Values
from riglint.model.vocabulary.words import Consequence


class Loads(RigStates):
    """States, forces, strengths and ratios of one rig."""

    def __init__(self, path: LoadPath, values: Values, on: date) -> None:
        super().__init__(path, values, on)
        self._catches: Memory[Catch] = {}
        self._states: Memory[State] = {}
        self._chosen: Memory[list[State]] = {}
        self._catches_from: Loads | None = None

    # States

    def state(self, name: str) -> State:
        """Return a state by name; computed once.

        Raises:
            MissingInput, NotComputable: it cannot be computed.
            KeyError: this rig does not go through it.
        """
        kind = STATES[name]
        of = kind.of
        if of is None or not kind.planned(self):
            raise KeyError(name)
        return remembered(self._states, name, lambda: of(self))

    def kinds(self) -> list[StateKind]:
        """Return the states that this rig goes through, in the order of the registry."""
        return list(self._kinds)

    @computed
    def _kinds(self) -> list[StateKind]:
        return [kind for kind in STATES.values() if kind.planned(self)]

    def judged_by(self, strength: RatioKind, *, whole: bool = False) -> list[State]:
        """Return the states whose force one kind of ratio judges.

        A state that rests on more than the others is left out where that is missing, since its own rule asks for it;
        with `whole` it is not.

        Raises:
            MissingInput, NotComputable: what all of them rest on is missing; with `whole` what any of them rests on.
        """

        def found() -> list[State]:
            return self._where(lambda kind: kind.strength == strength, whole=whole)

        states = remembered(self._chosen, (strength, whole), found)
        return list(states)

    def caught(self, backup: BackupLine) -> list[State]:
        """Return the states that a backup line must bear; errors as `catch`."""
        return [self.catch(backup).state, *self.judged_by("backup")]

    def peaks(self) -> list[State]:
        """Return the states whose force parts must bear many times over; errors as `judged_by`."""
        return self.judged_by("peak")

    def cleared(self, *how: ClearanceKind) -> list[State]:
        """Return the states whose clearance is judged in these ways; errors as `judged_by`."""
        return self._where(lambda kind: kind.clearance in how)

    def falls(self) -> Iterator[tuple[Callable[[], State], BackupLine | None]]:
        """Yield how to compute each state with somebody below the line, and the backup that catches there."""
        for kind in self.kinds():
            if kind.clearance == "body" and kind.of is not None:
                yield lambda name=kind.name: self.state(name), None  # type: ignore[misc]
        for backup in self.backups:
            if backup.backs_main:
                yield lambda backup=backup: self.catch(backup).state, backup  # type: ignore[misc]

    def people(self) -> list[State]:
        """Return the states with somebody on the line, walker first; errors as `judged_by`."""
        return self._where(lambda kind: kind.with_people)

    def _where(self, wanted: Callable[[StateKind], bool], *, whole: bool = False) -> list[State]:
        found: list[State] = []
        for kind in self._kinds:
            if kind.of is None or not wanted(kind):
                continue
            try:
                found.append(self.state(kind.name))
            except (MissingInput, NotComputable):
                if whole or not kind.asked_apart:
                    raise
        return found

    def computable(self) -> list[State]:
        """Return every state that can be computed, for the sheet."""
        found: list[State] = []
        for kind in self.kinds():
            if kind.of is not None:
                found += _if_known(lambda name=kind.name: self.state(name))  # type: ignore[misc]
        for backup in self.backups:
            found += _if_known(lambda backup=backup: self.catch(backup).state)  # type: ignore[misc]
        return found

    @computed
    def consequence(self) -> ConsequenceClass:
        """What a failure would mean here."""
        try:
            return classify(self.geometry, self.band)
        except (MissingInput, NotComputable) as unable:
            return classify(self.geometry, None, unable)

    @decided
    def consequence_word(self) -> Consequence:
        """The word of `consequence`: what asks for nothing else of it stands as long as the word stays."""
        return self.consequence.word

    def at_the_class_that_is_known(self) -> Loads:
        """Return the same loads, with a failure taken for what the known values alone make of it."""
        known = self.consequence.known
        return self.of_class(ConsequenceClass(known, self.consequence.reasons, known))

    def of_class(self, consequence: ConsequenceClass) -> Loads:
        """Return the same loads, with a failure taken to mean something else."""
        same = copy(self)
        same.consequence = consequence
        same.__dict__.pop("consequence_word", None)
        return same

    @computed
    def strengths(self) -> Strengths:
        """Strengths of gear in its place."""
        return Strengths(self.geometry)

    def catch(self, backup: BackupLine) -> Catch:
        """Return a backup's catch when the main line breaks; computed once for each.

        Raises:
            MissingInput, NotComputable: something that it rests on is missing.
        """
        return remembered(self._catches, backup.number, lambda: self._catch(backup))

    def _catch(self, backup: BackupLine) -> Catch:
        caught = known(lambda: self._caught_before(backup))
        if caught is not None:
            return caught
        backup.must_be_whole()
        return Catching(backup, self.band).catch(*self.leash_reach())

    def let_go(self) -> None:
        """Forget everything: much hangs on the loads, and in circles, which keeps it from being freed at once."""
        vars(self).clear()

    def take_catches(self, other: Loads) -> None:
        """Take over the catches of another Loads, where they are known to be the same or nearly so."""
        self._catches_from = other

    def _caught_before(self, backup: BackupLine) -> Catch | None:
        other = self._catches_from
        if other is None:
            return None
        (same,) = (one for one in other.backups if one.number == backup.number)
        return read_elsewhere(lambda: other.catch(same), changes(other.path.rig, self.path.rig))

    @computed
    def anchors(self) -> AnchorLoads:
        """What the bolts, boulders and other anchors see."""
        return AnchorLoads(self.geometry)

    def ends(self) -> Iterator[End]:
        """Yield both ends of the main line, then of its backups; see `riglint.loads.path.ends.ends_of`."""
        ends, unknown = self._ends
        yield from ends
        if unknown is not None:
            raise unknown.with_traceback(None)

    @computed
    def _ends(self) -> tuple[list[End], MissingInput | NotComputable | None]:
        """The ends up to the first that nobody knows, and why nobody knows that."""
        found: list[End] = []
        try:
            for end in ends_of(self.path, self.anchors, self.peaks, self.backups, self.caught):
                found.append(end)  # noqa: PERF402 - those before an error are kept
        except (MissingInput, NotComputable) as error:
            return found, error
        return found, None

    @computed
    def bare_line(self) -> list[tuple[float, float]]:
        """Places along the line with nobody on it, as stiff as in use, m from its first end; errors as `band`."""
        return [(x, y) for x, y, _ in self.band.stiff.bare([n / 20.0 for n in range(1, 20)])]

    @computed
    def runs(self) -> list[Run]:
        """Every run of parts in series, of the main line first, then of the backups."""
        return [
            run for path in (self.path, *(backup.path for backup in self.backups)) for run in runs_of(path)
        ]

    @computed
    def parts(self) -> list[PartLoad]:
        """Every part that carries load.

        Raises:
            NotComputable: the chain does not run from anchor to anchor.
        """
        if not self.path.whole:
            raise NotComputable(BROKEN)
        return PartList(self.geometry, self.haul).all()

    @computed
    def haul_sheet(self) -> HaulSheet | None:
        """The haul in figures, where there is one."""
        if self.haul is None:
            return None
        return haul_sheet(self.haul, self.standing, self.standing_tension_n, self.tie_back)

    def cut_needed_m(self) -> float:
        """Return the webbing to cut: unstressed length, tails, and what the webbing anchors take."""
        anchors = [placed for placed in self.path.parts if placed.part.part == "webbing_anchor"]
        tails = sum(placed.part.webbing_tail.si for placed in anchors if placed.part.webbing_tail)
        return self.standing.line.unstressed_m + tails + len(anchors) * self.values["webbing_anchor_wrap"]


def _if_known(compute: Callable[[], State]) -> list[State]:
    """Return a state in a list; none where it cannot be computed."""
    found = known(compute)
    return [] if found is None else [found]
