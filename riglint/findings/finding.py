"""What a finding is, and what a whole run has found."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import field, replace
from datetime import date
from pathlib import Path
from typing import Any

from riglint.findings.as_data import finding_data
from riglint.findings.let_go.gists import Gist, elsewhere_of, gists_of
from riglint.loads import Loads
from riglint.model.documents.known_file import KnownRow
from riglint.model.documents.rig import Accepted
from riglint.model.values.sources import Source
from riglint.policy import DEFAULT, InForce
from riglint.read.problems import one_line
from riglint.records import dataclass
from riglint.rulekit import Input, Remedy, Signal
from riglint.rulekit.ticks import DUE
from riglint.rulekit.verdicts import Kind


@dataclass(frozen=True, slots=True)
class Where:
    """Where a finding points, as it stands in reports."""

    path: str
    line: int
    column: int
    key: str
    part: str | None = None
    row: str = field(default="", compare=False)  # the text of that line


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
    accepted: Accepted | KnownRow | None = (
        None  # whoever answers for it, in the rig or among the known findings
    )
    plus_minus: float | None = None  # of the value, from the ± of the inputs
    remedies: tuple[Remedy, ...] = ()  # changes of one value that end it
    instead: tuple[str, ...] = ()  # of a misspelt word: the nearest known one; of a number: its readings
    written: str = ""  # what it takes the place of, where that is more than the key or value at the place
    advice: bool = False  # a review in the same words on every rig of its kind; card and sheet hold it
    asks: str | None = None  # of an open finding that waits for a field: what belongs there, in words

    def __post_init__(self) -> None:
        """Keep each sentence on one line with nothing hidden in it: it may hold what a file says."""
        for name in ("message", "why", "do"):
            object.__setattr__(self, name, one_line(getattr(self, name)))

    @property
    def is_quiet(self) -> bool:
        """Whether it is something to look at on site and no more."""
        return self.kind == "review" and self.signal == Signal.NOTICE

    @property
    def is_due(self) -> bool:
        """Whether it is a check to tick, whose sentence says what to do."""
        return self.message.startswith(DUE)

    @property
    def is_check(self) -> bool:
        """Whether a quiet review is one that every rig like this gets."""
        return self.is_due or self.advice

    @property
    def counts(self) -> bool:
        """Whether it counts for the exit status."""
        return self.accepted is None

    @property
    def kept_as(self) -> str:
        """How it is kept out of the exit status: as an accepted finding, or as a known one."""
        return "known" if isinstance(self.accepted, KnownRow) else "accepted"

    @property
    def by_whom(self) -> str:
        """Who answers for it, until when and why; empty where it counts."""
        one = self.accepted
        return (
            "" if one is None else f"{self.kept_as} by {one.role} until {one.until.isoformat()}: {one.reason}"
        )

    def to_dict(self) -> dict[str, Any]:
        """Return it as the JSON report holds it: plain values, numbers in the unit that stands beside them."""
        return finding_data(self)


def in_order(finding: Finding) -> tuple[int, str, int, int, str, str]:
    """Return what the findings of a file are sorted by."""
    at = finding.at
    return (-finding.signal, at.path, at.line, at.column, finding.rule, at.part or "")


@dataclass(frozen=True, slots=True)
class AssumedValue:
    """One value that a rig leaves out, as reports tell it."""

    name: str
    value: str
    why: str
    look_up: str
    source: Source
    at: Where
    decides: tuple[str, ...]  # the rules whose verdict it decides


@dataclass(frozen=True, slots=True)
class NotJudged:
    """Rules that had nothing to work on, and why."""

    because: str
    rules: int


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A file that was seen and is not ours, or a folder that was not looked into."""

    path: str
    because: str


@dataclass(frozen=True, slots=True)
class RuleCount:
    """What became of every rule in force in one rig: each stands in one of the four."""

    judged: frozenset[str]
    open: frozenset[str]
    not_applicable: frozenset[str]  # nothing in this rig is a subject of theirs
    crashed: frozenset[str]

    @property
    def all(self) -> int:
        """How many there are."""
        return sum(map(len, (self.judged, self.open, self.not_applicable, self.crashed)))


@dataclass(slots=True)
class FileResult:
    """What was found in one file."""

    path: str
    kind: str | None
    title: str | None = None
    not_judged: list[NotJudged] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)
    judged: bool = True
    loads: Loads | None = None  # of a rig that is held
    again: Callable[[], Loads] | None = None  # of a rig that was let go
    kept: Any = None  # what whoever called keeps of a rig's loads
    file: Path | None = None  # the whole path, links resolved
    answered: frozenset[str] = frozenset()  # of a rig: rules that judged all that they look at there
    unanswered: frozenset[str] = frozenset()  # of a rig: rules that could not
    rules: RuleCount | None = None  # of a rig
    assumed: tuple[AssumedValue, ...] = ()  # of a rig: what it leaves out and its parts tell
    unsearched: frozenset[str] = (
        frozenset()
    )  # rules that could have looked for remedies and were not asked to

    @property
    def gists(self) -> tuple[Gist, ...]:
        """Each finding in short."""
        return gists_of(self.findings)

    @property
    def elsewhere(self) -> tuple[int, ...]:
        """A number for each fault that stands in a shared file; another rig that tells the same has the same."""
        return elsewhere_of(self.findings, self.path)

    @property
    def mark(self) -> bytes:
        """A hash of all that was found; empty where there is none."""
        return b""

    def seen_as(self, seen: Callable[[FileResult], list[Finding]]) -> FileResult:
        """Return the same result with its findings as somebody sees them."""
        return replace(self, findings=seen(self))

    def reworded(self, words: Callable[[FileResult], list[Finding]]) -> FileResult:
        """Return the same result with its findings in other words; what reports count of them stays as it is."""
        return self.seen_as(words) if self.findings else self

    @property
    def computed(self) -> Loads | None:
        """The loads of a rig, computed again where it was let go; None where there is no rig that could be read."""
        return self.again() if self.again is not None else self.loads


@dataclass(slots=True)
class Audit:
    """The whole result of one run."""

    on: date
    files: list[FileResult]
    left_out: tuple[LeftOut, ...] = ()
    folders_left_out: tuple[LeftOut, ...] = ()  # not looked into, so that none of their files was seen
    nothing_found: bool = False
    rules: int = 0
    force: InForce = DEFAULT
    house: tuple[str, ...] = ()  # rule sets asked for beside our own
    whole: bool = True  # whether each of them has loaded
    accepted_left_out: int = 0
    seal: str = ""  # the beginning of the hash of the rulebook
    day: date | None = None  # the one day on which rigs were looked at together
    differs: str = ""  # how the rulebook of a checkout differs from its manifest
    not_looked_at: int = 0  # files that it did not come to before somebody stopped it
    what_if: tuple[str, ...] = ()  # sentences on values that were taken instead of the file's
    remedies_from: Signal = Signal.NOTICE  # the lowest word at which remedies were looked for

    @property
    def findings(self) -> list[Finding]:
        """All findings, file by file."""
        return [finding for result in self.files for finding in result.findings]

    @property
    def gists(self) -> Iterator[Gist]:
        """Each finding in short, file by file; a large audit need not read all of them for it."""
        return (gist for result in self.files for gist in result.gists)

    @property
    def unsearched(self) -> list[str]:
        """The rules whose findings no remedy was looked for, since their word is too low."""
        return sorted({rule for result in self.files for rule in result.unsearched})

    @property
    def audited(self) -> list[str]:
        """The files that were read and judged."""
        return [result.path for result in self.files if result.judged]

    @property
    def refused(self) -> list[str]:
        """The files that were seen, are ours or look like it, and could not be read or judged."""
        return [result.path for result in self.files if not result.judged]

    @property
    def seen(self) -> int:
        """How many files were seen: those that were audited, left out and refused."""
        return len(self.files) + len(self.left_out)

    def without_accepted(self) -> Audit:
        """Return what counts for the exit status; the rest is only counted, and its rules did not pass."""
        files, count = [], 0
        by_file: dict[str, set[str]] = {}
        for result in self.files:
            for one in result.findings if not all(gist.counts for gist in result.gists) else ():
                if not one.counts:
                    count += 1
                    for path in (one.at.path, *one.rigs):
                        by_file.setdefault(path, set()).add(one.rule)
        for result in self.files:
            counting = result.seen_as(_counting)
            counting.answered = result.answered - by_file.get(result.path, set())
            files.append(counting)
        return replace(self, files=files, accepted_left_out=count)

    def status(self, stop_at: Signal) -> int:
        """Return the exit status: 0 nothing, 1 findings, 2 something unread, 3 not done; the highest wins."""
        if (
            self.not_looked_at
            or not self.whole
            or self.rules == 0
            or any(gist.crashed for gist in self.gists)
        ):
            return 3
        if self.nothing_found or self.force.emptied or any(not result.judged for result in self.files):
            return 2
        return 1 if any(gist.counts and gist.signal >= stop_at for gist in self.gists) else 0


def _counting(result: FileResult) -> list[Finding]:
    return [one for one in result.findings if one.counts]
