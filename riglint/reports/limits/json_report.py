"""How far each value of a rig may move, as JSON."""

from __future__ import annotations

from typing import Any

from riglint.findings import Finding
from riglint.findings.variation.ranges import Limits, Range
from riglint.findings.variation.varied_rig import RangeEnd
from riglint.reports.audit.json_report import policy_data, settings_data
from riglint.reports.layout.json_text import json_text
from riglint.views.audit.words import CAUTION_TEXT


def limits_json(limits: Limits) -> str:
    """Return the ranges of one rig; values are texts as a file would hold them, with their unit."""
    data = {
        "riglint": "limits/1",
        "caution": CAUTION_TEXT,
        "rig": limits.title,
        "path": limits.path,
        "on": limits.on.isoformat(),
        "policy": policy_data(limits.force),
        "settings": settings_data(limits.force),
        "rulebook": limits.seal,
        "stop_at": limits.stop_at.name,
        "standing": [_found(one) for one in limits.standing],
        "ranges": [_range(one) for one in limits.ranges],
    }
    return json_text(data)


def _range(each: Range) -> dict[str, Any]:
    return {
        "name": each.name,
        "keys": [at.key_text for at in each.at],
        "now": each.now,
        "inside": each.inside,
        "lower": _edge(each.lower),
        "upper": _edge(each.upper),
        "against": [_found(one) for one in each.against],
        "aside": [_found(one) for one in each.aside],
    }


def _edge(edge: RangeEnd | None) -> dict[str, Any] | None:
    if edge is None:
        return None
    return {
        "last": edge.last,
        "beyond": None if edge.beyond is None else _found(edge.beyond),
        "along": [{"key": one.at.key_text, "old": one.old, "new": one.new} for one in edge.along],
    }


def _found(finding: Finding) -> dict[str, Any]:
    return {
        "rule": finding.rule,
        "signal": finding.signal.name,
        "kind": finding.kind,
        "message": finding.message,
        "at": {"path": finding.at.path, "key": finding.at.key, "part": finding.at.part},
    }
