"""How what a rule says becomes a finding."""

from __future__ import annotations

from riglint.findings.finding import Finding, Where
from riglint.loads.inputs import At
from riglint.rulekit import Fault, Rule, Signal


def finding_of(rule_id: str, rule: Rule, fault: Fault, signal: Signal) -> Finding:
    """Return what a rule says of one place, with the signal word that it has there."""
    return Finding(
        rule_id,
        signal,
        fault.kind,
        fault.message,
        fault.why or rule.why,
        fault.do,
        where(fault.at),
        fault.source or rule.source,
        rule.formula,
        fault.state,
        fault.value,
        fault.limit,
        fault.unit,
        fault.inputs,
        rigs=fault.rigs,
        remedies=fault.remedies,
        advice=rule.on_card.advice,
    )


def where(at: At) -> Where:
    """Return a place as reports show it."""
    return Where(at.path, at.line, at.column, at.key_text, at.part, at.row)
