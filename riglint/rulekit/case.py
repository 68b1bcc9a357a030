"""One rig as a rule sees it."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from itertools import islice
from typing import Protocol, TypeVar

from riglint.loadpath import Placed
from riglint.loads import Loads
from riglint.loads.haul.pulleys import Haul
from riglint.loads.inputs import At, MissingInput, NotComputable, known, need
from riglint.loads.path.used import fingerprint
from riglint.loads.strength.slings import slings_of
from riglint.loads.what_if.solved_for import Adjusting, Found, Search
from riglint.model.library import Item
from riglint.model.vocabulary.words import Consequence
from riglint.read.quantity import Quantity
from riglint.records import dataclass
from riglint.rulekit.remedies import Remedies, at_a_cost, objected
from riglint.rulekit.rules import Rule
from riglint.rulekit.verdicts import Input, Limit, Signal, place_of

T = TypeVar("T")


class NoObjection(Protocol):
    """Who says more or worse of a changed rig than of the rig as it stands."""

    def __call__(self, loads: Loads) -> bool:
        """Return whether nobody does."""

    def objecting(self, loads: Loads) -> list[tuple[str, Signal]]:
        """Return the rules that do, gravest first, each with its word."""

    def costs_nothing(self, loads: Loads) -> bool:
        """Return whether nobody says more, however mild: neither a CAUTION nor a figure further beyond its limit."""

    def costs(self, loads: Loads) -> list[tuple[str, Signal]]:
        """Return the rules that do, gravest first, each with its word."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What a case needs for finding remedies: who is asked, the search, who says more or worse afterwards."""

    rule: Rule
    number: int  # of the subject
    search: Search
    no_objection: NoObjection


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
        self.seeks_remedies = False  # whether a rule wanted to look for remedies, where nobody asked it to

    def for_rule(self, rule_id: str) -> Case:
        """Return the same case as one rule sees it."""
        return Case(self.loads, self.on, self._limits, self.recalled, rule_id)

    def of(self, loads: Loads) -> Case:
        """Return a case of other loads, on the same day and with the same limits in force."""
        return Case(loads, self.on, self._limits, self.recalled)

    def asked(self, asked: Asked) -> Case:
        """Return the case as one rule sees it that is asked about one subject, and may look for remedies."""
        return Case(self.loads, self.on, self._limits, self.recalled, self._rule_id, asked=asked)

    def put_right(self, at: At, *adjustings: Adjusting) -> Remedies:
        """Return changes that end the fault at a place, of one value each: the nearest with which this rule passes.

        A change with which some rule says more or worse than before goes further, until none does, or is left out;
        where all are, what is left out is only told. A CAUTION is not put right at the cost of another one: the two
        would send people in a circle. What is graver may be, where nothing else does it, and then says so. None at all
        in a case that only asks whether a rule passes.
        """
        if self._asked is None:
            self.seeks_remedies = True
            return Remedies()
        search, no_objection, here = self._asked.search, self._asked.no_objection, place_of(at)
        today, waits = self._words_at(self.loads)

        def ended(loads: Loads) -> bool:
            words, waiting = self._words_at(loads)
            new = [word for place, word in words.items() if place not in today]
            return waiting == waits and here not in words and all(word < today[here] for word in new)

        mild = today[here] <= Signal.CAUTION
        may = no_objection.costs_nothing if mild else no_objection
        found = [search.nearest(one, ended, may) for one in adjustings]
        harmless = [one for one in found if isinstance(one, Found)]
        free = [one.remedy for one in harmless if no_objection.costs_nothing(one.loads)]
        if harmless:
            return Remedies(
                free or [at_a_cost(one.remedy, no_objection.costs(one.loads)) for one in harmless]
            )
        ending = [one for one in (search.nearest(one, ended) for one in adjustings) if isinstance(one, Found)]
        tried = any(one(self.loads) is not None for one in adjustings)
        rejected = [objected(one.remedy, no_objection.costs(one.loads)) for one in ending]
        return Remedies((), rejected, in_vain=tried and not rejected)

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

    def fact(self, look_up: Callable[[Case], T]) -> T:
        """Return what is looked up of every rig of a library: a rig that was let go remembers it."""
        return look_up(self)

    @property
    def stage(self) -> str:
        """Where the work stands: planned, built, walking or lowered."""
        return self.rig.stage

    @property
    def consequence(self) -> Consequence:
        """What a failure would mean here: ground, fall or life."""
        return self.loads.consequence_word

    def limit(self, limit: Limit) -> float:
        """Return a limit in SI units, as the policy in force has it."""
        held = self._limits.get(f"{self._rule_id}.{limit.name}")
        return limit.si if held is None else held

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

    @property
    def too_high_to_land(self) -> bool:
        """Whether a fall goes further than anything on the ground makes bearable, and no leash ends it.

        Then nothing is advised but lowering the line, or a leash: no mat, no pad, nobody beside the walker.
        """
        return self.consequence == "life" and self.rig.leash is None

    @property
    def feet_too_high(self) -> bool:
        """Whether the feet are so high that only a leash saves whoever falls, or may be for all that is known."""
        feet = known(lambda: max(self.loads.band.foot_heights_m(), default=None))
        if feet is None:  # the line hangs no higher than straight between its anchors
            feet = known(lambda: self.loads.geometry.greatest_height_m()[0])
        return feet is None or feet > self.loads.values["life_above"]

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
        return At(self.file.spot_document, self.file.spot_place(key), part)

    # What most rules ask for

    @property
    def haul(self) -> Haul:
        """The mechanics of the haul, for rules that look at one.

        Raises:
            NotComputable: the rig has none.
        """
        if self.loads.haul is None:
            raise NotComputable("the rig has no pulley system")
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

    @property
    def main_structures(self) -> frozenset[str]:
        """Every anchor structure that the main line hangs on, those of its branches too, by name on the spot."""
        return frozenset(end.name for end in self.loads.ends() if end.backup is None and end.carries)

    def hanging_in(self, placed: Placed) -> list[Placed]:
        """Return the slings whose ends on the webbing's side hang in a part, a spread's each by itself."""
        slings = slings_of(self.loads)
        lines = ((one.placed, one.toward_line) for one in slings)
        return [sling for sling, line in lines if line is not None and line.key == placed.key]

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
        return self.stage == "planned"

    @property
    def fingerprint(self) -> str:
        """Three short words that change with the rig, its spot and the gear that it uses."""
        return fingerprint(self.loads)
