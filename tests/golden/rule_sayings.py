"""What a rule says of its examples, in full: words, numbers, inputs, what to do."""

from __future__ import annotations

from riglint.findings import Finding
from riglint.reports.layout import number
from riglint.reports.rule_words import example_words
from riglint.rulekit import Rule
from riglint.testing import run_example


def said(rule_id: str, rule: Rule) -> str:
    """Return what a rule says of each of its examples but the sound ones that it passes in silence."""
    lines = []
    for example in rule.examples:
        findings = run_example(rule_id, rule, example).findings
        if findings:
            lines.append(f"{example.verdict}: {example_words(example)}")
            lines += [f"  {line}" for finding in findings for line in _told(finding)]
    return "\n".join([*lines, ""])


def _told(finding: Finding) -> list[str]:
    compared = [
        f"{name} {_short(value)}"
        for name, value in (("value", finding.value), ("limit", finding.limit))
        if value is not None
    ]
    inputs = [f"{one.symbol} {_short(one.value)} {one.unit}" for one in finding.inputs]
    lines = [
        f"{finding.signal.name} {finding.kind} at {finding.at.key or finding.at.part or 'the rig'}: {finding.message}",
        f"do: {finding.do}",
    ]
    if finding.kind == "open":  # its sentences are those of the field, told elsewhere
        return lines[:1]
    return [
        *lines,
        *([f"{', '.join([*compared, *inputs])} {finding.unit or ''}".rstrip()] if compared else []),
    ]


def _short(value: float | str) -> str:
    return value if isinstance(value, str) else number(value, 4)
