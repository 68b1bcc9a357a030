"""Standing tension as read on site: from a pulse, from the sag under a known person, from a force gauge.

A reading is held against the plan (`reading`). Where the plan says `standing_from: measured`, the newest one stands
in for it (`standing_reading`); what it rests on moves the whole rig then, so its ± is carried like any other.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from math import hypot

from riglint.loads.geometry import G, Geometry
from riglint.loads.haul import Haul
from riglint.loads.inputs import At, MissingInput, NotComputable, need, need_all, within_range
from riglint.loads.standing import End, Standing, rest_of, stand, standing_end
from riglint.mechanics.line import Line, NoResult, hang
from riglint.mechanics.pulse import tension_from_pulse
from riglint.mechanics.standing import length_for_sag
from riglint.mechanics.stretch import StretchLaw
from riglint.mechanics.tackle import line_tension_bounds_n
from riglint.model.rig import Measured
from riglint.read.quantity import Quantity

ROUNDS = 20  # of letting mass per metre and sag of the bare line follow the tension
STEP = 1e-3  # of an input, to see how the tension follows it
Best = tuple[float, float, float]  # a tension, its least, its greatest
CLOSE = 1e-9  # share of a tension within which two rounds agree


@dataclass(frozen=True, slots=True)
class Reading:
    """One reading as a standing tension, N, with what its inputs leave uncertain."""

    number: int
    what: str
    tension_n: float
    low_n: float
    high_n: float
    at: At
    date: date | None = None

    @property
    def words(self) -> str:
        """Which reading it is: `pulse read on 2026-05-02`."""
        return f"{self.what} read on {self.date.isoformat()}" if self.date else f"{self.what} read on site"


def reading(geometry: Geometry, standing: Standing, haul: Haul | None, number: int) -> Reading:
    """Return one entry of `measured` as a standing tension.

    Raises:
        MissingInput: a value of the entry is not given.
        NotComputable: no line has that reading.
    """
    entry = geometry.rig.rig.measured[number]
    at = At(geometry.rig.document, ("measured", number))
    best, low, high = tension_read(geometry, standing, haul, entry, at)
    return Reading(number, entry.what, best, low, high, at, entry.date)


def tension_read(
    geometry: Geometry, standing: Standing | None, haul: Haul | None, entry: Measured, at: At
) -> Best:
    """Return a reading as a tension with its least and greatest, N; `at` is where it stands or would stand.

    Raises:
        MissingInput: a value of the entry is not given.
        NotComputable: no line has that reading.
    """

    def sag() -> Best:
        if standing is None:
            return _sag_alone(geometry, entry, at)
        return _sag(standing.line, standing.at, entry, at)

    kinds: dict[str, Callable[[], Best]] = {
        "pulse": lambda: _pulse(geometry, entry, at),
        "sag": sag,
        "force": lambda: _force(haul, entry, at),
    }
    with within_range("the reading"):
        return kinds[entry.what]()


# A reading that the rig is computed with


def standing_reading(geometry: Geometry, on: date) -> Reading | None:
    """Return the reading that the standing tension is taken from; None where the plan gives it.

    The newest by date that is not after the day judged by, of the kinds that give one tension: a pulse, a sag, a force
    read in the line. It is never passed over for an older one because a value of it is missing. Taken as the tension at
    the end that the plan means; the ends of a line differ by its weight for each metre of rise.

    Raises:
        MissingInput: a reading has no date, or the newest lacks a value.
        NotComputable: no reading can be used, and why.
    """
    rig = geometry.rig.rig
    if rig.plan is None or rig.plan.standing_from == "plan":
        return None
    _must_follow_a_reading(geometry)
    undated = [n for n, entry in enumerate(rig.measured) if entry.date is None]
    if undated:  # nobody can tell which is the newest
        raise MissingInput(*(At(geometry.rig.document, ("measured", n, "date")) for n in undated))
    usable = [
        (entry.date, n)
        for n, entry in enumerate(rig.measured)
        if entry.date is not None and entry.date <= on and entry.where != "lead_strand"
    ]
    if not usable:
        raise NotComputable(f"{SAYS}, and {_why_none(geometry, on)}")
    _, number = max(usable)
    entry = rig.measured[number]
    at = At(geometry.rig.document, ("measured", number))
    with within_range("the reading"):
        if entry.what == "pulse":
            best, low, high = _pulse(geometry, entry, at)
        elif entry.what == "force":
            best, low, high = _force(None, entry, at)
        else:
            best, low, high = _sag_alone(geometry, entry, at)
    return Reading(number, entry.what, best, low, high, at, entry.date)


SAYS = "plan.standing_from says 'measured'"


def _must_follow_a_reading(geometry: Geometry) -> None:
    """Refuse a reading where nothing stands yet, or where the lengths in the file fix the tension already.

    Raises:
        NotComputable: it cannot be followed, and why.
    """
    if geometry.rig.rig.stage == "planned":
        raise NotComputable(f"{SAYS}, but the stage is 'planned': nothing stands yet that could be read")
    haul = geometry.path.haul
    hauled = haul is not None and haul.part.stays and geometry.path.side(haul) != "between"
    taken_in = haul is not None and hauled and haul.part.at_standing is None
    if geometry.path.whole and geometry.floating() is None and not taken_in:
        raise NotComputable(f"{SAYS}, but the lengths of the webbing in the chain fix the tension already")


def _why_none(geometry: Geometry, on: date) -> str:
    entries = geometry.rig.rig.measured
    if not entries:
        return "nothing stands in 'measured'"
    if all(entry.where == "lead_strand" for entry in entries):
        return "a force in the lead strand only bounds the tension in the line"
    return f"no reading that gives the tension in the line is of {on.isoformat()} or before"


def _sag_alone(geometry: Geometry, entry: Measured, at: At) -> Best:
    """Return a sag as a tension where nothing else says it, nor how far the blocks of a haul stand apart."""
    need_all((entry.depth, _field(at, "depth")), (entry.under, _field(at, "under")))
    under, depth = need(entry.under, _field(at, "under")), need(entry.depth, _field(at, "depth"))
    if depth.si <= 0.0:
        raise NotComputable("a reading says that the line does not sag")
    tension = (
        under.si * G * geometry.span_m / (4.0 * depth.si)
    )  # taut line, person in the middle: to begin with
    for _ in range(ROUNDS):
        found = _sag(stand(geometry, tension).line, standing_end(geometry), entry, at)
        if abs(found[0] - tension) <= CLOSE * tension:
            return found
        tension = found[0]
    raise NotComputable("the sag that was read fits no tension of this haul")


def _field(at: At, name: str) -> At:
    return At(at.document, (*at.key, name), at.part)


def _pulse(geometry: Geometry, entry: Measured, at: At) -> Best:
    need_all((entry.time, _field(at, "time")), (entry.over, _field(at, "over")))
    time, over = need(entry.time, _field(at, "time")), need(entry.over, _field(at, "over"))
    webbing = geometry.webbings()[0]
    item = geometry.path.webbings[0].item
    mass_error = item.gear.mass_per_metre.plus_minus if item and item.gear.mass_per_metre else 0.0
    mass = Quantity(webbing.weight_n_per_m / G, mass_error, "")
    return tension_of_pulse(mass, over, time, entry.returns or 1, webbing.law)


def tension_of_pulse(
    mass: Quantity, over: Quantity, time: Quantity, returns: int, law: StretchLaw | None = None
) -> Best:
    """Return a pulse as a tension with its least and greatest, N.

    Args:
        mass: of one metre of the webbing, unstretched, kg/m.
        over: webbing between its fittings, m.
        time: of all returns together, s.
        returns: round trips.
        law: how the webbing stretches; without it a metre is taken to weigh as much stretched as slack.

    Raises:
        ValueError: outside what `tension_from_pulse` covers.
    """
    found = tension_from_pulse(mass.si, over.si, time.si, returns)
    for _ in range(ROUNDS):  # a stretched metre weighs less
        stretched = mass.si / (1.0 + law.strain(found.tension_n) if law else 1.0)
        found = tension_from_pulse(
            stretched,
            over.si,
            time.si,
            returns,
            mass_per_m_error=mass.plus_minus,
            length_error_m=over.plus_minus,
            time_error_s=time.plus_minus,
        )
    return found.tension_n, found.tension_n - found.uncertainty_n, found.tension_n + found.uncertainty_n


def _sag(line: Line, end: End, entry: Measured, at: At) -> Best:
    names = ("under", "at", "depth", "from")
    values = (entry.under, entry.at, entry.depth, entry.from_)
    need_all(*((value, _field(at, name)) for value, name in zip(values, names, strict=True)))
    under, place, depth = (
        need(value, _field(at, name)) for value, name in zip(values[:3], names, strict=False)
    )

    def tension(mass_kg: float, at_m: float, depth_m: float) -> float:
        return _tension_for_sag(line, mass_kg * G, at_m, depth_m, from_chord=entry.from_ == "chord", end=end)

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


def _force(haul: Haul | None, entry: Measured, at: At) -> Best:
    need_all((entry.value, _field(at, "value")), (entry.where, _field(at, "where")))
    value = need(entry.value, _field(at, "value"))
    if entry.where != "lead_strand":
        return value.si, value.si - value.plus_minus, value.si + value.plus_minus
    if haul is None:
        raise NotComputable("a force was read in the lead strand of a haul, and the rig has no haul")
    low = line_tension_bounds_n(max(value.si - value.plus_minus, 0.0), haul.strands, haul.sheaves.low)[0]
    high = line_tension_bounds_n(value.si + value.plus_minus, haul.strands, haul.sheaves.low)[1]
    return value.si * haul.strands, low, high
