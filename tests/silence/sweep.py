"""Takes every key out of a sound rig, one at a time, and asks what of all that is said of it then changes."""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from typing import Any, Literal

from riglint.reports.sheet.json_report import sheet_json
from riglint.rulekit import REMOVE
from riglint.testing import as_text, edit_value, loads_of, rig_of
from riglint.views.sheet.build import build_sheet
from tests.faults.seeded import ON, data_of, text_of, told

Heard = Literal["refused", "said", "number", "same rig", "silent"]
PLACES = frozenset({"line", "column"})  # of a value in its file: they move with every key
NUMBERED = re.compile(r"\[\d+\]")
CURVES = ("stretch", "stretch_in_use")  # a point of a curve is no value of its own
# Names that the user chose: bolts, anchors and pieces of gear.
NAMED = re.compile(r"(anchors|points|items)\.[^.\[]+")


@dataclass(frozen=True, slots=True)
class Answer:
    """All that an audit and a sheet say of a rig, but for places: a part that goes moves those behind it."""

    findings: Counter[tuple[object, ...]]
    numbers: tuple[tuple[str, float], ...]


@dataclass(frozen=True, slots=True)
class Taken:
    """One key taken out of one rig, and what came of it."""

    rig: str
    key: str
    heard: Heard

    @property
    def field(self) -> str:
        """The key without its numbers and the names that a user gave."""
        return field_of(self.key)


def field_of(key: str) -> str:
    """Return a key without numbers and names that a user gave: `shelf[].items.*.mbs`."""
    return NAMED.sub(r"\1.*", NUMBERED.sub("[]", key))


def answer(text: str) -> Answer:
    """Return what is said of a rig.

    Raises:
        ValueError: the text is no rig that can be judged.
    """
    said: Counter[tuple[object, ...]] = Counter(
        (one.rule, one.signal, one.kind, one.message) for one in told(text).findings
    )
    loads = loads_of(text, ON)
    return Answer(said, tuple(_numbers("", json.loads(sheet_json(build_sheet(loads, ON))))))


def _numbers(key: str, data: Any) -> Iterator[tuple[str, float]]:
    """Yield every number of a sheet with its place."""
    if isinstance(data, dict):
        for name, one in data.items():
            if name not in PLACES:
                yield from _numbers(f"{key}.{name}", one)
    elif isinstance(data, list):
        for n, one in enumerate(data):
            yield from _numbers(f"{key}[{n}]", one)
    elif isinstance(data, int | float) and not isinstance(data, bool):
        yield key, data


def keys(data: Any, above: str = "") -> Iterator[str]:
    """Yield every key and every entry of a list of some data."""
    entries = (
        [(f"{above}.{name}" if above else name, one) for name, one in data.items()]
        if isinstance(data, dict)
        else [(f"{above}[{n}]", one) for n, one in enumerate(data)]
        if isinstance(data, list)
        else []
    )
    for key, value in entries:
        yield key
        if not key.endswith(CURVES):
            yield from keys(value, key)


def taken(rig: str, key: str) -> Taken:
    """Take one key out of a rig and say what came of it."""
    without = data_of(rig)
    edit_value(without, key, REMOVE)
    return Taken(rig, key, heard(text_of(rig), as_text(without)))


def heard(before: str, after: str) -> Heard:
    """Return how a change of a rig shows, its most certain sign first."""
    try:
        if _meant(after) == _meant(before):
            return "same rig"
        now = answer(after)
    except ValueError:
        return "refused"
    was = _answer(before)
    if now.findings != was.findings:
        return "said"
    return "silent" if now.numbers == was.numbers else "number"


_answer = cache(answer)


def _meant(text: str) -> tuple[object, ...]:
    """Return what a text says once every default is in: a default that is written out says nothing more."""
    read = rig_of(text)
    return read.rig, read.spot, {name: item.gear for name, item in read.items.items()}


@cache
def sweep(rig: str) -> tuple[Taken, ...]:
    """Take out every key of a rig, one at a time; a key may be read for a name such as `W-25` of the shelf."""
    return tuple(taken(rig, key) for key in keys(data_of(rig)))
