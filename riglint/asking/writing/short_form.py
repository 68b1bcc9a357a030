"""A chain as a person writes it: pieces by their name alone where their kind tells which part they are."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from riglint.model.vocabulary import kinds

TOLD_BY = {"anchor": "at", "legs": "legs"}  # parts that a key of theirs tells


def shortened(parts: list[dict[str, Any]], gear_kinds: Mapping[str, str]) -> list[Any]:
    """Return the parts of a chain, written short.

    >>> shortened([{"part": "shackle", "gear": "SH-1"}, {"part": "anchor", "at": "far"}], {"SH-1": "shackle"})
    ['SH-1', {'at': 'far'}]
    """
    return [_shortened(part, gear_kinds) for part in parts]


def _shortened(part: dict[str, Any], gear_kinds: Mapping[str, str]) -> Any:
    name = part.get("part", "")
    legs = part.get("legs")
    if legs:
        short = [leg | {"chain": shortened(leg.get("chain", []), gear_kinds)} for leg in legs]
        part = part | {"legs": together(short)}
    by_gear = kinds.PART_OF_GEAR.get(gear_kinds.get(part.get("gear", ""), "")) == name
    if not by_gear and TOLD_BY.get(name) not in part:
        return part
    rest = {key: value for key, value in part.items() if key != "part"}
    return rest["gear"] if rest.keys() == {"gear"} else rest


NUMBERED = re.compile(r"(?P<stem>.*?)(?P<number>0|[1-9][0-9]{0,3})")


def together(legs: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Return legs with those written once that are alike and whose bolts and pieces are counted on.

    >>> together([{"to": "n1", "chain": ["RS-1"]}, {"to": "n2", "chain": ["RS-2"]}])
    [{'to': 'n1 to n2', 'chain': ['RS-1 to RS-2']}]
    """
    runs: list[list[dict[str, Any]]] = []
    for leg in legs:
        if runs and _follows(runs[-1][-1], leg):
            runs[-1].append(leg)
        else:
            runs.append([leg])
    return [_ranged(run[0], run[-1]) if len(run) > 1 else run[0] for run in runs]


def _follows(one: Any, other: Any, *, named: bool = True) -> bool:
    """Return whether two legs are alike and each name of the second is the next after the first's."""
    if isinstance(one, dict) and isinstance(other, dict) and one.keys() == other.keys():
        return all(_follows(one[key], other[key], named=key in {"to", "gear", "chain"}) for key in one)
    if isinstance(one, list) and isinstance(other, list) and len(one) == len(other):
        return all(_follows(a, b) for a, b in zip(one, other, strict=True))
    if not (named and isinstance(one, str) and isinstance(other, str)):
        return bool(one == other)
    first, second = NUMBERED.fullmatch(one), NUMBERED.fullmatch(other)
    if first is None or second is None or first["stem"] != second["stem"]:
        return False
    return int(first["number"]) + 1 == int(second["number"])


def _ranged(first: Any, last: Any, *, named: bool = True) -> Any:
    """Return a leg whose names run from those of a first to those of a last one."""
    if isinstance(first, dict):
        return {key: _ranged(first[key], last[key], named=key in {"to", "gear", "chain"}) for key in first}
    if isinstance(first, list):
        return [_ranged(a, b) for a, b in zip(first, last, strict=True)]
    return f"{first} to {last}" if named and isinstance(first, str) else first
