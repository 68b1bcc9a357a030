"""People moved along one line: where they may be, and how the line lies under them at each place."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from functools import lru_cache
from typing import TYPE_CHECKING

from riglint.loads.path.geometry import G, Geometry
from riglint.loads.path.ground import GroundProfile
from riglint.loads.states.standing import Standing, rest_of
from riglint.mechanics.span.along import hang_along, places
from riglint.mechanics.span.line import Equilibrium, Line
from riglint.mechanics.span.peak import drop
from riglint.model.reads import computed
from riglint.records import dataclass

if TYPE_CHECKING:
    from riglint.loads.states.line import State

STEPS = 40  # equal steps over the walk zone, so 41 places
# A fall takes many more steps to solve than a person at rest: fewer places, and the ends of the zone are added.
PEAK_FRACTIONS = (0.1, 0.3, 0.4, 0.5, 0.6, 0.7, 0.9)
ALIKE = 1e-7  # shares or metres so near each other are the same but for rounding

MOST_SWEEPS = (
    64  # kept of each kind: some five are made for a rig, and as many for each input that moves the line
)

Place = tuple[float, float, float]  # x and y in m from end A, share of the webbing


@dataclass(frozen=True)  # no slots: what a sweep asks for at every state is worked out once
class Sweep:
    """Users moved along one line."""

    geometry: Geometry
    standing: Standing
    blown: Line | None = None  # the same with wind across it, where it is computed in wind

    @property
    def line(self) -> Line:
        """The line that people are moved along."""
        return self.blown or self.standing.line

    @computed
    def _ground(self) -> GroundProfile | None:
        return self.geometry.over_ground()

    def zone(self) -> tuple[float, float]:
        """Return the walk zone as shares of the webbing from the first end."""
        near, far = self.geometry.walk_zone_m
        length = self.line.unstressed_m
        low, high = near / length, 1.0 - far / length
        # Where the zone leaves nothing of the line, the middle is the one place left to judge.
        return (low, high) if low < high else (0.5, 0.5)

    @computed
    def fractions(self) -> tuple[float, ...]:
        """The places where a user at rest is computed."""
        low, high = self.zone()
        steps = [low + (high - low) * step / STEPS for step in range(STEPS + 1)]
        return tuple(sorted({0.5, *(one for one in steps if abs(one - 0.5) > ALIKE)}))

    @computed
    def peak_fractions(self) -> tuple[float, ...]:
        """The places where a peak is computed: both ends of the zone and seven inside."""
        low, high = self.zone()
        return tuple(sorted({low, high} | {one for one in PEAK_FRACTIONS if low < one < high}))

    def along(self, load_n: float, fractions: Iterable[float]) -> list[Equilibrium]:
        """Return the line with a load (N) at each of some places."""
        return list(_rests_along(self.line, load_n, tuple(fractions)))

    def landing(
        self, mass_kg: float, height_m: float, resting_n: float, fractions: Iterable[float]
    ) -> list[Equilibrium]:
        """Return the line at the lowest point of somebody who lands on it at each of some places."""
        return list(_landings(self.line, mass_kg, height_m, resting_n, tuple(fractions)))

    def bare(self, fractions: Sequence[float]) -> list[Place]:
        """Return shares of the webbing with nobody on the line."""
        found = places(self.line, self.standing.equilibrium, fractions)
        return [(x, y, fraction) for (x, y), fraction in zip(found, fractions, strict=True)]

    # Heights

    def clearance_m(self, x_m: float, y_m: float) -> float | None:
        """Return the height of a point above the ground straight below it; None where the spot does not say."""
        return None if self._ground is None else self._ground.clearance_m(x_m, y_m)

    def heights(self, places: Iterable[Place]) -> list[tuple[float, float]]:
        """Return the clearance of places, each with its share; none where the spot does not say."""
        ground = self._ground
        return [] if ground is None else [(ground.clearance_m(x, y), at) for x, y, at in places]

    def least(self, found: Iterable[Equilibrium]) -> tuple[float, float] | tuple[None, None]:
        """Return the least clearance under the loaded places, and where; None where the spot does not say."""
        return least_clear(self.heights((rest.load_x_m, rest.load_y_m, rest.fraction) for rest in found))

    def with_body(self, state: State, reach_m: float, give_m_per_n: float) -> State:
        """Return a state with the clearance of the lowest body point, below the line and what the leash gives."""

        def body_m(rest: Equilibrium) -> float:
            return rest.load_y_m - reach_m - give_m_per_n * rest.load_n

        bodies = [(rest.load_x_m, body_m(rest), rest.fraction) for rest in state.soft_positions]
        least, at = least_clear(self.heights(bodies))
        rest = state.soft.rest if state.soft else None
        return replace(
            state,
            clearance_m=None if rest is None else self.clearance_m(rest.load_x_m, body_m(rest)),
            least_clearance_m=least,
            least_clearance_at=at,
            meets_ground=None if least is None else least <= 0.0,
        )

    # Where people walk and fall from

    def foot_heights_m(self, light_kg: float) -> list[float]:
        """Return how high the feet are over the ground at places of the walk zone.

        The line gives under whoever stands on it, least under a light person. Where people jump, or where somebody's
        mass is not known, the feet are taken to be as high as the bare line.
        """
        plan = self.geometry.rig.rig.plan
        users = (plan.users if plan else None) or []
        bare = plan is None or "jump" in plan.moves or not users or any(user.mass is None for user in users)
        lightest_kg = min([light_kg, *(user.mass.si for user in users if user.mass)])
        low, high = self.zone()
        stood = self.along(
            0.0 if bare else lightest_kg * G, [low + (high - low) * n / 10.0 for n in range(11)]
        )
        clearances = [self.clearance_m(rest.load_x_m, rest.load_y_m) for rest in stood]
        return [clearance for clearance in clearances if clearance is not None]

    def walked_m(self) -> tuple[float, float]:
        """Return where the walk zone of the bare line begins and ends, in m from end A's face."""
        first, last = self.along(0.0, self.zone())
        return first.load_x_m, last.load_x_m


# Of numbers alone: whoever asks has read them. A rig that is judged with one value moved asks again for most.


@lru_cache(MOST_SWEEPS)
def _rests_along(line: Line, load_n: float, fractions: tuple[float, ...]) -> tuple[Equilibrium, ...]:
    """Return a line with a load at each of some places; errors as `rest_of`."""
    return tuple(rest_of(rest) for rest in hang_along(line, load_n, fractions))


@lru_cache(MOST_SWEEPS)
def _landings(
    line: Line, mass_kg: float, height_m: float, resting_n: float, fractions: tuple[float, ...]
) -> tuple[Equilibrium, ...]:
    """Return a line at the lowest point of somebody who lands on it at each of some places; errors as `rest_of`."""
    found: list[Equilibrium] = []
    for reference in _rests_along(line, resting_n, fractions):
        near = nearest(found, reference.fraction)
        landed = drop(
            line, reference.fraction, mass_kg, height_m, reference=reference, resting_n=resting_n, near=near
        )
        found.append(rest_of(landed))
    return tuple(found)


def nearest(found: Sequence[Equilibrium], fraction: float) -> Equilibrium | None:
    """Return the place that is most like another, as far from the middle of the webbing; None of none."""
    off = abs(fraction - 0.5)
    return min(found, key=lambda rest: abs(abs(rest.fraction - 0.5) - off), default=None)


def governing(found: Sequence[Equilibrium]) -> Equilibrium:
    """Return the place with the greatest tension; the first of two alike, as a symmetric rig has them."""
    tensions_n = [rest.tension_n for rest in found]
    enough_n = (1.0 - ALIKE) * max(tensions_n)
    return next(rest for rest, tension_n in zip(found, tensions_n, strict=True) if tension_n >= enough_n)


def least_clear(heights: Sequence[tuple[float, float]]) -> tuple[float, float] | tuple[None, None]:
    """Return the least height of some with their places; the first of two alike. None of none."""
    least = min((height for height, _ in heights), default=0.0)
    return next(((height, at) for height, at in heights if height <= least + ALIKE), (None, None))
