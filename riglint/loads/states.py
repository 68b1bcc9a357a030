"""What the line goes through: standing, somebody on it, a bounce. Users are swept along the span."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from riglint.loads.geometry import G, Geometry
from riglint.loads.inputs import At, MissingInput, need
from riglint.loads.standing import Standing, rest_of
from riglint.mechanics.line import Equilibrium, Line, NoResult, hang, hang_along, places
from riglint.mechanics.peak import drop
from riglint.mechanics.wind import drag_n_per_m, resultant_n_per_m
from riglint.model.sources import PRACTICE, Source

WIND = Source(
    "drag of a flat band, Cd 2.0 (Aeronautical Engineer's Data Book p. 95: 1.98)",
    "published",
    ("aeronautical_data_book",),
)
STEPS = 40  # equal steps over the walk zone, so 41 places
PEAK_FRACTIONS = (0.1, 0.3, 0.4, 0.5, 0.6, 0.7, 0.9)
DEFAULT_ZONE_M = 2.0
ALIKE = 1e-7  # shares or metres so near each other are the same but for rounding

CATENARY = Source("exact elastic catenary with the webbing's own stretch curve, one point load", "own")
ENERGY = Source("energy balance on the exact line, no damping; one field test gave 92-127 % of it", "own")

Place = tuple[float, float, float]  # x and y in m from end A, share of the webbing


@dataclass(frozen=True, slots=True)
class State:
    """One state of the line, at the place that governs."""

    name: str
    words: str
    source: Source
    rest: Equilibrium | None  # at the governing place; None for a state that is a force only
    tension_n: float
    tension_a_n: float  # greatest at end A over all places
    tension_b_n: float
    positions: tuple[Equilibrium, ...] = ()
    clearance_m: float | None = None  # under the governing place
    least_clearance_m: float | None = None
    least_clearance_at: float | None = None  # share of the webbing from the first end
    meets_ground: bool | None = None
    note: str = ""


class Sweep:
    """Users moved along one line."""

    def __init__(self, geometry: Geometry, standing: Standing) -> None:
        self.geometry, self.standing = geometry, standing
        self.line: Line = standing.line
        self._ground = geometry.over_ground()

    def zone(self) -> tuple[float, float]:
        """Return the walk zone as shares of the webbing from the first end."""
        plan = self.geometry.rig.rig.plan
        zone = plan.walk_zone if plan else None
        near, far = (zone[0].si, zone[1].si) if zone else (DEFAULT_ZONE_M, DEFAULT_ZONE_M)
        length = self.line.unstressed_m
        low, high = near / length, 1.0 - far / length
        return (low, high) if low < high else (0.5, 0.5)

    def fractions(self) -> list[float]:
        """Return the places where a user at rest is computed."""
        low, high = self.zone()
        steps = [low + (high - low) * step / STEPS for step in range(STEPS + 1)]
        return sorted({0.5, *(one for one in steps if abs(one - 0.5) > ALIKE)})

    def peak_fractions(self) -> list[float]:
        """Return the places where a peak is computed: both ends of the zone and seven inside."""
        low, high = self.zone()
        return sorted({low, high} | {one for one in PEAK_FRACTIONS if low < one < high})

    def clearance_m(self, x_m: float, y_m: float) -> float | None:
        """Return the height of a point above the ground straight below it; None where the spot does not say."""
        return None if self._ground is None else self._ground.clearance_m(x_m, y_m)

    # States

    def standing_state(self) -> State:
        """Return the line with nobody on it; its clearance is that of the lowest place over the walk zone."""
        rest = self.standing.equilibrium
        least, at = least_clear(self._heights(self._bare(self.fractions())))
        named = rest.tension_a_n if self.standing.at == "a" else rest.tension_b_n
        return State(
            "standing",
            "nobody on the line",
            CATENARY,
            rest,
            max(named, rest.tension_n),
            rest.tension_a_n,
            rest.tension_b_n,
            (rest,),
            self.clearance_m(rest.load_x_m, rest.load_y_m),
            least,
            at,
            meets_ground=None if least is None else least <= 0.0,
        )

    def foot_heights_m(self) -> list[float]:
        """Return how high the feet are over the ground at places of the walk zone.

        The line gives under whoever stands on it, least under the lightest user. Where people jump, or where
        somebody's mass is not known, the feet are taken to be as high as the bare line.
        """
        low, high = self.zone()
        places = self._along(self._lightest_n(), [low + (high - low) * step / 10.0 for step in range(11)])
        clearances = [self.clearance_m(rest.load_x_m, rest.load_y_m) for rest in places]
        return [clearance for clearance in clearances if clearance is not None]

    def _lightest_n(self) -> float:
        """Return the weight of the lightest user who stands on the line; 0 where the bare line counts."""
        plan = self.geometry.rig.rig.plan
        masses = [user.mass.si if user.mass else 0.0 for user in (plan.users or [])] if plan else []
        return 0.0 if plan is None or "jump" in plan.moves else min(masses, default=0.0) * G

    def walked_m(self) -> tuple[float, float]:
        """Return where the walk zone of the bare line begins and ends, in m from end A's face."""
        first, last = self._along(0.0, self.zone())
        return first.load_x_m, last.load_x_m

    def at_rest(self, name: str, words: str, load_n: float) -> State:
        """Return users of that weight at rest, at their worst place."""
        return self._governing(name, words, CATENARY, self._along(load_n, self.fractions()))

    def landing(
        self, name: str, words: str, mass_kg: float, height_m: float, resting_n: float = 0.0
    ) -> State:
        """Return somebody who lands on the line from a height, others resting at the same place."""
        found: list[Equilibrium] = []
        for reference in self._along(resting_n, self.peak_fractions()):
            where, near = reference.fraction, found[-1] if found else None
            landed = drop(
                self.line, where, mass_kg, height_m, reference=reference, resting_n=resting_n, near=near
            )
            found.append(rest_of(landed))
        return self._governing(name, words, ENERGY, found)

    def leash_fall(self, mass_kg: float, hang_m: float, give_m_per_n: float) -> State:
        """Return a fall on the leash from standing; its clearance is that of the lowest body point.

        The leash is taken rigid for the force, since its give makes the catch softer; its give counts for the reach.
        """
        values = self.geometry.values
        above, below = values["harness_above_line"], values["body_below_harness"]
        words = f"the heaviest user falls {above + hang_m:.3g} m on the leash"
        state = self.landing("leash_fall", words, mass_kg, above + hang_m)
        bodies = [
            (rest.load_x_m, rest.load_y_m - (hang_m + give_m_per_n * rest.load_n + below), rest.fraction)
            for rest in state.positions
        ]
        least, at = least_clear(self._heights(bodies))
        meets = None if least is None else least <= 0.0
        governing = state.rest
        body = None if governing is None else hang_m + give_m_per_n * governing.load_n + below
        clear = None if state.clearance_m is None or body is None else state.clearance_m - body
        note = "clearance is that of the lowest body point; the force on the leash is another and is not computed"
        return replace(
            state,
            clearance_m=clear,
            least_clearance_m=least,
            least_clearance_at=at,
            meets_ground=meets,
            note=note,
        )

    def in_wind(self, speed_m_per_s: float, width_m: float) -> State:
        """Return the bare line in a wind square to it: drag and weight added as vectors."""
        values = self.geometry.values
        drag = drag_n_per_m(
            speed_m_per_s,
            width_m,
            drag_coefficient=values["drag"],
            air_density_kg_per_m3=values["air_density"],
        )
        blown = [
            replace(one, weight_n_per_m=resultant_n_per_m(one.weight_n_per_m, drag))
            for one in self.line.webbings
        ]
        rest = rest_of(hang(replace(self.line, webbings=tuple(blown))))
        words = f"nobody on the line, wind of {speed_m_per_s * 3.6:.3g} km/h across it"
        note = "sag is in the plane that the wind tilts; galloping and flutter are outside this model"
        return State(
            "wind", words, WIND, rest, rest.tension_n, rest.tension_a_n, rest.tension_b_n, (rest,), note=note
        )

    def _along(self, load_n: float, fractions: Iterable[float]) -> list[Equilibrium]:
        """Return the line with a load at each of some places."""
        return [rest_of(rest) for rest in hang_along(self.line, load_n, fractions)]

    def _bare(self, fractions: Sequence[float]) -> list[Place]:
        """Return shares of the webbing with nobody on the line."""
        found = places(self.line, self.standing.equilibrium, fractions)
        return [(x, y, fraction) for (x, y), fraction in zip(found, fractions, strict=True)]

    def _heights(self, places: Iterable[Place]) -> list[tuple[float, float]]:
        """Return the clearance of places, each with its share; none where the spot does not say."""
        heights = [(self.clearance_m(x, y), at) for x, y, at in places]
        return [(height, at) for height, at in heights if height is not None]

    def _least(self, found: list[Equilibrium]) -> tuple[float, float] | tuple[None, None]:
        """Return the least clearance under the loaded places, and where; None where the spot does not say."""
        return least_clear(self._heights((rest.load_x_m, rest.load_y_m, rest.fraction) for rest in found))

    def _governing(self, name: str, words: str, source: Source, found: list[Equilibrium]) -> State:
        worst = governing(found)
        least, at = self._least(found)
        return State(
            name,
            words,
            source,
            worst,
            worst.tension_n,
            max(rest.tension_a_n for rest in found),
            max(rest.tension_b_n for rest in found),
            tuple(found),
            self.clearance_m(worst.load_x_m, worst.load_y_m),
            least,
            at,
            meets_ground=None if least is None else least <= 0.0,
        )


def governing(found: Sequence[Equilibrium]) -> Equilibrium:
    """Return the place with the greatest tension; the first of two alike, as a symmetric rig has them."""
    enough_n = (1.0 - ALIKE) * max(rest.tension_n for rest in found)
    return next(rest for rest in found if rest.tension_n >= enough_n)


def least_clear(heights: Sequence[tuple[float, float]]) -> tuple[float, float] | tuple[None, None]:
    """Return the least height of some with their places; the first of two alike. None of none."""
    least = min((height for height, _ in heights), default=0.0)
    return next(((height, at) for height, at in heights if height <= least + ALIKE), (None, None))


def masses_kg(geometry: Geometry) -> list[float]:
    """Return the masses of the people who are on the line together, heaviest first.

    Raises:
        MissingInput: no user is named, or one without a mass.
    """
    plan = geometry.rig.rig.plan
    document = geometry.rig.document
    users = need(plan.users if plan else None, At(document, ("plan", "users")))
    if not users:
        raise MissingInput(At(document, ("plan", "users")))
    masses = [need(user.mass, At(document, ("plan", "users", n, "mass"))).si for n, user in enumerate(users)]
    masses.sort(reverse=True)
    together = plan.at_once if plan else 1
    # Users are alternatives; more at once than are named are taken as heavy as the heaviest.
    return (masses[:1] * max(0, together - len(masses)) + masses)[:together]


def planned_states(sweep: Sweep, moves: Iterable[str]) -> list[State]:
    """Return the states that people cause: walker, crowd, bounce, and surf and jump where they are planned."""
    geometry, values = sweep.geometry, sweep.geometry.values
    masses = masses_kg(geometry)
    heaviest, others_n = masses[0], sum(masses[1:]) * G
    states = [sweep.at_rest("walker", "the heaviest user at rest", heaviest * G)]
    if len(masses) > 1:
        states.append(
            sweep.at_rest("crowd", f"{len(masses)} users at rest at one place", heaviest * G + others_n)
        )
    landings: list[tuple[str, str, float]] = [
        ("bounce", "the heaviest user lands on the line", values["bounce_height"])
    ]
    landings += [
        (move, f"the heaviest user lands while {move}ing", values[f"{move}_height"])
        for move in ("surf", "jump")
    ]
    for name, words, height in landings:
        if name == "bounce" or name in moves:
            states.append(sweep.landing(name, f"{words} from {height:g} m", heaviest, height, others_n))
    return states


def after_slip(sweep: Sweep, slip_m: float | None, strands: int, load_n: float) -> State:
    """Return the line after its rope has run through the brake as far as it can; None means that it runs out."""
    words = "the rope has run through the brake to its stopper, somebody on the line"
    slack = State("brake_slip", words, PRACTICE, None, 0.0, 0.0, 0.0, note="slack")
    if slip_m is None:
        return replace(slack, words="the rope runs out through the brake", note="runs out")
    standing = sweep.standing
    haul_side = "a" if sweep.geometry.path.side(sweep.geometry.path.haul) == "a" else "b"  # type: ignore[arg-type]
    reach = standing.line.reach_a if haul_side == "a" else standing.line.reach_b
    longer = replace(reach, length_m=reach.length_m + slip_m / strands)
    changed = {"reach_a" if haul_side == "a" else "reach_b": longer}
    line = replace(standing.line, **changed)  # type: ignore[arg-type]
    rest = hang(line)
    weight_n = sum(webbing.weight_n_per_m * webbing.length_m for webbing in line.webbings)
    if isinstance(rest, NoResult) or rest.tension_n < weight_n:
        return slack
    loosened = Sweep(sweep.geometry, replace(standing, line=line, equilibrium=rest))
    state = loosened.at_rest("brake_slip", words, load_n)
    return replace(
        state,
        source=CATENARY,
        note=f"standing tension then {rest.tension_n / 1000:.3g} kN; no impact is computed",
    )
