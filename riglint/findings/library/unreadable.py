"""How what keeps a file from being read or understood becomes a finding."""

from __future__ import annotations

from riglint.findings.finding import Finding, Where
from riglint.model.values.sources import Source
from riglint.read.problems import Problem
from riglint.rulekit import Signal

READING = Source("riglint's own file format", "own")
WHY_READ = "We can't check text that we can't read. An unchecked rig must not look like a checked one."


def unread(path: str, problem: Problem) -> Finding:
    """Return the finding that stands for something in a file that keeps it from being read or understood."""
    where = Where(path, problem.place.line, problem.place.column, problem.key)
    return Finding(
        problem.rule,
        Signal.WARNING,
        "open",
        problem.message,
        WHY_READ,
        problem.do,
        where,
        READING,
        rules=(problem.rule,),
        instead=problem.instead,
        written=problem.written,
    )
