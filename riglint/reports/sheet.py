"""The calculation sheet as text: what the rig will see, part by part, with formula and source."""

from __future__ import annotations

import textwrap
from collections.abc import Callable
from datetime import date
from typing import TypeVar

from riglint.loads import Loads, PartLoad, State
from riglint.loads.inputs import MissingInput, NotComputable
from riglint.model.sources import MARKS, Source
from riglint.reports.layout import Line, Span, labelled, number, paragraph, plain
from riglint.reports.text import CAUTION_TEXT

T = TypeVar("T")

LINE_FORMULA = (
    "x = Σ H·L·(u·ln(1+q)/q) + L·ε(T)·H/T, y likewise, solved for H and V so that the line meets both anchors; "
    "L is fixed by the standing tension and kept in every other state"
)
PEAK_FORMULA = "E(P) − E₀ = m·g·(h + y₀ − y(P)): what the falling user loses in height is what the line stores at its lowest point P"
PART_FORMULA = (
    "ratio = breaking strength × slinging mode × reductions ÷ force in the state that leaves the least"
)
HAUL_FORMULA = (
    "T = f·Σηⁱ (i = 0 … n−1), f = h·(1 + η + η·η_b) with a 3:1 multiplier; lowering the same with 1/η"
)
ROPE_FORMULA = "rope = n·block distance + reeving + behind the brake; letting down to zero takes n·travel from behind the brake"
HOLD_FORMULA = "hold = lead·η_b·e^(−2π·μ·N)"
ENERGY_FORMULA = "U = L·∫T dε"


def sheet_text(loads: Loads, on: date, width: int) -> list[Line]:
    """Return the calculation sheet of one rig, laid out for a width."""
    rig = loads.path.rig
    lines: list[Line] = [*paragraph(f"Calculation sheet: {rig.rig.title}", width, look="bold")]
    lines += paragraph(f"{rig.document.path}, as of {on}, default limits", width)
    consequence = loads.consequence
    lines += labelled("at stake", f"{consequence.word}: {'; '.join(consequence.reasons)}", width, indent=0)
    lines += _states(loads, width)
    lines += _parts(loads, width)
    lines += _haul(loads, width)
    lines += _webbing(loads, width)
    lines += _missing(loads, width)
    return [*lines, plain(""), *paragraph(CAUTION_TEXT, width)]


def _heading(text: str) -> list[Line]:
    return [plain(""), (Span(text, "bold underline"),)]


def _formula(formula: str, source: Source | str, width: int) -> list[Line]:
    words = source if isinstance(source, str) else f"{source.text} ({MARKS[source.mark]})"
    return [*labelled("formula", formula, width), *labelled("source", words, width)]


def _table(head: list[str], rows: list[list[str]], width: int) -> list[Line]:
    """Return columns: the first takes what is left and wraps, the others stand right."""
    columns = [max(len(row[n]) for row in [head, *rows]) for n in range(1, len(head))]
    first = max(
        12, min(max(len(row[0]) for row in [head, *rows]), width - sum(columns) - 2 * len(columns) - 2)
    )
    lines: list[Line] = []
    for n, row in enumerate([head, *rows]):
        pieces = textwrap.wrap(row[0], first) or [""]
        cells = "".join(f"  {cell:>{column}}" for cell, column in zip(row[1:], columns, strict=True))
        look = "dim" if n == 0 else ""
        lines += [(Span(f"  {piece}", look),) for piece in pieces[:-1]]
        lines.append((Span(f"  {pieces[-1]:<{first}}{cells}", look),))
    return lines


def _kn(value: float | None) -> str:
    return "–" if value is None else f"{value / 1000.0:.2f}"


def _m(value: float | None) -> str:
    return "–" if value is None else f"{value:.2f}"


def _states(loads: Loads, width: int) -> list[Line]:
    states = loads.computable()
    if not states:
        return []
    head = ["state", "kN", "at A", "at B", "H", "sag m", "at", "clear m"]
    rows = []
    for state in states:
        rest = state.rest
        rows.append(
            [
                state.name,
                _kn(state.tension_n),
                _kn(rest.tension_a_n) if rest else "–",
                _kn(rest.tension_b_n) if rest else "–",
                _kn(rest.horizontal_n) if rest else "–",
                _m(rest.sag_m if rest else None),
                f"{rest.fraction:.2f}" if rest else "–",
                _m(state.least_clearance_m),
            ]
        )
    lines = [*_heading("States"), *_table(head, rows, width)]
    lines += paragraph(
        "kN: greatest tension anywhere; A, B: the ends; H: horizontal. at: share of the webbing from the first end. clear: least height over the ground.",
        width,
        indent=2,
    )
    for state in states:
        note = f"; {state.note}" if state.note else ""
        ground = "; the ground would stop it, the figure is that of free air" if _stopped(state) else ""
        lines += labelled(state.name, f"{state.words}{note}{ground}", width)
    lines += _formula(LINE_FORMULA, states[0].source, width)
    peak = next((state for state in states if state.name == "bounce"), None)
    if peak is not None:
        covers = "a reference value, not a bound: undamped resonance can pass it by a third; the force on a leash is another"
        lines += _formula(PEAK_FORMULA, peak.source, width) + labelled("covers", covers, width)
        if any(state.rest and state.rest.past_curve for state in states):
            text = "a tension lies past the last point of a stretch curve; its last slope was kept"
            lines += labelled("note", text, width)
    return lines


def _stopped(state: State) -> bool:
    return bool(state.meets_ground) and state.name not in {"standing", "walker", "crowd"}


def _parts(loads: Loads, width: int) -> list[Line]:
    parts = _try(lambda: loads.parts)
    if not parts:
        return []
    head = ["part", "state", "kN", "holds kN", "ratio", "asked"]
    rows, notes = [], []
    for load in parts:
        row, note = _part(load, loads)
        rows.append(row)
        notes += note
    lines = [*_heading("Parts"), *_table(head, rows, width)]
    lines += labelled("where", "; ".join(notes), width) if notes else []
    sources = {load.strength_class: load.required.source for load in parts}
    lines += labelled("formula", PART_FORMULA, width)
    for name, source in sources.items():
        lines += labelled("asked", f"of {name}: {source.text} ({MARKS[source.mark]})", width)
    return lines


def _part(load: PartLoad, loads: Loads) -> tuple[list[str], list[str]]:
    states = _try(lambda: [loads.haul_state] if load.only_in else loads.peaks())
    strength = _try(lambda: load.strength)
    worst = _try(lambda: load.worst(states or [])) if strength else None
    asked = load.required_at(loads.consequence.word)
    row = [
        f"{load.id} {load.words}",
        worst.state if worst else "–",
        _kn(worst.force_n if worst else None),
        _kn(strength.strength_n if strength else None),
        f"{worst.ratio:.2f}" if worst else "–",
        number(asked) if asked else "–",
    ]
    if strength is None:
        return row, []
    reductions = [f"{one.why} × {one.factor:g}" for one in strength.reductions]
    from_rated = [] if strength.breaking_from == "label" else [strength.breaking_from]
    note = [f"{load.id}: {', '.join(from_rated + reductions)}"] if from_rated or reductions else []
    return row, [*note, *([f"{load.id}: {strength.no_rating}"] if strength.no_rating else [])]


def _haul(loads: Loads, width: int) -> list[Line]:
    sheet = _try(lambda: loads.haul_sheet)
    if sheet is None:
        return []
    strands = ", ".join(_kn(one) for one in sheet.strands_n or ())
    rows = [
        ("ratio", f"{number(sheet.actual_ratio)} of an ideal {sheet.ideal_ratio or '–'}"),
        ("hands", f"{_kn(sheet.hand_force_n)} kN on the rope reach the standing tension"),
        ("strands", f"{strands} kN, the lead first" if strands else "–"),
        ("grip", f"{_kn(sheet.grip_n)} kN"),
        ("heave", f"{_kn(sheet.overshoot_n)} kN in the line is what the crew could reach"),
        ("blocks", f"{_m(sheet.blocks_m)} m apart at standing tension, axle to axle"),
        ("travel", f"{_m(sheet.travel_needed_m)} m needed, {_m(sheet.travel_available_m)} m there"),
        (
            "rope",
            f"{_m(sheet.rope_needed_m)} m needed with the line hand-tight; {_m(sheet.behind_brake_m)} m behind the brake",
        ),
        ("let down", f"{_m(sheet.let_down_m)} m of rope run out to reach zero"),
        ("hold", f"{_kn(sheet.hold_force_n)} kN on the tail while lowering"),
        ("tie-back", f"at most {_kn(sheet.tie_back_catch_n)} kN when it catches"),
    ]
    lines = _heading("Haul")
    for label, text in rows:
        if not text.startswith("–"):
            lines += labelled(label, text, width)
    lines += _formula(
        f"{HAUL_FORMULA}; {ROPE_FORMULA}; {HOLD_FORMULA}",
        "statics strand by strand; efficiencies as in the defaults",
        width,
    )
    if loads.haul is not None and (sheaves := _try(lambda: loads.haul.sheaves)) is not None:  # type: ignore[union-attr]
        text = f"η {sheaves.usual:g} a sheave, range {sheaves.low:g} to {sheaves.high:g}; strands and hand on the worse side where it matters"
        lines += labelled("range", text, width)
    return lines


def _webbing(loads: Loads, width: int) -> list[Line]:
    standing = _try(lambda: loads.standing)
    if standing is None:
        return []
    lines = _heading("Webbing and energy")
    lines += labelled(
        "webbing",
        f"{standing.line.unstressed_m:.2f} m unstressed between its fittings; cut at least {loads.cut_needed_m():.2f} m",
        width,
    )
    lines += labelled(
        "energy",
        f"{standing.equilibrium.stretch_energy_j / 1000.0:.2f} kJ stored in the standing webbing",
        width,
    )
    peaks = _try(loads.peaks)
    stored = max((state.rest.stretch_energy_j for state in peaks or [] if state.rest), default=None)
    if stored is not None:
        lines += labelled("peak", f"{stored / 1000.0:.2f} kJ at the worst peak", width)
    return lines + labelled("formula", ENERGY_FORMULA, width)


def _missing(loads: Loads, width: int) -> list[Line]:
    """Say what keeps a part of the sheet from being computed."""
    told: list[str] = []
    asks: list[Callable[[], object]] = [
        lambda: loads.standing,
        loads.people,
        lambda: loads.parts,
        *(lambda load=load: load.strength for load in _try(lambda: loads.parts) or []),  # type: ignore[misc]
    ]
    for ask in asks:
        try:
            ask()
        except MissingInput as missing:
            told += [f"{at.key_text} in {at.path}" for at in missing.fields]
        except NotComputable as unable:
            told.append(unable.because)
    if not told:
        return []
    return [
        plain(""),
        *labelled("open", f"not computed for want of: {'; '.join(dict.fromkeys(told))}", width, indent=0),
    ]


def _try(compute: Callable[[], T]) -> T | None:
    try:
        return compute()
    except (MissingInput, NotComputable):
        return None
