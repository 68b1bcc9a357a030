"""Mass and stretch of webbing, between what its label leaves possible: by fibre, strength and width."""

from __future__ import annotations

from collections.abc import Iterator

from riglint.loadpath import Placed
from riglint.loads.rig_loads import Loads
from riglint.loads.strength.label_bands import mass_band, stretch_band
from riglint.model.compact.assumption import AssumedEnd, Assumption
from riglint.model.library import Item
from riglint.model.vocabulary.words import FIBRES
from riglint.read.quantity import Quantity

INSIDE = 1e-9  # share of a band by which its ends lie inside it, so that no rounding puts them outside
SHOWN_N = 5_000.0  # tension at which a stretch is shown


def of_webbing(loads: Loads) -> Iterator[Assumption]:
    """Yield stretch and mass of each webbing of a line or its backups, where fibre and strength are on file."""
    paths = (loads.path, *(backup.path for backup in loads.backups))
    placed = [one for path in paths for one in path.webbings if one.part.part == "webbing"]
    for item in _items(placed).values():
        if item.gear.mbs is None or item.gear.material not in FIBRES:
            continue
        if item.gear.stretch is None:
            yield _stretch(item, item.gear.mbs.si, loads)
        if item.gear.mass_per_metre is None:
            yield from _mass(item, loads)


def _items(placed: list[Placed]) -> dict[str, Item]:
    return {one.item.id: one.item for one in placed if one.item is not None}


def _stretch(item: Item, breaking_n: float, loads: Loads) -> Assumption:
    soft, stiff, source = stretch_band(item.gear, loads.values)
    shown_n = min(SHOWN_N, breaking_n)
    ends = [_table(breaking_n, share, shown_n) for share in (stiff * (1.0 - INSIDE), soft * (1.0 + INSIDE))]
    least, most = (shown_n / breaking_n / share for share in (stiff, soft))
    return Assumption(
        f"stretch of {item.id}",
        "gear",
        (("stretch",),),
        item.id,
        tuple(ends),
        f"{100.0 * least:.1f} to {100.0 * most:.1f} % at {shown_n / 1000.0:g} kN",
        of_line=True,
        why=f"{_fibre(item)} and a breaking strength of {breaking_n / 1000.0:g} kN",
        look_up=f"ask the maker of {item.id} for its stretch, or measure it",
        source=source,
    )


def _table(breaking_n: float, share: float, shown_n: float) -> AssumedEnd:
    """Return a straight stretch table up to the breaking strength; `share` is that of the strength over strain."""
    shown = 100.0 * shown_n / breaking_n / share
    return AssumedEnd(f"{shown:.1f} % at {shown_n / 1000.0:g} kN", ((breaking_n, 1.0 / share),))


def _mass(item: Item, loads: Loads) -> Iterator[Assumption]:
    band = mass_band(item.gear, loads.values)
    if band is None:
        return
    light, heavy = band.least * (1.0 + INSIDE), band.most * (1.0 - INSIDE)
    ends = tuple(AssumedEnd(text, Quantity(si, 0.0, text)) for si in (heavy, light) for text in (_grams(si),))
    yield Assumption(
        f"mass of {item.id}",
        "gear",
        (("mass_per_metre",),),
        item.id,
        ends,
        f"{1000.0 * light:.0f} to {1000.0 * heavy:.0f} g/m",
        of_line=True,
        why=band.words,
        look_up=f"weigh some metres of {item.id}",
        source=band.source,
    )


def _grams(kg_per_m: float) -> str:
    return f"{1000.0 * kg_per_m:.0f} g/m"


def _fibre(item: Item) -> str:
    return {"uhmwpe": "UHMWPE", "mixed": "mixed fibres"}.get(str(item.gear.material), str(item.gear.material))
