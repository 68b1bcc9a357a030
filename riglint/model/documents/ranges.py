"""Pieces and bolts that are alike, written once: `SH-1 to SH-6: {kind: shackle, …}` stands for six entries.

Each of them is a piece of its own afterwards, and its places are those of the entry that it came from.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from riglint.model.changed import value_at, with_value
from riglint.model.sentences import Key
from riglint.read.document import Document
from riglint.read.problems import Problem, key_text, shown

RANGE = re.compile(r"(?P<stem>.*?)(?P<first>0|[1-9][0-9]{0,3}) to (?P=stem)(?P<last>0|[1-9][0-9]{0,3})")
MOST = 100  # entries of one range


def with_ranges(document: Document) -> tuple[Document, list[Problem]]:
    """Return a document with each range of names written out, and what is wrong with ranges."""
    problems: list[Problem] = []
    for key in list(_groups(document.data)):
        group = value_at(document.data, key)
        if any(RANGE.fullmatch(name) for name in group):
            document = _written_out(document, key, group, problems)
    return document, problems


def _groups(data: Any) -> Iterator[Key]:
    """Yield where gear and bolts stand, in a gear list, a spot or a rig that holds them."""
    if isinstance(data.get("items"), dict):
        yield ("items",)
    shelves = data.get("shelf")
    for n, shelf in enumerate(shelves if isinstance(shelves, list) else []):
        if isinstance(shelf, dict) and isinstance(shelf.get("items"), dict):
            yield ("shelf", n, "items")
    for key, spot in (((), data), (("spot",), data.get("spot"))):
        anchors = spot.get("anchors") if isinstance(spot, dict) else None
        for name, anchor in anchors.items() if isinstance(anchors, dict) else ():
            if isinstance(anchor, dict) and isinstance(anchor.get("points"), dict):
                yield (*key, "anchors", name, "points")


def _written_out(document: Document, key: Key, group: dict[str, Any], problems: list[Problem]) -> Document:
    found: dict[str, Any] = {}
    places, key_places = dict(document.places), dict(document.key_places)
    for name, value in group.items():
        match = RANGE.fullmatch(name)
        names = names_of(match) if match else [name]
        at = (*key, name)
        if match and not 1 < len(names) <= MOST:
            message = f"{shown(name)} counts {len(names)} pieces. Expected 2 to {MOST}, in rising order."
            problems.append(
                _problem(document, at, message, f"Write such as {match['stem']}1 to {match['stem']}6.")
            )
            names = [name]
        for one in names:
            if one in found or (one != name and one in group):
                message = f"{shown(one)} is there twice: in {shown(name)} and beside it."
                problems.append(_problem(document, at, message, "Give each piece of gear a name of its own."))
            found[one] = value
            if one != name:
                _copy_places(document.places, places, at, (*key, one))
                _copy_places(document.key_places, key_places, at, (*key, one))
    return replace(document, data=with_value(document.data, key, found), places=places, key_places=key_places)


def names_of(match: re.Match[str]) -> list[str]:
    """Return the names that a range stands for."""
    return [f"{match['stem']}{n}" for n in range(int(match["first"]), int(match["last"]) + 1)]


def _copy_places(old: dict[Any, Any], new: dict[Any, Any], at: Key, to: Key) -> None:
    new.update({(*to, *key[len(at) :]): place for key, place in old.items() if key[: len(at)] == at})


def _problem(document: Document, at: Key, message: str, do: str) -> Problem:
    return Problem(
        "file/duplicate", document.key_places.get(at, document.place(at)), key_text(at), message, do
    )
