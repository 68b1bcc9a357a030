"""Checks the names by which one document refers to what stands in itself: lines, parts, the anchors of a spot."""

import re
from collections.abc import Iterator
from typing import Any

from riglint.model.documents.kind_check import items_of
from riglint.model.sentences import Key, Words
from riglint.read.problems import Problem, key_text, odd_letters, shown

LINES = ("main", "backup")  # the main line; all backups together
PART = re.compile(r"(chain\[\d+\]).*")


def own_name_problems(words: Words) -> Iterator[Problem]:
    """Yield every name that stands for nothing in its document."""
    data = words.document.data
    for key, spot in (((), data), (("spot",), data.get("spot"))):
        yield from _profile(words, key, spot)
        yield from _pairs(words, key, spot)
    lines = [*LINES, *(f"backups[{n}]" for n in range(len(items_of(data.get("backups")))))]
    leash = data.get("leash")
    if isinstance(leash, dict):
        yield from _lines(words, ("leash", "rings_on"), leash.get("rings_on"), lines)
    for n, edge in enumerate(items_of(data.get("edges"))):
        if isinstance(edge, dict):
            yield from _lines(words, ("edges", n, "padded"), edge.get("padded"), lines)
    yield from _held(words, data, lines)


def _profile(words: Words, key: Key, spot: object) -> Iterator[Problem]:
    """Look at the anchor from which the ground is measured."""
    if not isinstance(spot, dict):
        return
    anchors, ground = spot.get("anchors"), spot.get("ground")
    name = ground.get("profile_from") if isinstance(ground, dict) else None
    if isinstance(anchors, dict) and isinstance(name, str) and name not in anchors:
        known = [str(one) for one in anchors]
        has = f"The anchors of this spot are {', '.join(known)}."
        yield _wrong(words, (*key, "ground", "profile_from"), name, known, ("no anchor of this spot", has))


def _pairs(words: Words, key: Key, spot: object) -> Iterator[Problem]:
    """Look at the anchors that spans and guys of a spot run between."""
    anchors = spot.get("anchors") if isinstance(spot, dict) else None
    if not isinstance(spot, dict) or not isinstance(anchors, dict):
        return
    known = [str(one) for one in anchors]
    has = f"The anchors of this spot are {', '.join(known)}."
    for group in ("spans", "guys"):
        for n, entry in enumerate(items_of(spot.get(group))):
            names = entry.get("between") if isinstance(entry, dict) else None
            for m, name in enumerate(items_of(names)):
                if isinstance(name, str) and name not in known:
                    place = (*key, group, n, "between", m)
                    yield _wrong(words, place, name, known, ("no anchor of this spot", has))


def _lines(words: Words, key: Key, names: object, lines: list[str]) -> Iterator[Problem]:
    for n, name in enumerate(items_of(names)):
        if isinstance(name, str) and name not in lines:
            has = f"The lines are {', '.join(lines)}."
            yield _wrong(words, (*key, n), name, lines, ("no line of this rig", has))


def _held(words: Words, data: dict[str, Any], lines: list[str]) -> Iterator[Problem]:
    """Look at what each backup holds: a line, or a part by its id or its place in the chain."""
    parts = data.get("chain")
    if not isinstance(parts, list):
        return
    ids = [one["id"] for one in parts if isinstance(one, dict) and isinstance(one.get("id"), str)]
    places = [f"chain[{n}]" for n in range(len(parts))]
    for n, backup in enumerate(items_of(data.get("backups"))):
        name = backup.get("holds") if isinstance(backup, dict) else None
        if not isinstance(name, str) or name in {*lines, *ids}:
            continue
        place = PART.fullmatch(name)
        if place is None or place[1] not in places:
            known = [*lines, *ids, *places]
            has = "It takes main, or a part by its id or its place, such as chain[3]."
            yield _wrong(words, ("backups", n, "holds"), name, known, ("no line or part of this rig", has))


def _wrong(words: Words, key: Key, name: str, known: list[str], words_of: tuple[str, str]) -> Problem:
    (what, has), suggestion = words_of, words.near(name, known)
    do = f"Write `{suggestion}` if you mean that. {has}{odd_letters(name, suggestion)}" if suggestion else has
    place = words.document.place(key)
    instead = (suggestion,) if suggestion else ()
    return Problem("file/reference", place, key_text(key), f"{shown(name)} is {what}.", do, instead)
