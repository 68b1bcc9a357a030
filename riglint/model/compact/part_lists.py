"""Where lists of parts and of legs stand in the plain data of a rig or a gear list."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from riglint.model.sentences import Key


def part_lists(data: Any) -> Iterator[Key]:
    """Yield the key of every list of parts, and of every list of legs, outer ones first.

    They may hold anything: nothing has been checked yet.
    """
    if not isinstance(data, dict):
        return
    yield from _below(("chain",), data.get("chain"))
    for n, backup in enumerate(_list(data.get("backups"))):
        if isinstance(backup, dict):
            yield from _below(("backups", n, "chain"), backup.get("chain"))
    yield from _of_kits((), data)
    for n, shelf in enumerate(_list(data.get("shelf"))):
        yield from _of_kits(("shelf", n), shelf)


def _of_kits(key: Key, shelf: Any) -> Iterator[Key]:
    kits = shelf.get("kits") if isinstance(shelf, dict) else None
    for name, parts in kits.items() if isinstance(kits, dict) else ():
        yield from _below((*key, "kits", name), parts)


def _below(key: Key, parts: Any) -> Iterator[Key]:
    """Yield a list of parts and the lists inside it."""
    if not isinstance(parts, list):
        return
    yield key
    for n, part in enumerate(parts):
        if not isinstance(part, dict):
            continue
        yield from _below((*key, n, "made_fast"), part.get("made_fast"))
        if isinstance(part.get("legs"), list):
            yield (*key, n, "legs")
        for m, leg in enumerate(_list(part.get("legs"))):
            if isinstance(leg, dict):
                yield from _below((*key, n, "legs", m, "chain"), leg.get("chain"))


def _list(value: Any) -> list[Any]:
    return value if isinstance(value, list) else []
