"""Runs the rulebook over rigs and collects what it says."""

from riglint.findings.auditing import audit, load_rig, other_values_in_words
from riglint.findings.finding import Audit, FileResult, Finding, LeftOut, NotJudged, RuleCount, Where
from riglint.findings.judging import Judged, judge
from riglint.findings.library.unreadable import READING, unread

__all__ = [
    "READING",
    "Audit",
    "FileResult",
    "Finding",
    "Judged",
    "LeftOut",
    "NotJudged",
    "RuleCount",
    "Where",
    "audit",
    "judge",
    "load_rig",
    "other_values_in_words",
    "unread",
]
