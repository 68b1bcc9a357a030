"""The findings in SARIF: one result each, fails with a level, the rest with the kind that the standard has for them."""

from __future__ import annotations

from typing import Any

from riglint.findings import Audit, Finding
from riglint.reports.audit.json_report import figure
from riglint.reports.audit.sarif_places import fingerprints, location, related
from riglint.reports.audit.sarif_rules import LEVELS, RANKS, Descriptors
from riglint.reports.sheet.markdown import escaped


def results(audit: Audit, descriptors: Descriptors, *, hosts: bool = False) -> list[dict[str, Any]]:
    """Return every finding, in the order of the report; for hosts without quiet reviews, and with open ones as fails.

    Hosts show only what fails, so that an open question of the plain form would look like none at all.
    """
    findings = [one for one in audit.findings if not (hosts and one.is_quiet)]
    # Either every result tells of its suppressions or none (3.27.23).
    tells = not audit.accepted_left_out and any(not one.counts for one in findings)
    found = []
    for finding, prints in zip(findings, fingerprints(findings), strict=True):
        result = _result(finding, descriptors, hosts=hosts) | {"partialFingerprints": prints}
        if tells:
            result["suppressions"] = _suppressions(finding)
        result["properties"] = _properties(finding)
        found.append(result)
    return found


def _result(finding: Finding, descriptors: Descriptors, *, hosts: bool) -> dict[str, Any]:
    """Return one result; only a fail may have a level other than none (3.27.9, 3.27.10)."""
    fails = finding.kind == "fail" or hosts
    text = f"{finding.message} {finding.why} {finding.do}"
    result = {
        "ruleId": finding.rule,
        "ruleIndex": descriptors.index[finding.rule],
        "kind": "fail" if fails else finding.kind,
        "level": LEVELS[finding.signal] if fails else "none",
        "rank": RANKS[finding.signal],
        "message": {"text": f"{finding.signal.name}: {text}", "markdown": _markdown(finding)},
        "locations": [location(finding)],
    }
    elsewhere = related(finding)
    return result | ({"relatedLocations": elsewhere} if elsewhere else {})


def _markdown(finding: Finding) -> str:
    words = f"**{finding.signal.name}** {escaped(finding.message)} {escaped(finding.do)}"
    return f"{words}\n\nWhy: {escaped(finding.why)}"


def _suppressions(finding: Finding) -> list[dict[str, Any]]:
    """Return what somebody answers for: in the rig file it is `inSource`, as a known finding `external` (3.35.2)."""
    entry = finding.accepted
    if entry is None:
        return []
    words = f"{entry.reason} ({finding.kept_as} by {entry.role} until {entry.until.isoformat()})"
    held = {"riglint/role": entry.role, "riglint/until": entry.until.isoformat()}
    return [
        {
            "kind": "inSource" if finding.kept_as == "accepted" else "external",
            "status": "accepted",
            "justification": words,
            "properties": held,
        }
    ]


def _properties(finding: Finding) -> dict[str, Any]:
    """Return what the standard has no place for; what a finding does not have is left out."""
    held: dict[str, Any] = {
        "signal": finding.signal.name,
        "value": figure(finding.value),
        "plusMinus": figure(finding.plus_minus),
        "limit": figure(finding.limit),
        "unit": finding.unit,
        "state": finding.state,
        "formula": finding.formula or None,
        "why": finding.why,
        "do": finding.do,
        "source": finding.source.text,
        "sourceMark": finding.source.mark,
        "waitingRules": list(finding.rules) or None,
        "crashed": finding.crashed or None,
    }
    return {f"riglint/{name}": value for name, value in held.items() if value is not None}
