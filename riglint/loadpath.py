"""The load path: the parts of the chain in the order the load runs through them, and whether they make one chain.

No forces here, only what holds what.
"""

from dataclasses import dataclass, replace
from typing import NamedTuple

from riglint.model.library import Item, RigFile
from riglint.model.load import Key
from riglint.model.parts import Leg, Part
from riglint.model.spot import Anchor
from riglint.read.problems import key_text

# What may hold an end of webbing.
ENDS = frozenset({"webbing_anchor", "sewn_end", "webbing_knot", "webbing_join", "rope_knot"})
# What spans from side to side: webbing, or the rope of a backup.
SPANNING = frozenset({"webbing", "rope"})
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
        """What a person calls it: the kind and the gear."""
        kind = self.part.part.replace("_", " ")
        return f"{kind} {self.part.gear}" if self.part.gear else kind


class Break(NamedTuple):
    """A place where the chain does not hold together."""

    id: str
    key: Key
    message: str
    do: str
    stops: bool  # whether nothing can be computed because of it


@dataclass(frozen=True, slots=True)
class LoadPath:
    """The chain of one rig from its first anchor to its last."""

    rig: RigFile
    parts: tuple[Placed, ...]
    breaks: tuple[Break, ...]
    key: Key = ("chain",)

    @property
    def whole(self) -> bool:
        """Whether the load runs from anchor to anchor."""
        return not any(one.stops for one in self.breaks)

    @property
    def anchors(self) -> tuple[Placed, Placed]:
        """The first and the last part; both anchors where the chain is whole.

        Raises:
            NotComputable: there are no parts.
        """
        if not self.parts:
            raise NotComputable(BROKEN)
        return self.parts[0], self.parts[-1]

    @property
    def webbings(self) -> tuple[Placed, ...]:
        """The webbings (of a rope backup the rope) in order."""
        return tuple(placed for placed in self.parts if placed.part.part in SPANNING)

    @property
    def haul(self) -> Placed | None:
        """The rope pulley system, where the chain has one."""
        return next((placed for placed in self.parts if placed.part.part == "haul"), None)

    @property
    def carrying(self) -> tuple[Placed, ...]:
        """The parts that the whole line runs through."""
        return tuple(placed for placed in self.parts if placed.part.part not in IDLE)

    def side(self, placed: Placed) -> str:
        """Return `a` before the first webbing, `b` after the last, else `between`; by halves without any."""
        webbing = [n for n, one in enumerate(self.parts) if one.part.part in SPANNING]
        n = self.number(placed)
        if not webbing:
            return "a" if 2 * n < len(self.parts) else "b"
        if n < webbing[0]:
            return "a"
        return "b" if n > webbing[-1] else "between"

    def number(self, placed: Placed) -> int:
        """Return the place of a part in the chain; of a part inside legs or a haul the place of what holds it."""
        number = placed.key[len(self.key)]
        if not isinstance(number, int):
            raise TypeError(f"{placed.id} is no part of this chain")
        return number

    def on_side(self, side: str) -> tuple[Placed, ...]:
        """Return the carrying parts of one side, from the first end on."""
        return tuple(placed for placed in self.carrying if self.side(placed) == side)

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
        return place(self.rig, (*haul.key, "made_fast"), haul.part.made_fast or [])

    def spanning_beside(self, placed: Placed) -> list[Placed]:
        """Return the webbing (of a rope backup the rope) next to a part, on either side."""
        n = self.number(placed)
        return [
            self.parts[m]
            for m in (n - 1, n + 1)
            if 0 <= m < len(self.parts) and self.parts[m].part.part in SPANNING
        ]

    def held_by(self, end: int) -> frozenset[str]:
        """Return what holds one end, 0 or 1: the bolts or slings of its legs, else the gear that lies on the anchor.

        Without legs a chain hangs on the only bolt of its anchor.
        """
        anchor = self.anchors[end]
        name = anchor.part.at or anchor.id
        held: set[str] = set()
        for placed in self.on_side("a" if end == 0 else "b"):
            if placed.part.legs:
                held |= {self._leg_on(anchor, leg) for leg in placed.part.legs if leg.to}
        structure = self.structure(anchor)
        if not held and structure is not None and structure.kind == "bolts" and len(structure.points) == 1:
            held |= {f"{name}, point {point}" for point in structure.points}
        if not held:
            beside = [
                one for one in self.on_side("a" if end == 0 else "b") if one.part.part in AGAINST["ground"]
            ]
            first = (beside[:1] if end == 0 else beside[-1:]) or []
            held |= {f"{name}, {one.part.gear or one.id}" for one in first}
        return frozenset(held)

    def _leg_on(self, anchor: Placed, leg: Leg) -> str:
        """Return what a leg hangs on: its bolt, or the sling where two slings may share a tree or boulder."""
        name, structure = anchor.part.at or anchor.id, self.structure(anchor)
        sling = leg.chain[-1].gear if leg.chain else None
        if sling is None or structure is None or structure.kind not in {"tree", "boulder", "structure"}:
            return f"{name}, point {leg.to}"
        return f"{name}, {sling}"

    def count_words(self, placed: Placed) -> str:
        """Return `part 6 of 13, webbing W-1`."""
        return f"part {self.number(placed) + 1} of {len(self.parts)}, {placed.words}"


def build(rig: RigFile) -> LoadPath:
    """Return the load path of a rig with every break that a look at the order shows."""
    return build_chain(rig, ("chain",), rig.rig.chain)


def build_chain(rig: RigFile, key: Key, chain: list[Part]) -> LoadPath:
    """Return the load path of one chain of a rig: the main line's or a backup's."""
    parts = place(rig, key, chain)
    return LoadPath(rig, parts, tuple(_breaks(rig, key, parts)), key)


def place(rig: RigFile, key: Key, parts: list[Part]) -> tuple[Placed, ...]:
    """Return the parts of one chain with their places and their gear."""
    return tuple(
        Placed(part.id or key_text((*key, n)), (*key, n), part, rig.items.get(part.gear or ""))
        for n, part in enumerate(parts)
    )


def _breaks(rig: RigFile, key: Key, parts: tuple[Placed, ...]) -> list[Break]:
    if not parts:
        return [
            Break(
                key_text(key),
                key,
                "The chain is empty.",
                "List every part from one anchor to the other.",
                True,
            )
        ]
    return [
        *_at_the_ends(parts),
        *_at_the_webbing(key, parts),
        *_against_the_anchors(rig, parts),
        *_beside_protectors(parts),
        *_doubled(rig, parts),
    ]


def _at_the_ends(parts: tuple[Placed, ...]) -> list[Break]:
    found: list[Break] = []
    for placed, where in ((parts[0], "begins"), (parts[-1], "ends")):
        if placed.part.part != "anchor":
            message = f"The chain {where} with {placed.words}, so nothing holds that end."
            found.append(
                Break(placed.id, placed.key, message, "Begin and end the chain with its anchors.", True)
            )
    for placed in parts[1:-1]:
        if placed.part.part == "anchor":
            message = f"An anchor stands inside the chain, as part {parts.index(placed) + 1} of {len(parts)}."
            found.append(
                Break(placed.id, placed.key, message, "Keep two anchors: the first part and the last.", True)
            )
    first, last = parts[0].part.at, parts[-1].part.at
    if len(parts) > 1 and first is not None and first == last:
        message = f"Both ends of the chain go to the anchor '{first}'."
        found.append(
            Break(
                parts[-1].id, parts[-1].key, message, "Name the two anchors that the line runs between.", True
            )
        )
    return found


def _at_the_webbing(key: Key, parts: tuple[Placed, ...]) -> list[Break]:
    found: list[Break] = []
    kinds = [placed.part.part for placed in parts]
    if not SPANNING & set(kinds):
        message = "There is no webbing between the anchors."
        return [Break(key_text(key), key, message, "Add the webbing with what holds it at both ends.", True)]
    for n, placed in enumerate(parts):
        beside = [parts[m] for m in (n - 1, n + 1) if 0 <= m < len(parts)]
        if placed.part.part in SPANNING:
            for other in beside:
                if not _holds_webbing(other):
                    message = (
                        f"{_first_up(placed.words)} runs straight into {other.words}; nothing holds its end."
                    )
                    do = "Put a webbing anchor, a sewn end or a join between the two."
                    found.append(Break(placed.id, placed.key, message, do, True))
        elif placed.part.part in ENDS and not any(other.part.part in _held_by(placed) for other in beside):
            message = f"{_first_up(placed.words)} lies beside no webbing, so it holds none."
            found.append(
                Break(placed.id, placed.key, message, "Put it next to the webbing that it holds.", True)
            )
    if kinds.count("haul") > 1:
        extra = [placed for placed in parts if placed.part.part == "haul"][-1]
        message = "The chain holds two hauls; the mechanics of one is known, of two not."
        found.append(
            Break(extra.id, extra.key, message, "Keep the one that is loaded at standing tension.", True)
        )
    return found


def _held_by(placed: Placed) -> frozenset[str]:
    """Return what an end may lie beside: webbing, and for a join the sewn ends of the two pieces as well."""
    return SPANNING | {"sewn_end"} if placed.part.part == "webbing_join" else SPANNING


def _holds_webbing(placed: Placed) -> bool:
    """Return whether a part holds an end of webbing: a ratchet has it wound on its own axle."""
    ratchet = placed.item is not None and placed.item.gear.form == "ratchet"
    return placed.part.part in ENDS or (placed.part.part == "puller" and ratchet)


def _against_the_anchors(rig: RigFile, parts: tuple[Placed, ...]) -> list[Break]:
    found: list[Break] = []
    inner = [placed for placed in parts if placed.part.part not in IDLE]
    if not inner or rig.spot is None:
        return found
    for anchor, against in ((parts[0], inner[0]), (parts[-1], inner[-1])):
        structure = rig.spot.anchors.get(anchor.part.at or "")
        if structure is None or anchor.part.part != "anchor" or against.part.part in AGAINST[structure.kind]:
            continue
        what = f"{structure.kind} '{anchor.part.at}'"
        message = f"{_first_up(against.words)} stands next to the {what} with nothing round it."
        do = f"Add the sling or spread that holds it to the {structure.kind}."
        found.append(Break(against.id, against.key, message, do, False))
    return found


def _beside_protectors(parts: tuple[Placed, ...]) -> list[Break]:
    found: list[Break] = []
    for n, placed in enumerate(parts):
        if placed.part.part != "protector":
            continue
        beside = {parts[m].part.part for m in (n - 1, n + 1) if 0 <= m < len(parts)}
        if not beside & {"anchor", "sling", "protector"}:
            message = f"{_first_up(placed.words)} lies beside neither a sling nor an anchor, so it protects nothing."
            found.append(
                Break(placed.id, placed.key, message, "Put it next to the sling whose bark it covers.", False)
            )
    return found


def _doubled(rig: RigFile, parts: tuple[Placed, ...]) -> list[Break]:
    found: list[Break] = []
    seen: dict[str, str] = {}
    for key, name in gear_named(parts):
        if name in seen:
            message = f"{name} stands in two places of the chain: {seen[name]} and {key_text(key)}."
            found.append(
                Break(
                    key_text(key[:2]),
                    key,
                    message,
                    "One piece of gear can be in one place; name another.",
                    False,
                )
            )
        elif name in rig.items:
            seen[name] = key_text(key)
    return found


def gear_named(parts: tuple[Placed, ...]) -> list[tuple[Key, str]]:
    """Return every piece of gear that the chain names, with the key that names it."""
    found: list[tuple[Key, str]] = []
    for placed in parts:
        if placed.part.gear:
            found.append(((*placed.key, "gear"), placed.part.gear))
        if placed.part.part == "haul":
            found += [((*placed.key, *path), name) for path, name in haul_gear(placed.part)]
        if placed.part.legs:
            for m, leg in enumerate(placed.part.legs):
                key = (*placed.key, "legs", m, "chain")
                found += [((*key, n, "gear"), one.gear) for n, one in enumerate(leg.chain) if one.gear]
        for n, one in enumerate(placed.part.made_fast or []):
            if one.gear:
                found.append(((*placed.key, "made_fast", n, "gear"), one.gear))
    return found


def haul_gear(haul: Part) -> list[tuple[Key, str]]:
    """Return the gear inside a haul, with the keys that name it."""
    rope, brake, tackle, tie, pull = haul.rope, haul.brake, haul.multiplier, haul.tie_back, haul.pull
    end = rope.dead_end if rope else None
    redirect = pull.redirect if pull else None
    named: list[tuple[Key, str | None]] = [
        (("moving_block",), haul.moving_block),
        (("fixed_block",), haul.fixed_block),
        (("plate",), haul.plate),
        (("rope", "gear"), rope.gear if rope else None),
        (("rope", "dead_end", "by"), end.by if end else None),
        (("brake", "gear"), brake.gear if brake else None),
        (("brake", "connector"), brake.connector if brake else None),
        (("multiplier", "grip"), tackle.grip if tackle else None),
        (("multiplier", "pulley"), tackle.pulley if tackle else None),
        (("multiplier", "connector"), tackle.connector if tackle else None),
        (("tie_back", "gear"), tie.gear if tie else None),
        (("tie_back", "sling"), tie.sling if tie else None),
        (("pull", "redirect", "gear"), redirect.gear if redirect else None),
    ]
    return [(key, name) for key, name in named if name]


def _first_up(words: str) -> str:
    """Return words with a capital first letter; the names of pieces keep theirs."""
    return words[:1].upper() + words[1:]
