"""A comparison as JSON: versioned in the first key."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from riglint.findings.variation.comparing import Comparison, FindingChange, Moved, RigChange
from riglint.reports.audit.json_report import figure, settings_data
from riglint.reports.comparison.words import grouped
from riglint.reports.layout.json_text import json_text
from riglint.views.audit.words import CAUTION_TEXT


def comparison_json(comparison: Comparison) -> str:
    """Return what changed between two sides; rigs that stayed the same are listed with nothing in them."""
    data = {
        "riglint": "compare/1",
        "caution": CAUTION_TEXT,
        "old": comparison.old,
        "new": comparison.new,
        "on": comparison.on,
        "judged": comparison.judged,
        "rulebook": comparison.seal,
        "settings": settings_data(comparison.force),
        "settings_changed": [
            {"path": one.path, "signal": "WARNING", "message": one.message} for one in comparison.settings
        ],
        "count": {fate: len(rows) for fate, rows in grouped(comparison).items()},
        "rigs": [_rig(rig) for rig in comparison.rigs],
    }
    return json_text(data)


def _rig(rig: RigChange) -> dict[str, Any]:
    return {
        "path": rig.path,
        "title": rig.title,
        "status": rig.status,
        "findings": [_finding_changes(one) for one in rig.findings],
        "moved_references": [asdict(one) for one in rig.references],
        "states": [{**_moved(one), "unit": one.unit} for one in rig.states],
        "ratios": [{**_moved(one), "unit": "1"} for one in rig.ratios],
        "weakest": _moved(rig.weakest) if rig.weakest else None,
        "inputs": [_moved(one) for one in rig.inputs],
    }


def _moved(moved: Moved) -> dict[str, Any]:
    return {"name": moved.name, "old": _value(moved.old), "new": _value(moved.new)}


def _value(value: float | str | None) -> float | int | str | None:
    return figure(value) if isinstance(value, float) else value


def _finding_changes(changed: FindingChange) -> dict[str, Any]:
    one = changed.finding
    return {
        "fate": changed.fate,
        "rule": one.rule,
        "kind": one.kind,
        "old": changed.old.name if changed.old else None,
        "new": changed.new.name if changed.new else None,
        "message": one.message,
        "do": one.do,
        "at": {"path": one.at.path, "line": one.at.line, "key": one.at.key, "part": one.at.part},
    }
