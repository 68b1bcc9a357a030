"""Checks every part, piece of gear and anchor against the table of kinds."""

from collections.abc import Iterator
from typing import Any

from riglint.model.sentences import Key, Words
from riglint.model.vocabulary import kinds
from riglint.model.vocabulary.words import in_prose
from riglint.read.problems import Problem

MOST_NAMED = 3  # other kinds that a key belongs to

# The table of kinds, the keys that all of them share, and the key that names the kind.
_TABLES = {
    "part": (kinds.PART, kinds.PART_SHARED, "part"),
    "gear": (kinds.GEAR, kinds.GEAR_SHARED, "kind"),
    "anchor": (kinds.ANCHOR, kinds.ANCHOR_SHARED, "kind"),
}


def kind_problems(words: Words) -> Iterator[Problem]:
    """Yield what is wrong with the keys of every part, piece of gear and anchor."""
    data = words.document.data
    spots: list[tuple[Key, object]] = [(("anchors",), data), (("spot", "anchors"), data.get("spot"))]
    for key, spot in spots:
        if isinstance(spot, dict):
            yield from _check_named(words, key, spot.get("anchors"), "anchor")
    shelves: list[tuple[Key, object]] = [(("items",), data)]
    shelves += [(("shelf", n, "items"), one) for n, one in enumerate(items_of(data.get("shelf")))]
    for key, shelf in shelves:
        if isinstance(shelf, dict):
            yield from _check_named(words, key, shelf.get("items"), "gear")
            kits = shelf.get("kits")
            for name, parts in kits.items() if isinstance(kits, dict) else ():
                yield from _check_parts(words, (*key[:-1], "kits", name), parts)
    yield from _check_parts(words, ("chain",), data.get("chain"))
    for n, backup in enumerate(items_of(data.get("backups"))):
        if isinstance(backup, dict):
            yield from _check_parts(words, ("backups", n, "chain"), backup.get("chain"))


def items_of(value: object) -> list[Any]:
    """Return the items of a list; none where something else stands."""
    return value if isinstance(value, list) else []


def _check_named(words: Words, key: Key, group: object, what: str) -> Iterator[Problem]:
    for name, entry in group.items() if isinstance(group, dict) else ():
        yield from _check_entry(words, (*key, name), entry, what)


def _check_parts(words: Words, key: Key, parts: object) -> Iterator[Problem]:
    for n, entry in enumerate(items_of(parts)):
        yield from _check_entry(words, (*key, n), entry, "part")
        if not isinstance(entry, dict):
            continue
        yield from _check_parts(words, (*key, n, "made_fast"), entry.get("made_fast"))
        for m, leg in enumerate(items_of(entry.get("legs"))):
            if isinstance(leg, dict):
                yield from _check_parts(words, (*key, n, "legs", m, "chain"), leg.get("chain"))


def _check_entry(words: Words, key: Key, entry: object, what: str) -> Iterator[Problem]:
    table, shared, word = _TABLES[what]
    named = entry.get(word) if isinstance(entry, dict) else None
    kind = table.get(named) if isinstance(named, str) else None
    if kind is None or not isinstance(entry, dict):
        return
    called = a_kind(str(named))
    for written in entry:
        if written not in kind.takes | shared:
            others = [a_kind(name) for name, other in table.items() if written in other.takes]
            other = " or ".join(others) if len(others) <= MOST_NAMED else ""
            yield words.unknown_key((*key, written), called, kind.takes | shared, other)
    for wanted in sorted(kind.needs):
        if entry.get(wanted) is None:
            yield words.missing((*key, wanted), called)


def a_kind(kind: str) -> str:
    """Return a kind with its article, in words."""
    article = "" if kind == "bolts" else "an " if kind[0] in "aeiou" else "a "
    return article + in_prose(kind)
