"""The audit as JSON: versioned in the first key, units in the key names."""

from __future__ import annotations

from math import isfinite
from typing import Any

from riglint.findings import Audit, FileResult, Finding, RuleCount
from riglint.model.values.sources import Source
from riglint.policy import InForce
from riglint.reports.layout.json_text import json_text
from riglint.rulekit import Remedy, Signal
from riglint.views.audit.grouping import group_of
from riglint.views.audit.summary import consequence_of
from riglint.views.audit.words import CAUTION_TEXT, unfit

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
        "policy": policy_data(audit.force),
        "house_rules": list(audit.house),
        "what_if": list(audit.what_if),
        "rulebook": {
            "seal": audit.seal,
            "rules": audit.rules,
            "differs": audit.differs or None,
            "unfit": unfit(audit),
        },
        "caution": CAUTION_TEXT,
        "files": [_file(result) for result in audit.files],
        "count": count,
        "left_out": len(audit.left_out),
        "accepted_left_out": audit.accepted_left_out,
        "seen": {
            "files": audit.seen,
            "audited": audit.audited,
            "left_out": [{"path": one.path, "because": one.because} for one in audit.left_out],
            "refused": audit.refused,
        },
    }
    return json_text(data)


def policy_data(force: InForce) -> dict[str, Any]:
    """Return the policy in force: where it stands and what it changes."""
    changed = [
        {"name": one.name, "from": one.old, "to": one.new, "because": one.because, "loosens": one.loosens}
        for one in force.changes
    ]
    return {"title": force.title, "path": force.path, "sha256": force.sha256, "changed": changed}


def _file(result: FileResult) -> dict[str, Any]:
    return {
        "path": result.path,
        "kind": result.kind,
        "title": result.title,
        "judged": result.judged,
        "consequence": consequence_of(result),
        "not_judged": [{"because": one.because, "rules": one.rules} for one in result.not_judged],
        "findings": [_finding(finding) for finding in result.findings],
        "rules": _rules(result.rules),
    }


def _rules(rules: RuleCount | None) -> dict[str, Any] | None:
    """Return what became of every rule in force in a rig."""
    if rules is None:
        return None
    return {
        "all": rules.all,
        "judged": sorted(rules.judged),
        "open": sorted(rules.open),
        "not_applicable": sorted(rules.not_applicable),
        "crashed": sorted(rules.crashed),
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
