"""Runs the rulebook over rigs and collects what it says."""

from riglint.findings.auditing import READING, audit, load_rig, unread
from riglint.findings.finding import Audit, FileResult, Finding, NotJudged, Where
from riglint.findings.judging import Judged, judge

__all__ = [
    "READING",
    "Audit",
    "FileResult",
    "Finding",
    "Judged",
    "NotJudged",
    "Where",
    "audit",
    "judge",
    "load_rig",
    "unread",
]
