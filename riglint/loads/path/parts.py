"""One part that carries the line: its strength in place against its force in every state."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import field
from math import inf, isfinite

from riglint.loads.inputs import At
from riglint.loads.states.line import State
from riglint.loads.states.state_kinds import RatioKind
from riglint.loads.strength.strength import Strength
from riglint.loads.strength.strengths import NOTHING_TIED
from riglint.mechanics.valid_range import Numbers
from riglint.model.library import Item
from riglint.model.reads import Memory, remembered
from riglint.model.values.policy import Values
from riglint.model.values.ratios import PEAK, Required
from riglint.model.vocabulary.words import FIBRES, Consequence
from riglint.records import dataclass

LINKS = frozenset({"connector", "quick_link", "shackle"})


@dataclass(frozen=True, slots=True)
class Worst(Numbers):
    """The state in which a part has the least to spare."""

    state: str
    force_n: float
    ratio: float

    @property
    def order(self) -> float:
        """The ratio to nine digits: of parts alike the first is named, not one that is less by a last bit."""
        return _order(self.ratio)


def _order(ratio: float) -> float:
    return float(f"{ratio:.9g}")


@dataclass(slots=True)
class PartLoad:
    """One part that carries load, with its strength in place and its force in every state."""

    id: str
    part: str  # its kind, as the file names it; of a piece of the haul the piece
    words: str
    gear: str | None
    at: At  # where the rig names it
    strength_class: str  # row of the table of required ratios
    end: str  # a, b: the end whose tension it bears; line: the greatest anywhere
    find_strength: Callable[[], Strength]
    force_of: Callable[[float], float] = field(default=lambda tension_n: tension_n)
    only_in: tuple[RatioKind, ...] | None = (
        None  # the only ratios that judge it: what is off when people walk
    )
    values: Values = field(default_factory=Values)
    row: str | None = None  # row of required ratios, where its place rather than its kind decides
    _strength: Memory[Strength] = field(default_factory=dict, init=False, repr=False, compare=False)
    _worst: Memory[tuple[list[State], Worst | None]] = field(
        default_factory=dict, init=False, repr=False, compare=False
    )

    @property
    def named(self) -> str:
        """What a person calls it in a sentence: `the webbing knot`, `shackle SH-3`."""
        return self.words if self.gear and self.words.endswith(self.gear) else f"the {self.words}"

    @property
    def strength(self) -> Strength:
        """Its strength in place.

        Raises:
            MissingInput: something that it rests on is not given.
        """
        return remembered(self._strength, "strength", self.find_strength)

    def force_n(self, state: State) -> float | None:
        """Return its force in a state; None where it carries nothing then."""
        if self.only_in is not None and state.kind.strength not in self.only_in:
            return None
        tension = {"a": state.tension_a_n, "b": state.tension_b_n}.get(self.end, state.tension_n)
        return self.force_of(tension)

    def ratio(self, state: State) -> float | None:
        """Return strength over force in a state."""
        force = self.force_n(state)
        return None if not force else self.strength.strength_n / force

    def worst(self, states: list[State]) -> Worst | None:
        """Return the state among these with the least ratio; None where it carries nothing in any."""
        # Several rules ask for it; the states are kept with it, so that their identities stay theirs.
        same = tuple(map(id, states))
        return remembered(self._worst, same, lambda: (states, self._find_worst(states)))[1]

    def _find_worst(self, states: list[State]) -> Worst | None:
        worst, least, strength_n = None, inf, None
        for state in states:
            force = self.force_n(state)
            if force:
                if strength_n is None:
                    strength_n = self.strength.strength_n
                ratio = strength_n / force
                if not (isfinite(force) and isfinite(ratio)):
                    return Worst(state.name, force, ratio)  # refused, as in any state
                if ratio < least and (order := _order(ratio)) < least:
                    worst, least = (state.name, force, ratio), order
        return None if worst is None else Worst(*worst)

    @property
    def untied(self) -> bool:
        """Whether it is an end of rope or webbing that nothing holds; `placement/rope_end` tells it."""
        return self.strength.no_rating == NOTHING_TIED

    @property
    def required(self) -> Required:
        """The ratios asked of its class."""
        return PEAK[self.row or self.strength_class]

    def required_at(self, consequence: Consequence) -> float | None:
        """Return the ratio asked of it at a consequence class."""
        return self.values.required(self.row or self.strength_class, consequence)

    @property
    def metal(self) -> bool:
        """Whether it is metal rather than textile."""
        return self.strength_class in {"metal", "aluminium", "brake"}


def strength_class(kind: str, item: Item | None) -> str:
    """Return the row of required ratios that a part falls under."""
    tackle = (
        kind == "puller" and item is not None and item.gear.form == "webbing_tackle"
    )  # webbing over rings
    if tackle or kind in {"webbing", "sewn_end", "webbing_knot", "webbing_join"}:
        return "webbing"
    if kind in {"rope", "rope_knot"}:
        return "rope"
    if kind == "sling" or (item is not None and item.gear.material in FIBRES and kind in LINKS):
        return "textile"  # a soft shackle as well
    if kind in LINKS and item is not None and item.gear.material == "aluminium":
        return "aluminium"
    return "metal"
