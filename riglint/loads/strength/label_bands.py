"""What the label of a piece can say at all: one model by kind, fibre, width, mass, diameter and jaw."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from riglint.model.documents.gear import Gear
from riglint.model.values.label_values import PER_MASS, TABLES, Of
from riglint.model.values.policy import Values
from riglint.model.values.sources import Source
from riglint.model.vocabulary.kinds import TEXTILE_FORMS
from riglint.model.vocabulary.words import FIBRES
from riglint.read.quantity import Quantity
from riglint.records import dataclass

SLICK = frozenset({"uhmwpe", "aramid"})
BANDS_OF_WEBBING = frozenset({"webbing", "sewn_end"})
ROPES = frozenset({"rope", "cord", "leash"})
MM = 1e-3


@dataclass(frozen=True, slots=True)
class Plausible:
    """One reason why a breaking strength can lie between two forces only."""

    least_n: float
    most_n: float
    words: str  # what sets it, such as `25 mm of polyester webbing`
    size: Quantity | None  # the size that it rests on
    key: str | None  # its key on the shelf
    source: Source

    def allows(self, force_n: float) -> bool:
        """Return whether a breaking strength can be right."""
        return self.least_n <= force_n <= self.most_n


class _Size(NamedTuple):
    """A size of a piece, how many units of its band it makes, and its key on the shelf."""

    quantity: Quantity
    amount: float
    key: str


def plausible(gear: Gear, values: Values) -> list[Plausible]:
    """Return the bands that the breaking strength of a piece must lie in, those of its size first.

    Source: `riglint.model.values.label_values`.
    """
    found = [_of(values, of, rows, size) for of, rows, size in _sized(gear)]
    row = TABLES["kind"].get(gear.kind)
    if row is not None:
        found.append(Plausible(*_span(values, "kind", [gear.kind]), f"a {row.words}", None, None, row.source))
    return found


def beyond_label(gear: Gear, breaking_n: float, values: Values) -> list[Plausible]:
    """Return the bands that a breaking strength breaks.

    Webbing that is too strong or weak for its width and not for its mass has a wrong width, which is told elsewhere.
    """
    bands = plausible(gear, values)
    weighed = any(band.key == "mass_per_metre" and band.allows(breaking_n) for band in bands)
    return [band for band in bands if not band.allows(breaking_n) and not (weighed and band.key == "width")]


class StretchBand(NamedTuple):
    """The least and the most that strength over stretch, (T ÷ MBS) ÷ ε, can be."""

    least: float
    most: float
    source: Source


def stretch_band(gear: Gear, values: Values) -> StretchBand:
    """Return how stiff webbing or rope of a fibre can be, as a share of its breaking strength."""
    rows = _stretch_rows(gear)
    return StretchBand(*_span(values, "stiffness", rows), TABLES["stiffness"][rows[0]].source)


class MassBand(NamedTuple):
    """Between which masses of a metre webbing can lie, kg/m, and what sets that."""

    least: float
    most: float
    words: str
    source: Source


def mass_band(gear: Gear, values: Values) -> MassBand | None:
    """Return what a metre of webbing can weigh, by its strength and its width; None where neither is on file.

    Where the two have nothing in common one of them is wrong, which is told elsewhere: then None too.
    """
    bands: list[tuple[float, float]] = []
    if gear.width is not None:
        bands.append(tuple(values[f"webbing_weighs.{end}"] * gear.width.si for end in ("least", "most")))  # type: ignore[arg-type]
    if gear.mbs is not None:
        least, most = _span(values, "mass", _fibres(gear))
        bands.append((gear.mbs.si / most * MM, gear.mbs.si / least * MM))
    if not bands or max(least for least, _ in bands) >= min(most for _, most in bands):
        return None
    row = TABLES["mass"][_fibres(gear)[0]]
    phrases = [row.words.removeprefix("g/m of ")]
    phrases += [f"a breaking strength of {gear.mbs.text}"] if gear.mbs is not None else []
    phrases += [f"a width of {gear.width.text}"] if gear.width is not None else []
    words = f"{', '.join(phrases[:-1])} and {phrases[-1]}"
    return MassBand(max(least for least, _ in bands), min(most for _, most in bands), words, row.source)


def _sized(gear: Gear) -> Iterator[tuple[Of, list[str], _Size]]:
    """Yield what bands a piece falls under by its size: the table, its rows, the size."""
    fibres = _fibres(gear)
    if gear.width is not None:
        flat = _Size(gear.width, gear.width.si / MM, "width")
        if gear.kind in BANDS_OF_WEBBING or gear.form in TEXTILE_FORMS:
            yield "width", fibres, flat
        elif gear.kind == "flat_sling":
            yield "width", ["flat_sling"], flat
    if gear.mass_per_metre is not None:
        yield "mass", fibres, _Size(gear.mass_per_metre, gear.mass_per_metre.si / MM, "mass_per_metre")
    for rows, size, key in _squared(gear):
        if size is not None:
            yield "area", rows, _Size(size, (size.si / MM) ** 2, key)


def _fibres(gear: Gear) -> list[str]:
    """Return the fibre of a piece, or all where nobody says which."""
    return [str(gear.material)] if gear.material in FIBRES else sorted(PER_MASS)


def _squared(gear: Gear) -> Iterator[tuple[list[str], Quantity | None, str]]:
    """Yield the rows by size squared that a piece falls under, its size and the key of that."""
    if gear.kind in ROPES:
        yield _rope_rows(gear), gear.diameter, "diameter"
    elif gear.kind == "round_sling":
        yield _either("round_sling", "round_sling_slick", slick=_slick(gear)), gear.width, "width"
    elif gear.kind in {"shackle", "ring", "quick_link"} and gear.material not in FIBRES:
        bars = ["bar_aluminium"] if gear.material == "aluminium" else ["bar"]
        yield bars, gear.diameter, "diameter"
        yield ["jaw"], gear.jaw, "jaw"


def _slick(gear: Gear) -> bool | None:
    """Return whether a textile is of a fibre several times as strong as others; None where nobody says."""
    if gear.type == "hmpe":
        return True
    return None if gear.material in {None, "mixed"} else gear.material in SLICK


def _rope_rows(gear: Gear) -> list[str]:
    if gear.material == "polypropylene":
        return ["rope_polypropylene"]
    slick = False if gear.material is None and gear.type in {"low_stretch", "dynamic"} else _slick(gear)
    return _either("rope", "rope_slick", slick=slick)


def _either(plain: str, strong: str, *, slick: bool | None) -> list[str]:
    return [plain, strong] if slick is None else [strong if slick else plain]


def _of(values: Values, of: Of, rows: list[str], size: _Size) -> Plausible:
    least, most = (size.amount * one for one in _span(values, of, rows))
    return Plausible(
        least, most, _words(of, rows, size.quantity), size.quantity, size.key, TABLES[of][rows[0]].source
    )


def _words(of: Of, rows: list[str], size: Quantity) -> str:
    if of == "area":
        return f"a {TABLES[of][rows[0]].words if len(rows) == 1 else 'rope or sling'} of {size.text}"
    fibre = TABLES[of][rows[0]].words.split(" ", 1)[1]  # `of polyester webbing`
    return f"{size.text} {fibre}" if len(rows) == 1 else f"{size.text} of any fibre"


def _span(values: Values, of: Of, rows: list[str]) -> tuple[float, float]:
    """Return the least and the most that any of some rows allows."""
    named = [f"label.{of}.{row}" for row in rows]
    return min(values[f"{one}.least"] for one in named), max(values[f"{one}.most"] for one in named)


class Stretch(NamedTuple):
    """One point of a stretch table, and between which strains it can lie."""

    tension_n: float
    strain: float
    least: float
    most: float
    words: str  # what sets it, such as `polyester webbing`
    source: Source

    @property
    def off(self) -> float:
        """How many times the strain lies beyond what is plausible; 1 or less where it does not."""
        return max(self.least / self.strain, self.strain / self.most)


def stretch_points(gear: Gear, breaking_n: float, values: Values) -> list[Stretch]:
    """Return the points of a stretch table with what is plausible for the fibre at that share of its strength.

    Below the last point webbing is softer while its weave straightens: there twice the stretch passes.
    """
    rows = _stretch_rows(gear)
    soft, stiff = _span(values, "stiffness", rows)
    first = TABLES["stiffness"][rows[0]]
    words = first.words if len(rows) == 1 else f"{gear.kind} of any fibre"
    table = gear.stretch or ()
    return [
        Stretch(
            tension,
            strain,
            tension / breaking_n / stiff,
            tension / breaking_n / soft * (1.0 if n == len(table) - 1 else 2.0),
            words,
            first.source,
        )
        for n, (tension, strain) in enumerate(table)
    ]


def _stretch_rows(gear: Gear) -> list[str]:
    if gear.kind == "webbing":
        return _fibres(gear)
    if gear.type == "dynamic":
        return ["rope_dynamic"]
    if gear.type == "hmpe" or gear.material in SLICK:
        return ["rope_slick"]
    named = f"rope_{gear.material}"
    rows = TABLES["stiffness"]
    return [named] if named in rows else [name for name in rows if name.startswith("rope_")]
