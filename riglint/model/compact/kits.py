"""Kits: runs of parts that a gear list keeps under a name, such as a club's standard tree anchor."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import field
from typing import Any, NamedTuple

from riglint.model.changed import value_at
from riglint.model.compact.part_lists import part_lists
from riglint.model.sentences import Key
from riglint.model.vocabulary import kinds
from riglint.read.document import Document
from riglint.read.problems import Problem, key_text, shown
from riglint.records import dataclass


class Kit(NamedTuple):
    """A kit and where it is written down."""

    document: Document
    key: Key
    parts: list[Any]


@dataclass(slots=True)
class OnHand:
    """What the gear lists of a rig hold: kinds of gear and kits, by name."""

    gear: dict[str, str] = field(default_factory=dict)
    kits: dict[str, Kit] = field(default_factory=dict)
    whole: bool = True  # whether every gear list could be read; what is wrong there is told there
    twice: set[str] = field(default_factory=set)  # names of kits that stand in two gear lists
    endless: set[str] = field(default_factory=set)  # names of kits that come round to themselves

    def add(self, document: Document, key: Key = ()) -> None:
        """Take in a gear list that stands at a key of a document; of two things of one name the first stays."""
        shelf = value_at(document.data, key)
        items, kits = (shelf.get(one) if isinstance(shelf, dict) else None for one in ("items", "kits"))
        for name, item in items.items() if isinstance(items, dict) else ():
            kind = item.get("kind") if isinstance(item, dict) else None
            if isinstance(kind, str):
                self.gear.setdefault(name, str(kind))
        for name, parts in kits.items() if isinstance(kits, dict) else ():
            if name in self.kits:
                self.twice.add(name)
            if isinstance(parts, list):
                self.kits.setdefault(name, Kit(document, (*key, "kits", name), parts))

    def in_circles(self) -> list[str]:
        """Return the kits that come round to themselves."""
        calls = {name: set(_called(kit.parts)) for name, kit in self.kits.items()}
        return [name for name in calls if name in _reached(calls, name)]

    def without_circles(self) -> OnHand:
        """Return it without the kits that come round to themselves: whoever calls one is told."""
        self.endless |= set(self.in_circles())
        for name in self.endless:
            del self.kits[name]
        return self


def circles(document: Document) -> Iterator[Problem]:
    """Yield each kit of a document that comes round to itself."""
    on_hand = OnHand()
    on_hand.add(document)
    shelves = document.data.get("shelf")
    for n, _ in enumerate(shelves if isinstance(shelves, list) else []):
        on_hand.add(document, ("shelf", n))
    for name in on_hand.in_circles():
        key = on_hand.kits[name].key
        yield Problem("file/reference", document.place(key), key_text(key), *holds_itself(name))


def ticked(document: Document) -> Iterator[Problem]:
    """Yield what is ticked on site and stands in a kit, where it would hold for every rig that calls it."""
    for lists in part_lists(document.data):
        if "kits" not in lists:
            continue
        for n, part in enumerate(value_at(document.data, lists)):
            yield from _ticked((*lists, n), part, document)


def _ticked(key: Key, part: Any, document: Document) -> Iterator[Problem]:
    for name, value in part.items() if isinstance(part, dict) else ():
        at = (*key, name)
        if name in kinds.SEEN_ON_SITE and not isinstance(value, (dict, list)):
            message = f"A kit can't say `{name}`: it is looked at on site, in each rig anew."
            do = f"Take `{name}` out of the kit, and write it where a rig calls the kit."
            yield Problem("file/value", document.place(at), key_text(at), message, do)
        elif isinstance(value, dict):
            yield from _ticked(at, value, document)


def holds_itself(name: str) -> tuple[str, str]:
    """Return what is wrong with a kit that comes round to itself, and what to do."""
    return (
        f"The kit {shown(name)} holds itself, so it never ends.",
        "Write out its parts, without a call of its own name on the way.",
    )


def _called(parts: list[Any]) -> Iterator[str]:
    """Yield the names of the kits that some parts call, at any depth."""
    data: dict[str, Any] = {"chain": parts}
    for key in part_lists(data):
        for part in value_at(data, key):
            if isinstance(part, dict) and isinstance(part.get("kit"), str):
                yield str(part["kit"])


def _reached(calls: dict[str, set[str]], first: str) -> set[str]:
    """Return the names that lie behind one, itself if it comes round."""
    found: set[str] = set()
    waiting = [first]
    while waiting:
        new = calls.get(waiting.pop(), set()) - found
        found |= new
        waiting.extend(new)
    return found
