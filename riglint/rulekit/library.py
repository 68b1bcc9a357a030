"""All rigs of a library as a rule sees them."""

from __future__ import annotations

from collections.abc import Iterator
from copy import copy
from dataclasses import dataclass
from datetime import date
from itertools import combinations

from riglint.loads.inputs import At
from riglint.loads.path.used import used_items
from riglint.model.documents.gear import Shelf
from riglint.model.library import Item, Loaded
from riglint.rulekit.case import Case
from riglint.rulekit.together import AnchorOfDay, Company, TwoLines, anchors_of_days, companies, twos
from riglint.rulekit.verdicts import Limit


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
        day: date | None = None,
    ) -> None:
        self.day = day  # the one day to look at; None looks at all
        self.rigs = rigs
        self.on = on
        self.shelves = shelves
        self.recalled = recalled
        self._limits = limits
        self._rule_id = rule_id
        self._companies: list[Company] | None = None

    def for_rule(self, rule_id: str) -> LibraryCase:
        """Return the same library as one rule sees it."""
        same = copy(self)  # what stands together is found once for all rules
        same._rule_id = rule_id  # noqa: SLF001 - its own
        return same

    def limit(self, limit: Limit) -> float:
        """Return a limit in SI units, as the policy in force has it."""
        return self._limits.get(f"{self._rule_id}.{limit.name}", limit.si)

    def on_item(self, item: Item, *key: str | int) -> At:
        """Return a place below a piece of gear on its shelf."""
        return At(item.document, (*item.key, *key))

    @property
    def companies(self) -> list[Company]:
        """The rigs that stand together at one spot on one day."""
        if self._companies is None:
            self._companies = companies(self.rigs, self.on, self.day)
        return self._companies

    @property
    def anchors(self) -> list[AnchorOfDay]:
        """Every structure on which several lines pull on one day."""
        return anchors_of_days(self.companies)

    @property
    def twos(self) -> list[TwoLines]:
        """Every two rigs that stand at one spot on one day."""
        return twos(self.companies)

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
        """Every two rigs that use the same pieces, or pieces of one kind with one serial, in the order of the rigs."""
        found: dict[tuple[int, int], list[str]] = {}
        number = {case: n for n, case in enumerate(self.rigs)}
        for piece in self.gear:
            for pair in combinations([number[case] for case in piece.rigs], 2):
                found.setdefault(pair, []).append(piece.item.id)
        for pair, words in self._same_serials():
            found.setdefault(pair, []).append(words)
        return [
            Sharing(self.rigs[one], self.rigs[other], tuple(ids))
            for (one, other), ids in sorted(found.items())
        ]

    def _same_serials(self) -> Iterator[tuple[tuple[int, int], str]]:
        """Yield two rigs that use pieces of one kind under one serial: entered on two shelves, or under two names."""
        by_serial: dict[tuple[str, str], dict[int, Item]] = {}
        for n, case in enumerate(self.rigs):
            for item in used_items(case.loads):
                if item.gear.serial:
                    key = (item.gear.kind, "".join(item.gear.serial.lower().split()))
                    by_serial.setdefault(key, {}).setdefault(n, item)
        for users in by_serial.values():
            for (one, first), (other, second) in combinations(sorted(users.items()), 2):
                if (first.document.path, first.id) != (second.document.path, second.id):
                    names = " and ".join(dict.fromkeys((first.id, second.id)))
                    yield (one, other), f"{names} (serial {first.gear.serial})"
