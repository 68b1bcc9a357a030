"""States of the line: what it bears and how deep it hangs, at both edges of its stiffness.

Worked webbing is stiffer than it was when listed. So each state is computed twice: with webbing in use,
in the mean wind of the plan, for forces; as listed, in calm air, for sag, clearance and length. The stiff edge is what
parts must bear, the soft edge is how deep the line hangs.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

from riglint.loads.path.geometry import G
from riglint.loads.states.load_case import LoadCase
from riglint.loads.states.state_kinds import STATES, StateKind
from riglint.loads.states.sweep import Sweep, governing, least_clear
from riglint.mechanics.span.line import Equilibrium, Line
from riglint.mechanics.valid_range import Numbers
from riglint.model.reads import computed
from riglint.model.values.defaults import DEFAULTS
from riglint.model.values.sources import Source
from riglint.records import dataclass

CATENARY = Source("exact elastic catenary with the webbing's own stretch curve, one point load", "own")
ENERGY = Source(
    "energy balance on the exact line, no damping; in one field test what was measured was 79-109 % of it",
    "own",
)
WIND = Source(
    "drag of a flat band, Cd 2.0 (Aeronautical Engineer's Data Book p. 95: 1.98)",
    "published",
    ("aeronautical_data_book",),
)


@dataclass(frozen=True, slots=True)
class Swept:
    """One edge of a state: the line at rest at each place of whoever is on it, and at the place that governs."""

    rest: Equilibrium
    positions: tuple[Equilibrium, ...]

    @classmethod
    def of(cls, found: Sequence[Equilibrium]) -> Swept:
        """Return the edge of a sweep, the place with the greatest tension governing."""
        return cls(governing(found), tuple(found))


@dataclass(frozen=True, slots=True)
class LineFall(Numbers):
    """A fall onto the line: who falls how far, from where that is counted, and who rests beside."""

    mass_kg: float
    height_m: float
    resting_n: float
    line: Line  # the one that was computed
    height_words: str
    height_source: Source | None = None


@dataclass(frozen=True, slots=True)
class State(Numbers):
    """One state of the line: forces at the stiff edge, sag and clearance at the soft edge."""

    kind: StateKind
    words: str
    source: Source
    tension_n: float  # the greatest anywhere
    tension_a_n: float  # greatest at end A over all places
    tension_b_n: float
    stiff: Swept | None = None  # None for a state that is a force only
    soft: Swept | None = None
    drop: LineFall | None = None
    clearance_m: float | None = None  # under the governing place, at the soft edge
    least_clearance_m: float | None = None
    least_clearance_at: float | None = None  # share of the webbing from the first end
    meets_ground: bool | None = None
    note: str = ""

    @property
    def name(self) -> str:
        """Its name in files and results."""
        return self.kind.name

    @property
    def rest(self) -> Equilibrium | None:
        """The line at the governing place, at the stiff edge; None for a state that is a force only."""
        return self.stiff.rest if self.stiff else None

    @property
    def positions(self) -> tuple[Equilibrium, ...]:
        """The line at every place, at the stiff edge."""
        return self.stiff.positions if self.stiff else ()

    @property
    def soft_positions(self) -> tuple[Equilibrium, ...]:
        """The line at every place, at the soft edge."""
        return self.soft.positions if self.soft else ()

    @property
    def past_curve(self) -> float:
        """Greatest tension in webbing over the last point of its stretch curve, at the stiff edge; 0 without a line."""
        return max((rest.past_curve_by for rest in self.positions), default=0.0)


def force_state(name: str, words: str, source: Source, tension_n: float, note: str = "") -> State:
    """Return a state that is a force along the whole line and no shape."""
    return State(STATES[name], words, source, tension_n, tension_n, tension_n, note=note)


class _Landing(NamedTuple):
    """A line to land on, and who rests on it."""

    sweep: Sweep
    resting_n: float


def _tension_n(rest: Equilibrium) -> float:
    return rest.tension_n


def _height_m(rest: Equilibrium) -> float:
    return rest.load_y_m


class Band:
    """One line at both edges of its stiffness, with what is on it.

    Args:
        case: what is on it.
        soft: the line that stretches as listed.
        stiff: the line as stiff as it is in use.
    """

    def __init__(self, case: LoadCase, soft: Sweep, stiff: Sweep) -> None:
        self.case, self.soft, self.stiff, self.values = case, soft, stiff, case.values
        self.windy = self._in_wind(case.mean_wind_m_per_s)

    def _in_wind(self, speed_m_per_s: float) -> Sweep:
        """Return the stiff line with a wind across it."""
        stiff = self.stiff
        return replace(stiff, blown=self.case.blown(stiff.geometry, stiff.standing.line, speed_m_per_s))

    def foot_heights_m(self) -> list[float]:
        """Return how high the feet are over the ground in the walk zone, at the edge where they are higher."""
        return list(self._foot_heights_m)

    @computed
    def _foot_heights_m(self) -> list[float]:
        return self.stiff.foot_heights_m(self.values["light_user"])

    def standing(self) -> State:
        """Return the line with nobody on it; its clearance is that of the lowest place over the walk zone."""
        soft, rest = self.soft, self.soft.standing.equilibrium
        edges = rest, self.stiff.standing.equilibrium
        least, at = least_clear(soft.heights(soft.bare(soft.fractions)))
        return State(
            STATES["standing"],
            "nobody on the line",
            CATENARY,
            max(one.tension_n for one in edges),
            max(one.tension_a_n for one in edges),
            max(one.tension_b_n for one in edges),
            Swept.of([edges[1]]),
            Swept.of([rest]),
            clearance_m=soft.clearance_m(rest.load_x_m, rest.load_y_m),
            least_clearance_m=least,
            least_clearance_at=at,
            meets_ground=None if least is None else least <= 0.0,
        )

    def at_rest(self, name: str, words: str, mass_kg: float, people: int) -> State:
        """Return people at rest, at their worst place."""
        fractions = self.soft.fractions
        wind_n = self.case.people_n(mass_kg, people, self.case.mean_wind_m_per_s)
        stiff, soft = self.windy.along(wind_n, fractions), self.soft.along(mass_kg * G, fractions)
        return self._state(name, words, CATENARY, stiff, soft)

    def crowd(self) -> State:
        """Return everybody who may be on the line at once, at rest at one place."""
        people = len(self.case.masses_kg)
        return self.at_rest("crowd", f"{people} users at rest at one place", self.case.everyone_kg, people)

    def landing_of(self, name: str, words: str) -> State:
        """Return a landing from the height that the policy gives for it, such as `bounce_height`."""
        value = f"{name}_height"
        height = self.values[value]
        return self.landing(
            name, f"{words} from {height:g} m", height, "policy value", DEFAULTS[value].source
        )

    def landing(
        self, name: str, words: str, height_m: float, height_words: str = "", source: Source | None = None
    ) -> State:
        """Return the heaviest user landing on the line from a height, others resting at the same place."""
        fractions, mass_kg = self.soft.peak_fractions, self.case.heaviest_kg
        landings = self._landings()
        landed = [
            (landing, landing.sweep.landing(mass_kg, height_m, landing.resting_n, fractions))
            for landing in landings
        ]
        hardest = [max((found[n] for _, found in landed), key=_tension_n) for n in range(len(fractions))]
        soft = [self.soft.landing(mass_kg, height_m, resting_n, fractions) for resting_n in self._resting_n()]
        deepest = [min((found[n] for found in soft), key=_height_m) for n in range(len(fractions))]
        state = self._state(name, words, ENERGY, hardest, deepest)
        landing = next(landing for landing, found in landed if any(one is state.rest for one in found))
        return replace(
            state,
            drop=LineFall(mass_kg, height_m, landing.resting_n, landing.sweep.line, height_words, source),
        )

    def _landings(self) -> list[_Landing]:
        """Return the stiff lines that somebody may land on.

        Alone or beside some or all of the others, in calm air or in wind: of a slack line that others or the wind have
        pulled straight, a landing is milder.
        """
        resting = self._resting_n()
        landings = [_Landing(self.stiff, resting_n) for resting_n in resting]
        wind, masses = self.case.mean_wind_m_per_s, self.case.masses_kg
        if wind:
            for n, resting_n in enumerate(resting, 1):
                # What the wind adds to the weight of everybody rests on the line before, as the others do.
                weight_kg = sum(masses[:n])
                drag_n = self.case.people_n(weight_kg, n, wind) - weight_kg * G
                landings.append(_Landing(self.windy, resting_n + drag_n))
        return landings

    def _resting_n(self) -> list[float]:
        """Return the weights of nobody, one, some and all of the others."""
        masses = self.case.masses_kg
        return [sum(masses[1:n]) * G for n in range(1, len(masses) + 1)]

    def leash_fall(self, hang_m: float, give_m_per_n: float) -> State:
        """Return a fall on the leash from standing; its clearance is that of the lowest body point.

        The leash is taken rigid for the force, since its give makes the catch softer; its give counts for the reach.
        """
        above, below = self.values["harness_above_line"], self.values["body_below_harness"]
        height = above + hang_m
        state = self.landing(
            "leash_fall",
            f"the heaviest user falls {height:.3g} m on the leash",
            height,
            f"harness {above:g} m above, hang {hang_m:g} m",
        )
        note = "clearance is that of the lowest body point. The leash force differs: see Person"
        return replace(self.soft.with_body(state, hang_m + below, give_m_per_n), note=note)

    def in_gust(self) -> State:
        """Return everybody at rest on the line in a gust square to it, at their worst place."""
        case, gust, people = self.case, self.case.gust_m_per_s, len(self.case.masses_kg)
        load_n = case.people_n(case.everyone_kg, people, gust)
        who = "the heaviest user" if people == 1 else f"{people} users"
        words = f"{who} at rest in a gust of {gust * 3.6:.3g} km/h across the line"
        found = self._in_wind(gust).along(load_n, self.soft.fractions)
        note = "sag is in the plane tilted by the wind. No galloping, no flutter"
        edge = Swept.of(found)
        ends = max(one.tension_a_n for one in found), max(one.tension_b_n for one in found)
        return State(STATES["wind"], words, WIND, edge.rest.tension_n, *ends, edge, edge, note=note)

    def _state(
        self, name: str, words: str, source: Source, stiff: list[Equilibrium], soft: list[Equilibrium]
    ) -> State:
        bears, hangs = Swept.of(stiff), Swept.of(soft)
        least, at = self.soft.least(soft)
        return State(
            STATES[name],
            words,
            source,
            bears.rest.tension_n,
            max(rest.tension_a_n for rest in stiff),
            max(rest.tension_b_n for rest in stiff),
            bears,
            hangs,
            clearance_m=self.soft.clearance_m(hangs.rest.load_x_m, hangs.rest.load_y_m),
            least_clearance_m=least,
            least_clearance_at=at,
            meets_ground=None if least is None else least <= 0.0,
        )
