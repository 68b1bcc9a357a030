"""The backup in its catch: everybody falls with the main line, and the backup alone stops them."""

from __future__ import annotations

from dataclasses import replace
from math import acos, exp
from typing import NamedTuple

from riglint.loads.inputs import MissingInput
from riglint.loads.path.geometry import G, Geometry
from riglint.loads.states.backup import BackupLine
from riglint.loads.states.line import Band, LineFall, State, Swept
from riglint.loads.states.standing import rest_of
from riglint.loads.states.state_kinds import STATES
from riglint.loads.states.sweep import Sweep, nearest
from riglint.mechanics.span.along import looked_at
from riglint.mechanics.span.line import Equilibrium, Line, hang
from riglint.mechanics.span.peak import drop
from riglint.mechanics.valid_range import Numbers
from riglint.model.values.sources import Source
from riglint.records import dataclass

CATCH = Source(
    "energy balance on the backup alone; taping, and the main line's mass and energy, left out", "own"
)
CLOSE = 0.002  # share of the webbing within which the place is found where friction holds the ring


@dataclass(frozen=True, slots=True)
class Catch(Numbers):
    """A backup catching everybody: standing on the main line when it breaks, and hanging below it."""

    state: State
    hanging: State
    near_ends: State | None  # near the anchors, the ring slid as far as friction lets it
    near_from: float | None = (
        None  # share of the webbing where the main line broke then, at the governing place
    )


@dataclass(frozen=True, slots=True)
class Fall:
    """How far a harness falls from the main line when it breaks to the lowest point of the catch, m."""

    main_y_m: float  # the main line under the users at rest, from its first end up
    offset_m: float  # how much higher the backup's first end lies than that
    from_line_m: float  # harness above the main line, and the leash below the backup
    backup_y_m: float  # the backup at the lowest point, from its own first end up

    @property
    def height_m(self) -> float:
        """The whole fall."""
        return self.main_y_m - self.offset_m + self.from_line_m - self.backup_y_m


class _Places(NamedTuple):
    """Catches along the line: where the ring stays at its place, and near the anchors."""

    held: list[Equilibrium]
    near: list[Equilibrium]
    broke_at: list[float]  # of each near an anchor, the share of the webbing where the main line broke


class _Fallen(NamedTuple):
    """A fall onto a backup from a height over its first end."""

    line: Line
    bare: Equilibrium
    start_m: float
    mass_kg: float

    def caught(self, fraction: float, near: Equilibrium | None) -> Equilibrium:
        """Return the catch at a share of the backup; the catch at a place not far away saves time."""
        bare = looked_at(self.line, self.bare, fraction)
        height_m = self.start_m - bare.load_y_m
        return rest_of(drop(self.line, fraction, self.mass_kg, height_m, reference=bare, near=near))


class Catching:
    """A backup and the main line above it, with everybody on it."""

    def __init__(self, backup: BackupLine, main: Band) -> None:
        self.backup, self.main, self.case, self.values = backup, main, main.case, main.values
        self.offset_m = _anchor_height_m(backup.geometry) - _anchor_height_m(main.soft.geometry)

    def catch(self, hang_m: float, give_m_per_n: float) -> Catch:
        """Return the catch of users on leashes when the main line breaks under them.

        Standing: the harness starts above the main's loaded point and ends below the backup's. Hanging: the ring
        falls from the main to the backup, the leash already taut. The main line is taken as stiff as it is in use, so
        that the fall is the longest; the backup stiff for its force, soft for how deep it comes.

        Raises:
            MissingInput, NotComputable: something that it rests on is missing.
        """
        people = len(self.case.masses_kg)
        who = "the heaviest user" if people == 1 else f"all {people} users"
        words = f"the main line breaks, the backup catches {who}"
        above_m = self.values["harness_above_line"]
        reach_m = hang_m + self.values["body_below_harness"]

        def state(from_line_m: float, how: str) -> tuple[State, State | None, float | None]:
            stiff = self._caught(self.backup.line_in_use, from_line_m)
            soft = self._caught(self.backup.line, from_line_m)
            fallen = LineFall(self.case.everyone_kg, from_line_m, 0.0, self.backup.line_in_use, how)
            caught = _state(stiff.held, soft.held, f"{words}, {how}", fallen)
            slides = f"{words}, near an anchor, the ring sliding against friction"
            near = _state(stiff.near, stiff.near, slides, fallen) if stiff.near else None
            broke_at = stiff.broke_at[stiff.near.index(near.stiff.rest)] if near and near.stiff else None
            return self._with_body(caught, reach_m, give_m_per_n), near, broke_at

        standing, near_ends, near_from = state(above_m + hang_m, "standing on the line")
        return Catch(standing, state(0.0, "hanging below it")[0], near_ends, near_from)

    def _caught(self, line: Line, from_line_m: float) -> _Places:
        """Return the backup at the lowest point of the catch, at each place of the people."""
        fractions, held, near = self.main.soft.peak_fractions, list[Equilibrium](), list[Equilibrium]()
        low = self.main.values["ring_held"]
        high = 1.0 - low
        broke_at: list[float] = []
        bare = rest_of(hang(line))
        # Where people reach no place of the middle, those that they reach must stand for it.
        mid_run = any(low <= one <= high for one in fractions)
        # From a stiff main line in calm air the fall is the longest.
        for above in self.main.stiff.along(self.case.everyone_kg * G, fractions):
            start_m = above.load_y_m - self.offset_m + from_line_m
            place = _Fallen(line, bare, start_m, self.case.everyone_kg)
            caught = place.caught(above.fraction, nearest(held, above.fraction))
            if low <= above.fraction <= high or not mid_run:
                held.append(caught)
            else:
                near.append(self._slid(place, caught))
                broke_at.append(above.fraction)
        return _Places(held, near, broke_at)

    def _slid(self, fallen: _Fallen, caught: Equilibrium) -> Equilibrium:
        """Return the catch where the ring has slid towards the middle until friction holds it there.

        A ring stays where the tensions of its two sides differ by no more than e^(μ·θ), θ the angle that the line
        turns at it. What friction takes of the energy on the way is left out.
        """
        friction = self.values["ring_friction"]
        slides, holds = caught.fraction, 0.5
        if _stays(caught, friction):
            return caught
        near = caught
        while abs(holds - slides) > CLOSE:
            middle = (slides + holds) / 2.0
            near = fallen.caught(middle, near)
            if _stays(near, friction):
                holds = middle
            else:
                slides = middle
        return fallen.caught(holds, near)

    def fall(self, from_line_m: float, caught: Equilibrium, broke_at: float | None = None) -> Fall:
        """Return the fall that ends with the backup in an equilibrium, wherever the main line broke."""
        place = caught.fraction if broke_at is None else broke_at
        loaded = rest_of(hang(self.main.stiff.line, self.case.everyone_kg * G, place))
        return Fall(loaded.load_y_m, self.offset_m, from_line_m, caught.load_y_m)

    def _with_body(self, state: State, reach_m: float, give_m_per_n: float) -> State:
        """Add the height of the lowest body point above the ground."""
        below = Sweep(self.backup.geometry, self.main.soft.standing).with_body(state, reach_m, give_m_per_n)
        return replace(below, note="clearance is that of the lowest body point")


def _stays(caught: Equilibrium, friction: float) -> bool:
    """Return whether friction holds the ring at its place: capstan equation, T₁/T₂ ≤ e^(μ·θ)."""
    left_n, right_n, across_n = caught.tension_left_n, caught.tension_right_n, caught.horizontal_n
    turn_rad = acos(min(across_n / left_n, 1.0)) + acos(min(across_n / right_n, 1.0))
    return max(left_n / right_n, right_n / left_n) <= exp(friction * turn_rad)


def _state(stiff: list[Equilibrium], soft: list[Equilibrium], words: str, fallen: LineFall) -> State:
    edge = Swept.of(stiff)
    ends = max(rest.tension_a_n for rest in stiff), max(rest.tension_b_n for rest in stiff)
    kind = STATES["backup_catch"]
    return State(kind, words, CATCH, edge.rest.tension_n, *ends, edge, Swept.of(soft), fallen)


def _anchor_height_m(geometry: Geometry) -> float:
    """Return the height of end A above the ground; level with the other line where the files do not say."""
    try:
        return geometry.height_m(0)
    except MissingInput:
        return 0.0
