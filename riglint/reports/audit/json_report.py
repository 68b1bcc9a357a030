"""The audit as JSON: versioned in the first key, units in the key names."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from riglint.findings import Audit, FileResult, RuleCount
from riglint.findings.as_data import assumed_data, figure, source_json
from riglint.policy import InForce
from riglint.reports.layout.json_text import json_pieces
from riglint.rulekit import Signal
from riglint.views.audit.summary import consequence_of
from riglint.views.audit.words import CAUTION_TEXT, unfit

__all__ = ["audit_json", "figure", "policy_data", "settings_data", "source_json"]


def audit_json(audit: Audit) -> str:
    """Return the report of an audit."""
    return "".join(json_of(audit))


def json_of(audit: Audit) -> Iterator[str]:
    """Yield the report of an audit, file by file, its counts last."""
    count: dict[str, int] = {signal.name: 0 for signal in sorted(Signal, reverse=True)}
    for gist in audit.gists:
        if gist.counts and gist.kind == "fail":
            count[gist.signal.name] += 1
    for kind in ("open", "review"):
        count[kind] = sum(gist.counts and gist.kind == kind for gist in audit.gists)
    count["accepted"] = sum(not gist.counts for gist in audit.gists)
    before = {
        "riglint": "audit/1",
        "on": audit.on.isoformat(),
        "policy": policy_data(audit.force),
        "settings": settings_data(audit.force),
        "house_rules": list(audit.house),
        "what_if": list(audit.what_if),
        "rulebook": {
            "seal": audit.seal,
            "rules": audit.rules,
            "differs": audit.differs or None,
            "unfit": unfit(audit),
        },
        "caution": CAUTION_TEXT,
    }
    after = {
        "count": count,
        "left_out": len(audit.left_out),
        "remedies": {"from": audit.remedies_from.name, "not_searched": audit.unsearched},
        "accepted_left_out": audit.accepted_left_out,
        "seen": {
            "files": audit.seen,
            "audited": audit.audited,
            "left_out": [{"path": one.path, "because": one.because} for one in audit.left_out],
            "folders_left_out": [
                {"path": one.path, "because": one.because} for one in audit.folders_left_out
            ],
            "refused": audit.refused,
        },
    }
    return json_pieces(before, "files", map(_file, audit.files), after)


def settings_data(force: InForce) -> list[dict[str, Any]]:
    """Return each library's mark file in force, and what it sets."""
    return [{"path": one.path, "sha256": one.sha256, "sets": list(one.sets)} for one in force.marks]


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
        "assumed": [assumed_data(one) for one in result.assumed],
        "findings": [finding.to_dict() for finding in result.findings],
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
