"""A list of a document with other entries in it; every value keeps its place."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace
from typing import Any, NamedTuple

from riglint.model.changed import with_value
from riglint.model.sentences import Key
from riglint.read.document import Document, Origin

Below = dict[Any, list[tuple[Key, Any]]]  # what a mapping has below each entry of a list


class WrittenOut(NamedTuple):
    """A new entry of a list: which old one it comes from, and where else it was written."""

    value: Any
    old: int
    origin: Origin | None = None  # of all but `own`
    own: frozenset[str] = frozenset()  # keys of an entry with an origin that stand here


def spliced(document: Document, key: Key, entries: list[WrittenOut]) -> Document:
    """Return a document with another list at a key."""
    places, below = _parted(document.places, key)
    key_places, keys_below = _parted(document.key_places, key)
    origins, origins_below = _parted(document.origins, key)
    for n, one in enumerate(entries):
        places |= _taken(below, key, n, one)
        key_places |= _taken(keys_below, key, n, one)
        origins |= _taken(origins_below, key, n, one)
        if one.origin is not None:
            origins[*key, n] = one.origin
    data = with_value(document.data, key, [one.value for one in entries])
    return replace(document, data=data, places=places, key_places=key_places, origins=origins)


def _parted(mapping: dict[Any, Any], key: Key) -> tuple[dict[Any, Any], Below]:
    """Return what a mapping has outside a list, and what below each of its entries."""
    at = len(key)
    outside: dict[Any, Any] = {}
    below: Below = defaultdict(list)
    for where, value in mapping.items():
        if len(where) > at and where[:at] == key:
            below[where[at]].append((where[at + 1 :], value))
        else:
            outside[where] = value
    return outside, below


def _taken(below: Below, key: Key, n: int, entry: WrittenOut) -> dict[Any, Any]:
    """Return what an entry keeps of the old one that it comes from."""
    return {
        (*key, n, *rest): value
        for rest, value in below.get(entry.old, ())
        if entry.origin is None or (rest and rest[0] in entry.own)
    }
