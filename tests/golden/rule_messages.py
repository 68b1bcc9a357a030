"""What a rule says of its examples, in full: words, numbers, inputs, what to do."""

from __future__ import annotations

from collections.abc import Callable
from unittest.mock import patch

from riglint.findings import Finding
from riglint.loads import Loads
from riglint.loads.what_if.solved_for import Adjustment
from riglint.read.problems import key_text
from riglint.reports.rules.rule_words import example_words
from riglint.rulekit import At, Case, Remedies, Rule
from riglint.testing import run_example
from riglint.views.figures import number


def said(rule_id: str, rule: Rule) -> str:
    """Return what a rule says of each of its examples but the sound ones that it passes in silence."""
    lines = []
    for example in rule.examples:
        tried: list[str] = []
        with patch.object(Case, "put_right", _noting(tried)):
            findings = run_example(rule_id, rule, example).findings
        if findings:
            lines.append(f"{example.verdict}: {example_words(example)}")
            lines += [f"  {line}" for finding in findings for line in _told(finding)]
            lines += [f"  tries: {adjustment}" for adjustment in tried]
    return "\n".join([*lines, ""])


def _noting(tried: list[str]) -> Callable[..., Remedies]:
    """Return what stands for the search of remedies: it notes which values would be moved, and how."""

    def put_right(case: Case, _at: At, *adjustings: Callable[[Loads], Adjustment | None]) -> Remedies:
        for one in filter(None, (adjusting(case.loads) for adjusting in adjustings)):
            how = f"{one.direction} by {one.step:g}" if one.to is None else f"to {one.to:.4g}"
            tried.append(f"{one.words}; {key_text(one.keys[0])} {how} {one.unit}".rstrip())
        return Remedies()

    return put_right


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
