"""Findings with one cause put together on the way to the reader; each of them stays a finding of its own."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import TYPE_CHECKING

from riglint.records import dataclass
from riglint.rulekit import Signal

if TYPE_CHECKING:
    from riglint.findings.finding import Finding

BELOW_ZERO = 1e6  # more than any share of a limit
READING_RULES = "file/"
# What differs between two sentences that ask for the same: numbers, names in quotes, gear and places.
_PARTICULAR = re.compile(
    r"'[^']*'|\b(?:backups|chain|checks|users|rings)\[\S*|\b[A-Z]{1,4}-?\d+\b|(?<![\w.])[\d.,]+(?!\w)"
)
_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
MOST_COMPARED = 400  # characters of a remedy; it may hold what a file says, and nobody reads on


@dataclass(frozen=True, slots=True)
class Group:
    """Findings that one change puts right, the gravest first."""

    findings: tuple[Finding, ...]

    @property
    def first(self) -> Finding:
        """The gravest."""
        return self.findings[0]

    @property
    def signal(self) -> Signal:
        """The gravest word."""
        return self.first.signal

    @property
    def do(self) -> str:
        """What puts all of them right: where each moves the same value, the advice that moves it farthest."""
        moves = [(_move(one), one.do) for one in self.findings]
        if any(move == 0.0 for move, _ in moves):
            return self.first.do
        ups, downs = ([one for one in moves if one[0] * way > 0.0] for way in (1.0, -1.0))
        farthest = [max(each, key=lambda one: abs(one[0]))[1] for each in (ups, downs) if each]
        return " ".join(dict.fromkeys(farthest))


def _move(finding: Finding) -> float:
    """Return how far the first remedy of a finding moves its first value; 0 if by no number."""
    edits = [edit for one in finding.remedies[:1] for edit in one.edits]
    old, new = (_NUMBER.match(text) for text in ((edits[0].old, edits[0].new) if edits else ("", "")))
    return float(new[0]) - float(old[0]) if old and new else 0.0


def group_of(finding: Finding) -> str:
    """Return the name of the cause that a finding has: all that bear it are put right by one change.

    It is the field for an open question, the value to change where the rule names one, else the kind of remedy. What
    could not be read has a cause at each place.
    """
    if finding.rule.startswith(READING_RULES):
        return f"{finding.kind} {finding.rule} {finding.at.path} {finding.at.line} {finding.at.key}"
    if finding.asks is not None:
        return f"open {finding.at.path} {field_of(finding)} {finding.asks}"
    edits = [edit.at.key_text for one in finding.remedies[:1] for edit in one.edits]
    what = ", ".join(edits) or _kind_of(finding.do)
    return f"{finding.kind} {finding.rule} {finding.at.path} {what}"


def _kind_of(remedy: str) -> str:
    """Return a remedy without what is particular in it: numbers, names, gear, paths and places."""
    words = ("_" if "/" in word else word for word in remedy[:MOST_COMPARED].split())
    return _PARTICULAR.sub("_", " ".join(words))


def grouped(findings: Iterable[Finding]) -> list[Group]:
    """Return groups by gravity; within a word faults come before open questions, and those before reviews."""
    found: dict[str, list[Finding]] = {}
    for finding in findings:
        found.setdefault(group_of(finding), []).append(finding)
    groups = [Group(tuple(sorted(one, key=_gravity))) for one in found.values()]
    return sorted(groups, key=lambda group: _gravity(group.first))


def field_of(finding: Finding) -> str:
    """Return the last step of the key that a finding points at."""
    return finding.at.key.rpartition(".")[2]


def owner_of(finding: Finding) -> str:
    """Return the key that holds the field: `chain[3]` of `chain[3].pins`."""
    return finding.at.key.rpartition(".")[0]


def _gravity(finding: Finding) -> tuple[int, int, float, int]:
    kind = ("fail", "open", "review").index(finding.kind)
    return -finding.signal, kind, -_excess(finding), finding.at.line


def _excess(finding: Finding) -> float:
    """Return how far a value is beyond its limit, as a share of it; 0 where either is no number.

    Below zero, such as a body below the ground, is beyond any share.
    """
    value, limit = finding.value, finding.limit
    if not isinstance(value, int | float) or not isinstance(limit, int | float) or limit <= 0:
        return 0.0
    if value <= 0:
        return BELOW_ZERO - value
    return max(value / limit, limit / value)
