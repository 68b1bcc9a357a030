"""Sizes and holding loads on the shelf are such as that kind of gear can have.

Strengths have a rule of their own, `gear/rating`.
"""

from collections.abc import Iterator
from typing import Literal, NamedTuple

from riglint.rulekit import (
    PRACTICE,
    Case,
    Fault,
    Item,
    Limit,
    Signal,
    each_item,
    faulty,
    rule,
    sound,
)

ROPES = frozenset({"rope", "cord", "leash"})
Tighter = Literal["higher", "lower"]


class Band(NamedTuple):
    """What a key of some kinds of gear may hold; wide on purpose, to catch a wrong unit only."""

    key: str
    kinds: frozenset[str]
    words: str
    low: Limit
    high: Limit


def _limit(
    name: str, text: str, tighter: Tighter, dimension: Literal["length", "force", "mass_per_length"]
) -> Limit:
    side = "Below" if tighter == "higher" else "Above"
    return Limit(name, text, dimension, tighter, f"{side} it a unit or a figure is wrong.", PRACTICE)


def _length(key: str, kinds: frozenset[str], words: str, low: str, high: str) -> Band:
    name = words.replace(" ", "_")
    return Band(
        key,
        kinds,
        words,
        _limit(f"least_{name}", low, "higher", "length"),
        _limit(f"greatest_{name}", high, "lower", "length"),
    )


def _force(key: str, kind: str, words: str, low: str, high: str) -> Band:
    name = words.replace(" ", "_")
    return Band(
        key,
        frozenset({kind}),
        words,
        _limit(f"least_{name}", low, "higher", "force"),
        _limit(f"greatest_{name}", high, "lower", "force"),
    )


BANDS = (
    _length("width", frozenset({"webbing"}), "webbing width", "12 mm", "100 mm"),
    _length("diameter", ROPES, "rope diameter", "2 mm", "25 mm"),
    _length("sheave_diameter", frozenset({"pulley"}), "sheave diameter", "10 mm", "300 mm"),
    Band(
        "mass_per_metre",
        frozenset({"webbing"}),
        "mass of a metre",
        _limit("least_mass_of_a_metre", "10 g/m", "higher", "mass_per_length"),
        _limit("greatest_mass_of_a_metre", "400 g/m", "lower", "mass_per_length"),
    ),
    _force("holds", "brake", "holding load", "0.5 kN", "50 kN"),
    _force("max_load", "grip", "greatest load", "0.5 kN", "40 kN"),
)
ITEMS = "shelf[0].items"
# Item and key, just outside and just inside below, just inside and just outside above.
PAIRS = (
    ("W-1.width", "11.8 mm", "12.2 mm", "99 mm", "101 mm"),
    ("RP-1.diameter", "1.98 mm", "2.02 mm", "24.8 mm", "25.2 mm"),
    ("DB-1.sheave_diameter", "9.9 mm", "10.1 mm", "299 mm", "301 mm"),
    ("W-1.mass_per_metre", "9.9 g/m", "10.1 g/m", "399 g/m", "401 g/m"),
    ("BR-1.holds", "0.49 kN", "0.51 kN", "49.9 kN", "50.1 kN"),
    ("GR-1.max_load", "0.49 kN", "0.51 kN", "39.9 kN", "40.1 kN"),
)


@rule(
    title="A size on the shelf cannot be right",
    each=each_item(),
    signal=Signal.WARNING,
    why="Centimetres for millimetres or tonnes for kilonewtons make every force and every fit that is computed wrong.",
    formula="each size and holding load within the band of its kind",
    limits=tuple(limit for band in BANDS for limit in (band.low, band.high)),
    prevents=("units_mixed",),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        *(faulty("long_haul", {f"{ITEMS}.{key}": low}, at=f"{ITEMS}.{key}") for key, low, _, _, _ in PAIRS),
        *(sound("long_haul", {f"{ITEMS}.{key}": low}) for key, _, low, _, _ in PAIRS),
        *(sound("long_haul", {f"{ITEMS}.{key}": high}) for key, _, _, high, _ in PAIRS),
        *(faulty("long_haul", {f"{ITEMS}.{key}": high}, at=f"{ITEMS}.{key}") for key, _, _, _, high in PAIRS),
    ),
)
def size(case: Case, item: Item) -> Iterator[Fault]:
    for band in BANDS:
        given = getattr(item.gear, band.key)
        if item.gear.kind not in band.kinds or given is None:
            continue
        low, high = case.limit(band.low), case.limit(band.high)
        if low <= given.si <= high:
            continue
        limit = band.low if given.si < low else band.high
        yield Fault(
            case.on_item(item, band.key),
            f"A {band.words} of {given.text} cannot be right for {item.id}; {_in_its_unit(band.low, low)} to "
            f"{_in_its_unit(band.high, high)} is usual.",
            f"Look at {item.id} and its label again: which figure is it, and in which unit?",
            value=given.si,
            limit=case.limit(limit),
            unit={"length": "m", "force": "N", "mass_per_length": "kg/m"}[str(limit.dimension)],
        )


def _in_its_unit(limit: Limit, value: float) -> str:
    """Return a value in SI units as a limit writes it, as a club may have moved it."""
    number, _, unit = limit.text.partition(" ")
    return f"{value / limit.si * float(number):.4g} {unit}"
