"""The tie-back of a haul or a puller: how stiff it is, and how hard it catches the line."""

from __future__ import annotations

from riglint.loadpath import Placed
from riglint.loads.inputs import At, need, within_range
from riglint.loads.path.geometry import Geometry
from riglint.loads.states.standing import Standing
from riglint.loads.strength.strengths import Strengths
from riglint.mechanics.anchors import sling
from riglint.mechanics.falls.tie_back import catch_bound_n, catch_n
from riglint.mechanics.span.line import Equilibrium, hang
from riglint.mechanics.valid_range import Numbers, number
from riglint.model.documents.gear import Gear
from riglint.model.documents.parts import TieBack as Entry
from riglint.model.library import Item
from riglint.model.reads import computed
from riglint.model.values.defaults import DEFAULTS
from riglint.records import dataclass

SHORTENED_M = 0.01  # of the line's end, to see how its tension follows


@dataclass(frozen=True, slots=True)
class Spring(Numbers):
    """A piece of gear as a spring."""

    strain_per_n: float  # slope of its stretch curve
    length_m: float
    at: At  # on its shelf
    assumed: bool  # whether no curve is on the shelf, so that the stiffness of its fibre is taken

    @property
    def stiffness_n_per_m(self) -> float:
        """Stiffness: k = 1/(ε'·ℓ)."""
        return 1.0 / (self.strain_per_n * self.length_m)


class TieBackLine:
    """What catches the line when the part that it bypasses lets go."""

    def __init__(self, geometry: Geometry, placed: Placed) -> None:
        self.geometry, self.placed, self.values = geometry, placed, geometry.values
        self.entry: Entry = need(placed.part.tie_back, geometry.on_part(placed, "tie_back"))

    def on(self, *key: str) -> At:
        """Return a place inside the tie-back."""
        return self.geometry.on_part(self.placed, "tie_back", *key)

    @computed
    def item(self) -> Item:
        """Its rope, cord or sling.

        Raises:
            MissingInput: the file names none.
        """
        return need(self.geometry.rig.items.get(need(self.entry.gear, self.on("gear"))), self.on("gear"))

    @computed
    def own_sling(self) -> Item | None:
        """Its own sling; None where the file names none."""
        return self.geometry.rig.items.get(self.entry.sling or "")

    @property
    def sling_reach_m(self) -> float:
        """Length that its sling adds beyond the face of what it goes round; 0 without a sling or a length.

        Round a trunk in basket or choked, whichever reaches further, since a file does not say; else straight.
        """
        gear = self.own_sling.gear if self.own_sling is not None else None
        if gear is None or gear.length is None:
            return 0.0
        geometry, anchors = self.geometry, self.geometry.spot.anchors
        home = geometry.anchor_of(self.placed).part.at
        structure = anchors.get(self.entry.to or "") or anchors.get(home or "")
        if structure is None or structure.kind != "tree" or structure.girth is None:
            return gear.length.si
        return reach_round_m(structure.girth.si, gear.length.si)

    @property
    def slack_m(self) -> float:
        """How far the line runs before it catches.

        Raises:
            MissingInput: the file does not say.
        """
        return need(self.entry.slack, self.on("slack")).si

    def spring(self, tension_n: float, *, in_use: bool = True) -> Spring:
        """Return it as a spring at a tension (N), as stiff as in use or as listed.

        Rope and webbing by their curve; what has none (slings, cord) by its fibre's stiffness over its strength.

        Raises:
            MissingInput: gear, length, or strength where no curve is given, are not given.
        """
        item = self.item
        length = need(item.gear.length, self._on_shelf("length")).si
        at = At(item.document, item.key)
        if item.gear.stretch is not None:
            law = (self.geometry.in_use() if in_use else self.geometry).law(item.gear)
            return Spring(law.slope(tension_n), length, at, assumed=False)
        strength = Strengths(self.geometry).of_gear(item, self.placed.id).breaking_n
        # The stiff end of its fibre bounds the force from above; as listed it is taken at the soft end.
        stiffness = self.values[_stiffness_name(item.gear, "high" if in_use else "low")] * strength
        return Spring(1.0 / stiffness, length, at, assumed=True)

    def _on_shelf(self, key: str) -> At:
        return At(self.item.document, (*self.item.key, key), self.placed.id)

    @within_range("the tie-back")
    def bound_n(self, tension_n: float) -> float:
        """Return an upper bound of the force (N) when it catches the line standing at a tension; errors as `spring`."""
        stiffness = self.spring(tension_n).stiffness_n_per_m
        return number("the catch", catch_bound_n(tension_n, stiffness, self.slack_m))

    @within_range("the tie-back")
    def catch_n(self, tension_n: float, standing: Standing) -> float:
        """Return the force (N) with the tie-back as listed, and the line's tension falling as its end runs.

        Raises:
            MissingInput: as `spring` and `slack_m`.
        """
        stiffness = self.spring(tension_n, in_use=False).stiffness_n_per_m
        line_n_per_m = self.line_stiffness_n_per_m(standing)
        return number("the catch", catch_n(tension_n, stiffness, self.slack_m, line_n_per_m))

    def line_stiffness_n_per_m(self, standing: Standing) -> float:
        """Return how fast the standing tension falls as its end runs, N/m; 0 where the line no longer hangs."""
        side = self.geometry.path.side(self.placed)
        longer = standing.with_longer_reach(side, SHORTENED_M)
        rest = hang(longer)
        if not isinstance(rest, Equilibrium):
            return 0.0  # as if the tension never fell: that gives more force, not less
        now, then = (
            one.tension_a_n if side == "a" else one.tension_b_n for one in (standing.equilibrium, rest)
        )
        return max(now - then, 0.0) / SHORTENED_M


def _stiffness_name(gear: Gear, end: str) -> str:
    name = f"stiffness.{gear.material}_{end}"
    return name if name in DEFAULTS else f"stiffness.unknown_{end}"


def reach_round_m(girth_m: float, length_m: float) -> float:
    """Return how far a sling reaches from the face of a trunk that it goes round, basket or choked; 0 if too short."""
    choked = max(length_m - girth_m, 0.0)
    try:
        taken = min(length_m, sling.LARGEST_LENGTH_TO_GIRTH * girth_m)
        basket = sling.reach_from_face_m(girth_m, sling.included_angle_rad(taken, girth_m))
    except ValueError:
        basket = 0.0
    return max(choked, basket)
