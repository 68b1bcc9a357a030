"""The sheet's states: what the line goes through, and how each force is found."""

from __future__ import annotations

from collections.abc import Callable
from math import hypot

from riglint.loads import Loads, State
from riglint.loads.inputs import known
from riglint.loads.path.geometry import G
from riglint.loads.states.standing import rest_of
from riglint.mechanics.span.line import Equilibrium, hang
from riglint.mechanics.span.wind import drag_n, drag_n_per_m
from riglint.model.values.defaults import DEFAULTS
from riglint.model.values.sources import OWN, Source
from riglint.views.blocks import STATICS, Block, Column, Note, Section, Table, Worked, WorkedInput
from riglint.views.figures import fixed, kn, put
from riglint.views.sheet.worked.line import line_blocks

COVERS = (
    "a peak is a reference value, not a bound. Bounces that build up can go a third higher. In one field test of three "
    "lines it was 1.04 to 1.9 × the measured peak. The force on a leash is a different one, see Person"
)
LEGEND = (
    "T, A, B: webbing as stiff as it is in use, in the mean wind of the plan; soft, sag, clear: webbing as listed, in "
    "calm air. A, B: the ends. at: share of the webbing from the first end. clear: least height over the "
    "ground."
)
BY_HAND = Source("moments about the place, the weight spread evenly along the webbing's run", "own")
COLUMNS = (
    Column("state"),
    Column("T", "kN", "greatest tension"),
    Column("soft", "kN", "greatest tension, webbing as listed"),
    Column("at A", "kN", "tension at A"),
    Column("at B", "kN", "tension at B"),
    Column("sag", "m", "sag below the chord"),
    Column("at", "", "place, share of the webbing from A"),
    Column("clear", "m", "least height over the ground"),
)


def states_section(loads: Loads) -> Section | None:
    """Return the states, each with its definition and how its force is found."""
    states = loads.computable()
    if not states:
        return None
    rows = tuple(_row(state) for state in states)
    blocks: list[Block] = [Table(COLUMNS, rows, LEGEND)]
    blocks += [Note(state.name, definition(state)) for state in states]
    blocks += line_blocks(loads, states)
    for state in states:
        blocks += _how(loads, state)
    if any(state.kind.worked == "energy" for state in states):
        blocks.append(Note("covers", COVERS))
    if any(state.rest and state.rest.past_curve for state in states):
        blocks.append(
            Note(
                "note",
                "a tension lies past the last point of a stretch curve, whose last slope goes on: peak/past_curve",
            )
        )
    return Section("States", tuple(blocks))


def _row(state: State) -> tuple[str, ...]:
    rest, soft = state.rest, state.soft.rest if state.soft else None
    return (
        state.name,
        kn(state.tension_n),
        kn(soft.tension_n if soft else None),
        kn(rest.tension_a_n if rest else None),
        kn(rest.tension_b_n if rest else None),
        fixed(soft.sag_m if soft else None),
        fixed(rest.fraction if rest else None),
        fixed(state.least_clearance_m),
    )


def definition(state: State) -> str:
    """Return what a state means, and what its figures leave out."""
    note = f"; {state.note}" if state.note else ""
    stopped = bool(state.meets_ground) and state.kind.worked != "statics"
    ground = "; the ground would stop it, the figure is that of free air" if stopped else ""
    return f"{state.words}{note}{ground}"


def _how(loads: Loads, state: State) -> list[Block]:
    """Return how the force of a state is found, as its kind is explained."""
    soft = state.soft.rest if state.soft else None
    by_hand: list[Block] = [_check_by_hand(loads, state, soft)] if soft is not None else []
    worked: dict[str, Callable[[], list[Block]]] = {
        "statics": lambda: by_hand,
        "energy": lambda: [_landing(state, state.rest)] if state.rest and state.drop else [],
        "wind": lambda: _wind(loads, state),
        "slip": lambda: [*_slip(loads, state), *by_hand],
        "force": list,
    }
    return known(worked[state.kind.worked]) or []


def _check_by_hand(loads: Loads, state: State, rest: Equilibrium) -> Worked:
    """Return the sag from the moments about the loaded point: it must come out as the exact line has it, nearly."""
    line = loads.standing.line
    first, last = line.reach_a.length_m, line.reach_b.length_m
    run, total = line.span_m - first - last, sum(one.weight_n_per_m * one.length_m for one in line.webbings)
    weight, near = total / run, total * (run / 2.0 + last) / line.span_m
    x, far = rest.load_x_m, line.span_m - rest.load_x_m
    moment = rest.load_n * x * far / line.span_m + near * x - weight * (x - first) ** 2 / 2.0
    working = (
        f"({rest.load_n:.1f} × {x:.2f} × {far:.2f} / {line.span_m:.2f} + {near:.2f} × {x:.2f} "
        f"− {weight:.4f} × ({x:.2f} − {first:.3f})² / 2) / {rest.horizontal_n:.1f}"
    )
    inputs = (
        WorkedInput("W", rest.load_n, "N", "weight of who is on it"),
        WorkedInput("x", x, "m", "level from A to the place"),
        WorkedInput("w", weight, "N/m", f"all the webbing, {total:.2f} N, over D − a − b, {run:.2f} m"),
        WorkedInput("R", near, "N", "its share at A: w·(D − a − b)·((D − a − b)/2 + b)/D"),
        WorkedInput("H", rest.horizontal_n, "N", "from the exact line"),
        WorkedInput("exact sag", rest.sag_m, "m"),
    )
    formula, sag = "(W·x·(D − x)/D + R·x − w·(x − a)²/2)/H", moment / rest.horizontal_n
    return Worked(state.name, "sag, checked by hand", "s", formula, working, sag, "m", BY_HAND, inputs)


def _landing(state: State, rest: Equilibrium) -> Worked:
    drop = state.drop
    assert drop is not None  # noqa: S101 - asked for by the caller
    mass, resting_n, height = drop.mass_kg, drop.resting_n, drop.height_m
    from_where = WorkedInput("h", height, "m", drop.height_words, drop.height_source)
    before = rest_of(hang(drop.line, resting_n, rest.fraction))
    lost = mass * G * (height + before.load_y_m - rest.load_y_m)
    others = resting_n * (before.load_y_m - rest.load_y_m)
    stored = rest.energy_j - before.energy_j
    extra = f" + {resting_n:.0f} × ({put(before.load_y_m, 3)} − {put(rest.load_y_m, 3)})" if resting_n else ""
    inputs = (
        WorkedInput("m", mass, "kg", "the heaviest user"),
        from_where,
        WorkedInput("y₀", before.load_y_m, "m", "of the line before, from A up"),
        WorkedInput("y(P)", rest.load_y_m, "m", "at the lowest point"),
        WorkedInput(
            "E(P) − E₀", stored / 1000.0, "kJ", "stretch and weight of the line; must equal the result"
        ),
        WorkedInput("P", rest.load_n / 1000.0, "kN", "force on the line there"),
    )
    working = (
        f"{mass:g} × {G:.5f} × ({height:g} + {put(before.load_y_m, 3)} − {put(rest.load_y_m, 3)}){extra}"
    )
    return Worked(
        state.name,
        "energy that the falling user gives up and the line takes up",
        "E",
        "m·g·(h + y₀ − y(P))" + (" + W₂·(y₀ − y(P))" if resting_n else ""),
        working,
        (lost + others) / 1000.0,
        "kJ",
        state.source,
        inputs,
    )


def _wind(loads: Loads, state: State) -> list[Block]:
    case, values = loads.load_case, loads.values
    gust, number, density = case.gust_m_per_s, values["drag"], values["air_density"]
    width = case.faces_m(loads.path.webbings[0])
    drag = drag_n_per_m(gust, width, drag_coefficient=number, air_density_kg_per_m3=density)
    body, area = (
        drag_n(gust, values["body_drag_area"], air_density_kg_per_m3=density),
        values["body_drag_area"],
    )
    weight = loads.standing.line.webbings[0].weight_n_per_m
    speed = (
        WorkedInput("ρ", density, "kg/m³", "", DEFAULTS["air_density"].source),
        WorkedInput(
            "v",
            gust,
            "m/s",
            f"{values['gust_factor']:g} times the plan's wind",
            DEFAULTS["gust_factor"].source,
        ),
    )
    band = (
        *speed,
        WorkedInput("Cd", number, "", "", DEFAULTS["drag"].source),
        WorkedInput("b", width, "m", "width of the webbing"),
        WorkedInput("w", weight, "N/m", f"added as a vector: √(w² + f²) = {hypot(weight, drag):.3f} N/m"),
    )
    person = (*speed, WorkedInput("CdA", area, "m²", "", DEFAULTS["body_drag_area"].source))
    working = f"½ × {density:g} × {gust:.3g}² × {number:g} × {width:g}"
    on_body = f"½ × {density:g} × {gust:.3g}² × {area:g}"
    return [
        Worked("wind", "drag on the webbing", "f", "½·ρ·v²·Cd·b", working, drag, "N/m", state.source, band),
        Worked("wind", "drag on each person", "F", "½·ρ·v²·CdA", on_body, body, "N", state.source, person),
    ]


def _slip(loads: Loads, state: State) -> list[Block]:
    haul = loads.haul
    slip = haul.slip_m(loads.standing.blocks_m) if haul is not None else None
    if haul is None or slip is None:
        return []
    inputs = (
        WorkedInput("s", slip, "m", "rope to the stopper"),
        WorkedInput("n", haul.strands, "", "strands"),
    )
    working, grows = f"{slip:.2f} / {haul.strands}", slip / haul.strands
    return [Worked(state.name, "the path grows", "Δ", "s/n", working, grows, "m", OWN, inputs)]


def clearance_section(loads: Loads) -> Section | None:
    """Return the heights over the ground, state by state."""
    found = [known(lambda state=state: _clearance(loads, state)) for state in loads.computable()]  # type: ignore[misc]
    blocks = [one for one in found if one is not None]
    if not blocks:
        return None
    note = Note("note", "straight below the place; the ground is straight between the points of its profile")
    return Section("Clearance", (*blocks, note))


def _clearance(loads: Loads, state: State) -> Worked | None:
    if state.least_clearance_m is None or state.kind.of is None:  # a backup's own section tells its clearance
        return None
    places = state.soft_positions
    if len(places) == 1:
        bare = loads.standing.line
        places = (rest_of(hang(bare, 0.0, state.least_clearance_at or 0.5)),)
    rest = min(places, key=lambda one: abs(one.fraction - (state.least_clearance_at or 0.5)))
    over = loads.sweep.clearance_m(rest.load_x_m, rest.load_y_m)
    if over is None:
        return None
    height = loads.geometry.height_m(0)
    ground = rest.load_y_m + height - over
    below = over - state.least_clearance_m
    inputs = [
        WorkedInput("y", rest.load_y_m, "m", "of the line, from the sling or bolt at A up"),
        WorkedInput("h_A", height, "m", "of that over the ground at A"),
        WorkedInput("g", ground, "m", f"the ground {rest.load_x_m:.2f} m from A's face"),
    ]
    formula, working = "y + h_A − g", f"{put(rest.load_y_m)} + {put(height)} − {put(ground)}"
    if state.kind.clearance == "body":
        formula, working = f"{formula} − r", f"{working} − {below:.2f}"
        inputs.append(WorkedInput("r", below, "m", "leash and body below it"))
    return Worked(
        state.name,
        f"least at {rest.fraction:.2f} of the webbing",
        "c",
        formula,
        working,
        state.least_clearance_m,
        "m",
        STATICS,
        tuple(inputs),
    )
