"""What a finding is, and what a whole run has found."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path

from riglint.loads import Loads
from riglint.model.rig import Accepted
from riglint.model.sources import Source
from riglint.policy import DEFAULT, InForce
from riglint.rulekit import Input, Remedy, Signal
from riglint.rulekit.saying import Kind


@dataclass(frozen=True, slots=True)
class Where:
    """Where a finding points, as it stands in reports."""

    path: str
    line: int
    column: int
    key: str
    part: str | None = None


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that a person should know, with everything that it rests on."""

    rule: str
    signal: Signal
    kind: Kind
    message: str
    why: str
    do: str
    at: Where
    source: Source
    formula: str = ""
    state: str | None = None
    value: float | str | None = None
    limit: float | str | None = None
    unit: str | None = None
    inputs: tuple[Input, ...] = ()
    rules: tuple[str, ...] = ()  # of an open finding: all that wait for this field
    rigs: tuple[str, ...] = ()  # of a fault in a shared file: the rigs that it touches
    part_words: str | None = None
    crashed: bool = False
    accepted: Accepted | None = None
    plus_minus: float | None = None  # of the value, from the ± of the inputs
    remedies: tuple[Remedy, ...] = ()  # changes of one value that end it
    instead: str | None = None  # of a misspelt word: the nearest known one

    @property
    def counts(self) -> bool:
        """Whether it counts for the exit status."""
        return self.accepted is None


@dataclass(frozen=True, slots=True)
class NotJudged:
    """Rules that had nothing to work on, and why."""

    because: str
    rules: int


@dataclass(slots=True)
class FileResult:
    """What was found in one file."""

    path: str
    kind: str | None
    title: str | None = None
    not_judged: list[NotJudged] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)
    judged: bool = True
    loads: Loads | None = None
    file: Path | None = None  # the whole path, links resolved
    answered: frozenset[str] = frozenset()  # of a rig: rules that judged all that they look at there
    unanswered: frozenset[str] = frozenset()  # of a rig: rules that could not


@dataclass(slots=True)
class Audit:
    """The whole result of one run."""

    on: date
    files: list[FileResult]
    left_out: int = 0
    nothing_found: bool = False
    rules: int = 0
    force: InForce = DEFAULT
    house: tuple[str, ...] = ()  # rule sets asked for beside our own
    whole: bool = True  # whether each of them has loaded
    accepted_left_out: int = 0

    @property
    def findings(self) -> list[Finding]:
        """All findings, file by file."""
        return [finding for result in self.files for finding in result.findings]

    def without_accepted(self) -> Audit:
        """Return what counts for the exit status; the rest is only counted, and its rules did not pass."""
        accepted = [finding for finding in self.findings if not finding.counts]
        files = []
        for result in self.files:
            here = {one.rule for one in accepted if result.path == one.at.path or result.path in one.rigs}
            kept = [finding for finding in result.findings if finding.counts]
            files.append(replace(result, findings=kept, answered=result.answered - here))
        return replace(self, files=files, accepted_left_out=len(accepted))

    def status(self, stop_at: Signal) -> int:
        """Return the exit status: 0 nothing, 1 findings, 2 something unread, 3 a rule crashed; the highest wins."""
        findings = self.findings
        if not self.whole or any(finding.crashed for finding in findings):
            return 3
        if self.nothing_found or any(not result.judged for result in self.files):
            return 2
        return 1 if any(finding.counts and finding.signal >= stop_at for finding in findings) else 0
