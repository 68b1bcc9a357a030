"""Keeps the findings of one rig to a number that a report can hold, the gravest first; the rest is counted aloud."""

from __future__ import annotations

from collections import Counter

from riglint.findings.finding import Finding, Where
from riglint.model.values.sources import OWN
from riglint.rulekit import Signal

MOST_FINDINGS = 1000  # of one rig; nobody reads more, and a rule may have no end
LEFT_OUT = "file/findings"  # who tells of those that a report leaves out
WHY = "A report that nobody can read hides its findings."
DO = "Correct the findings named here, then audit again."


def bounded(findings: list[Finding], path: str) -> list[Finding]:
    """Return findings, of more than anybody reads the gravest and one for the rest, at the gravest word of these."""
    if len(findings) <= MOST_FINDINGS:
        return findings
    counted: Counter[tuple[str, Signal]] = Counter()
    ranked = []
    # Of one word, what a rule says first comes before what another says for the thousandth time.
    for one in findings:
        counted[one.rule, one.signal] += 1
        ranked.append((not one.crashed, not one.counts, -one.signal, counted[one.rule, one.signal]))
    order = sorted(range(len(findings)), key=ranked.__getitem__)
    kept = [findings[n] for n in order[:MOST_FINDINGS]]
    rest = [findings[n] for n in order[MOST_FINDINGS:]]
    word = max((one.signal for one in rest if one.counts), default=Signal.NOTICE)
    message = f"The report leaves out {len(rest)} more findings of this rig, up to {word.name}."
    at = Where(path, 1, 1, "")
    return [*kept, Finding(LEFT_OUT, word, "open", message, WHY, DO, at, OWN, rules=(LEFT_OUT,))]
