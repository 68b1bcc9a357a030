"""What every form of the card says in the same words."""

from __future__ import annotations

from riglint.findings import Finding
from riglint.rulekit import rounded
from riglint.views.card.content import Row
from riglint.views.figures import number


def finding_in_words(finding: Finding) -> str:
    """Return a finding in one paragraph: what is wrong, where, what to do; of an open field what to fill in."""
    if finding.kind == "open" and finding.do.startswith("Fill in "):
        return finding.do
    return f"{finding.message} {finding.do} ({finding.rule}, {finding.at.path} line {finding.at.line})"


def accepted_in_words(finding: Finding) -> str:
    """Return a finding that somebody answers for."""
    entry = finding.accepted
    if entry is None:
        return ""
    who = f"{finding.kept_as} by {entry.role} until {entry.until}"
    return f"{finding.signal.name}, {who}: {finding.message} ({entry.reason})"


def asked_in_words(row: Row) -> str:
    """Return force and ratio of a part against the ratio asked."""
    if row.ratio is None or row.force_kn is None:
        return ""
    if row.ratio == 0.0:
        return f"{number(row.force_kn)} kN, nobody rates it as it lies"
    of = f" (of the {row.of})" if row.of else ""
    asked = f" of {number(row.asked)} asked" if row.asked is not None else ""
    return f"{number(row.force_kn)} kN, ratio {rounded(row.ratio, 'down')}{asked}{', SHORT' if row.short else ''}{of}"
