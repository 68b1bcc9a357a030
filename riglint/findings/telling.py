"""How what a rule says becomes a finding."""

from __future__ import annotations

from riglint.findings.finding import Finding, Where
from riglint.loads.inputs import At
from riglint.rulekit import Fault, Input, Rule, Signal


def finding_of(
    rule_id: str,
    rule: Rule,
    fault: Fault,
    signal: Signal,
    *,
    inputs: tuple[Input, ...] | None = None,
    rigs: tuple[str, ...] | None = None,
    part_words: str | None = None,
) -> Finding:
    """Return what a rule says of one place, with the signal word that it has there.

    Args:
        rule_id: the rule's id.
        rule: the rule.
        fault: what it says.
        signal: its word there.
        inputs: what it rests on, where that is not what the fault names.
        rigs: the rigs that it touches, where those are not the ones that the fault names.
        part_words: its part as a person counts it.
    """
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
        fault.inputs if inputs is None else inputs,
        rigs=fault.rigs if rigs is None else rigs,
        part_words=part_words,
        remedies=fault.remedies,
        advice=rule.on_card.advice,
    )


def where(at: At) -> Where:
    """Return a place as reports show it."""
    return Where(at.path, at.line, at.column, at.key_text, at.part, at.row)
