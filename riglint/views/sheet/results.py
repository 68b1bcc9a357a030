"""The results of a rig, each a number in SI or None where something that it rests on is not known."""

from __future__ import annotations

from riglint.loads import Loads, State
from riglint.loads.haul.working import HaulSheet
from riglint.loads.inputs import known
from riglint.loads.states.backup import BackupLine
from riglint.loads.states.catch import Fall
from riglint.loads.states.person import Arrests
from riglint.loads.what_if.sensitivity import Ranking
from riglint.mechanics.span.line import Equilibrium
from riglint.model.values.sources import Source
from riglint.records import dataclass
from riglint.views.blocks import ReportPlace, WorkedInput, place_of
from riglint.views.judged_parts import JudgedPart, caught_parts, main_parts
from riglint.views.sheet.uncertainty import Uncertainty, uncertainty_of
from riglint.views.sheet.worked.backups import catches, fall_of
from riglint.views.sheet.worked.webbing import keep_out


@dataclass(frozen=True, slots=True)
class LineEdge:
    """One edge of a state: the line at the place that governs it."""

    tension_n: float
    tension_a_n: float
    tension_b_n: float
    horizontal_n: float
    load_n: float
    sag_m: float
    at_fraction: float  # of the webbing, from A
    strain: float
    past_curve: bool  # whether the tension lies past the last point of the stretch curve


@dataclass(frozen=True, slots=True)
class StateResult:
    """One state of the line."""

    name: str
    words: str
    plain: str
    tension_n: float
    tension_a_n: float | None
    tension_b_n: float | None
    clearance_m: float | None
    least_clearance_m: float | None
    least_clearance_at_fraction: float | None
    meets_ground: bool | None
    past_curve_by: float | None
    strength_kind: str | None  # what judges its forces
    clearance_kind: str | None  # what judges its heights
    in_use: LineEdge | None  # webbing as stiff as it is in use
    as_listed: LineEdge | None
    note: str
    source: Source


@dataclass(frozen=True, slots=True)
class PartResult:
    """One part in the state that leaves it the least."""

    id: str
    part: str
    gear: str | None
    state: str | None
    force_n: float | None
    ratio: float | None
    strength_n: float | None  # in place
    breaking_n: float | None
    breaking_from: str | None
    rated_n: float | None
    reductions: tuple[WorkedInput, ...]
    no_rating: str | None
    required: float | None
    source: Source


@dataclass(frozen=True, slots=True)
class CatchResult:
    """One catch of a backup, and the fall that it ends."""

    name: str
    state: StateResult
    fall: Fall | None


@dataclass(frozen=True, slots=True)
class BackupResult:
    """One backup."""

    id: str
    kind: str | None
    holds: str | None
    between_ends_m: float | None
    extra: float | None
    unstressed_m: float | None
    catches: tuple[CatchResult, ...]
    parts: tuple[PartResult, ...]


@dataclass(frozen=True, slots=True)
class PersonResult:
    """The force on leash and body after a fall on the leash."""

    middle_n: float
    hardest_n: float
    hardest_from_end_m: float
    ring_held_fast_n: float
    middle_at_most_n: float
    hardest_at_most_n: float


@dataclass(frozen=True, slots=True)
class ReadingResult:
    """A reading that the standing tension is taken from."""

    what: str
    date: str | None
    tension_n: float
    low_n: float
    high_n: float
    at: ReportPlace


@dataclass(frozen=True, slots=True)
class Results:
    """All results of one rig."""

    consequence: str
    reasons: tuple[str, ...]
    states: tuple[StateResult, ...]
    parts: tuple[PartResult, ...]
    uncertainty: Uncertainty
    standing_from: str
    reading: ReadingResult | None
    haul: HaulSheet | None
    tie_back_stiffness_n_per_m: float | None
    backups: tuple[BackupResult, ...]
    person: PersonResult | None
    unstressed_m: float | None
    cut_needed_m: float | None
    energy_j: float | None
    energy_peak_j: float | None
    keep_out_m: float | None


def results_of(loads: Loads, ranked: Ranking) -> Results:
    """Return every result that can be computed."""
    reading = _reading(loads)
    plan = loads.path.rig.rig.plan
    planned = plan.standing_from if plan else "plan"
    return Results(
        loads.consequence.word,
        tuple(loads.consequence.reasons),
        tuple(_state(state) for state in loads.computable()),
        tuple(_part(part) for part in main_parts(loads)),
        uncertainty_of(ranked),
        "measured" if reading else planned,
        reading,
        known(lambda: loads.haul_sheet),
        known(lambda: _tie_back_stiffness_n_per_m(loads)),
        tuple(_backup(loads, backup) for backup in loads.backups),
        known(lambda: _person(loads)),
        known(lambda: loads.standing.line.unstressed_m),
        known(lambda: _cut_needed_m(loads)),
        known(lambda: loads.standing.equilibrium.stretch_energy_j),
        known(lambda: max(_stored_j(state) for state in loads.peaks())),
        known(lambda: keep_out(loads).value),
    )


def _cut_needed_m(loads: Loads) -> float:
    return loads.cut_needed_m()


def _stored_j(state: State) -> float:
    return state.rest.stretch_energy_j if state.rest else 0.0


def _state(state: State) -> StateResult:
    rest = state.rest
    return StateResult(
        state.name,
        state.words,
        state.kind.plain,
        state.tension_n,
        rest.tension_a_n if rest else state.tension_a_n,
        rest.tension_b_n if rest else state.tension_b_n,
        state.clearance_m,
        state.least_clearance_m,
        state.least_clearance_at,
        state.meets_ground,
        state.past_curve if rest else None,
        state.kind.strength,
        state.kind.clearance,
        _edge(rest),
        _edge(state.soft.rest if state.soft else None),
        state.note,
        state.source,
    )


def _edge(rest: Equilibrium | None) -> LineEdge | None:
    if rest is None:
        return None
    return LineEdge(
        rest.tension_n,
        rest.tension_a_n,
        rest.tension_b_n,
        rest.horizontal_n,
        rest.load_n,
        rest.sag_m,
        rest.fraction,
        rest.strain,
        rest.past_curve,
    )


def _part(part: JudgedPart) -> PartResult:
    load, strength, worst = part.load, part.strength, part.worst
    reductions = strength.reductions if strength else ()
    return PartResult(
        load.id,
        load.part,
        load.gear,
        worst.state if worst else None,
        worst.force_n if worst else None,
        worst.ratio if worst else None,
        strength.strength_n if strength else None,
        strength.breaking_n if strength else None,
        strength.breaking_from if strength else None,
        strength.rated_n if strength else None,
        tuple(WorkedInput("c", one.factor, "", one.why, one.source) for one in reductions),
        strength.no_rating if strength else None,
        part.asked,
        load.required.source,
    )


def _tie_back_stiffness_n_per_m(loads: Loads) -> float | None:
    tie = loads.tie_back
    return None if tie is None else tie.spring(loads.standing_tension_n).stiffness_n_per_m


def _reading(loads: Loads) -> ReadingResult | None:
    """Return the reading, where one stands in for the plan."""
    read = known(lambda: loads.tension_reading)
    if read is None:
        return None
    day = read.date.isoformat() if read.date else None
    return ReadingResult(read.what, day, read.tension_n, read.low_n, read.high_n, place_of(read.at))


def _backup(loads: Loads, backup: BackupLine) -> BackupResult:
    found = known(lambda: catches(loads, backup)) or []
    return BackupResult(
        backup.id,
        backup.entry.kind,
        backup.entry.holds,
        known(lambda: backup.between_ends_m),
        known(lambda: backup.extra),
        known(lambda: backup.unstressed_m),
        tuple(_catch(loads, backup, name, state) for name, state in found),
        tuple(_part(part) for part in caught_parts(loads, backup)),
    )


def _catch(loads: Loads, backup: BackupLine, name: str, state: State) -> CatchResult:
    fall = fall_of(loads, backup, name, state.rest) if state.rest is not None else None
    return CatchResult(name, _state(state), fall)


def _person(loads: Loads) -> PersonResult:
    """Return what a fall on the leash brings to the person, by place.

    Raises:
        MissingInput, NotComputable: nobody wears a leash, or something that it rests on is missing.
    """
    falls = Arrests(loads)
    middle, hardest = falls.middle(), falls.hardest()
    return PersonResult(
        middle.low_n,
        hardest.low_n,
        hardest.from_end_m,
        falls.held_fast_n,
        middle.high_n,
        hardest.high_n,
    )
