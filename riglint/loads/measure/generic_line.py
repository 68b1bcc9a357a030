"""A line without a file: what a person on it does, for any webbing of a fibre and a width."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import product
from typing import NamedTuple

from riglint.loads.inputs import NotComputable
from riglint.loads.path.geometry import G
from riglint.mechanics.span.cut import Reach, Webbing
from riglint.mechanics.span.line import Equilibrium, Line, NoResult, hang
from riglint.mechanics.span.standing import length_for_tension
from riglint.mechanics.span.stretch import StretchLaw
from riglint.model.values.policy import Values

MM, GRAMS = 1e-3, 1e-3


class GenericBand(NamedTuple):
    """The least and the most that a value can be."""

    least: float
    most: float


class GenericLine(NamedTuple):
    """A line with somebody at rest in its middle, over all webbing that a fibre and a width can mean."""

    tension_n: GenericBand
    sag_m: GenericBand  # under that person, below the chord
    bare_sag_m: GenericBand
    breaking_n: GenericBand
    stiffness_n: GenericBand
    mass_kg_per_m: GenericBand


def generic_line(
    span_m: float, tension_n: float, person_kg: GenericBand, *, fibre: str, width_m: float, values: Values
) -> GenericLine:
    """Return what a person does to a line between points of one height.

    Args:
        span_m: between those points.
        tension_n: standing tension, nobody on the line.
        person_kg: who stands in its middle, with the ± of that.
        fibre: of the webbing.
        width_m: of the webbing.
        values: the bands of labels, as a policy leaves them.

    Raises:
        NotComputable: a webbing of these bands hangs too slack to be computed.

    Source: `riglint.model.values.label_values` for the bands, `riglint.mechanics.span.line.hang` for the line.
    """
    breaking, stiffness, per_gram = (_label(values, of, fibre) for of in ("width", "stiffness", "mass"))
    breaking = GenericBand(*(one * width_m / MM for one in breaking))
    ea = GenericBand(stiffness.least * breaking.least, stiffness.most * breaking.most)
    # A breaking strength over newtons for each g/m is a mass in g/m.
    mass = GenericBand(breaking.least / per_gram.most * GRAMS, breaking.most / per_gram.least * GRAMS)
    ends = [
        (bare, loaded)
        for stiff, heavy in product(ea, mass)
        for bare, loaded in _both(span_m, tension_n, person_kg, stiff, heavy)
    ]
    return GenericLine(
        _band(loaded.tension_n for _, loaded in ends),
        _band(loaded.sag_m for _, loaded in ends),
        _band(bare.sag_m for bare, _ in ends),
        breaking,
        ea,
        mass,
    )


def _label(values: Values, of: str, fibre: str) -> GenericBand:
    name = f"label.{of}.{fibre}"
    return GenericBand(values[f"{name}.least"], values[f"{name}.most"])


def _both(
    span_m: float, tension_n: float, person_kg: GenericBand, ea_n: float, mass_kg_per_m: float
) -> list[tuple[Equilibrium, Equilibrium]]:
    """Return the line alone and with the lightest and the heaviest person."""
    webbing = Webbing(span_m, mass_kg_per_m * G, StretchLaw.linear(ea_n))
    line = length_for_tension(Line(span_m, 0.0, Reach(0.0), (webbing,), Reach(0.0)), tension_n)
    if isinstance(line, NoResult):
        raise NotComputable("the line is too slack for its tension to tell its length")
    found = [hang(line, kg * G) for kg in (0.0, *person_kg)]
    bare, *loaded = [one for one in found if not isinstance(one, NoResult)]
    if len(loaded) < len(person_kg):
        raise NotComputable("the line is too slack under that person")
    return [(bare, one) for one in loaded]


def _band(numbers: Iterable[float]) -> GenericBand:
    values = sorted(numbers)
    return GenericBand(values[0], values[-1])
