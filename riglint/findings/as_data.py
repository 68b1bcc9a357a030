"""Findings as plain data: what JSON reports and `Finding.to_dict` hold, one shape for both."""

from __future__ import annotations

from math import isfinite
from typing import TYPE_CHECKING, Any

from riglint.findings.grouping import group_of

if TYPE_CHECKING:
    from riglint.findings.finding import AssumedValue, Finding
    from riglint.model.values.sources import Source
    from riglint.rulekit import Remedy

DIGITS = 6


def source_json(source: Source) -> dict[str, Any]:
    """Return where something comes from, how far it may be trusted, and the works that it stands in, by their ids."""
    return {"text": source.text, "mark": source.mark, "works": list(source.works)}


def figure(value: float | str | None) -> float | int | str | None:
    """Return a number with at most six significant digits; what is not finite is null."""
    if value is None or isinstance(value, str):
        return value
    if not isfinite(value):
        return None
    short = float(f"{value:.{DIGITS}g}")
    return int(short) if short == int(short) and isinstance(value, int) else short


def finding_data(finding: Finding) -> dict[str, Any]:
    """Return one finding with its place, its numbers and what they rest on."""
    at, entry = finding.at, finding.accepted
    return {
        "rule": finding.rule,
        "signal": finding.signal.name,
        "kind": finding.kind,
        "message": finding.message,
        "why": finding.why,
        "do": finding.do,
        "remedies": [_remedy(one) for one in finding.remedies],
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
        "source": source_json(finding.source),
        "rules": list(finding.rules),
        "group": group_of(finding),
        "rigs": list(finding.rigs),
        "crashed": finding.crashed,
        "accepted": None
        if entry is None
        else {"reason": entry.reason, "role": entry.role, "until": entry.until.isoformat()},
        "known": entry is not None and finding.kept_as == "known",
    }


def assumed_data(assumed: AssumedValue) -> dict[str, Any]:
    """Return one value that is assumed: what it is, why, where it belongs, and the rules that it decides."""
    at = assumed.at
    return {
        "name": assumed.name,
        "value": assumed.value,
        "why": assumed.why,
        "look_up": assumed.look_up,
        "at": {"path": at.path, "line": at.line, "column": at.column, "key": at.key, "part": at.part},
        "source": source_json(assumed.source),
        "decides": list(assumed.decides),
    }


def _remedy(remedy: Remedy) -> dict[str, Any]:
    return {
        "words": remedy.words,
        "edits": [
            {
                "path": edit.at.path,
                "line": edit.at.line,
                "column": edit.at.column,
                "key": edit.at.key_text,
                "old": edit.old,
                "new": edit.new,
            }
            for edit in remedy.edits
        ],
        "offered": remedy.offered,
    }
