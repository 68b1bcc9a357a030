"""A chain as a person writes it: pieces by their name alone where their kind tells which part they are."""

from __future__ import annotations

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
        part = part | {"legs": [leg | {"chain": shortened(leg.get("chain", []), gear_kinds)} for leg in legs]}
    by_gear = kinds.PART_OF_GEAR.get(gear_kinds.get(part.get("gear", ""), "")) == name
    if not by_gear and TOLD_BY.get(name) not in part:
        return part
    rest = {key: value for key, value in part.items() if key != "part"}
    return rest["gear"] if rest.keys() == {"gear"} else rest
