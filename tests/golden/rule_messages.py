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
        turns: list[str] = []
        with patch.object(Case, "put_right", _noting(turns)):
            findings = run_example(rule_id, rule, example).findings
        if findings:
            lines.append(f"{example.verdict}: {example_words(example)}")
            lines += [f"  {line}" for finding in findings for line in _told(finding)]
            lines += [f"  tries: {turn}" for turn in turns]
    return "\n".join([*lines, ""])


def _noting(turns: list[str]) -> Callable[..., Remedies]:
    """Return what stands for the search of remedies: it notes which values would be moved, and how."""

    def put_right(case: Case, _at: At, *turnings: Callable[[Loads], Adjustment | None]) -> Remedies:
        for turn in filter(None, (turning(case.loads) for turning in turnings)):
            how = f"{turn.way} by {turn.step:g}" if turn.to is None else f"to {turn.to:.4g}"
            turns.append(f"{turn.words}; {key_text(turn.keys[0])} {how} {turn.unit}".rstrip())
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
