"""The sheet as JSON: versioned in the first key, units in the key names."""

from __future__ import annotations

from typing import Any

from riglint.loads import Loads, PartLoad, State
from riglint.loads.inputs import known
from riglint.loads.states.backup import BackupLine
from riglint.loads.states.person import Arrests
from riglint.loads.what_if.sensitivity import Ranking, Sensitivity
from riglint.loads.what_if.typical_errors import Guess
from riglint.mechanics.span.line import Equilibrium
from riglint.reports.audit.json_report import figure, source_json
from riglint.reports.audit.words import CAUTION_TEXT
from riglint.reports.layout.json_text import json_text
from riglint.reports.sheet.content import Sheet, Worked
from riglint.reports.sheet.parts import states_for
from riglint.reports.sheet.worked.backups import catches, fall_of
from riglint.reports.sheet.worked.webbing import keep_out


def sheet_json(loads: Loads, sheet: Sheet) -> str:
    """Return the calculation sheet of one rig."""
    data = {
        "riglint": "sheet/1",
        "caution": CAUTION_TEXT,
        "rig": sheet.title,
        "path": sheet.path,
        "on": sheet.on,
        "limits": sheet.limits,
        "consequence": {"word": loads.consequence.word, "reasons": list(loads.consequence.reasons)},
        "states": [_state(state) for state in loads.computable()],
        "parts": [_part(load, loads, states_for(load, loads)) for load in known(lambda: loads.parts) or []],
        "uncertainty": _uncertainty(sheet.ranked),
        "standing_from": _standing_from(loads),
        "haul": _haul(loads),
        "backups": [_backup(loads, backup) for backup in loads.backups],
        "person": _person(loads),
        "webbing": _webbing(loads),
        "energy_kJ": _kilo(known(lambda: loads.standing.equilibrium.stretch_energy_j)),
        "energy_peak_kJ": _kilo(known(lambda: max(_stored(state) for state in loads.peaks()))),
        "keep_out_m": figure(known(lambda: keep_out(loads).value)),
        "sections": [
            {"title": section.title, "lines": [_worked(line) for line in section.worked]}
            for section in sheet.sections
        ],
        "open": list(sheet.missing),
    }
    return json_text(data)


def _worked(line: Worked) -> dict[str, Any]:
    return {
        "label": line.label,
        "words": line.words,
        "part": line.part,
        "symbol": line.symbol or None,
        "formula": line.formula or None,
        "working": line.working or None,
        "value": figure(line.value),
        "unit": line.unit or "1",
        "inputs": [
            {
                "symbol": one.symbol,
                "value": figure(one.value),
                "unit": one.unit or "1",
                "words": one.words or None,
                "source": source_json(one.source) if one.source else None,
            }
            for one in line.inputs
        ],
        "source": source_json(line.source),
    }


def _stored(state: State) -> float:
    return state.rest.stretch_energy_j if state.rest else 0.0


def _kilo(value: float | None) -> float | int | str | None:
    return None if value is None else figure(value / 1000.0)


def _state(state: State) -> dict[str, Any]:
    rest, soft = state.rest, state.soft.rest if state.soft else None
    return {
        "name": state.name,
        "words": state.words,
        "tension_kN": _kilo(state.tension_n),
        "tension_a_kN": _kilo(rest.tension_a_n if rest else state.tension_a_n),
        "tension_b_kN": _kilo(rest.tension_b_n if rest else state.tension_b_n),
        "horizontal_kN": _kilo(rest.horizontal_n if rest else None),
        "sag_m": figure(soft.sag_m if soft else None),
        "at_fraction": figure(rest.fraction if rest else None),
        "clearance_m": figure(state.clearance_m),
        "strain": figure(rest.strain if rest else None),
        "least_clearance_m": figure(state.least_clearance_m),
        "least_clearance_at_fraction": figure(state.least_clearance_at),
        "meets_ground": state.meets_ground,
        "past_curve": rest.past_curve if rest else None,
        "past_curve_by": figure(state.past_curve) if rest else None,
        "plain": state.kind.plain,
        "judged_by": {"strength": state.kind.strength, "clearance": state.kind.clearance},
        "webbing_in_use": _edge(rest),
        "webbing_as_listed": _edge(soft),
        "note": state.note or None,
        "source": source_json(state.source),
    }


def _edge(rest: Equilibrium | None) -> dict[str, Any] | None:
    """Return one edge of a state: the line at the place that governs it."""
    if rest is None:
        return None
    return {
        "tension_kN": _kilo(rest.tension_n),
        "tension_a_kN": _kilo(rest.tension_a_n),
        "tension_b_kN": _kilo(rest.tension_b_n),
        "horizontal_kN": _kilo(rest.horizontal_n),
        "load_kN": _kilo(rest.load_n),
        "sag_m": figure(rest.sag_m),
        "at_fraction": figure(rest.fraction),
        "strain": figure(rest.strain),
    }


def _part(load: PartLoad, loads: Loads, states: list[State]) -> dict[str, Any]:
    strength = known(lambda: load.strength)
    worst = known(lambda: load.worst(states)) if strength else None
    return {
        "id": load.id,
        "part": load.part,
        "gear": load.gear,
        "state": worst.state if worst else None,
        "force_kN": _kilo(worst.force_n) if worst else None,
        "strength_kN": _kilo(strength.strength_n) if strength else None,
        "breaking_kN": _kilo(strength.breaking_n) if strength else None,
        "breaking_from": strength.breaking_from if strength else None,
        "rated_kN": _kilo(strength.rated_n) if strength else None,
        "reductions": [
            {
                "why": one.why,
                "factor": figure(one.factor),
                "source": source_json(one.source),
            }
            for one in (strength.reductions if strength else ())
        ],
        "no_rating": strength.no_rating if strength else None,
        "ratio": figure(worst.ratio) if worst else None,
        "required": figure(load.required_at(loads.consequence.word)),
        "source": source_json(load.required.source),
    }


def _haul(loads: Loads) -> dict[str, Any] | None:
    sheet = known(lambda: loads.haul_sheet)
    if sheet is None:
        return None
    strands = sheet.strands_n
    return {
        "ideal_ratio": sheet.ideal_ratio,
        "actual_ratio": figure(sheet.actual_ratio),
        "hand_force_kN": _kilo(sheet.hand_force_n),
        "lead_rope_kN": _kilo(sheet.lead_rope_n),
        "strands_kN": None if strands is None else [_kilo(one) for one in strands],
        "grip_kN": _kilo(sheet.grip_n),
        "overshoot_kN": _kilo(sheet.overshoot_n),
        "blocks_at_standing_m": figure(sheet.blocks_m),
        "travel_needed_m": figure(sheet.travel_needed_m),
        "travel_available_m": figure(sheet.travel_available_m),
        "rope_needed_m": figure(sheet.rope_needed_m),
        "behind_brake_m": figure(sheet.behind_brake_m),
        "let_down_m": figure(sheet.let_down_m),
        "hold_force_kN": _kilo(sheet.hold_force_n),
        "tie_back_catch_kN": _kilo(sheet.tie_back_catch_n),
        "tie_back_stiffness_kN_per_m": _kilo(known(lambda: _stiffness(loads))),
    }


def _stiffness(loads: Loads) -> float | None:
    tie = loads.tie_back
    return None if tie is None else tie.spring(loads.planned_tension_n).stiffness_n_per_m


def _webbing(loads: Loads) -> dict[str, Any] | None:
    length = known(lambda: loads.standing.line.unstressed_m)
    if length is None:
        return None
    return {"unstressed_m": figure(length), "cut_needed_m": figure(loads.cut_needed_m())}


def _standing_from(loads: Loads) -> dict[str, Any]:
    """Return where the standing tension comes from; the reading, where one stands in for the plan."""
    read = known(lambda: loads.tension_reading)
    if read is None:
        plan = loads.path.rig.rig.plan
        return {"from": plan.standing_from if plan else "plan", "reading": None}
    reading = {
        "what": read.what,
        "date": read.date.isoformat() if read.date else None,
        "tension_kN": _kilo(read.tension_n),
        "low_kN": _kilo(read.low_n),
        "high_kN": _kilo(read.high_n),
        "at": {"path": read.at.path, "line": read.at.line, "key": read.at.key_text},
    }
    return {"from": "measured", "reading": reading}


def _backup(loads: Loads, backup: BackupLine) -> dict[str, Any]:
    found = known(lambda: catches(loads, backup)) or []
    parts = known(backup.parts) or []
    governing = [state for _, state in found[:1]]
    return {
        "id": backup.id,
        "kind": backup.entry.kind,
        "holds": backup.entry.holds,
        "between_ends_m": figure(known(lambda: backup.between_ends_m)),
        "extra": figure(known(lambda: backup.extra)),
        "unstressed_m": figure(known(lambda: backup.unstressed_m)),
        "catches": [_catch(loads, backup, name, state) for name, state in found],
        "parts": [_part(load, loads, governing) for load in parts],
    }


def _catch(loads: Loads, backup: BackupLine, name: str, state: State) -> dict[str, Any]:
    told: dict[str, Any] = {"catch": name, **_state(state), "fall": None}
    if state.rest is None:
        return told
    fall = fall_of(loads, backup, name, state.rest)
    told["fall"] = {
        "height_m": figure(fall.height_m),
        "main_y_m": figure(fall.main_y_m),
        "backup_above_main_m": figure(fall.offset_m),
        "from_line_m": figure(fall.from_line_m),
        "backup_y_m": figure(fall.backup_y_m),
    }
    return told


def _person(loads: Loads) -> dict[str, Any] | None:
    """Return what a fall on the leash brings to the person, by place; None where nobody wears one."""
    falls = known(lambda: Arrests(loads))
    places = known(lambda: (falls.middle(), falls.hardest())) if falls is not None else None
    if falls is None or places is None:
        return None
    middle, hardest = places
    return {
        "middle_kN": _kilo(middle.low_n),
        "hardest_kN": _kilo(hardest.low_n),
        "hardest_from_end_m": figure(hardest.from_end_m),
        "ring_held_fast_kN": _kilo(falls.held_fast_n),
        "middle_at_most_kN": _kilo(middle.high_n),
        "hardest_at_most_kN": _kilo(hardest.high_n),
    }


def _uncertainty(ranked: Ranking) -> dict[str, Any]:
    """Return each result with its ±, what each stated ± adds to it, and the guidance where none is stated."""
    here = ranked.results
    peak, ratio, clear = (ranked.plus_minus(name) for name in ("peak_n", "ratio", "clearance_m"))
    return {
        "results": {
            "peak_kN": {
                "value": _kilo(here.peak_n),
                "plus_minus": _kilo(peak),
                "of": here.peak_state or None,
            },
            "ratio": {
                "value": figure(here.ratio),
                "plus_minus": figure(ratio),
                "of": here.ratio_part or None,
            },
            "clearance_m": {
                "value": figure(here.clearance_m),
                "plus_minus": figure(clear),
                "of": here.clearance_state or None,
            },
        },
        "stated": [
            {
                **_moved(one),
                "share_of_peak": figure(ranked.share(one, "peak_n")),
                "share_of_ratio": figure(ranked.share(one, "ratio")),
                "share_of_clearance": figure(ranked.share(one, "clearance_m")),
            }
            for one in ranked.stated
        ],
        "left_out": [one.at.key_text for one in ranked.left_out],
        "guidance": [_moved(one) for one in ranked.guessed],
    }


def _moved(one: Sensitivity) -> dict[str, Any]:
    at = one.input.at
    return {
        "at": {"path": at.path, "line": at.line, "key": at.key_text},
        "text": one.input.text,
        "moved_by": one.input.by if isinstance(one.input, Guess) else "its ±",
        "peak_kN": _kilo(one.peak_n),
        "ratio": figure(one.ratio),
        "clearance_m": figure(one.clearance_m),
    }
