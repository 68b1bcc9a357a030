"""Standing tension as read on site: from a pulse, from the sag under a known person, from a force gauge."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import hypot

from riglint.loads.geometry import G, Geometry
from riglint.loads.haul import Haul
from riglint.loads.inputs import At, NotComputable, need, need_all, within_range
from riglint.loads.standing import Standing, rest_of
from riglint.mechanics.line import Line, NoResult, hang
from riglint.mechanics.pulse import tension_from_pulse
from riglint.mechanics.standing import length_for_sag
from riglint.mechanics.tackle import line_tension_bounds_n
from riglint.model.rig import Measured
from riglint.read.quantity import Quantity

ROUNDS = 20  # of letting mass per metre and sag of the bare line follow the tension
STEP = 1e-3  # of an input, to see how the tension follows it


@dataclass(frozen=True, slots=True)
class Reading:
    """One reading as a standing tension, N, with what its inputs leave uncertain."""

    number: int
    what: str
    tension_n: float
    low_n: float
    high_n: float
    at: At


def reading(geometry: Geometry, standing: Standing, haul: Haul | None, number: int) -> Reading:
    """Return one entry of `measured` as a standing tension.

    Raises:
        MissingInput: a value of the entry is not given.
        NotComputable: no line has that reading.
    """
    entry = geometry.rig.rig.measured[number]
    at = At(geometry.rig.document, ("measured", number))
    kinds: dict[str, Callable[[], tuple[float, float, float]]] = {
        "pulse": lambda: _pulse(geometry, entry, at),
        "sag": lambda: _sag(standing, entry, at),
        "force": lambda: _force(haul, entry, at),
    }
    with within_range("the reading"):
        best, low, high = kinds[entry.what]()
    return Reading(number, entry.what, best, low, high, at)


def _field(at: At, name: str) -> At:
    return At(at.document, (*at.key, name), at.part)


def _pulse(geometry: Geometry, entry: Measured, at: At) -> tuple[float, float, float]:
    need_all((entry.time, _field(at, "time")), (entry.over, _field(at, "over")))
    time, over = need(entry.time, _field(at, "time")), need(entry.over, _field(at, "over"))
    webbing = geometry.webbings()[0]
    item = geometry.path.webbings[0].item
    mass_error = item.gear.mass_per_metre.plus_minus if item and item.gear.mass_per_metre else 0.0
    mass = webbing.weight_n_per_m / G
    found = tension_from_pulse(mass, over.si, time.si, entry.returns or 1)
    for _ in range(ROUNDS):  # a stretched metre weighs less
        stretched = mass / (1.0 + webbing.law.strain(found.tension_n))
        found = tension_from_pulse(
            stretched,
            over.si,
            time.si,
            entry.returns or 1,
            mass_per_m_error=mass_error,
            length_error_m=over.plus_minus,
            time_error_s=time.plus_minus,
        )
    return found.tension_n, found.tension_n - found.uncertainty_n, found.tension_n + found.uncertainty_n


def _sag(standing: Standing, entry: Measured, at: At) -> tuple[float, float, float]:
    names = ("under", "at", "depth", "from")
    values = (entry.under, entry.at, entry.depth, entry.from_)
    need_all(*((value, _field(at, name)) for value, name in zip(values, names, strict=True)))
    under, place, depth = (
        need(value, _field(at, name)) for value, name in zip(values[:3], names, strict=False)
    )

    def tension(mass_kg: float, at_m: float, depth_m: float) -> float:
        return _tension_for_sag(
            standing.line, mass_kg * G, at_m, depth_m, from_chord=entry.from_ == "chord", end=standing.at
        )

    best = tension(under.si, place.si, depth.si)
    spread = hypot(
        *(
            _effect(best, quantity, n, tension, (under.si, place.si, depth.si))
            for n, quantity in enumerate((under, place, depth))
        )
    )
    return best, best - spread, best + spread


def _effect(
    best_n: float,
    quantity: Quantity,
    n: int,
    tension: Callable[..., float],
    values: tuple[float, float, float],
) -> float:
    """Return what one input's uncertainty does to the tension, by first order."""
    if not quantity.plus_minus:
        return 0.0
    step = max(abs(quantity.si) * STEP, 1e-9)
    moved = [value + step if m == n else value for m, value in enumerate(values)]
    return (tension(*moved) - best_n) / step * quantity.plus_minus


def _tension_for_sag(
    line: Line, load_n: float, at_m: float, depth_m: float, *, from_chord: bool, end: str
) -> float:
    """Return the standing tension of the line that sags by a depth under a load at a place."""
    fraction = min(
        max(
            (at_m - line.reach_a.length_m) / (line.span_m - line.reach_a.length_m - line.reach_b.length_m),
            0.0,
        ),
        1.0,
    )
    extra = 0.0
    found: Line | NoResult = line
    for _ in range(ROUNDS if not from_chord else 1):
        found = length_for_sag(line, load_n, fraction, depth_m + extra)
        if isinstance(found, NoResult):
            raise NotComputable("no line of this span and webbing sags like that")
        bare = rest_of(hang(found, 0.0, fraction))
        if abs(bare.sag_m - extra) < 1e-6:  # noqa: PLR2004 - a thousandth of a millimetre
            break
        extra = bare.sag_m
    assert isinstance(found, Line)  # noqa: S101 - for the type checker
    rest = rest_of(hang(found))
    return rest.tension_a_n if end == "a" else rest.tension_b_n


def _force(haul: Haul | None, entry: Measured, at: At) -> tuple[float, float, float]:
    need_all((entry.value, _field(at, "value")), (entry.where, _field(at, "where")))
    value = need(entry.value, _field(at, "value"))
    if entry.where != "lead_strand":
        return value.si, value.si - value.plus_minus, value.si + value.plus_minus
    if haul is None:
        raise NotComputable("a force was read in the lead strand of a haul, and the rig has no haul")
    low = line_tension_bounds_n(max(value.si - value.plus_minus, 0.0), haul.strands, haul.sheaves.low)[0]
    high = line_tension_bounds_n(value.si + value.plus_minus, haul.strands, haul.sheaves.low)[1]
    return value.si * haul.strands, low, high
