"""The sheet's line: where the standing tension comes from; webbing, ends and curve that every state rests on."""

from __future__ import annotations

from math import degrees, pi, sin

from riglint.loadpath import Placed
from riglint.loads import Loads, State
from riglint.loads.inputs import At, known
from riglint.loads.measure.measured import Reading
from riglint.loads.path.geometry import G
from riglint.model.documents.gear import Gear
from riglint.model.values.defaults import DEFAULTS
from riglint.model.values.sources import Source
from riglint.views.blocks import GEOMETRY, Block, Note, Worked, WorkedInput
from riglint.views.figures import kn

LINE_FORMULA = (
    "x = Σ H·L·(u·ln(1+q)/q) + L·ε(T)·H/T, y likewise, solved for H and V so that the line meets both anchors; "
    "L is fixed by the standing tension and kept in every other state"
)
STRING = Source(
    "wave speed on a string, OpenStax University Physics 1, section 16.3; μ of the stretched webbing",
    "published",
    ("openstax_physics_1",),
)
NO_SPREAD = "states no ±, so it counts as exact"


def line_blocks(loads: Loads, states: list[State]) -> list[Block]:
    """Return what every state rests on: the line as it is computed."""
    standing = known(lambda: loads.standing)
    if standing is None:
        return []
    line = standing.line
    inputs = [
        WorkedInput("from", _tension_from(loads)),
        WorkedInput("D", line.span_m, "m", "between the anchor points, level"),
        WorkedInput("rise", line.rise_m, "m", "of B over A"),
        WorkedInput("a", line.reach_a.length_m, "m", "from A to the webbing"),
        WorkedInput("b", line.reach_b.length_m, "m", "from B to the webbing"),
        WorkedInput("L", line.unstressed_m, "m", "webbing, unstressed"),
    ]
    for placed, webbing in zip(loads.path.webbings, line.webbings, strict=True):
        item = placed.item
        curve = (item.gear.stretch if item else None) or ()
        text = ", ".join(f"{one * 100:.3g} % at {force / 1000:.3g} kN" for force, one in curve)
        shelf = f", {At(item.document, item.key).reference}" if item else ""
        inputs.append(
            WorkedInput("w", webbing.weight_n_per_m, "N/m", f"{placed.words}, unstressed metre{shelf}")
        )
        inputs.append(
            WorkedInput("ε(T)", text, "", f"{placed.words}, straight between 0 and these points{shelf}")
        )
        inputs += [_in_use(loads, item.gear)] if item else []
    words = f"standing tension at end {standing.at.upper()}"
    source = states[0].source
    blocks: list[Block] = [
        *_reading(loads),
        Worked("line", words, "T₀", "", "", standing.tension_n / 1000.0, "kN", source, tuple(inputs)),
        Note("formula", LINE_FORMULA),
        *_after_an_hour(loads),
    ]
    for side in ("a", "b"):
        blocks += _end(loads, side)
    return blocks


def _in_use(loads: Loads, gear: Gear) -> WorkedInput:
    """Return the curve with which peaks are computed: measured in use, or the listed one made stiffer."""
    if gear.stretch_in_use is not None:
        words = ", ".join(f"{one * 100:.3g} % at {force / 1000:.3g} kN" for force, one in gear.stretch_in_use)
        return WorkedInput("ε(T) in use", words, "", "measured in use; it gives the peaks")
    name = loads.geometry.fibre_value("in_use", gear)
    factor = loads.values[name]
    return WorkedInput(
        "ε(T) in use", f"ε(T) / {factor:g}", "", f"it gives the peaks; {factor:g} from model.{name}"
    )


def _after_an_hour(loads: Loads) -> list[Block]:
    """Return what the webbing may have lost of its tension after an hour."""
    standing = known(lambda: loads.standing_tension_n)
    if standing is None:
        return []
    name, share = loads.geometry.relaxed()
    left = standing / 1000.0 * (1.0 - share)
    given = (WorkedInput("r", share * 100.0, "%", f"lost in the first hour, model.{name}"),)
    working = f"{standing / 1000.0:g} × (1 − {share:g})"
    words, source = "standing tension after an hour, if nobody touches it", DEFAULTS[name].source
    return [Worked("after an hour", words, "T", "T₀·(1 − r)", working, left, "kN", source, given)]


# Where the tension comes from


def _tension_from(loads: Loads) -> str:
    """Return the place in the files that the standing tension is taken from."""
    read = loads.tension_reading
    if read is not None:
        return f"{read.words}, {read.at.reference}"
    document, plan = loads.path.rig.document, loads.path.rig.rig.plan
    name = "standing_tension" if plan is not None and plan.standing_tension is not None else "sag_target"
    return f"plan.{name}, {At(document, ('plan', name)).reference}"


def _reading(loads: Loads) -> list[Block]:
    """Return the reading that the standing tension is taken from, as a formula where one holds."""
    read = loads.tension_reading
    if read is None:
        return []
    spread = (read.high_n - read.low_n) / 2.0
    words = f"± {kn(spread)} kN by first order" if spread > 0.0 else NO_SPREAD
    note = Note("reading", f"{read.words} instead of the plan, {kn(read.tension_n)} kN; {words}")
    return [note, *([_pulse(loads, read)] if read.what == "pulse" else [])]


def _pulse(loads: Loads, read: Reading) -> Worked:
    entry = loads.path.rig.rig.measured[read.number]
    assert entry.time is not None  # noqa: S101 - the reading rests on it
    assert entry.over is not None  # noqa: S101
    returns = entry.returns or 1
    mass = read.tension_n / (2.0 * entry.over.si * returns / entry.time.si) ** 2
    placed = loads.path.webbings[0]
    own = placed.item.gear.mass_per_metre if placed.item else None
    hung = loads.load_case.hung_n() / G / entry.over.si
    bare = own.si if own else mass
    strain = bare / (mass - hung) - 1.0
    beside = f", and {hung * 1000.0:.4g} g/m of backup" if hung else ""
    inputs = (
        WorkedInput(
            "μ",
            mass * 1000.0,
            "g/m",
            f"{bare * 1000.0:.4g} g/m over 1 + ε, ε {strain * 100.0:.3g} % at that T{beside}",
        ),
        WorkedInput("L", entry.over.text, "", "webbing between the fittings"),
        WorkedInput("n", returns, "", "returns"),
        WorkedInput("t", entry.time.text, "", f"for all of them, {read.at.reference}"),
    )
    working = f"{mass:.6f} × (2 × {entry.over.si:g} × {returns} / {entry.time.si:g})² / 1000"
    tension = read.tension_n / 1000.0
    return Worked(
        "reading", "tension by the pulse", "T", "μ·(2·L·n/t)²", working, tension, "kN", STRING, inputs
    )


# From an anchor to the webbing


def _end(loads: Loads, side: str) -> list[Block]:
    """Return what lies between an anchor point and the webbing, piece by piece."""
    geometry, path, standing = loads.geometry, loads.path, loads.standing
    reach = standing.line.reach_a if side == "a" else standing.line.reach_b
    name = f"end {side.upper()}"
    if geometry.spot.span_between == "webbing":
        return [Note(name, "the span is measured between the webbing's ends, so nothing lies between")]
    blocks: list[Block] = []
    pieces: list[WorkedInput] = []
    for placed in path.on_side(side):
        if geometry.reach_m(placed) != 0.0:
            pieces.append(_piece(loads, placed))
        worked = known(lambda placed=placed: _sling(loads, placed))  # type: ignore[misc]
        blocks += [worked] if worked is not None else []
    if path.haul is not None and path.side(path.haul) == side and standing.blocks_m is not None:
        read = path.haul.part.at_standing is not None
        words = "between the axles at standing tension, " + ("rig file" if read else "see Haul, travel")
        pieces.append(WorkedInput("d", standing.blocks_m, "m", words))
        if geometry.seating_m():
            seats = "slings and webbing anchors of both ends while they seat"
            source = DEFAULTS["sling_seating"].source
            pieces.append(WorkedInput("seating", geometry.seating_m(), "m", seats, source))
    if not pieces:
        return blocks
    working = " + ".join(f"{float(one.value):.3f}" for one in pieces)
    words = f"from {side.upper()} to the webbing"
    return [
        *blocks,
        Worked(
            name, words, side, "Σ of its pieces", working, reach.length_m, "m", GEOMETRY, tuple(pieces), 3
        ),
    ]


def _piece(loads: Loads, placed: Placed) -> WorkedInput:
    """Return what one part adds to the path, and where that comes from."""
    geometry, part = loads.geometry, placed.part
    length = geometry.reach_m(placed)
    if part.reach is not None:
        return WorkedInput(placed.id, length, "m", f"{placed.words}, rig file")
    if placed.item is not None and placed.item.gear.reach is not None:
        at = At(placed.item.document, placed.item.key)
        return WorkedInput(placed.id, length, "m", f"{placed.words}, {at.reference}")
    source = DEFAULTS[f"reach.{part.part}"].source if f"reach.{part.part}" in DEFAULTS else None
    if part.part == "sling":
        default = length == loads.values["reach.sling"]
        return WorkedInput(placed.id, length, "m", placed.words, source if default else None)
    if part.part == "legs":
        return WorkedInput(placed.id, length, "m", _legs(loads, placed))
    if part.part == "haul" and part.stays:
        plate = f", plate {loads.values['reach.plate']:g} m" if part.plate else ""
        words = f"{placed.words}: 2 × {loads.values['reach.block']:g} m from eye to axle{plate}"
        return WorkedInput(placed.id, length, "m", words, DEFAULTS["reach.block"].source)
    return WorkedInput(placed.id, length, "m", placed.words, source)


def _legs(loads: Loads, placed: Placed) -> str:
    """Return how long a spread is from its points to where its legs meet."""
    geometry, angle = loads.geometry, placed.part.included_angle
    runs = [[geometry.reach_m(one) for one in leg] for leg in loads.path.leg_runs(placed)]
    longest = max(runs, key=sum, default=[])
    words = f"longest leg {' + '.join(f'{one:.3f}' for one in longest)} m"
    return f"legs: {words}, times cos(θ/2), θ {degrees(angle.si):.3g}°" if angle else f"legs: {words}"


def _sling(loads: Loads, placed: Placed) -> Worked | None:
    """Return how far a sling in basket reaches from the face of its trunk."""
    geometry = loads.geometry
    text = placed.part.reach or (placed.item.gear.reach if placed.item else None)
    if placed.part.part != "sling" or geometry.contact(placed).kind != "tree" or text is not None:
        return None
    shape = geometry.sling_shape(placed)
    if placed.part.hitch not in {"basket", "wrap", None} or shape.angle_rad is None:
        return None
    angle = degrees(shape.angle_rad)
    protected = bool(geometry.contact(placed).covers)
    inputs = (
        WorkedInput("C", shape.girth_m, "m", "girth, over the protector" if protected else "girth"),
        WorkedInput("ℓ", shape.length_m, "m", "length of the sling"),
        WorkedInput(
            "θ",
            angle,
            "°",
            "rig file"
            if placed.part.included_angle is not None
            else "included, from ℓ/C = (2·cot(θ/2) + π + θ)/(2π)",
        ),
    )
    working = f"{shape.girth_m:.3f} / (2 × {pi:.4f}) × (1 / {sin(shape.angle_rad / 2.0):.4f} − 1)"
    length = geometry.sling_reach_m(placed)
    words = "from the face of the trunk to where its ends meet"
    return Worked(placed.id, words, "r", "C/(2π)·(1/sin(θ/2) − 1)", working, length, "m", GEOMETRY, inputs, 3)
