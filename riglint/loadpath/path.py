"""Parts in their places, and the chain that they make; no forces, only what holds what.

What is found once and kept here reads no number of a document, so that it is the same whatever the numbers are.
"""

from dataclasses import replace
from functools import cached_property
from typing import NamedTuple

from riglint.model.documents.parts import Leg, Part
from riglint.model.documents.spot import Anchor
from riglint.model.library import Item, RigFile
from riglint.model.load import Key
from riglint.model.vocabulary.words import SignalWord, in_prose
from riglint.read.problems import key_text
from riglint.records import dataclass

# What may hold an end of webbing.
ENDS = frozenset({"webbing_anchor", "sewn_end", "webbing_knot", "webbing_join", "rope_knot"})
# What spans from side to side: webbing, or the rope of a backup.
SPANNING = frozenset({"webbing", "rope"})
SIDES = ("a", "b")  # of the first and of the last anchor
# What carries none of the line.
IDLE = frozenset({"anchor", "protector"})
# What may lie against an anchor structure, beside a spread of legs.
AGAINST = {
    "tree": frozenset({"sling", "legs"}),
    "boulder": frozenset({"sling", "legs", "shackle", "connector", "quick_link"}),
    "structure": frozenset({"sling", "legs", "shackle", "connector", "quick_link", "ring"}),
    "ground": frozenset({"sling", "legs", "shackle", "connector", "quick_link", "ring"}),
    "bolts": frozenset({"sling", "legs", "shackle", "connector", "quick_link", "ring"}),
}


BROKEN = "the chain does not run from anchor to anchor"


class NotComputable(Exception):  # noqa: N818 - it is an answer, not a fault of the program
    """Nothing can be computed, for a reason that another finding tells in full."""

    def __init__(self, because: str) -> None:
        super().__init__(because)
        self.because = because


@dataclass(frozen=True, slots=True)
class Placed:
    """One part in its place."""

    id: str  # the part's own id, or its place such as chain[5]
    key: Key
    part: Part
    item: Item | None

    @property
    def words(self) -> str:
        """What a person calls it: the kind and the gear, or the gear alone where its name says the kind."""
        kind, gear = in_prose(self.part.part), self.part.gear
        if not gear:
            return kind
        return gear if f" {kind} " in f" {gear.casefold()} " else f"{kind} {gear}"

    @property
    def names(self) -> frozenset[str]:
        """What another key may call it: its id, its place, its shelf name."""
        return frozenset(filter(None, (self.id, key_text(self.key), self.part.gear)))


class Break(NamedTuple):
    """A place where the chain does not hold together."""

    id: str
    key: Key
    message: str
    do: str
    stops: bool  # whether nothing can be computed because of it
    word: SignalWord | None = None  # how grave it is, where that is not what any other break is


@dataclass(frozen=True)
class LoadPath:
    """The chain of one rig from its first anchor to its last."""

    rig: RigFile
    parts: tuple[Placed, ...]
    breaks: tuple[Break, ...]
    key: Key = ("chain",)

    @cached_property
    def whole(self) -> bool:
        """Whether the load runs from anchor to anchor."""
        return not any(one.stops for one in self.breaks)

    @property
    def anchors(self) -> tuple[Placed, Placed]:
        """The first and the last part, both anchors.

        Raises:
            NotComputable: there are no parts, or the chain does not begin and end with an anchor.
        """
        if not self.ends_in_anchors:
            raise NotComputable(BROKEN)
        return self.parts[0], self.parts[-1]

    @cached_property
    def ends_in_anchors(self) -> bool:
        """Whether the first and the last part are anchors."""
        return bool(self.parts) and all(one.part.part == "anchor" for one in (self.parts[0], self.parts[-1]))

    @cached_property
    def webbings(self) -> tuple[Placed, ...]:
        """The webbings (of a rope backup the rope) in order."""
        return tuple(placed for placed in self.parts if placed.part.part in SPANNING)

    @cached_property
    def haul(self) -> Placed | None:
        """The rope pulley system, where the chain has one."""
        return next((placed for placed in self.parts if placed.part.part == "haul"), None)

    @cached_property
    def carrying(self) -> tuple[Placed, ...]:
        """The parts that the whole line runs through."""
        return tuple(placed for placed in self.parts if placed.part.part not in IDLE)

    def side(self, placed: Placed) -> str:
        """Return `a` before the first webbing, `b` after the last, else `between`; by halves without any."""
        return self._sides[self.number(placed)]

    @cached_property
    def _sides(self) -> tuple[str, ...]:
        """The side of each part in turn."""
        return tuple(self._side(n) for n in range(len(self.parts)))

    def _side(self, n: int) -> str:
        if self._spanned is None:
            return "a" if 2 * n < len(self.parts) else "b"
        first, last = self._spanned
        if n < first:
            return "a"
        return "b" if n > last else "between"

    @cached_property
    def _spanned(self) -> tuple[int, int] | None:
        """The places of the first and the last webbing."""
        webbing = [n for n, one in enumerate(self.parts) if one.part.part in SPANNING]
        return (webbing[0], webbing[-1]) if webbing else None

    def number(self, placed: Placed) -> int:
        """Return the place of a part in the chain; of a part inside legs or a haul the place of what holds it."""
        number = placed.key[len(self.key)]
        if not isinstance(number, int):
            raise TypeError(f"{placed.id} is no part of this chain")
        return number

    def on_side(self, side: str) -> tuple[Placed, ...]:
        """Return the carrying parts of one side, from the first end on."""
        return self._on_sides.get(side, ())

    @cached_property
    def _on_sides(self) -> dict[str, tuple[Placed, ...]]:
        found: dict[str, list[Placed]] = {}
        for placed in self.carrying:
            found.setdefault(self.side(placed), []).append(placed)
        return {side: tuple(parts) for side, parts in found.items()}

    def beside(self, placed: Placed, kind: str) -> Placed | None:
        """Return the nearest part of a kind on the same side of the webbing."""
        n = self.number(placed)
        same = [
            one
            for one in self.parts
            if one.part.part == kind and one is not placed and self.side(one) == self.side(placed)
        ]
        return min(same, key=lambda one: abs(self.number(one) - n), default=None)

    def structure(self, anchor: Placed) -> Anchor | None:
        """Return what the spot says of an anchor."""
        spot = self.rig.spot
        return spot.anchors.get(anchor.part.at or "") if spot else None

    def leg_runs(self, placed: Placed) -> list[tuple[Placed, ...]]:
        """Return the parts of each leg of a spread, from its point on."""
        if placed.key not in self._leg_runs:
            self._leg_runs[placed.key] = self._find_leg_runs(placed)
        return self._leg_runs[placed.key]

    @cached_property
    def _leg_runs(self) -> dict[Key, list[tuple[Placed, ...]]]:
        return {}

    def _find_leg_runs(self, placed: Placed) -> list[tuple[Placed, ...]]:
        runs = []
        for m, leg in enumerate(placed.part.legs or []):
            parts = place(self.rig, (*placed.key, "legs", m, "chain"), leg.chain)
            named = (
                replace(one, id=one.part.id or f"{placed.id}.legs[{m}][{n}]") for n, one in enumerate(parts)
            )
            runs.append(tuple(named))
        return runs

    def made_fast(self, haul: Placed) -> tuple[Placed, ...]:
        """Return what carries in place of a haul that does not stay."""
        parts = haul.part.made_fast
        return place(self.rig, (*haul.key, "made_fast"), parts) if parts else ()

    def spanning_beside(self, placed: Placed) -> list[Placed]:
        """Return the webbing or rope on either side of a part, within its leg where it is in one."""
        run = self.run_of(placed)
        n = next(m for m, one in enumerate(run) if one.key == placed.key)
        return [run[m] for m in (n - 1, n + 1) if 0 <= m < len(run) and run[m].part.part in SPANNING]

    def run_of(self, placed: Placed) -> tuple[Placed, ...]:
        """Return the parts in series that a part is one of: the chain, a leg, or what is made fast."""
        holder = self.parts[self.number(placed)]
        inside = [*self.leg_runs(holder), self.made_fast(holder)]
        return next((run for run in inside if any(one.key == placed.key for one in run)), self.parts)

    @cached_property
    def everything(self) -> tuple[Placed, ...]:
        """Every part, those inside legs and those that are made fast after the part that holds them."""
        found: list[Placed] = []
        for one in self.parts:
            found += [one, *(inner for leg in self.leg_runs(one) for inner in leg), *self.made_fast(one)]
        return tuple(found)

    def leg_of(self, placed: Placed) -> Leg | None:
        """Return the leg that a part is in; None for a part of the chain itself."""
        inside = placed.key[len(self.key) + 1 :]
        legs = self.parts[self.number(placed)].part.legs
        return legs[int(inside[1])] if legs and inside[:1] == ("legs",) else None

    def anchor_of(self, placed: Placed) -> Placed:
        """Return the anchor on a part's side; the last for what lies between two webbings."""
        return self.anchors[0 if self.side(placed) == "a" else 1]

    def step_to_anchor(self, placed: Placed) -> int:
        """Return which way its anchor lies along the parts in series: -1 or 1; 0 between two webbings."""
        if self.leg_of(placed) is not None:
            return -1  # a leg is written from its point on
        return {"a": -1, "b": 1}.get(self.side(placed), 0)

    def held_by(self, end: int) -> frozenset[str]:
        """Return what holds one end, 0 or 1: the bolts or slings of its legs, else the gear that lies on the anchor.

        Without legs a chain hangs on the only bolt of its anchor.
        """
        return self._by_legs(end) or self._by_its_only_bolt(end) or self._by_gear(end)

    def _by_legs(self, end: int) -> frozenset[str]:
        legs = (leg for one in self.on_side(SIDES[end]) for leg in one.part.legs or [])
        return frozenset(self._leg_on(self.anchors[end], leg) for leg in legs if leg.to)

    def _by_its_only_bolt(self, end: int) -> frozenset[str]:
        anchor = self.anchors[end]
        structure = self.structure(anchor)
        if structure is None or structure.kind != "bolts" or len(structure.points) != 1:
            return frozenset()
        return frozenset(f"{anchor.part.at or anchor.id}, point {point}" for point in structure.points)

    def _by_gear(self, end: int) -> frozenset[str]:
        """Return the part nearest to the anchor that may lie on one."""
        anchor = self.anchors[end]
        beside = [one for one in self.on_side(SIDES[end]) if one.part.part in AGAINST["ground"]]
        nearest = beside[:1] if end == 0 else beside[-1:]
        return frozenset(f"{anchor.part.at or anchor.id}, {one.part.gear or one.id}" for one in nearest)

    def _leg_on(self, anchor: Placed, leg: Leg) -> str:
        """Return what a leg hangs on: its bolt, or the sling where two slings may share a tree or boulder."""
        name, structure = anchor.part.at or anchor.id, self.structure(anchor)
        sling = leg.chain[-1].gear if leg.chain else None
        if sling is None or structure is None or structure.kind not in {"tree", "boulder", "structure"}:
            return f"{name}, point {leg.to}"
        return f"{name}, {sling}"

    def count_words(self, placed: Placed) -> str:
        """Return `webbing W-1, part 6 of 13`."""
        return f"{placed.words}, part {self.number(placed) + 1} of {len(self.parts)}"


def place(rig: RigFile, key: Key, parts: list[Part]) -> tuple[Placed, ...]:
    """Return the parts of one chain with their places and their gear."""
    return tuple(
        Placed(part.id or key_text((*key, n)), (*key, n), part, rig.items.get(part.gear or ""))
        for n, part in enumerate(parts)
    )


def first_up(words: str) -> str:
    """Return words with a capital first letter; the names of pieces keep theirs."""
    return words[:1].upper() + words[1:]
