"""The line and what people do to it, as points: heights over the ground, and tension, both against the place."""

from __future__ import annotations

from riglint.loads import Loads, State
from riglint.loads.inputs import known
from riglint.loads.path.ground import elevation
from riglint.loads.states.backup import BackupLine
from riglint.loads.states.standing import rest_of
from riglint.loads.states.state_kinds import Shown
from riglint.mechanics.span.line import hang, profile
from riglint.records import dataclass

Point = tuple[float, float]
PIECES, FEWER = 40, 16  # of the bare line, of a backup


@dataclass(frozen=True, slots=True)
class Curve:
    """One state, a point for each place where somebody may be, in the order of the places."""

    words: str
    shown: Shown
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Least:
    """The least clearance under the heaviest walker."""

    x_m: float
    foot_m: float  # over the ground at A
    clearance_m: float


@dataclass(frozen=True, slots=True)
class BackupCurve:
    """A backup line as it hangs, and the lowest that it lets somebody down to when the main line goes."""

    id: str
    hanging: tuple[Point, ...]
    caught: tuple[Point, ...]  # empty where the catch is not known


@dataclass(frozen=True, slots=True)
class LeashMark:
    """Somebody hanging on the leash in the middle of the line: from the ring down to the harness."""

    x_m: float
    ring_m: float  # over the ground at A
    length_m: float


@dataclass(frozen=True, slots=True)
class Profile:
    """The line over the ground: metres from A, level, and metres over the ground at A."""

    span_m: float
    still: tuple[Point, ...]  # nobody on the line
    under: tuple[Curve, ...]
    ground: tuple[Point, ...] | None  # between the ends; None where the spot does not give it
    lowest_m: float  # of everything that is known of the place, inside the span or beyond
    highest_m: float
    least: Least | None
    clearances: tuple[tuple[str, float], ...]  # of each state, in words, in metres
    backups: tuple[BackupCurve, ...] = ()
    leash: LeashMark | None = None


@dataclass(frozen=True, slots=True)
class Tensions:
    """The greatest tension anywhere, in kN, against the user's place in metres from A."""

    span_m: float
    standing_kn: float
    greatest_kn: float  # at any place drawn
    curves: tuple[Curve, ...]
    at_most: tuple[tuple[str, float], ...]  # of each state, in words, in kN


def _shown(loads: Loads) -> list[tuple[State, Shown]]:
    return [(state, state.kind.shown) for state in loads.people() if state.kind.shown is not None]


def profile_of(loads: Loads) -> Profile | None:
    """Return the line standing, and the lowest that each state brings it; None where it is not known."""
    return known(lambda: _profile(loads))


def _profile(loads: Loads) -> Profile:
    line, height_a = loads.standing.line, known(lambda: loads.geometry.height_m(0)) or 0.0
    shown = _shown(loads)
    still = tuple((x, y + height_a) for x, y in profile(line, loads.standing.equilibrium, PIECES))
    under = tuple(Curve(state.kind.words, how, _under(state, still, height_a)) for state, how in shown)
    ground = known(loads.geometry.ground)
    backups = tuple(one for one in (known(lambda b=b: _backup(loads, b)) for b in loads.backups) if one)  # type: ignore[misc]
    leash = known(lambda: _leash(loads, [state for state, how in shown if how == "rest"], height_a))
    beside = [point for one in backups for point in (*one.hanging, *one.caught)]
    beside += [(leash.x_m, leash.ring_m - leash.length_m)] if leash else []
    heights = [
        y for _, y in (*still, *(point for one in under for point in one.points), *(ground or ()), *beside)
    ]
    return Profile(
        line.span_m,
        still,
        under,
        _between(ground, line.span_m) if ground is not None else None,
        min(heights),
        max(heights),
        _least([state for state, how in shown if how == "rest"], height_a),
        tuple(
            (state.kind.words, state.least_clearance_m)
            for state in (loads.standing_state, *(state for state, _ in shown))
            if state.least_clearance_m is not None
        ),
        backups,
        leash,
    )


def _backup(loads: Loads, backup: BackupLine) -> BackupCurve | None:
    """Return a backup that is a line of its own."""
    if not backup.is_line:
        return None
    line, height = backup.line, known(lambda: backup.geometry.height_m(0)) or 0.0
    hanging = tuple((x, y + height) for x, y in profile(line, rest_of(hang(line)), FEWER))
    catch = known(lambda: loads.catch(backup))
    low = catch.state.soft_positions if catch is not None else ()
    loaded = sorted((rest.load_x_m, rest.load_y_m + height) for rest in low)
    return BackupCurve(backup.id, hanging, (hanging[0], *loaded, hanging[-1]) if loaded else ())


def _leash(loads: Loads, resting: list[State], height_a: float) -> LeashMark | None:
    """Return the leash under the line as it stands with somebody at rest in the middle."""
    if not resting or loads.path.rig.rig.leash is None:
        return None
    length_m, _ = loads.leash_reach()
    rest = min(resting[0].soft_positions, key=lambda one: abs(one.fraction - 0.5))
    return LeashMark(rest.load_x_m, rest.load_y_m + height_a, length_m)


def _under(state: State, still: tuple[Point, ...], height_a: float) -> tuple[Point, ...]:
    loaded = sorted((rest.load_x_m, rest.load_y_m + height_a) for rest in state.soft_positions)
    return still[0], *loaded, still[-1]


def _between(ground: tuple[Point, ...], span_m: float) -> tuple[Point, ...]:
    """Return the ground between the ends of the line."""
    return tuple((x, y) for x, y in (*ground, (span_m, elevation(ground, span_m))) if 0.0 <= x <= span_m)


def _least(resting: list[State], height_a: float) -> Least | None:
    """Return the least clearance in the state that brings the line lowest, where the spot gives the ground."""
    lowest = max(resting, key=lambda state: max(rest.sag_m for rest in state.soft_positions), default=None)
    if lowest is None or lowest.least_clearance_m is None:
        return None
    place = lowest.least_clearance_at or 0.5
    rest = min(lowest.soft_positions, key=lambda one: abs(one.fraction - place))
    return Least(rest.load_x_m, rest.load_y_m + height_a, lowest.least_clearance_m)


def tensions_of(loads: Loads) -> Tensions | None:
    """Return the tension against the user's place; None where it is not known."""
    return known(lambda: _tensions(loads))


def _tensions(loads: Loads) -> Tensions:
    shown = _shown(loads)
    curves = tuple(
        Curve(
            state.kind.words,
            how,
            tuple(sorted((rest.load_x_m, rest.tension_n / 1000.0) for rest in state.positions)),
        )
        for state, how in shown
    )
    return Tensions(
        loads.standing.line.span_m,
        loads.standing_state.tension_n / 1000.0,
        max(tension for one in curves for _, tension in one.points),
        curves,
        tuple((state.kind.words, state.tension_n / 1000.0) for state, _ in shown),
    )
