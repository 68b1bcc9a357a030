"""What arrives at the person in a fall on the leash: force on leash and body, by place along the line."""

from __future__ import annotations

from riglint.loads.inputs import NotComputable, within_range
from riglint.loads.path.geometry import G
from riglint.loads.rig_loads import Loads
from riglint.loads.states.standing import rest_of
from riglint.loads.states.sweep import Sweep
from riglint.mechanics.falls.arrest import arrested_n
from riglint.mechanics.falls.impact import fall_impact_n
from riglint.mechanics.span.line import NoResult, hang
from riglint.mechanics.valid_range import Numbers
from riglint.model.values.defaults import DEFAULTS
from riglint.records import dataclass

SNATCH = 2.3  # greatest of time simulations over the quasi-static force, see riglint.mechanics.falls.arrest
HALVINGS = 12  # of half the line, until a distance is known to a few centimetres


@dataclass(frozen=True, slots=True)
class Arrest(Numbers):
    """A fall at one place: the force in the leash and on the body, N, from its low edge to its high edge."""

    fraction: float
    from_end_m: float  # to the nearer end of the webbing
    low_n: float
    high_n: float


class Arrests:
    """Falls of the heaviest user on the leash, the others at rest at the same place.

    Raises:
        MissingInput, NotComputable: as `Loads.leash_fall`.
    """

    def __init__(self, loads: Loads) -> None:
        self.loads, self.case, self.values = loads, loads.load_case, loads.values
        self.hang_m, self.give_m_per_n = loads.leash_reach()
        if self.hang_m <= 0.0:
            raise NotComputable("the leash has no length")
        self.height_m = self.values["harness_above_line"] + self.hang_m
        self.sweep: Sweep = loads.band.stiff

    @property
    def leash_n_per_m(self) -> float:
        """Stiffness of the leash: from its own stretch, else from the modulus of its kind of rope."""
        return 1.0 / self.give_m_per_n if self.give_m_per_n else self.modulus_n / self.hang_m

    @property
    def modulus_n(self) -> float:
        """Force that would stretch the leash to twice its length."""
        if self.give_m_per_n:
            return self.hang_m / self.give_m_per_n
        leash = self.loads.path.rig.rig.leash
        item = self.loads.path.rig.items.get(leash.gear or "") if leash is not None else None
        name = f"leash_modulus.{item.gear.type if item is not None else None}"
        return self.values[name if name in DEFAULTS else "leash_modulus.unknown"]

    @property
    @within_range("the fall on the leash")
    def held_fast_n(self) -> float:
        """Force if the ring were held fast: F = W + √(W² + 2·W·κ·f), f the fall over the length of the leash."""
        factor = min(self.height_m / self.hang_m, 2.0)  # no fall on a leash is further than twice its length
        return fall_impact_n(self.case.heaviest_kg, self.modulus_n, factor)

    def at(self, fraction: float) -> Arrest:
        """Return the fall at a share of the webbing."""
        line = self.sweep.line
        reference = rest_of(hang(line, self.case.others_kg * G, fraction))
        with within_range("the fall on the leash"):
            found = arrested_n(
                line, self.case.heaviest_kg, self.height_m, self.leash_n_per_m, reference=reference
            )
        if isinstance(found, NoResult):
            raise NotComputable("the line hangs slack without weight, so we calculate no fall on it")
        from_end = min(fraction, 1.0 - fraction) * line.unstressed_m
        # A ring that the line lets move is never stopped harder than one that is held fast.
        return Arrest(fraction, from_end, found, min(SNATCH * found, max(self.held_fast_n, found)))

    def middle(self) -> Arrest:
        """Return the fall in the middle of the walk zone."""
        low, high = self.sweep.zone()
        return self.at((low + high) / 2.0)

    def hardest(self) -> Arrest:
        """Return the fall nearest to an end of the webbing, at the end where it is harder."""
        return max((self.at(fraction) for fraction in self.sweep.zone()), key=lambda one: one.low_n)

    def gentler_from_m(self, most_n: float) -> float | None:
        """Return how far from both ends of the webbing a fall stays within a force; None where none does."""
        middle = self.middle()
        if middle.low_n > most_n:
            return None
        found = [self._from_m(fraction, middle.fraction, most_n) for fraction in self.sweep.zone()]
        return max(found)

    def _from_m(self, outer: float, inner: float, most_n: float) -> float:
        """Return the distance from the end of the webbing where a fall just stays within a force."""
        if self.at(outer).low_n <= most_n:
            return self.at(outer).from_end_m
        for _ in range(HALVINGS):
            between = (outer + inner) / 2.0
            if self.at(between).low_n > most_n:
                outer = between
            else:
                inner = between
        return self.at(inner).from_end_m
