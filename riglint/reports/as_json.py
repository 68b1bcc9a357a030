"""The audit and the sheet as JSON: versioned in the first key, units in the key names."""

from __future__ import annotations

import json
from math import isfinite
from typing import Any

from riglint.findings import Audit, FileResult, Finding
from riglint.loads import Loads, PartLoad, State
from riglint.loads.inputs import known
from riglint.model.sources import Source
from riglint.policy import InForce
from riglint.reports.sheet_content import Sheet, Worked
from riglint.reports.sheet_webbing import keep_out
from riglint.rulekit import Signal

DIGITS = 6


def figure(value: float | str | None) -> float | int | str | None:
    """Return a number with at most six significant digits; what is not finite is null."""
    if value is None or isinstance(value, str):
        return value
    if not isfinite(value):
        return None
    short = float(f"{value:.{DIGITS}g}")
    return int(short) if short == int(short) and isinstance(value, int) else short


def audit_json(audit: Audit) -> str:
    """Return the report of an audit."""
    findings = audit.findings
    count: dict[str, int] = {signal.name: 0 for signal in sorted(Signal, reverse=True)}
    for finding in findings:
        if finding.counts and finding.kind == "fail":
            count[finding.signal.name] += 1
    for kind in ("open", "review"):
        count[kind] = sum(finding.counts and finding.kind == kind for finding in findings)
    count["accepted"] = sum(not finding.counts for finding in findings)
    data = {
        "riglint": "audit/1",
        "on": audit.on.isoformat(),
        "policy": _policy(audit.force),
        "house_rules": list(audit.house),
        "files": [_file(result) for result in audit.files],
        "count": count,
        "left_out": audit.left_out,
        "accepted_left_out": audit.accepted_left_out,
    }
    return json.dumps(data, indent=1, ensure_ascii=False) + "\n"


def _policy(force: InForce) -> dict[str, Any]:
    changed = [
        {"name": one.name, "from": one.old, "to": one.new, "because": one.because, "loosens": one.loosens}
        for one in force.changes
    ]
    return {"title": force.title, "path": force.path, "sha256": force.sha256, "changed": changed}


def _file(result: FileResult) -> dict[str, Any]:
    consequence = result.loads.consequence if result.loads else None
    return {
        "path": result.path,
        "kind": result.kind,
        "title": result.title,
        "judged": result.judged,
        "consequence": consequence.word if consequence else None,
        "not_judged": [{"because": one.because, "rules": one.rules} for one in result.not_judged],
        "findings": [_finding(finding) for finding in result.findings],
    }


def _finding(finding: Finding) -> dict[str, Any]:
    at, entry = finding.at, finding.accepted
    return {
        "rule": finding.rule,
        "signal": finding.signal.name,
        "kind": finding.kind,
        "message": finding.message,
        "why": finding.why,
        "do": finding.do,
        "at": {"path": at.path, "line": at.line, "column": at.column, "key": at.key, "part": at.part},
        "state": finding.state,
        "value": figure(finding.value),
        "plus_minus": figure(finding.plus_minus),
        "limit": figure(finding.limit),
        "unit": finding.unit,
        "formula": finding.formula or None,
        "inputs": [
            {
                "name": one.name,
                "symbol": one.symbol,
                "value": figure(one.value),
                "unit": one.unit,
                "from": one.where,
            }
            for one in finding.inputs
        ],
        "source": {"text": finding.source.text, "mark": finding.source.mark},
        "rules": list(finding.rules),
        "rigs": list(finding.rigs),
        "crashed": finding.crashed,
        "accepted": None
        if entry is None
        else {"reason": entry.reason, "role": entry.role, "until": entry.until.isoformat()},
    }


def sheet_json(loads: Loads, sheet: Sheet) -> str:
    """Return the calculation sheet of one rig."""
    data = {
        "riglint": "sheet/1",
        "rig": sheet.title,
        "path": sheet.path,
        "on": sheet.on,
        "limits": sheet.limits,
        "consequence": {"word": loads.consequence.word, "reasons": list(loads.consequence.reasons)},
        "states": [_state(state) for state in loads.computable()],
        "parts": [_part(load, loads) for load in known(lambda: loads.parts) or []],
        "haul": _haul(loads),
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
    return json.dumps(data, indent=1, ensure_ascii=False) + "\n"


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
                "source": _source(one.source) if one.source else None,
            }
            for one in line.inputs
        ],
        "source": _source(line.source),
    }


def _source(source: Source) -> dict[str, str]:
    return {"text": source.text, "mark": source.mark}


def _stored(state: State) -> float:
    return state.rest.stretch_energy_j if state.rest else 0.0


def _kilo(value: float | None) -> float | int | str | None:
    return None if value is None else figure(value / 1000.0)


def _state(state: State) -> dict[str, Any]:
    rest = state.rest
    return {
        "name": state.name,
        "words": state.words,
        "tension_kN": _kilo(state.tension_n),
        "tension_a_kN": _kilo(rest.tension_a_n if rest else state.tension_a_n),
        "tension_b_kN": _kilo(rest.tension_b_n if rest else state.tension_b_n),
        "horizontal_kN": _kilo(rest.horizontal_n if rest else None),
        "sag_m": figure(rest.sag_m if rest else None),
        "at_fraction": figure(rest.fraction if rest else None),
        "clearance_m": figure(state.clearance_m),
        "strain": figure(rest.strain if rest else None),
        "least_clearance_m": figure(state.least_clearance_m),
        "least_clearance_at_fraction": figure(state.least_clearance_at),
        "meets_ground": state.meets_ground,
        "past_curve": rest.past_curve if rest else None,
        "note": state.note or None,
        "source": {"text": state.source.text, "mark": state.source.mark},
    }


def _part(load: PartLoad, loads: Loads) -> dict[str, Any]:
    strength = known(lambda: load.strength)
    worst = (
        known(lambda: load.worst(loads.peaks() if load.only_in is None else [loads.haul_state]))
        if strength
        else None
    )
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
                "source": {"text": one.source.text, "mark": one.source.mark},
            }
            for one in (strength.reductions if strength else ())
        ],
        "no_rating": strength.no_rating if strength else None,
        "ratio": figure(worst.ratio) if worst else None,
        "required": figure(load.required_at(loads.consequence.word)),
        "source": {"text": load.required.source.text, "mark": load.required.source.mark},
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
    }


def _webbing(loads: Loads) -> dict[str, Any] | None:
    length = known(lambda: loads.standing.line.unstressed_m)
    if length is None:
        return None
    return {"unstressed_m": figure(length), "cut_needed_m": figure(loads.cut_needed_m())}
