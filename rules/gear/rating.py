"""Strengths on the shelf are of a size that such gear can have."""

from collections.abc import Iterator
from math import inf

from riglint.rulekit import (
    PRACTICE,
    Case,
    Fault,
    Item,
    Limit,
    Quantity,
    Signal,
    Source,
    each_item,
    faulty,
    rule,
    sound,
)

# Breaking strength that gear of these kinds can have; wide on purpose, to catch a wrong unit only.
BANDS: tuple[tuple[str, str, str, frozenset[str]], ...] = (
    ("webbing", "8 kN", "150 kN", frozenset({"webbing", "sewn_end", "webbing_anchor"})),
    ("sling", "8 kN", "1500 kN", frozenset({"round_sling", "flat_sling", "shackle"})),
    (
        "hardware",
        "8 kN",
        "300 kN",
        frozenset({"connector", "quick_link", "ring", "swivel", "plate", "pulley"}),
    ),
    ("rope", "1.5 kN", "200 kN", frozenset({"rope", "cord", "leash", "harness"})),
    ("device", "2 kN", "150 kN", frozenset({"brake", "grip", "puller"})),
)


def _limit(name: str, text: str, tighter: str, because: str, dimension: str | None = "force") -> Limit:
    return Limit(name, text, dimension, tighter, because, PRACTICE)  # type: ignore[arg-type]


WEAKEST = {
    name: _limit(f"{name}_weakest", low, "higher", "Below it a unit or a figure is wrong.")
    for name, low, _, _ in BANDS
}
STRONGEST = {
    name: _limit(f"{name}_strongest", high, "lower", "Above it a unit or a figure is wrong.")
    for name, _, high, _ in BANDS
}
LEAST_FACTOR = _limit(
    "least_factor", "2", "higher", "No maker rates gear at more than half its breaking strength.", None
)
MOST_FACTOR = _limit(
    "most_factor", "12", "lower", "Lifting gear is rated at a fourth to a tenth of it.", None
)
ITEMS = "shelf[0].items"
PAIRS = (
    ("W-1", "7.9 kN", "8.1 kN", "149 kN", "151 kN"),
    ("RS-1", "7.9 kN", "8.1 kN", "1490 kN", "1510 kN"),
    ("PL-1", "7.9 kN", "8.1 kN", "299 kN", "301 kN"),
    ("RP-1", "1.49 kN", "1.51 kN", "199 kN", "201 kN"),
    ("BR-1", "1.99 kN", "2.01 kN", "149 kN", "151 kN"),
)


def _put(item: str, mbs: str) -> dict[str, str]:
    # A sling's rated load follows, so that only its breaking strength is out of place.
    return {f"{ITEMS}.{item}.mbs": mbs} | (
        {f"{ITEMS}.{item}.wll": f"{float(mbs[:-3]) / 7:.2f} kN"} if item == "RS-1" else {}
    )


@rule(
    title="A strength on the shelf cannot be right",
    each=each_item(),
    signal=Signal.WARNING,
    why="A rated load read as breaking strength, or tonnes read as kilonewtons, makes weak gear look strong.",
    formula="least factor ≤ breaking strength/rated load ≤ most factor; each within the band of its kind",
    limits=(LEAST_FACTOR, MOST_FACTOR, *WEAKEST.values(), *STRONGEST.values()),
    sources=(Source("Directive 2006/42/EC annex I 4.1.2.5: working coefficients 4 to 7", "standard"),),
    prevents=("units_mixed", "strength_unknown"),
    examples=(
        sound("long_haul"),
        *(faulty("long_haul", _put(item, low), at=f"{ITEMS}.{item}.mbs") for item, low, _, _, _ in PAIRS),
        *(sound("long_haul", _put(item, low)) for item, _, low, _, _ in PAIRS),
        *(sound("long_haul", _put(item, high)) for item, _, _, high, _ in PAIRS),
        *(faulty("long_haul", _put(item, high), at=f"{ITEMS}.{item}.mbs") for item, _, _, _, high in PAIRS),
        faulty(
            "long_haul",
            {f"{ITEMS}.W-1.mbs": "42 t"},
            at=f"{ITEMS}.W-1.mbs",
            signal=Signal.WARNING,
            shows="units_mixed",
        ),
        faulty("long_haul", {f"{ITEMS}.SH-1.wll": "325 t"}, at=f"{ITEMS}.SH-1.wll"),
        sound("long_haul", {f"{ITEMS}.SH-1.mbs": "63.8 kN"}),
        faulty("long_haul", {f"{ITEMS}.SH-1.mbs": "63.7 kN"}, at=f"{ITEMS}.SH-1.wll"),
        sound("long_haul", {f"{ITEMS}.SH-1.mbs": "382 kN"}),
        faulty("long_haul", {f"{ITEMS}.SH-1.mbs": "383 kN"}, at=f"{ITEMS}.SH-1.wll"),
        faulty("long_haul", {f"{ITEMS}.PL-1.wll": "50 kN"}, at=f"{ITEMS}.PL-1.wll", shows="strength_unknown"),
    ),
)
def rating(case: Case, item: Item) -> Iterator[Fault]:
    mbs, wll = item.gear.mbs, item.gear.wll
    least, most = case.limit(LEAST_FACTOR), case.limit(MOST_FACTOR)
    band = next((name for name, _, _, kinds in BANDS if item.gear.kind in kinds), None)
    if band is not None:
        low, high = case.limit(WEAKEST[band]), case.limit(STRONGEST[band])
        wrong = [
            *_outside(case, item, "mbs", low, high),
            *_outside(case, item, "wll", _part_of(low, most), _part_of(high, least)),
        ]
        yield from wrong
        if wrong:
            return
    if mbs is None or wll is None:
        return
    factor = mbs.si / wll.si if wll.si else float("inf")
    if not least * (1 - 1e-9) <= factor <= most * (1 + 1e-9):
        yield Fault(
            case.on_item(item, "wll"),
            f"{item.id} is rated at {wll.text} and breaks at {mbs.text}, {factor:.3g} times that; "
            f"{least:g} to {most:g} times is usual.",
            f"Read the label of {item.id} again: which figure is which load, and in which unit?",
            value=factor,
            limit=least if factor < least else most,
            unit="1",
            inputs=(
                case.given("breaking strength", "MBS", mbs, case.on_item(item, "mbs")),
                case.given("rated load", "WLL", wll, case.on_item(item, "wll")),
            ),
        )


def _part_of(strength_n: float, factor: float) -> float:
    """Return the rated load to a breaking strength; a club's factor of nothing asks for a load without end."""
    return strength_n / factor if factor else inf


def _outside(case: Case, item: Item, key: str, low: float, high: float) -> Iterator[Fault]:
    given: Quantity | None = getattr(item.gear, key)
    if given is None or low <= given.si <= high:
        return
    kind, name = item.gear.kind.replace("_", " "), {"mbs": "breaking strength", "wll": "rated load"}[key]
    yield Fault(
        case.on_item(item, key),
        f"A {name} of {given.text} cannot be right for the {kind} {item.id}; "
        f"{low / 1e3:.3g} to {high / 1e3:.4g} kN is usual.",
        f"Read the label of {item.id} again: kN, t, kg or lbf, and rated load or breaking strength?",
        value=given.si / 1e3,
        limit=(low if given.si < low else high) / 1e3,
        unit="kN",
    )
