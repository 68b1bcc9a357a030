"""The sheet as JSON: versioned in the first key, units in the key names."""

from __future__ import annotations

from typing import Any

from riglint.reports.audit.json_report import figure, source_json
from riglint.reports.layout.json_text import json_text
from riglint.views.audit.words import CAUTION_TEXT
from riglint.views.blocks import ReportPlace, Worked, WorkedInput
from riglint.views.sheet.content import Sheet
from riglint.views.sheet.results import BackupResult, CatchResult, LineEdge, PartResult, Results, StateResult
from riglint.views.sheet.uncertainty import InputMoved, Spread, Uncertainty


def sheet_json(sheet: Sheet) -> str:
    """Return the calculation sheet of one rig."""
    found = sheet.results
    data = {
        "riglint": "sheet/1",
        "caution": CAUTION_TEXT,
        "rig": sheet.title,
        "path": sheet.path,
        "on": sheet.on,
        "limits": sheet.limits,
        "what_if": list(sheet.what_if),
        "assumed": [{"name": one.label, "words": one.text} for one in sheet.assumed],
        "settings": list(sheet.settings),
        "consequence": {"word": found.consequence, "reasons": list(found.reasons)},
        "states": [_state(state) for state in found.states],
        "parts": [_part(part) for part in found.parts],
        "uncertainty": _uncertainty(found.uncertainty),
        "standing_from": _standing_from(found),
        "haul": _haul(found),
        "backups": [_backup(backup) for backup in found.backups],
        "person": _person(found),
        "webbing": _webbing(found),
        "energy_kJ": _kilo(found.energy_j),
        "energy_peak_kJ": _kilo(found.energy_peak_j),
        "keep_out_m": figure(found.keep_out_m),
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


def _kilo(value: float | None) -> float | int | str | None:
    return None if value is None else figure(value / 1000.0)


def _state(state: StateResult) -> dict[str, Any]:
    in_use, listed = state.in_use, state.as_listed
    return {
        "name": state.name,
        "words": state.words,
        "tension_kN": _kilo(state.tension_n),
        "tension_a_kN": _kilo(state.tension_a_n),
        "tension_b_kN": _kilo(state.tension_b_n),
        "horizontal_kN": _kilo(in_use.horizontal_n if in_use else None),
        "sag_m": figure(listed.sag_m if listed else None),
        "at_fraction": figure(in_use.at_fraction if in_use else None),
        "clearance_m": figure(state.clearance_m),
        "strain": figure(in_use.strain if in_use else None),
        "least_clearance_m": figure(state.least_clearance_m),
        "least_clearance_at_fraction": figure(state.least_clearance_at_fraction),
        "meets_ground": state.meets_ground,
        "past_curve": in_use.past_curve if in_use else None,
        "past_curve_by": figure(state.past_curve_by),
        "plain": state.plain,
        "judged_by": {"strength": state.strength_kind, "clearance": state.clearance_kind},
        "webbing_in_use": _edge(in_use),
        "webbing_as_listed": _edge(listed),
        "note": state.note or None,
        "source": source_json(state.source),
    }


def _edge(edge: LineEdge | None) -> dict[str, Any] | None:
    if edge is None:
        return None
    return {
        "tension_kN": _kilo(edge.tension_n),
        "tension_a_kN": _kilo(edge.tension_a_n),
        "tension_b_kN": _kilo(edge.tension_b_n),
        "horizontal_kN": _kilo(edge.horizontal_n),
        "load_kN": _kilo(edge.load_n),
        "sag_m": figure(edge.sag_m),
        "at_fraction": figure(edge.at_fraction),
        "strain": figure(edge.strain),
    }


def _part(part: PartResult) -> dict[str, Any]:
    return {
        "id": part.id,
        "part": part.part,
        "gear": part.gear,
        "state": part.state,
        "force_kN": _kilo(part.force_n),
        "strength_kN": _kilo(part.strength_n),
        "breaking_kN": _kilo(part.breaking_n),
        "breaking_from": part.breaking_from,
        "rated_kN": _kilo(part.rated_n),
        "reductions": [_reduction(one) for one in part.reductions],
        "no_rating": part.no_rating,
        "ratio": figure(part.ratio),
        "required": figure(part.required),
        "source": source_json(part.source),
    }


def _reduction(one: WorkedInput) -> dict[str, Any]:
    source = source_json(one.source) if one.source else None
    return {"why": one.words, "factor": figure(one.value), "source": source}


def _haul(found: Results) -> dict[str, Any] | None:
    haul = found.haul
    if haul is None:
        return None
    strands = haul.strands_n
    return {
        "ideal_ratio": haul.ideal_ratio,
        "actual_ratio": figure(haul.actual_ratio),
        "hand_force_kN": _kilo(haul.hand_force_n),
        "lead_rope_kN": _kilo(haul.lead_rope_n),
        "strands_kN": None if strands is None else [_kilo(one) for one in strands],
        "grip_kN": _kilo(haul.grip_n),
        "overshoot_kN": _kilo(haul.overshoot_n),
        "blocks_at_standing_m": figure(haul.blocks_m),
        "travel_needed_m": figure(haul.travel_needed_m),
        "travel_available_m": figure(haul.travel_available_m),
        "rope_needed_m": figure(haul.rope_needed_m),
        "behind_brake_m": figure(haul.behind_brake_m),
        "let_down_m": figure(haul.let_down_m),
        "hold_force_kN": _kilo(haul.hold_force_n),
        "tie_back_catch_kN": _kilo(haul.tie_back_catch_n),
        "tie_back_stiffness_kN_per_m": _kilo(found.tie_back_stiffness_n_per_m),
    }


def _webbing(found: Results) -> dict[str, Any] | None:
    if found.unstressed_m is None:
        return None
    return {"unstressed_m": figure(found.unstressed_m), "cut_needed_m": figure(found.cut_needed_m)}


def _standing_from(found: Results) -> dict[str, Any]:
    """Return where the standing tension comes from; the reading, where one stands in for the plan."""
    read = found.reading
    if read is None:
        return {"from": found.standing_from, "reading": None}
    reading = {
        "what": read.what,
        "date": read.date,
        "tension_kN": _kilo(read.tension_n),
        "low_kN": _kilo(read.low_n),
        "high_kN": _kilo(read.high_n),
        "at": _place(read.at),
    }
    return {"from": found.standing_from, "reading": reading}


def _backup(backup: BackupResult) -> dict[str, Any]:
    return {
        "id": backup.id,
        "kind": backup.kind,
        "holds": backup.holds,
        "between_ends_m": figure(backup.between_ends_m),
        "extra": figure(backup.extra),
        "unstressed_m": figure(backup.unstressed_m),
        "catches": [_catch(catch) for catch in backup.catches],
        "parts": [_part(part) for part in backup.parts],
    }


def _catch(catch: CatchResult) -> dict[str, Any]:
    fall = catch.fall
    numbers = None
    if fall is not None:
        numbers = {
            "height_m": figure(fall.height_m),
            "main_y_m": figure(fall.main_y_m),
            "backup_above_main_m": figure(fall.offset_m),
            "from_line_m": figure(fall.from_line_m),
            "backup_y_m": figure(fall.backup_y_m),
        }
    return {"catch": catch.name, **_state(catch.state), "fall": numbers}


def _person(found: Results) -> dict[str, Any] | None:
    person = found.person
    if person is None:
        return None
    return {
        "middle_kN": _kilo(person.middle_n),
        "hardest_kN": _kilo(person.hardest_n),
        "hardest_from_end_m": figure(person.hardest_from_end_m),
        "ring_held_fast_kN": _kilo(person.ring_held_fast_n),
        "middle_at_most_kN": _kilo(person.middle_at_most_n),
        "hardest_at_most_kN": _kilo(person.hardest_at_most_n),
    }


def _uncertainty(found: Uncertainty) -> dict[str, Any]:
    """Return each result with its ±, what each stated ± adds to it, and the guidance where none is stated."""
    return {
        "results": {
            "peak_kN": _spread(found.peak_n, 1000.0),
            "ratio": _spread(found.ratio),
            "clearance_m": _spread(found.clearance_m),
        },
        "stated": [
            {
                **_moved(one),
                "share_of_peak": figure(one.share_of_peak),
                "share_of_ratio": figure(one.share_of_ratio),
                "share_of_clearance": figure(one.share_of_clearance),
            }
            for one in found.stated
        ],
        "left_out": list(found.left_out),
        "guidance": [_moved(one) for one in found.guidance],
    }


def _spread(one: Spread, unit: float = 1.0) -> dict[str, Any]:
    value, plus_minus = (
        None if part is None else figure(part / unit) for part in (one.value, one.plus_minus)
    )
    return {"value": value, "plus_minus": plus_minus, "of": one.of or None}


def _moved(one: InputMoved) -> dict[str, Any]:
    return {
        "at": _place(one.at),
        "text": one.text,
        "moved_by": one.moved_by,
        "peak_kN": _kilo(one.peak_n),
        "ratio": figure(one.ratio),
        "clearance_m": figure(one.clearance_m),
    }


def _place(at: ReportPlace) -> dict[str, Any]:
    return {"path": at.path, "line": at.line, "key": at.key}
