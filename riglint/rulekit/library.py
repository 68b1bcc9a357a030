"""All rigs of a library as a rule sees them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from copy import copy
from dataclasses import replace
from datetime import date
from itertools import combinations

from riglint.loads.day.days_up import DaysUp, may_meet
from riglint.loads.inputs import At
from riglint.loads.path.used import used_items
from riglint.model.documents.gear import Shelf
from riglint.model.library import Item, Loaded
from riglint.records import dataclass
from riglint.rulekit import facts
from riglint.rulekit.case import Case
from riglint.rulekit.together import AnchorOfDay, Company, TwoLines, anchors_of_days, companies, twos
from riglint.rulekit.verdicts import Limit


@dataclass(frozen=True, slots=True)
class Shared:
    """A piece of gear of a library's shelves, and the rigs that use it."""

    item: Item
    rigs: tuple[Case, ...]


@dataclass(frozen=True, slots=True)
class ShelfInUse:
    """A gear list with the rigs that use each of its pieces."""

    library: LibraryCase
    path: str
    number: int | None  # among the shelves of the library; None where it is none of them
    used: Mapping[str, Sequence[Case]]  # by the name of the piece

    @property
    def pieces(self) -> Iterator[Shared]:
        """Every piece, in the order of names."""
        items = {} if self.number is None else _pieces(self.library.shelves[self.number])
        for name in sorted({*items, *self.used}):
            rigs = self.used.get(name, ())
            yield Shared(items.get(name) or _piece_of(rigs[0], self.path, name), tuple(rigs))


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
        rigs: Sequence[Case],
        shelves: Sequence[Loaded],
        on: date,
        limits: dict[str, float],
        recalled: frozenset[str] = frozenset(),
        *,
        rule_id: str = "",
        day: date | Sequence[date] | None = None,
    ) -> None:
        self.day = day  # the one day, or the days, to look at; None or none looks at all
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
    def rigs_of_spots_told_twice(self) -> list[list[Case]]:
        """The rigs at spots of one title, for each title under which more than one place tells of a spot."""
        found: dict[str, list[Case]] = {}
        for case in self.rigs:
            title = case.fact(facts.title_of_spot)
            if title:
                found.setdefault(title, []).append(case)
        return [
            cases for cases in found.values() if len({case.fact(facts.place_of_spot) for case in cases}) > 1
        ]

    @property
    def gear(self) -> Iterator[Shared]:
        """Every piece on a shelf with the rigs that use it, in the order of files and names; one shelf at a time."""
        return (piece for shelf in self.shelves_in_use for piece in shelf.pieces)

    @property
    def shelves_in_use(self) -> Iterator[ShelfInUse]:
        """Every shelf, and every file whose gear a rig uses, in the order of files; none is read yet."""
        users = self._users
        unread = getattr(self.shelves, "paths", None)  # of gear lists that are read when they are looked at
        paths = unread if unread is not None else [shelf.path for shelf in self.shelves]
        shelves = {path: n for n, path in enumerate(paths)}
        for path in sorted({*shelves, *users}):
            yield ShelfInUse(self, path, shelves.get(path), users.get(path, {}))

    @property
    def _users(self) -> dict[str, dict[str, list[Case]]]:
        """The rigs that use each piece of gear, by file and name."""
        users: dict[str, dict[str, list[Case]]] = {}
        for case in self.rigs:
            for one in case.fact(facts.uses):
                users.setdefault(one.path, {}).setdefault(one.id, []).append(case)
        return users

    @property
    def sharing(self) -> list[Sharing]:
        """Every two rigs that use the same pieces, or pieces of one kind with one serial, in the order of the rigs."""
        return self._sharing(lambda numbers: combinations(numbers, 2))

    @property
    def sharing_days(self) -> list[Sharing]:
        """Every two rigs that use the same pieces and may be up on one day.

        A rig that does not say when it is up is there beside the first that shares with it: more would ask the same.
        """
        days = [self._days_of(case) for case in self.rigs]
        return self._sharing(lambda numbers: may_meet(numbers, days))

    def _days_of(self, case: Case) -> DaysUp | None:
        """Return the days on which a rig is up; not told where its plan lacks what a rule asks for."""
        found = facts.when_up(case, self.on)
        return found and replace(found, told=case.fact(facts.days_told))

    def _sharing(self, chosen: Callable[[list[int]], Iterable[tuple[int, int]]]) -> list[Sharing]:
        """Return two rigs that share gear, of those that are chosen among all that use one piece."""
        found: dict[tuple[int, int], list[str]] = {}
        number = {case: n for n, case in enumerate(self.rigs)}
        for _, users in sorted(self._users.items()):
            for name, rigs in sorted(users.items()):
                for pair in chosen([number[case] for case in rigs]):
                    found.setdefault(pair, []).append(name)
        for pair, words in self._same_serials(chosen):
            found.setdefault(pair, []).append(words)
        return [
            Sharing(self.rigs[one], self.rigs[other], tuple(ids))
            for (one, other), ids in sorted(found.items())
        ]

    def _same_serials(
        self, chosen: Callable[[list[int]], Iterable[tuple[int, int]]]
    ) -> Iterator[tuple[tuple[int, int], str]]:
        """Yield two rigs that use pieces of one kind under one serial: entered on two shelves, or under two names."""
        by_serial: dict[tuple[str, str], dict[int, facts.Using]] = {}
        for n, case in enumerate(self.rigs):
            for piece in case.fact(facts.uses):
                if piece.serial:
                    key = (piece.kind, "".join(piece.serial.lower().split()))
                    by_serial.setdefault(key, {}).setdefault(n, piece)
        for users in by_serial.values():
            for one, other in chosen(sorted(users)):
                first, second = users[one], users[other]
                if (first.path, first.id) != (second.path, second.id):
                    names = " and ".join(dict.fromkeys((first.id, second.id)))
                    yield (one, other), f"{names} (serial {first.serial})"


def _pieces(shelf: Loaded) -> dict[str, Item]:
    if not isinstance(shelf.model, Shelf) or shelf.document is None:
        return {}
    return {
        name: Item(name, gear, shelf.document, ("items", name)) for name, gear in shelf.model.items.items()
    }


def _piece_of(case: Case, path: str, name: str) -> Item:
    return next(one for one in used_items(case.loads) if (one.document.path, one.id) == (path, name))
