"""Works out what a reading on site means, alone or for the line of a rig."""

from __future__ import annotations

from typing import NamedTuple

from riglint.loads import Loads
from riglint.loads.assumed import at_each_end
from riglint.loads.inputs import At, NotComputable, known, within_range
from riglint.loads.measure.generic_line import GenericBand, generic_line
from riglint.loads.measure.measured import Best, tension_of_pulse, tension_read
from riglint.loads.path.geometry import G
from riglint.mechanics.span.pulse import sag_from_pulse_m
from riglint.model.documents.rig import Measured
from riglint.model.library import Item
from riglint.model.values.policy import Values
from riglint.model.values.sources import Source
from riglint.read.quantity import Quantity
from riglint.views.audit.words import CAUTION_TEXT
from riglint.views.blocks import WorkedInput
from riglint.views.card.numbers import TAUT
from riglint.views.figures import fixed, kn, number, put
from riglint.views.gauge.content import Gauge, Planned, Verdict
from riglint.views.gauge.ranges import assumed_notes, how_unsure, over_all

GIVEN = "given"
STRING = Source(
    "wave speed on a string, OpenStax University Physics 1, section 16.3",
    "published",
    ("openstax_physics_1",),
)
EXACT = Source("exact elastic catenary, the tension whose line sags like that", "own")
STRANDS = Source("statics strand by strand, one tension ratio for each sheave", "own")
NOT_STRETCHED = (
    "A stretched metre weighs less than the label says, by a few hundredths; without the stretch curve of a rig "
    "this reads that much too high."
)
GENERIC = "what labels of this fibre and width can say"
NO_STRENGTH = (
    "At rest only: a bounce or a fall pulls harder. A generic webbing has no strength, so nothing here says that it "
    "holds. Its label does."
)


def pulse_alone(mass: Quantity, over: Quantity, time: Quantity, returns: int) -> Gauge:
    """Return what a pulse means where nothing but the webbing is known.

    Raises:
        NotComputable: a value lies outside what the formula covers.
    """
    with within_range("the reading"):
        best = tension_of_pulse(mass, over, time, returns)
        sag = sag_from_pulse_m(time.si, returns)
    inputs = _pulse_inputs(mass.si, (GIVEN, mass.text), over, over_from=GIVEN, time=time, returns=returns)
    return _pulse(best, inputs, notes=(NOT_STRETCHED, *how_unsure(best)), sag=sag)


def line_alone(span: Quantity, tension: Quantity, person: Quantity, fibre: str, width: Quantity) -> Gauge:
    """Return what a person does to a line of which nothing but its fibre and width is known.

    Raises:
        NotComputable: no such line can be computed.
    """
    mass = GenericBand(person.si - person.plus_minus, person.si + person.plus_minus)
    with within_range("the line"):
        found = generic_line(span.si, tension.si, mass, fibre=fibre, width_m=width.si, values=Values())
    low, high = found.tension_n
    sag, bare = (f"{fixed(one.least)} to {fixed(one.most)} m" for one in (found.sag_m, found.bare_sag_m))
    inputs = (
        WorkedInput("span", span.text, "", GIVEN),
        WorkedInput("T₀", tension.text, "", GIVEN),
        WorkedInput("m", person.text, "", GIVEN),
        WorkedInput("EA", f"{kn(found.stiffness_n.least)} to {kn(found.stiffness_n.most)}", "kN", GENERIC),
        WorkedInput(
            "mass",
            f"{found.mass_kg_per_m.least * 1000:.0f} to {found.mass_kg_per_m.most * 1000:.0f}",
            "g/m",
            GENERIC,
        ),
    )
    return Gauge(
        f"under {person.text} at rest in the middle of {span.text} of {width.text} {fibre} webbing",
        None,
        (low + high) / 2.0,
        low,
        high,
        "T",
        "tension of the elastic catenary with that person on it",
        "",
        inputs,
        EXACT,
        (f"The line comes down {sag} under the person, and hangs {bare} alone.", NO_STRENGTH),
        CAUTION_TEXT,
    )


def gauge_rig(loads: Loads, entry: Measured, apart: float) -> Gauge:
    """Return what a reading means on the line of a rig; its range covers each end of what is assumed.

    Args:
        loads: the rig.
        entry: the reading; what it leaves out is taken from the rig where that is known.
        apart: share by which a reading may be off the plan.

    Raises:
        MissingInput: the rig or the reading lacks a value.
        NotComputable: no line has that reading.
    """
    rig = loads.path.rig
    at = At(rig.document, ("measured", len(rig.rig.measured)))
    each = at_each_end(loads)
    first = _read(loads, entry, at)
    others = [known(lambda one=one: _read(one, entry, at)) for one in each[1:]]  # type: ignore[misc]
    best = over_all(first, others)
    planned = _planned(loads, best, apart, sure=None not in others)
    completed, taken = _completed(loads, entry)
    meant = _Meant(completed, taken, best, planned, assumed_notes(loads, first, best))
    if completed.what == "pulse":
        return _rig_pulse(loads, meant)
    if completed.what == "sag":
        return _sag(rig.rig.title, meant)
    return _lead(loads, completed, best, planned)


class _Meant(NamedTuple):
    """A reading, where its values come from, and what it means."""

    entry: Measured
    taken: dict[str, str]
    best: Best
    planned: Planned | None
    notes: tuple[str, ...]


def _read(loads: Loads, entry: Measured, at: At) -> Best:
    completed, _ = _completed(loads, entry)
    return tension_read(loads.geometry, known(lambda: loads.standing), loads.haul, completed, at)


def _completed(loads: Loads, entry: Measured) -> tuple[Measured, dict[str, str]]:
    """Return a reading with what the rig knows, and where each value comes from."""
    taken: dict[str, str] = {}
    update: dict[str, Quantity] = {}
    if entry.what == "pulse" and entry.over is None:
        over = loads.standing.equilibrium.stretched_m
        update["over"] = Quantity(over, 0.0, f"{number(over, 4)} m")
        taken["over"] = "computed: webbing between its fittings at the planned tension"
    if entry.what == "sag" and entry.at is None:
        line = loads.standing.line
        middle = line.reach_a.length_m + (line.span_m - line.reach_a.length_m - line.reach_b.length_m) / 2.0
        update["at"] = Quantity(middle, 0.0, f"{number(middle, 4)} m")
        taken["at"] = "computed: middle of the webbing"
    return entry.model_copy(update=update), taken


def _planned(loads: Loads, best: Best, apart: float, *, sure: bool) -> Planned | None:
    """Return what the plan says, and whether a reading fits it; where an end is unsure, it fits at most perhaps."""
    planned = known(lambda: loads.planned_standing_tension_n)
    if planned is None:
        return None
    at = At(loads.path.rig.document, ("plan", "standing_tension"))
    verdict = _verdict(best, planned * (1.0 - apart), planned * (1.0 + apart))
    return Planned(planned, apart, verdict if sure or verdict != "fits" else "may fit", at.reference)


def _verdict(read: Best, least_n: float, most_n: float) -> Verdict:
    """Return whether all, some or none of the range of a reading lies within bounds."""
    _, low_n, high_n = read
    if high_n < least_n or low_n > most_n:
        return "does not fit"
    return "fits" if least_n <= low_n and high_n <= most_n else "may fit"


# Each kind of reading


def _rig_pulse(loads: Loads, meant: _Meant) -> Gauge:
    entry, taken, best, planned, notes = meant
    assert entry.time is not None and entry.over is not None  # noqa: S101, PT018 - the reading rests on them
    webbing, placed = loads.geometry.webbings()[0], loads.path.webbings[0]
    own = placed.item.gear.mass_per_metre if placed.item else None
    bare = own.si if own else webbing.weight_n_per_m / G
    stretched = bare / (1.0 + webbing.law.strain(best[0])) + loads.load_case.hung_n() / G / entry.over.si
    where = _mass_from(loads, placed.item) if placed.item else ""
    label = placed.item.gear.mass_per_metre.text if placed.item and placed.item.gear.mass_per_metre else ""
    along = ", with the backup that is taped to it" if loads.load_case.hung_n() else ""
    words = (f"{placed.words}, {label} unstretched, {where}, stretched at that tension{along}", "")
    returns = entry.returns or 1
    inputs = _pulse_inputs(
        stretched, words, entry.over, over_from=taken.get("over", GIVEN), time=entry.time, returns=returns
    )
    more = list(notes)
    if len(loads.path.webbings) > 1:
        more.append("The line is of several webbings; the first one's mass is taken for all.")
    if known(lambda: loads.standing.equilibrium.sag_m > TAUT * loads.standing.line.span_m):
        more.append("This line is planned slack; the formula is that of a taut string and misleads here.")
    sag = known(lambda: _timed_sag(entry.time, returns))
    title = loads.path.rig.rig.title
    return _pulse(best, inputs, notes=tuple(more), sag=sag, title=title, planned=planned)


def _mass_from(loads: Loads, item: Item) -> str:
    """Return where the mass of a webbing stands; `assumed` where no file says it."""
    key = ("mass_per_metre",)
    if any(one.gear == item.id and key in one.keys for one in loads.path.rig.assumed):
        return "assumed"
    return At(item.document, (*item.key, *key)).reference


def _timed_sag(time: Quantity | None, returns: int) -> float:
    if time is None:
        raise NotComputable("no time was given")
    with within_range("the time"):
        return sag_from_pulse_m(time.si, returns)


def _pulse_inputs(
    mass: float, mass_from: tuple[str, str], over: Quantity, *, over_from: str, time: Quantity, returns: int
) -> tuple[WorkedInput, ...]:
    words, text = mass_from
    return (
        WorkedInput("μ", mass * 1000.0, "g/m", f"{words}: {text}" if text else words),
        WorkedInput("L", over.si, "m", f"webbing between its fittings, {over_from}: {over.text}"),
        WorkedInput("n", returns, "", "returns, given"),
        WorkedInput("t", time.si, "s", f"time of all returns, given: {time.text}"),
    )


def _pulse(
    best: Best,
    inputs: tuple[WorkedInput, ...],
    *,
    notes: tuple[str, ...],
    sag: float | None = None,
    title: str | None = None,
    planned: Planned | None = None,
) -> Gauge:
    mass, over, returns, time = (one.value for one in inputs)
    assert isinstance(mass, float) and isinstance(over, float) and isinstance(time, float)  # noqa: S101, PT018
    working = f"{mass / 1000.0:.5f} × (2 × {over:.2f} × {returns} / {time:.2f})²"
    formula = "μ·(2·L·n/t)²"
    return Gauge(
        "pulse", title, *best, "T", formula, working, inputs, STRING, notes, CAUTION_TEXT, sag, planned
    )


def _sag(title: str, meant: _Meant) -> Gauge:
    entry, taken, best, planned, notes = meant
    assert entry.depth and entry.under and entry.at  # noqa: S101, PT018 - the reading rests on them
    below = "the bare line" if entry.from_ == "still_line" else "the chord between the ends"
    inputs = (
        WorkedInput("s", entry.depth.si, "m", f"sag below {below}, given: {entry.depth.text}"),
        WorkedInput("m", entry.under.si, "kg", f"who stands there, given: {entry.under.text}"),
        WorkedInput(
            "x", entry.at.si, "m", f"place, from the first end, {taken.get('at', GIVEN)}: {entry.at.text}"
        ),
    )
    formula = "the standing tension of the line that sags by s under m·g at x"
    return Gauge("sag", title, *best, "T", formula, "", inputs, EXACT, notes, CAUTION_TEXT, None, planned)


def _lead(loads: Loads, entry: Measured, best: Best, planned: Planned | None) -> Gauge:
    haul = loads.haul
    if haul is None or entry.value is None:
        raise NotComputable("a force was read in the lead strand of a haul, and the rig has no haul")
    eta, n = haul.sheaves.low, haul.strands
    inputs = (
        WorkedInput("F", entry.value.si / 1000.0, "kN", f"in the lead strand, given: {entry.value.text}"),
        WorkedInput("n", n, "", f"strands, {haul.on('strands').reference}"),
        WorkedInput("η", eta, "", "of each sheave, low end; the truth lies between F·Σηⁱ and F·Σ(1/η)ⁱ"),
    )
    note = (
        "Friction in the sheaves decides where between: after hauling the line has less than n times the lead, "
        "after letting down more."
    )
    working = f"{n} × {put(entry.value.si / 1000.0, 3)}, from {kn(best[1])} to {fixed(best[2] / 1000.0)}"
    what, title = "force in the lead strand", loads.path.rig.rig.title
    return Gauge(
        what, title, *best, "T", "n·F", working, inputs, STRANDS, (note,), CAUTION_TEXT, None, planned
    )
