"""Standing tension as read on site: from a pulse, from the sag under a known person, from a force gauge."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from math import hypot

from riglint.loads.haul.pulleys import Haul
from riglint.loads.inputs import At, NotComputable, known, need, need_all, within_range
from riglint.loads.measure.sag_read import tension_for_sag
from riglint.loads.path.geometry import G, Geometry
from riglint.loads.states.standing import End, Standing, stand, standing_end
from riglint.mechanics.rope.tackle import line_tension_bounds_n
from riglint.mechanics.span.line import Line
from riglint.mechanics.span.pulse import tension_from_pulse
from riglint.mechanics.span.stretch import StretchLaw
from riglint.model.documents.rig import Measured
from riglint.read.quantity import Quantity
from riglint.records import dataclass

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
    _must_lie_between_the_anchors(geometry, entry)
    with within_range("the reading"):
        best = kinds[entry.what]()
    _must_be_as_long_as_the_line(geometry, standing, entry, best[0])
    _must_be_possible(geometry, best)
    return best if geometry.is_in_use or entry.what == "force" else _with_the_curve(geometry, entry, at, best)


def _with_the_curve(geometry: Geometry, entry: Measured, at: At, listed: Best) -> Best:
    """Return a reading with its range widened to what webbing as stiff as in use would make of it."""
    stiff = geometry.in_use()

    def again() -> Best:
        standing = stand(stiff, listed[0]) if entry.what == "sag" else None
        return tension_read(stiff, standing, None, entry, at)

    in_use = known(again) or listed
    return listed[0], min(listed[1], in_use[1]), max(listed[2], in_use[2])


def _must_lie_between_the_anchors(geometry: Geometry, entry: Measured) -> None:
    """Refuse a sag read beyond the far anchor.

    Raises:
        NotComputable: it was.
    """
    span, at = known(lambda: geometry.span_m), entry.at
    if entry.what == "sag" and at is not None and span is not None and at.si - at.plus_minus > span:
        raise NotComputable(
            f"a sag was read at {at.text}, but the anchors are {span:.3g} m apart. Enter where "
            "the person stood, measured level from the first anchor"
        )


def _must_be_as_long_as_the_line(
    geometry: Geometry, standing: Standing | None, entry: Measured, tension_n: float
) -> None:
    """Refuse a pulse over another length than the line has between its fittings, where that can be computed.

    Raises:
        NotComputable: it is too far off; the tension goes with its square.
    """
    over = entry.over
    line = standing or known(lambda: stand(geometry, tension_n))
    if entry.what != "pulse" or over is None or line is None:
        return
    long, apart = line.equilibrium.stretched_m, geometry.values["reading_apart"]
    if max(over.si - over.plus_minus - long, long - over.si - over.plus_minus) > apart * long:
        raise NotComputable(
            f"a pulse was read over {over.text}, but there is about {long:.3g} m of webbing "
            "between the fittings. Measure that again, or correct span and parts"
        )


def _must_be_possible(geometry: Geometry, read: Best) -> None:
    """Refuse a reading that no line of this webbing can have: read or written down wrong.

    Raises:
        NotComputable: it is below what the line needs to hang, or above what its webbing bears.
    """
    best_n, low_n, high_n = read
    meaning = f"the reading means {best_n / 1000.0:.3g} kN"
    weights = known(lambda: [webbing.weight_n_per_m for webbing in geometry.webbings()])
    if weights is not None and high_n < min(weights) * geometry.span_m:
        raise NotComputable(f"{meaning}, less than the line needs to hang between the anchors. Read again")
    items = [placed.item for placed in geometry.path.webbings]
    strengths = [item.gear.mbs.si for item in items if item is not None and item.gear.mbs is not None]
    if strengths and low_n > min(strengths):
        raise NotComputable(
            f"{meaning}, more than the {min(strengths) / 1e3:.3g} kN at which the webbing breaks. Read again"
        )


def _sag_alone(geometry: Geometry, entry: Measured, at: At) -> Best:
    """Return a sag as a tension where nothing else says it, nor how far the blocks of a haul stand apart."""
    need_all((entry.depth, _field(at, "depth")), (entry.under, _field(at, "under")))
    under, depth = need(entry.under, _field(at, "under")), need(entry.depth, _field(at, "depth"))
    if depth.si <= 0.0:
        raise NotComputable("a reading says that the line does not sag")
    # A taut line with a person in the middle pulls W·L/(4·depth): near enough to begin with.
    tension = under.si * G * geometry.span_m / (4.0 * depth.si)
    for _ in range(ROUNDS):
        found = _sag(stand(geometry, tension).line, standing_end(geometry), entry, at)
        if abs(found[0] - tension) <= CLOSE * tension:
            return found
        tension = found[0]
    raise NotComputable("the sag that was read fits no tension of this pulley system")


def _field(at: At, name: str) -> At:
    return At(at.document, (*at.key, name), at.part)


def _pulse(geometry: Geometry, entry: Measured, at: At) -> Best:
    need_all((entry.time, _field(at, "time")), (entry.over, _field(at, "over")))
    time, over = need(entry.time, _field(at, "time")), need(entry.over, _field(at, "over"))
    if not geometry.path.webbings:
        raise NotComputable("a pulse runs along webbing, and the chain has none")
    webbing = geometry.webbings()[0]
    item = geometry.path.webbings[0].item
    mass_error = item.gear.mass_per_metre.plus_minus if item and item.gear.mass_per_metre else 0.0
    own = item.gear.mass_per_metre.si if item and item.gear.mass_per_metre else webbing.weight_n_per_m / G
    mass = Quantity(own, mass_error, "")
    hung_kg = geometry.hung_n() / G  # what hangs along the line swings with it
    return tension_of_pulse(mass, over, time, entry.returns or 1, webbing.law, hung_kg=hung_kg)


def tension_of_pulse(
    mass: Quantity,
    over: Quantity,
    time: Quantity,
    returns: int,
    law: StretchLaw | None = None,
    *,
    hung_kg: float = 0.0,
) -> Best:
    """Return a pulse as a tension with its least and greatest, N.

    Args:
        mass: of one metre of the webbing, unstretched, kg/m.
        over: webbing between its fittings, m.
        time: of all returns together, s.
        returns: round trips.
        law: how the webbing stretches; without it a metre is taken to weigh as much stretched as slack.
        hung_kg: of what hangs along the line and swings with it, such as a taped backup.

    Raises:
        ValueError: outside what `tension_from_pulse` covers.
    """
    hung_kg_per_m = hung_kg / over.si
    found = tension_from_pulse(mass.si + hung_kg_per_m, over.si, time.si, returns)
    for _ in range(ROUNDS):  # a stretched metre weighs less
        stretched = mass.si / (1.0 + law.strain(found.tension_n) if law else 1.0) + hung_kg_per_m
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
        return tension_for_sag(line, mass_kg * G, at_m, depth_m, from_chord=entry.from_ == "chord", end=end)

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


def _force(haul: Haul | None, entry: Measured, at: At) -> Best:
    need_all((entry.value, _field(at, "value")), (entry.where, _field(at, "where")))
    value = need(entry.value, _field(at, "value"))
    if entry.where != "lead_strand":
        return value.si, value.si - value.plus_minus, value.si + value.plus_minus
    if haul is None:
        raise NotComputable("a force was read in the lead strand of a pulley system, but the rig has none")
    # The poorest sheaves hide most of the tension, on either side.
    low = line_tension_bounds_n(max(value.si - value.plus_minus, 0.0), haul.strands, haul.sheaves.low)[0]
    high = line_tension_bounds_n(value.si + value.plus_minus, haul.strands, haul.sheaves.low)[1]
    return value.si * haul.strands, low, high
