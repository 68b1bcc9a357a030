"""References by number, such as `chain[3].pins`, that point at another part since one was put in or taken out."""

from __future__ import annotations

import re
from collections.abc import Iterator
from difflib import SequenceMatcher
from itertools import starmap

from riglint.loadpath.path import LoadPath
from riglint.loads import Loads
from riglint.loads.path.used import written
from riglint.read.document import Document
from riglint.read.problems import key_text
from riglint.records import dataclass

BY_NUMBER = re.compile(r"(?P<chain>chain|backups\[\d{1,6}\]\.chain)\[(?P<n>\d{1,6})\](?P<inside>[.\[].*)?")
LONGEST = 200  # characters of a reference; no key of ours is as long


@dataclass(frozen=True, slots=True)
class MovedReference:
    """One reference whose number stayed while its part moved."""

    at: str  # the key that holds it
    line: int
    says: str
    was: str  # the part that it meant, in words
    now: str | None  # the part that it means now; None where there is none of that number
    write: str | None  # what it should say; None where the part is gone


@dataclass(frozen=True, slots=True)
class _Reference:
    key: tuple[str | int, ...]
    says: str
    chain: str
    number: int
    inside: str

    @property
    def aim(self) -> tuple[str, int, str]:
        return self.chain, self.number, self.inside


def moved_references(was: Loads, now: Loads) -> list[MovedReference]:
    """Return the references of a rig that mean another part than before, and were not written anew.

    Where all of them together mean the parts that they meant before, somebody has moved them along.
    """
    before, after = _references(was.path.rig.document), _references(now.path.rig.document)
    chains = {one.chain for one in (*before, *after)}
    places = {chain: _places(_words(was, chain), _words(now, chain)) for chain in chains}
    meant = {(one.chain, places[one.chain].get(one.number), one.inside) for one in before}
    if meant == {one.aim for one in after}:
        return []
    kept = {one.says for one in before}
    stayed = (one for one in after if one.says in kept and one.number in _known(was, one.chain))
    return [
        _told(one, places[one.chain].get(one.number), was, now) for one in stayed if _has_moved(one, places)
    ]


def _has_moved(one: _Reference, places: dict[str, dict[int, int]]) -> bool:
    return places[one.chain].get(one.number) != one.number


def _known(loads: Loads, chain: str) -> range:
    return range(len(_words(loads, chain)))


def _told(one: _Reference, place: int | None, was: Loads, now: Loads) -> MovedReference:
    old, new = _words(was, one.chain), _words(now, one.chain)
    return MovedReference(
        key_text(one.key),
        now.path.rig.document.place(one.key).line,
        one.says,
        old[one.number],
        new[one.number] if one.number < len(new) else None,
        None if place is None else f"{one.chain}[{place}]{one.inside}",
    )


def _references(document: Document) -> list[_Reference]:
    return list(starmap(_reference, _by_number(written(document, ()), ())))


def _reference(key: tuple[str | int, ...], found: re.Match[str]) -> _Reference:
    return _Reference(key, found[0], found["chain"], int(found["n"]), found["inside"] or "")


def _by_number(
    node: object, key: tuple[str | int, ...]
) -> Iterator[tuple[tuple[str | int, ...], re.Match[str]]]:
    if isinstance(node, dict):
        for name, value in node.items():
            yield from _by_number(value, (*key, name))
    elif isinstance(node, list):
        for n, value in enumerate(node):
            yield from _by_number(value, (*key, n))
    elif isinstance(node, str) and len(node) <= LONGEST and (found := BY_NUMBER.fullmatch(node)):
        yield key, found


def _words(loads: Loads, chain: str) -> list[str]:
    """Return the parts of a chain in words, in the order of the file."""
    path = _path(loads, chain)
    return [placed.part.id or placed.words for placed in path.parts] if path is not None else []


def _path(loads: Loads, chain: str) -> LoadPath | None:
    if chain == "chain":
        return loads.path
    number = int(chain.removeprefix("backups[").partition("]")[0])
    return next((one.path for one in loads.backups if one.number == number), None)


def _places(old: list[str], new: list[str]) -> dict[int, int]:
    """Return where each part of a chain lies now; a part in the place of another is that part with other gear."""
    found: dict[int, int] = {}
    for kind, i, j, m, n in SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
        if kind == "equal" or (kind == "replace" and j - i == n - m):
            found.update(zip(range(i, j), range(m, n), strict=True))
    return found
