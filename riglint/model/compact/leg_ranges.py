"""Legs that are alike, written once: `{to: n1 to n3, chain: [{part: sling, gear: RS-1 to RS-3}]}` is three."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from riglint.model.changed import value_at
from riglint.model.compact.part_lists import part_lists
from riglint.model.compact.spliced import WrittenOut, spliced
from riglint.model.documents.ranges import MOST, RANGE, names_of
from riglint.model.sentences import Key
from riglint.read.document import Document, Plain
from riglint.read.problems import Problem, key_text, shown


def with_leg_ranges(document: Document) -> tuple[Document, list[Problem]]:
    """Return a document with each range of legs written out, and what is wrong with such ranges."""
    problems: list[Problem] = []
    for key in [one for one in part_lists(document.data) if one[-1] == "legs"]:
        legs = value_at(document.data, key)
        if any(next(_ranges(leg), None) for leg in legs):
            entries = [
                WrittenOut(one, n)
                for n, leg in enumerate(legs)
                for one in _legs(document, key, n, leg, problems)
            ]
            document = spliced(document, key, entries)
    return document, problems


def _ranges(leg: Any) -> Iterator[tuple[Key, list[str]]]:
    """Yield where a leg names several of a kind, and their names."""
    chain = leg.get("chain") if isinstance(leg, dict) else None
    places: list[tuple[Key, Any]] = [(("to",), leg.get("to"))] if isinstance(leg, dict) else []
    for n, part in enumerate(chain if isinstance(chain, list) else []):
        if isinstance(part, dict):
            places.append((("chain", n, "gear"), part.get("gear")))
        places.append((("chain", n), part))
    for key, said in places:
        match = RANGE.fullmatch(said) if isinstance(said, str) else None
        if match:
            yield key, names_of(match)


def _legs(document: Document, key: Key, n: int, leg: Any, problems: list[Problem]) -> list[Any]:
    """Return the legs that one entry stands for."""
    found = dict(_ranges(leg))
    counts = {len(names) for names in found.values()}
    if not counts:
        return [leg]
    if len(counts) > 1 or not 1 < (count := counts.pop()) <= MOST:
        for place, names in found.items():
            at = (*key, n, *place)
            said = shown(str(value_at(document.data, at)))
            message = f"{said} counts {len(names)}. Ranges of one leg count alike, from 2 to {MOST}."
            do = "Write such as to: n1 to n3 with gear: RS-1 to RS-3."
            problems.append(Problem("file/value", document.place(at), key_text(at), message, do))
        return [leg]
    return [_nth(leg, found, m) for m in range(count)]


def _nth(leg: dict[str, Any], ranges: dict[Key, list[str]], m: int) -> dict[str, Any]:
    """Return the m-th of the legs that one entry stands for."""
    one = dict(leg)
    if isinstance(leg.get("chain"), list):
        one["chain"] = [dict(part) if isinstance(part, dict) else part for part in leg["chain"]]
    for place, names in ranges.items():
        holder: Any = value_at(one, place[:-1])
        holder[place[-1]] = Plain(names[m])
    return one
