"""What is on the line: people, what hangs along it, wind. Built once for a rig, and every state is computed with it.

Everyone who may be on the line at once stands at one place, the worst: no other places load it more, since of all
ways to place the same weights that one bends the line most. Whoever falls or lands is the heaviest, the others rest at
the same place; only when the line itself breaks does everyone fall.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from math import hypot

from riglint.loadpath import Placed
from riglint.loads.inputs import At, MissingInput, need
from riglint.loads.path.geometry import G, Geometry
from riglint.mechanics.span.line import Line
from riglint.mechanics.span.wind import drag_n, drag_n_per_m, resultant_n_per_m
from riglint.model.documents.gear import Gear
from riglint.model.library import RigFile
from riglint.model.reads import computed
from riglint.model.values.policy import Values
from riglint.records import dataclass


@dataclass(frozen=True, slots=True)
class Alongside:
    """A backup that is taped to the main line and hangs on it."""

    weight_n: float  # all of it, tape included
    length_m: float
    gear: Gear


class LoadCase:
    """The people, the hanging weight and the wind of one rig."""

    def __init__(self, rig: RigFile, values: Values, alongside: Callable[[], list[Alongside]]) -> None:
        self.rig, self.values, self._find_alongside = rig, values, alongside
        self.plan = rig.rig.plan

    # People

    @computed
    def masses_kg(self) -> list[float]:
        """Masses of the people who are on the line together, heaviest first.

        Users are alternatives; of more at once than are named each is taken as heavy as the heaviest.

        Raises:
            MissingInput: no user is named, or one without a mass.
        """
        plan, document = self.plan, self.rig.document
        users = need(plan.users if plan else None, At(document, ("plan", "users")))
        if not users:
            raise MissingInput(At(document, ("plan", "users")))
        masses = [
            need(user.mass, At(document, ("plan", "users", n, "mass"))).si for n, user in enumerate(users)
        ]
        masses.sort(reverse=True)
        together = plan.at_once if plan else 1
        return (masses[:1] * max(0, together - len(masses)) + masses)[:together]

    @property
    def heaviest_kg(self) -> float:
        """Mass of the heaviest user; errors as `masses_kg`."""
        return self.masses_kg[0]

    @property
    def everyone_kg(self) -> float:
        """Mass of all who are on the line at once; errors as `masses_kg`."""
        return sum(self.masses_kg)

    @property
    def others_kg(self) -> float:
        """Mass of all but the heaviest; errors as `masses_kg`."""
        return sum(self.masses_kg[1:])

    # What hangs along the line

    @computed
    def alongside(self) -> list[Alongside]:
        """Backups that are taped to the main line.

        Raises:
            MissingInput: the mass or the length of one is not given.
        """
        return self._find_alongside()

    def hung_n(self) -> float:
        """Return the weight that hangs along the main line beside its own; errors as `alongside`."""
        return sum(one.weight_n for one in self.alongside)

    # Wind

    @property
    def mean_wind_m_per_s(self) -> float:
        """Strongest mean wind of the plan; 0 where it names none."""
        return self.plan.wind.si if self.plan is not None and self.plan.wind is not None else 0.0

    @property
    def gust_m_per_s(self) -> float:
        """Speed of a gust in that wind."""
        return self.mean_wind_m_per_s * self.values["gust_factor"]

    def blown(self, geometry: Geometry, line: Line, speed_m_per_s: float) -> Line:
        """Return the line with the drag of a wind square to it added to its weight as a vector."""
        if not speed_m_per_s:
            return line
        beside = sum(self._drag_n_per_m(one.gear, speed_m_per_s) * one.length_m for one in self.alongside)
        drags = [
            self._drag_n_per_m(placed.item.gear, speed_m_per_s) if placed.item else 0.0
            for placed in geometry.path.webbings
        ]
        blown = [
            replace(
                one, weight_n_per_m=resultant_n_per_m(one.weight_n_per_m, drag + beside / line.unstressed_m)
            )
            for one, drag in zip(line.webbings, drags, strict=True)
        ]
        return replace(line, webbings=tuple(blown))

    def people_n(self, mass_kg: float, people: int, speed_m_per_s: float) -> float:
        """Return the force of people on the line (N): weight and drag as a vector.

        Added to the line's own in one plane, which bounds from above what two planes would give.
        """
        drag = drag_n(speed_m_per_s, self.values["body_drag_area"]) if speed_m_per_s else 0.0
        return hypot(mass_kg * G, people * drag)

    def faces_m(self, placed: Placed) -> float:
        """Return how broad a webbing or rope stands in the wind; a default where its shelf does not say."""
        gear = placed.item.gear if placed.item is not None else None
        return self.values["webbing_width"] if gear is None else self._faces_m(gear)

    def _faces_m(self, gear: Gear) -> float:
        facing = gear.diameter if gear.kind == "rope" else gear.width
        return facing.si if facing is not None else self.values["webbing_width"]

    def _drag_n_per_m(self, gear: Gear, speed_m_per_s: float) -> float:
        round_rope = gear.kind == "rope"
        return drag_n_per_m(
            speed_m_per_s,
            self._faces_m(gear),
            drag_coefficient=self.values["rope_drag" if round_rope else "drag"],
            air_density_kg_per_m3=self.values["air_density"],
        )
