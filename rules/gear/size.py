"""Sizes and holding loads on the shelf are such as that kind of gear can have.

Strengths have a rule of their own, `gear/rating`.
"""

from collections.abc import Iterator
from typing import Literal, NamedTuple

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Item,
    Limit,
    Signal,
    Source,
    connector_class,
    each_item,
    faulty,
    in_kn,
    rule,
    sound,
)

EN_12275 = Source("EN 12275:2013, least strengths by class, from two test houses", "standard", ("en_12275",))
SCREWED = "Q"  # the class of screwed links
QL = "shelf[0].items.QL-1"
ROPES = frozenset({"rope", "cord", "leash"})
Tighter = Literal["higher", "lower"]


class PlausibleRange(NamedTuple):
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


def _length(key: str, kinds: frozenset[str], words: str, low: str, high: str) -> PlausibleRange:
    name = words.replace(" ", "_")
    return PlausibleRange(
        key,
        kinds,
        words,
        _limit(f"least_{name}", low, "higher", "length"),
        _limit(f"greatest_{name}", high, "lower", "length"),
    )


def _force(key: str, kind: str, words: str, low: str, high: str) -> PlausibleRange:
    name = words.replace(" ", "_")
    return PlausibleRange(
        key,
        frozenset({kind}),
        words,
        _limit(f"least_{name}", low, "higher", "force"),
        _limit(f"greatest_{name}", high, "lower", "force"),
    )


def _ratio(name: str, text: str, tighter: Tighter, of: str) -> Limit:
    return Limit(name, text, None, tighter, f"{of}, outside this band one of the two is wrong.", PRACTICE)


SLINGS = frozenset({"round_sling", "flat_sling"})
BARS = frozenset({"shackle", "ring", "quick_link"})
BANDS = (
    _length("width", frozenset({"webbing", "sewn_end"}), "webbing width", "12 mm", "100 mm"),
    _length("width", SLINGS, "sling width", "8 mm", "300 mm"),
    _length("width", frozenset({"protector"}), "protector width", "30 mm", "1.5 m"),
    _length("width_max", frozenset({"webbing_anchor"}), "widest webbing", "12 mm", "110 mm"),
    _length("diameter", ROPES, "rope diameter", "2 mm", "25 mm"),
    _length("diameter", BARS, "bar diameter", "4 mm", "40 mm"),
    _length("jaw", frozenset({"shackle"}), "jaw", "8 mm", "120 mm"),
    _length("rope_min", frozenset({"brake", "grip"}), "thinnest rope", "3 mm", "16 mm"),
    _length("rope_max", frozenset({"brake", "grip", "pulley"}), "thickest rope", "6 mm", "25 mm"),
    _length("sheave_diameter", frozenset({"pulley"}), "sheave diameter", "10 mm", "300 mm"),
    _length("length", SLINGS, "sling length", "0.1 m", "15 m"),
    _length("length", frozenset({"leash"}), "leash length", "1 m", "12 m"),
    _length("length", frozenset({"protector"}), "protector length", "0.2 m", "10 m"),
    PlausibleRange(
        "mass_per_metre",
        frozenset({"webbing", "rope"}),
        "mass of a metre",
        _limit("least_mass_of_a_metre", "10 g/m", "higher", "mass_per_length"),
        _limit("greatest_mass_of_a_metre", "400 g/m", "lower", "mass_per_length"),
    ),
    _force("holds", "brake", "holding load", "0.5 kN", "30 kN"),
    _force("max_load", "grip", "greatest load", "0.5 kN", "15 kN"),
)
# Mass of a metre over the width of webbing, g/m for each mm; over the diameter of a rope squared, g/m for each mm².
BAND_WEIGHS = "Webbing weighs 1.2 to 3 g/m for each mm of its width"
ROPE_WEIGHS = "Rope weighs 0.5 to 0.8 g/m for each mm² of its diameter squared"
LIGHTEST_BAND = _ratio("lightest_band", "0.8", "higher", BAND_WEIGHS)
HEAVIEST_BAND = _ratio("heaviest_band", "6", "lower", BAND_WEIGHS)
LIGHTEST_ROPE = _ratio("lightest_rope", "0.3", "higher", ROPE_WEIGHS)
HEAVIEST_ROPE = _ratio("heaviest_rope", "1.1", "lower", ROPE_WEIGHS)
ITEMS = "shelf[0].items"
# Item and key, just outside and just inside below, just inside and just outside above.
PAIRS = (
    ("W-1.width", "11.8 mm", "12.2 mm", "72 mm", "101 mm"),
    ("SE-1.width", "11.8 mm", "12.2 mm", "99 mm", "101 mm"),
    ("RS-1.width", "7.9 mm", "8.1 mm", "299 mm", "301 mm"),
    ("TP-1.width", "29.5 mm", "30.5 mm", "1.49 m", "1.51 m"),
    ("WA-1.width_max", "11.8 mm", "12.2 mm", "109 mm", "111 mm"),
    ("RP-1.diameter", "1.98 mm", "2.02 mm", "24.8 mm", "25.2 mm"),
    ("SH-1.diameter", "3.9 mm", "4.1 mm", "39.5 mm", "40.5 mm"),
    ("SH-1.jaw", "7.9 mm", "8.1 mm", "119 mm", "121 mm"),
    ("BR-1.rope_min", "2.9 mm", "3.1 mm", "15.8 mm", "16.2 mm"),
    ("SP-1.rope_max", "5.9 mm", "6.1 mm", "24.8 mm", "25.2 mm"),
    ("DB-1.sheave_diameter", "9.9 mm", "10.1 mm", "299 mm", "301 mm"),
    ("RS-1.length", "0.099 m", "0.101 m", "14.9 m", "15.1 m"),
    ("TP-1.length", "0.195 m", "0.205 m", "9.9 m", "10.1 m"),
    ("BR-1.holds", "0.49 kN", "0.51 kN", "21.9 kN", "30.1 kN"),
    ("GR-1.max_load", "0.49 kN", "0.51 kN", "14.9 kN", "15.1 kN"),
)
W, RP, LE = f"{ITEMS}.W-1", f"{ITEMS}.RP-1", f"{ITEMS}.LE-1"


def _wide(mass: str, width: str) -> dict[str, str]:
    return {f"{W}.mass_per_metre": mass, f"{W}.width": width}


@rule(
    title="A size in the gear list looks wrong",
    each=each_item(),
    signal=Signal.WARNING,
    why="With centimetres for millimetres or tonnes for kilonewtons, every calculated force and fit is wrong.",
    formula="each size, holding load and mass over width or diameter squared within the band of its kind",
    limits=(
        *(limit for band in BANDS for limit in (band.low, band.high)),
        LIGHTEST_BAND,
        HEAVIEST_BAND,
        LIGHTEST_ROPE,
        HEAVIEST_ROPE,
    ),
    prevents=("units_mixed",),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        faulty("low", {f"{QL}.connector_class": "A"}, at=f"{QL}.connector_class"),
        faulty("low", {f"{QL}.connector_class": "Q", f"{QL}.mbs": "24.9 kN"}, at=f"{QL}.mbs"),
        sound("low", {f"{QL}.connector_class": "Q", f"{QL}.mbs": "25.1 kN"}),
        sound("low", {f"{QL}.connector_class": REMOVE}),
        *(faulty("long_haul", {f"{ITEMS}.{key}": low}, at=f"{ITEMS}.{key}") for key, low, *_ in PAIRS),
        *(
            sound("long_haul", {f"{ITEMS}.{key}": low})
            for key, _, low, *_ in PAIRS
            if not key.startswith("W-1")
        ),
        *(sound("long_haul", {f"{ITEMS}.{key}": high}) for key, *_, high, _ in PAIRS),
        *(faulty("long_haul", {f"{ITEMS}.{key}": high}, at=f"{ITEMS}.{key}") for key, *_, high in PAIRS),
        # 58 g/m is too heavy for 12 mm, too light for more than 72.5 mm.
        sound("long_haul", _wide("20 g/m", "12.2 mm")),
        sound("long_haul", _wide("100 g/m", "99 mm")),
        faulty("long_haul", _wide("100 g/m", "101 mm"), at=f"{W}.width"),
        faulty("long_haul", {f"{W}.width": "73 mm"}, at=f"{W}.mass_per_metre"),
        sound("long_haul", {f"{W}.mass_per_metre": "20.4 g/m"}),
        faulty("long_haul", {f"{W}.mass_per_metre": "19.6 g/m"}, at=f"{W}.mass_per_metre"),
        sound("long_haul", {f"{W}.mass_per_metre": "149 g/m"}),
        faulty("long_haul", {f"{W}.mass_per_metre": "151 g/m"}, at=f"{W}.mass_per_metre"),
        sound("long_haul", _wide("10.1 g/m", "12.2 mm")),
        faulty("long_haul", _wide("9.9 g/m", "12.2 mm"), at=f"{W}.mass_per_metre"),
        sound("long_haul", _wide("399 g/m", "99 mm")),
        faulty("long_haul", _wide("401 g/m", "99 mm"), at=f"{W}.mass_per_metre"),
        sound("long_haul", {f"{RP}.mass_per_metre": "30.5 g/m"}),
        faulty("long_haul", {f"{RP}.mass_per_metre": "29.5 g/m"}, at=f"{RP}.mass_per_metre"),
        sound("long_haul", {f"{RP}.mass_per_metre": "109 g/m"}),
        faulty("long_haul", {f"{RP}.mass_per_metre": "111 g/m"}, at=f"{RP}.mass_per_metre"),
        faulty(
            "long_haul", {f"{RP}.mass_per_metre": "650 g/m"}, at=f"{RP}.mass_per_metre", signal=Signal.WARNING
        ),
        sound("highline", {f"{LE}.length": "1.02 m"}),
        faulty("highline", {f"{LE}.length": "0.98 m"}, at=f"{LE}.length"),
        sound("highline", {f"{LE}.length": "11.9 m"}),
        faulty("highline", {f"{LE}.length": "12.1 m"}, at=f"{LE}.length"),
        # A device cannot hold more than it breaks at.
        faulty("long_haul", {f"{ITEMS}.BR-1.holds": "22.1 kN"}, at=f"{ITEMS}.BR-1.holds"),
        sound("long_haul", {f"{ITEMS}.BR-1.holds": "29.9 kN", f"{ITEMS}.BR-1.mbs": "40 kN"}),
        faulty("long_haul", {f"{ITEMS}.BR-1.holds": "30.1 kN", f"{ITEMS}.BR-1.mbs": "40 kN"}),
    ),
)
def size(case: Case, item: Item) -> Iterator[Fault]:
    wrong = [fault for band in BANDS for fault in _outside(case, item, band)]
    yield from wrong
    yield from _not_of_its_class(case, item)
    # A size in a wrong unit would set these off as well, and tell one slip three times.
    if not wrong:
        yield from _too_light_or_heavy(case, item)
        yield from _holds_more_than_it_can(case, item)


def _outside(case: Case, item: Item, band: PlausibleRange) -> Iterator[Fault]:
    given = getattr(item.gear, band.key)
    if item.gear.kind not in band.kinds or given is None:
        return
    low, high = case.limit(band.low), case.limit(band.high)
    if low <= given.si <= high:
        return
    limit = band.low if given.si < low else band.high
    yield Fault(
        case.on_item(item, band.key),
        f"{item.id} has a {band.words} of {given.text}, which can't be right. "
        f"{_in_its_unit(band.low, low)} to {_in_its_unit(band.high, high)} is usual.",
        f"Look at {item.id} and its label again: which figure is it, and in which unit?",
        value=given.si,
        limit=case.limit(limit),
        unit={"length": "m", "force": "N", "mass_per_length": "kg/m"}[str(limit.dimension)],
    )


def _not_of_its_class(case: Case, item: Item) -> Iterator[Fault]:
    """Hold a connector against what EN 12275 asks of the class that is stamped on it."""
    gear = item.gear
    if gear.connector_class is None:
        return
    asked = connector_class(gear.connector_class)
    if gear.mbs is not None and gear.mbs.si < asked.major_n:
        yield Fault(
            case.on_item(item, "mbs"),
            f"{item.id} is class {asked.letter}, which holds at least {in_kn(asked.major_n)}. The "
            f"gear list says {gear.mbs.text}.",
            f"Read the stamp of {item.id} again. Is the letter wrong, or the strength?",
            value=gear.mbs.si,
            limit=asked.major_n,
            unit="N",
            source=EN_12275,
        )
    if gear.kind == "quick_link" and asked.letter != SCREWED:
        yield Fault(
            case.on_item(item, "connector_class"),
            f"{item.id} is entered as a quick link of class {asked.letter}. Quick links are class Q.",
            f"Read the stamp of {item.id} again. Enter a connector with a gate as connector.",
            value=asked.letter,
            limit=SCREWED,
            source=EN_12275,
        )


def _too_light_or_heavy(case: Case, item: Item) -> Iterator[Fault]:
    """Hold the mass of a metre against width or diameter."""
    mass, rope = item.gear.mass_per_metre, item.gear.kind == "rope"
    across = item.gear.diameter if rope else item.gear.width
    if mass is None or across is None:
        return
    low, high = (LIGHTEST_ROPE, HEAVIEST_ROPE) if rope else (LIGHTEST_BAND, HEAVIEST_BAND)
    sized = (across.si * 1e3) ** 2 if rope else across.si * 1e3
    least, most = (case.limit(limit) * sized for limit in (low, high))
    if least <= mass.si * 1e3 <= most:
        return
    what = f"{'rope' if rope else 'webbing'} of {across.text}"
    yield Fault(
        case.on_item(item, "mass_per_metre"),
        f"{item.id} is entered with {mass.text}, which can't be right: {what} weighs {least:.3g} "
        f"to {most:.3g} g/m.",
        f"Weigh a coil of {item.id} and measure it across. Which of the two figures is wrong?",
        value=mass.si * 1e3,
        limit=least if mass.si * 1e3 < least else most,
        unit="g/m",
        inputs=(
            case.given("mass of a metre", "w", mass, case.on_item(item, "mass_per_metre")),
            case.given(
                "across", "d" if rope else "b", across, case.on_item(item, "diameter" if rope else "width")
            ),
        ),
        source=low.source,
    )


def _holds_more_than_it_can(case: Case, item: Item) -> Iterator[Fault]:
    mbs = item.gear.mbs
    for key, given in (("holds", item.gear.holds), ("max_load", item.gear.max_load)):
        if given is not None and mbs is not None and given.si > mbs.si:
            yield Fault(
                case.on_item(item, key),
                f"{item.id} can't hold {given.text}: it breaks at {mbs.text}.",
                f"Look at {item.id} again: which figure is its breaking strength, and which its holding load?",
                value=given.si,
                limit=mbs.si,
                unit="N",
            )


def _in_its_unit(limit: Limit, value: float) -> str:
    """Return a value in SI units as a limit writes it, as a club may have moved it."""
    number, _, unit = limit.text.partition(" ")
    return f"{value / limit.si * float(number):.4g} {unit}"
