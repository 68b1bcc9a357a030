"""What makes a finding the same one tomorrow: rule, file, part or place by name, and cause; never a line number."""

from __future__ import annotations

import re
from collections import Counter
from math import floor, isfinite, log10
from typing import NamedTuple

from riglint.findings.finding import Finding
from riglint.loads import Loads
from riglint.rulekit import Signal

PART = re.compile(r"^chain\[(\d+)\]")
# A number by itself, such as 0.3 in `0.3 m`: not one in a name (SH-1), a place (chain[3]), a ratio (5:1) or a date.
NUMBER = re.compile(r"(?<![\w\-./:\[])\d+(?:\.\d+)?(?![\w\-/:\]])")
DIGITS = 3  # of a number as reports print it


class Identity(NamedTuple):
    """What a finding is known by."""

    rule: str
    kind: str
    file: str
    place: str
    part: str
    cause: str


class FaultFigures(NamedTuple):
    """How grave a finding is: its word, and its number against its limit where it has one."""

    signal: Signal
    value: float | None
    limit: float | None


def part_names(loads: Loads | None) -> dict[int, str]:
    """Return a name for each part of the chain that does not count the parts before it, but those like it."""
    seen: Counter[str] = Counter()
    names = {}
    for placed in loads.path.parts if loads is not None else ():
        words = placed.part.id or placed.words
        seen[words] += 1
        names[int(placed.key[1])] = words if seen[words] == 1 else f"{words} ({seen[words]})"
    return names


def by_name(key: str, names: dict[int, str]) -> str:
    """Return a place with the name of a part instead of its number."""
    return PART.sub(lambda match: names.get(int(match[1]), match[0]), key)


def identity(finding: Finding, file: str, names: dict[int, str]) -> Identity:
    """Return what a finding is known by.

    Args:
        finding: the finding.
        file: its file, as whoever compares calls it.
        names: of the parts of its rig, from `part_names`.
    """
    cause = NUMBER.sub("#", finding.message)
    place, part = by_name(finding.at.key, names), by_name(finding.at.part or "", names)
    return Identity(finding.rule, finding.kind, file, place, part, cause)


def measured(finding: Finding) -> FaultFigures:
    """Return how grave a finding is."""
    return FaultFigures(finding.signal, _number(finding.value), _number(finding.limit))


def _number(value: float | str | None) -> float | None:
    return float(value) if isinstance(value, int | float) and isfinite(value) else None


def is_worse(new: FaultFigures, old: FaultFigures) -> bool:
    """Whether a finding has a graver word, or lies farther beyond its limit by more than reports round."""
    if new.signal != old.signal:
        return new.signal > old.signal
    if new.value is None or old.value is None:
        return new.value is not old.value  # a number that came or went: there is no telling
    was, now = _beyond(old), _beyond(new)
    if was is None or now is None or was * now < 0:
        return abs(new.value - old.value) > _rounding(old.value)
    return abs(now) > abs(was) + _rounding(old.value) / abs(old.limit or 1.0)


def _beyond(one: FaultFigures) -> float | None:
    """Return the share by which a value lies above its limit, negative below; None without a limit to share."""
    if one.value is None or not one.limit:
        return None
    return (one.value - one.limit) / abs(one.limit)


def _rounding(value: float) -> float:
    """Return half of the last digit that reports print of a value."""
    return 0.5 * 10.0 ** (floor(log10(abs(value))) + 1 - DIGITS) if value else 0.0
