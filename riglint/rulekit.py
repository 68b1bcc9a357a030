"""All that a rule needs: the case it judges, its limits and sources, and how it says what it found.

A rule is one file with one decorated function. It gets one rig, computed, and one subject of it at a time (a part,
a piece of gear, an anchor), compares, and yields a `Fault` for each thing that is wrong. It computes no physics.
"""

from __future__ import annotations

from calendar import monthrange
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from datetime import date
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN, Context
from enum import IntEnum
from itertools import combinations, islice
from typing import Any, Generic, Literal, NamedTuple, TypeVar

from riglint.hazards import known
from riglint.loadpath import Placed
from riglint.loads import Loads, PartLoad, State
from riglint.loads.backup import BackupLine
from riglint.loads.ends import End
from riglint.loads.geometry import G
from riglint.loads.haul import Haul
from riglint.loads.inputs import At, MissingInput, NotComputable, need, need_all
from riglint.loads.parts import Worst
from riglint.loads.points import PointLoad
from riglint.loads.turned_round import Edit, Found, Remedy, Search, Turning, Way
from riglint.loads.turns import (
    anchor_height,
    backup_length,
    fewer_at_once,
    fewer_haulers,
    heavier_user,
    higher_anchors,
    lighter_user,
    longer_rope,
    lower_anchors,
    lower_tension,
    more_haulers,
    more_tension,
    more_turns,
    one_value,
    open_blocks,
    set_to,
)
from riglint.loads.used import fingerprint, used_items
from riglint.model.gear import Shelf
from riglint.model.library import Item, Loaded
from riglint.model.parts import Part
from riglint.model.rig import Leash
from riglint.model.sources import OWN, PRACTICE, Source
from riglint.model.words import Consequence
from riglint.read.quantity import Dimension, Quantity, parse_quantity

__all__ = [
    "OWN",
    "PRACTICE",
    "REMOVE",
    "At",
    "BackupLine",
    "Case",
    "Each",
    "Edit",
    "End",
    "Example",
    "Fault",
    "G",
    "Input",
    "Item",
    "Leash",
    "LibraryCase",
    "Limit",
    "MissingInput",
    "NotComputable",
    "Part",
    "PartLoad",
    "Placed",
    "PointLoad",
    "Quantity",
    "Remedy",
    "Rule",
    "Shared",
    "Sharing",
    "Signal",
    "Source",
    "State",
    "Way",
    "Worst",
    "anchor_height",
    "anchors",
    "backup_length",
    "due",
    "each_backup",
    "each_item",
    "each_load",
    "each_piece",
    "each_sharing",
    "each_sling",
    "either",
    "ends",
    "everywhere",
    "faulty",
    "fewer_at_once",
    "fewer_haulers",
    "heavier_user",
    "higher_anchors",
    "in_kn",
    "insert_before",
    "lighter_user",
    "longer_rope",
    "lower_anchors",
    "lower_tension",
    "months_after",
    "more_haulers",
    "more_tension",
    "more_turns",
    "need",
    "need_all",
    "one_value",
    "open_",
    "open_blocks",
    "parts",
    "review",
    "rounded",
    "rule",
    "set_to",
    "sound",
    "strength_inputs",
    "the_haul",
    "the_haul_that_stays",
    "the_leash",
    "the_library",
    "the_rig",
    "tick",
]


class Signal(IntEnum):
    """The signal words of ANSI Z535.4 and ISO 3864-2, least first."""

    NOTICE = 1
    CAUTION = 2
    WARNING = 3
    DANGER = 4


MEANINGS: dict[Signal, str] = {
    Signal.DANGER: "do not tension or load",
    Signal.WARNING: "put right before anyone walks",
    Signal.CAUTION: "know it, improve it",
    Signal.NOTICE: "gear, tree or paperwork, no injury",
}

Kind = Literal["fail", "open", "review"]
Tighter = Literal["higher", "lower"]


@dataclass(frozen=True, slots=True)
class Limit:
    """A number that a rule compares with, written as a file would write it, with its reason and source."""

    name: str
    text: str  # "0.5 m", "2.5"
    dimension: Dimension | None  # None for a plain number
    tighter: Tighter  # which way asks for more
    because: str
    source: Source

    @property
    def si(self) -> float:
        """The default in SI units."""
        return float(self.text) if self.dimension is None else parse_quantity(self.text, self.dimension).si


class Input(NamedTuple):
    """One number that a finding rests on, as a reader would check it."""

    name: str
    symbol: str
    value: float | str
    unit: str
    where: str | None = None  # file and line it was read from


@dataclass(frozen=True, slots=True)
class Fault:
    """What a rule says about one place. Signal, kind and source are the rule's own unless given."""

    at: At
    message: str
    do: str
    value: float | str | None = None
    limit: float | str | None = None
    unit: str | None = None
    inputs: tuple[Input, ...] = ()
    state: str | None = None
    signal: Signal | None = None
    kind: Literal["fail", "review"] = "fail"
    why: str | None = None
    source: Source | None = None
    remedies: tuple[Remedy, ...] = ()  # changes of one value that end it, as `Case.put_right` finds them
    rigs: tuple[str, ...] = ()  # of a rule that looks at a whole library: the rigs that it touches


@dataclass(frozen=True, slots=True)
class Example:
    """One fault put into a sound rig, or a change that keeps it sound; the tests run it, the rulebook prints it."""

    verdict: Literal["sound", "faulty", "open", "review"]
    baseline: str
    edits: tuple[tuple[str, Any], ...] = ()
    at: str | None = None
    signal: Signal | None = None
    on: str = "2026-05-02"
    recalled: tuple[str, ...] = ()  # gear that the policy in force takes out of use
    beside: tuple[tuple[tuple[str, Any], ...], ...] = ()  # other rigs of the library: edits of the same rig
    shows: tuple[str, ...] = ()  # the hazards that it stands for, where its rule prevents several


class Removed(NamedTuple):
    """Takes a key away."""


class Inserted(NamedTuple):
    """Puts entries before one of a list."""

    entries: tuple[dict[str, Any], ...]


REMOVE = Removed()


def insert_before(*entries: dict[str, Any]) -> Inserted:
    """Return the edit value that puts parts before the one that the edit names."""
    return Inserted(entries)


def _example(verdict: Literal["sound", "faulty", "open", "review"]) -> Callable[..., Example]:
    def build(
        baseline: str,
        edits: dict[str, Any] | None = None,
        *,
        at: str | None = None,
        signal: Signal | None = None,
        on: str = "2026-05-02",
        recalled: tuple[str, ...] = (),
        beside: tuple[dict[str, Any], ...] = (),
        shows: str | tuple[str, ...] = (),
    ) -> Example:
        others = tuple(tuple(one.items()) for one in beside)
        hazards = known((shows,) if isinstance(shows, str) else shows)
        changed = tuple((edits or {}).items())
        return Example(verdict, baseline, changed, at, signal, on, recalled, others, hazards)

    return build


sound, faulty, open_, review = _example("sound"), _example("faulty"), _example("open"), _example("review")

S = TypeVar("S")
C = TypeVar("C", "Case", "LibraryCase")


@dataclass(frozen=True, slots=True)
class Each(Generic[S]):
    """Which subjects of a rig a rule looks at, one by one."""

    words: str
    of: Callable[[Any], Iterable[S]]  # of a Case, or of a LibraryCase
    shared: bool = False  # whether a fault belongs to a shared file rather than to one rig
    library: bool = False  # whether it looks at all rigs of a library together


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule: what it reads, compares, says and rests on. Its id is its path in the rulebook."""

    title: str
    each: Each[Any]
    check: Callable[[Any, Any], Iterable[Fault]]
    signal: Signal
    raised: tuple[tuple[Consequence, Signal], ...]
    worst: Signal
    why: str
    formula: str
    limits: tuple[Limit, ...]
    sources: tuple[Source, ...]
    examples: tuple[Example, ...]
    prevents: tuple[str, ...] = ()

    def at(self, consequence: Consequence) -> Signal:
        """The rule's word at a consequence class."""
        return dict(self.raised).get(consequence, self.signal)

    def worst_at(self, consequence: Consequence) -> Signal:
        """The worst word that the rule could say there: what an open question of its carries."""
        return max(self.at(consequence), self.worst)


def rule(
    *,
    title: str,
    each: Each[S],
    signal: Signal,
    why: str,
    formula: str,
    examples: tuple[Example, ...],
    prevents: tuple[str, ...] = (),
    limits: tuple[Limit, ...] = (),
    sources: tuple[Source, ...] = (),
    raised: dict[Consequence, Signal] | None = None,
    worst: Signal | None = None,
) -> Callable[[Callable[[C, S], Iterable[Fault]]], Rule]:
    """Make a rule of a function that judges one subject of a case.

    Args:
        title: what is wrong, as a heading.
        each: the subjects it judges: `parts(...)`, `each_load`, `each_item(...)`, `anchors(...)`, `the_haul`,
            `the_rig`.
        signal: its word at consequence `ground`.
        raised: its word at `fall` and `life`, where that is another.
        worst: the worst word that it can say of its own accord; an open question carries at least that.
        why: the accident that it prevents.
        formula: what is compared, in words and symbols.
        prevents: the hazards of `riglint.hazards` that it catches, or part of them. A rule of riglint's own names at
            least one.
        limits: every number it compares with.
        sources: sources beside those of the limits.
        examples: sound, faulty, one open for each input, and a pair just under and just over each limit.

    Raises:
        ValueError: `prevents` names what is no hazard, or an example shows one that the rule does not prevent.
    """
    known(prevents)
    shown = [hazard for example in examples for hazard in example.shows]
    for hazard in shown:
        if hazard not in prevents:
            raise ValueError(f"An example shows '{hazard}', which the rule does not name in `prevents`.")

    def make(check: Callable[[C, S], Iterable[Fault]]) -> Rule:
        words = tuple((raised or {}).items())
        return Rule(
            title,
            each,
            check,
            signal,
            words,
            worst or signal,
            why,
            formula,
            limits,
            sources,
            examples,
            prevents,
        )

    return make


# Remedies


@dataclass(frozen=True, slots=True)
class Asked:
    """What a case needs for turning its rig round: who is asked, the search, whether a changed rig is no worse."""

    rule: Rule
    number: int  # of the subject
    search: Search
    harmless: Callable[[Loads], bool]


def place_of(at: At) -> tuple[object, ...]:
    """Return what tells one place from another."""
    return at.path, at.key, at.part


def either(*ways: Remedy | str) -> str:
    """Return ways of putting something right as one sentence, such as `Raise both anchors to 1.9 m, or let 1 haul`."""
    words = [one.words if isinstance(one, Remedy) else one for one in ways]
    text = ", or ".join(filter(None, (", ".join(words[:-1]), words[-1])))
    return f"{text[:1].upper()}{text[1:]}."


class Case:
    """One rig as a rule sees it: documents, load path, loads, and the limits in force."""

    def __init__(
        self,
        loads: Loads,
        on: date,
        limits: dict[str, float],
        recalled: frozenset[str] = frozenset(),
        rule_id: str = "",
        *,
        asked: Asked | None = None,
    ) -> None:
        self.loads = loads
        self.path = loads.path
        self.file = loads.path.rig
        self.rig = self.file.rig
        self.plan = self.file.rig.plan
        self.spot = self.file.spot
        self.items = self.file.items
        self.on = on
        self._limits = limits
        self.recalled = recalled  # gear that the club's policy takes out of use
        self._rule_id = rule_id
        self._asked = asked

    def for_rule(self, rule_id: str) -> Case:
        """Return the same case as one rule sees it."""
        return Case(self.loads, self.on, self._limits, self.recalled, rule_id)

    def asked(self, asked: Asked) -> Case:
        """Return the case as one rule sees it that is asked about one subject, and may turn the rig round."""
        return Case(self.loads, self.on, self._limits, self.recalled, self._rule_id, asked=asked)

    def put_right(self, at: At, *turnings: Turning) -> tuple[Remedy, ...]:
        """Return changes that end the fault at a place, of one value each: the nearest with which this rule passes.

        A change with which some rule says more or worse than before goes further, until none does, or is left out.
        None at all in a case that only asks whether a rule passes.
        """
        if self._asked is None:
            return ()
        search, harmless, here = self._asked.search, self._asked.harmless, place_of(at)
        today, waits = self._words_at(self.loads)

        def ended(loads: Loads) -> bool:
            words, waiting = self._words_at(loads)
            new = [word for place, word in words.items() if place not in today]
            return waiting == waits and here not in words and all(word < today[here] for word in new)

        found = (search.nearest(one, ended, harmless) for one in turnings)
        return tuple(one.remedy for one in found if isinstance(one, Found))

    def _words_at(self, loads: Loads) -> tuple[dict[tuple[object, ...], Signal], str]:
        """Return where the rule that is asked finds its subject at fault, with its word, and what it waits for.

        A rule may tell a fault first, and then what else is missing.
        """
        assert self._asked is not None  # noqa: S101 - for the type checker
        rule, number = self._asked.rule, self._asked.number
        case = Case(loads, self.on, self._limits, self.recalled, self._rule_id)
        words: dict[tuple[object, ...], Signal] = {}
        (subject,) = islice(rule.each.of(case), number, number + 1)
        try:
            for fault in rule.check(case, subject):
                if fault.kind == "fail":
                    words[place_of(fault.at)] = fault.signal or rule.at(case.consequence)
        except (MissingInput, NotComputable) as reason:
            return words, str(reason)
        return words, ""

    @property
    def consequence(self) -> Consequence:
        """What a failure would mean here: ground, fall or life."""
        return self.loads.consequence.word

    def limit(self, limit: Limit) -> float:
        """Return a limit in SI units, as the policy in force has it."""
        return self._limits.get(f"{self._rule_id}.{limit.name}", limit.si)

    @property
    def highline(self) -> bool:
        """Whether people hang on a leash above the void: on a highline, or with a leash on any but a low or waterline.

        Raises:
            MissingInput: the rig does not say what it is used for, and more than a stumble is at stake.
        """
        if self.rig.use is None and self.rig.leash is None and self.consequence != "ground":
            raise MissingInput(self.at("use"))
        leashed = self.rig.leash is not None and self.rig.use not in {"lowline", "waterline"}
        return self.rig.use == "highline" or leashed

    # Places

    def at(self, *key: str | int, part: str | None = None) -> At:
        """Return a place in the rig file."""
        return At(self.file.document, key, part)

    def on_part(self, placed: Placed, *key: str | int) -> At:
        """Return a place below a part of the chain."""
        return At(self.file.document, (*placed.key, *key), placed.id)

    def on_item(self, item: Item, *key: str | int, part: str | None = None) -> At:
        """Return a place below a piece of gear on its shelf."""
        return At(item.document, (*item.key, *key), part)

    def on_spot(self, *key: str | int, part: str | None = None) -> At:
        """Return a place in the spot."""
        return At(self.file.spot_document, (*self.file.spot_key, *key), part)

    # What most rules ask for

    @property
    def haul(self) -> Haul:
        """The mechanics of the haul, for rules that look at one.

        Raises:
            NotComputable: the rig has none.
        """
        if self.loads.haul is None:
            raise NotComputable("the rig has no haul")
        return self.loads.haul

    def item(self, placed: Placed) -> Item:
        """Return the gear of a part.

        Raises:
            MissingInput: the part names none.
        """
        return need(placed.item, self.on_part(placed, "gear"))

    def beside(self, placed: Placed) -> list[Placed]:
        """Return the parts that a part is joined to, at both of its ends."""
        for run in self.loads.runs:
            keys = [one.key for one in run]
            if placed.key in keys:
                n = keys.index(placed.key)
                return [*run[max(n - 1, 0) : n], *run[n + 1 : n + 2]]
        return []

    def required(self, row: str) -> float | None:
        """Return the ratio asked of a class of parts here; None where none is asked."""
        return self.loads.values.required(row, self.consequence)

    def given(self, name: str, symbol: str, quantity: Quantity, at: At) -> Input:
        """Return a value of a file as an input of a finding, in the unit it was written in."""
        number, _, unit = quantity.text.partition(" ")
        try:
            return Input(name, symbol, float(number), unit, at.reference)
        except ValueError:
            return Input(name, symbol, quantity.text, "", at.reference)

    def before_use(self) -> bool:
        """Return whether the rig is still on paper, so that ticks are due on site."""
        return self.rig.stage == "planned"

    @property
    def fingerprint(self) -> str:
        """Three short words that change with the rig, its spot and the gear that it uses."""
        return fingerprint(self.loads)


@dataclass(frozen=True, slots=True)
class Shared:
    """A piece of gear of a library's shelves, and the rigs that use it."""

    item: Item
    rigs: tuple[Case, ...]


@dataclass(frozen=True, slots=True)
class Sharing:
    """Two rigs of a library that use the same pieces of gear."""

    one: Case
    other: Case
    gear: tuple[str, ...]  # names on the shelf


class LibraryCase:
    """All rigs of a library that could be read, and all shelves among its files, as a rule sees them."""

    def __init__(
        self,
        rigs: tuple[Case, ...],
        shelves: tuple[Loaded, ...],
        on: date,
        limits: dict[str, float],
        recalled: frozenset[str] = frozenset(),
        *,
        rule_id: str = "",
    ) -> None:
        self.rigs = rigs
        self.on = on
        self.shelves = shelves
        self.recalled = recalled
        self._limits = limits
        self._rule_id = rule_id

    def for_rule(self, rule_id: str) -> LibraryCase:
        """Return the same library as one rule sees it."""
        return LibraryCase(self.rigs, self.shelves, self.on, self._limits, self.recalled, rule_id=rule_id)

    def limit(self, limit: Limit) -> float:
        """Return a limit in SI units, as the policy in force has it."""
        return self._limits.get(f"{self._rule_id}.{limit.name}", limit.si)

    def on_item(self, item: Item, *key: str | int) -> At:
        """Return a place below a piece of gear on its shelf."""
        return At(item.document, (*item.key, *key))

    @property
    def gear(self) -> list[Shared]:
        """Every piece on a shelf with the rigs that use it, in the order of files and names."""
        items: dict[tuple[str, str], Item] = {}
        users: dict[tuple[str, str], list[Case]] = {}
        for shelf in self.shelves:
            if isinstance(shelf.model, Shelf) and shelf.document is not None:
                for name, gear in shelf.model.items.items():
                    items[shelf.path, name] = Item(name, gear, shelf.document, ("items", name))
        for case in self.rigs:
            for item in used_items(case.loads):
                items.setdefault((item.document.path, item.id), item)
                users.setdefault((item.document.path, item.id), []).append(case)
        return [Shared(item, tuple(users.get(key, ()))) for key, item in sorted(items.items())]

    @property
    def sharing(self) -> list[Sharing]:
        """Every two rigs that use the same pieces, in the order of the rigs."""
        found: dict[tuple[int, int], list[str]] = {}
        for piece in self.gear:
            for pair in combinations([self.rigs.index(case) for case in piece.rigs], 2):
                found.setdefault(pair, []).append(piece.item.id)
        return [
            Sharing(self.rigs[one], self.rigs[other], tuple(ids))
            for (one, other), ids in sorted(found.items())
        ]


# Subjects


def parts(*kinds: str) -> Each[Placed]:
    """Every part of the chain of these kinds."""
    words = ", ".join(kind.replace("_", " ") for kind in kinds)
    return Each(words, lambda case: [placed for placed in case.path.parts if placed.part.part in kinds])


def everywhere(*kinds: str) -> Each[Placed]:
    """Every part of these kinds, of the main line and of its backups, inside legs too."""

    def of(case: Case) -> list[Placed]:
        found = {one.key: one for run in case.loads.runs for one in run if one.part.part in kinds}
        return list(found.values())

    return Each(", ".join(kind.replace("_", " ") for kind in kinds) + ", of backups too", of)


def ends(*kinds: str) -> Each[End]:
    """Both ends of the main line and of every backup line, where structures of these kinds hold them (or any)."""

    def of(case: Case) -> Iterator[End]:
        for end in case.loads.ends():
            structure = end.path.structure(end.anchor)
            if structure is not None and (not kinds or structure.kind in kinds):
                yield end

    return Each("end of a line: " + ", ".join(kinds) if kinds else "end of a line", of)


def anchors(*kinds: str) -> Each[Placed]:
    """Both ends of the chain whose structure is of these kinds (of any kind, if none is named)."""

    def of(case: Case) -> list[Placed]:
        ends = [placed for placed in case.path.parts if placed.part.part == "anchor"]
        structures = [(placed, case.path.structure(placed)) for placed in ends]
        return [placed for placed, one in structures if one is not None and (not kinds or one.kind in kinds)]

    return Each("anchor: " + ", ".join(kinds) if kinds else "anchor", of)


def each_item(*kinds: str) -> Each[Item]:
    """Every piece of gear that the rig uses, of these kinds (of any kind, if none is named). Belongs to the shelf."""

    def of(case: Case) -> list[Item]:
        return [item for item in used_items(case.loads) if not kinds or item.gear.kind in kinds]

    words = ", ".join(kind.replace("_", " ") for kind in kinds) if kinds else "gear in use"
    return Each(words, of, shared=True)


def _loads(case: Case) -> Iterable[PartLoad]:
    return case.loads.parts


def _slings(case: Case) -> Iterator[Placed]:
    for placed in case.path.parts:
        if placed.part.part == "sling":
            yield placed
        for m, leg in enumerate(placed.part.legs or []):
            for n, part in enumerate(leg.chain):
                if part.part == "sling":
                    name = part.id or f"{placed.id}.legs[{m}][{n}]"
                    key = (*placed.key, "legs", m, "chain", n)
                    yield Placed(name, key, part, case.items.get(part.gear or ""))


def _haul(case: Case) -> list[Placed]:
    return [case.path.haul] if case.path.haul is not None else []


each_load: Each[PartLoad] = Each("every part that carries the line", _loads)
each_sling: Each[Placed] = Each("every sling of the chain, those inside legs too", _slings)
the_haul: Each[Placed] = Each("the haul", _haul)
the_haul_that_stays: Each[Placed] = Each(
    "the haul, where it stays in the chain", lambda case: [one for one in _haul(case) if one.part.stays]
)
each_backup: Each[BackupLine] = Each(
    "every line that backs up the main line",
    lambda case: [one for one in case.loads.backups if one.backs_main],
)
the_leash: Each[Leash] = Each(
    "the leash", lambda case: [case.rig.leash] if case.rig.leash is not None else []
)
each_piece: Each[Shared] = Each(
    "every piece on the library's shelves", lambda library: library.gear, library=True
)
each_sharing: Each[Sharing] = Each(
    "every two rigs that share gear", lambda library: library.sharing, library=True
)
the_library: Each[None] = Each("the library", lambda _library: [None], library=True)
the_rig: Each[None] = Each("the rig", lambda _case: [None])


def months_after(day: date, months: int) -> date:
    """Return the same day some months later; the last day of that month where it has no such day."""
    years, month = divmod(day.month - 1 + months, 12)
    year = day.year + years
    return date(year, month + 1, min(day.day, monthrange(year, month + 1)[1]))


# Words


def rounded(value: float, way: Literal["near", "up", "down"] = "near") -> str:
    """Return a number with 3 significant digits; `up` for what is needed, `down` for what is allowed."""
    rounding = {"near": ROUND_HALF_EVEN, "up": ROUND_CEILING, "down": ROUND_FLOOR}[way]
    # Nine digits first, so that the noise of binary fractions does not push 6 to 6.01.
    return f"{Context(prec=3, rounding=rounding).create_decimal(f'{value:.9g}').normalize():f}"


def in_kn(force_n: float, way: Literal["near", "up", "down"] = "near") -> str:
    """Return a force (N) as it stands in a sentence, such as `8.25 kN`."""
    return f"{rounded(force_n / 1000.0, way)} kN"


def strength_inputs(load: PartLoad, force_n: float) -> tuple[Input, ...]:
    """Return what a ratio of strength to force (N) rests on: the label, what the place takes off it, the force."""
    strength = load.strength
    name = "breaking strength"
    if strength.breaking_from != "label":
        name += f": {strength.breaking_from}"
    return (
        Input(name, "S", strength.breaking_n / 1000.0, "kN", strength.at.reference),
        *(Input(one.why, "r", one.factor, "1") for one in strength.reductions),
        Input("force on it", "F", force_n / 1000.0, "kN"),
    )


def tick(case: Case, done: bool | None, at: At, what: str, do: str, *, right: bool = True) -> Iterator[Fault]:
    """Judge something that can only be seen on site: done, not done, due, or not said.

    Args:
        case: the rig.
        done: what the file says.
        at: where it says so, or should.
        what: the sentence if it is not done, such as "The brake is not locked".
        do: what to do.
        right: the answer that is wanted.

    Raises:
        MissingInput: the rig stands already and the file does not say, or no fresh check confirms it.
    """
    if done is not None and done is not right:
        yield Fault(at, f"{what}.", do)
    elif done is None:
        yield from due(case, at, do)
    elif not case.before_use() and not _confirmed(case, at):
        raise MissingInput(case.at("checks", part=at.part))


def due(case: Case, at: At, do: str) -> Iterator[Fault]:
    """Say of something that can only be seen on site, and is not filled in, that it is due there.

    Raises:
        MissingInput: the rig stands already.
    """
    if not case.before_use():
        raise MissingInput(at)
    yield Fault(at, f"Due on site: {do[:1].lower()}{do[1:]}", do, kind="review", signal=Signal.NOTICE)


def _confirmed(case: Case, at: At) -> bool:
    """Return whether a check names this tick and was made at the present tension or above."""
    tension = case.plan.standing_tension if case.plan else None
    names = {str(at.key[-1]), at.key_text, f"{at.part}.{at.key[-1]}"}
    for check in case.rig.checks:
        if check.what not in names:
            continue
        if check.after_tension is None or tension is None or check.after_tension.si >= tension.si:
            return True
    return False
