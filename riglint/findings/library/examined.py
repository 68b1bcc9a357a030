"""What one file says, as a record that may be sent from one process to another."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import field, replace
from datetime import date
from pathlib import Path
from typing import Any

from riglint.findings.crashing import caught, stumbled
from riglint.findings.finding import AssumedValue, Finding, NotJudged, RuleCount
from riglint.findings.judging import Judged, judge
from riglint.findings.let_go.bodies import HeldResult, Later
from riglint.findings.library.again import by_itself
from riglint.findings.library.remembered_files import RememberedFiles
from riglint.findings.library.unreadable import unread
from riglint.loads import Loads
from riglint.model.library import Library, Loaded
from riglint.model.references import resolve
from riglint.policy import InForce
from riglint.records import dataclass
from riglint.rulebook import Rulebook
from riglint.rulekit import Case, Signal
from riglint.rulekit.facts import Fact, looked_up


@dataclass(frozen=True, slots=True)
class Terms:
    """What rigs are judged by, and what is kept of each; None keeps all."""

    book: Rulebook
    on: date
    force: InForce
    keep: Callable[[Loads], object] | None = None
    remedies_from: Signal = Signal.NOTICE  # the lowest word at which remedies are looked for
    remembered: RememberedFiles | None = None  # what is remembered of files; None where every one is examined


@dataclass(frozen=True, slots=True)
class ExaminedRig:
    """What the rules say of a rig that was judged."""

    findings: tuple[Finding, ...]
    not_judged: tuple[NotJudged, ...]
    answered: frozenset[str]
    unanswered: frozenset[str]
    rules: RuleCount | None
    facts: Mapping[Fact, Any]
    kept: object = None
    loads: Loads | None = None  # where all is kept
    assumed: tuple[AssumedValue, ...] = ()
    unsearched: frozenset[str] = (
        frozenset()
    )  # rules that could have looked for remedies and were not asked to
    later: Later | None = (
        None  # from memory: all findings but those on shared files, what is kept, what is assumed
    )


@dataclass(slots=True)
class Examined:
    """What one file says. Whatever is not filled in was not reached: `failed` says why."""

    file: Path
    read: bool = False
    kind: str | None = None
    path: str = ""  # as it stands in reports
    title: str | None = None
    own: tuple[Finding, ...] = ()  # on problems in the file itself
    refers_to: tuple[str, ...] = ()
    problems: bool = False  # in the rig, or in what it says of other files
    more: tuple[Finding, ...] = ()  # on problems that show only beside other files
    broken: tuple[str, ...] = ()  # the files with problems that it refers to
    rig: ExaminedRig | None = None
    failed: Finding | None = None

    @property
    def is_whole(self) -> bool:
        """Whether the file was read and examined to the end, and nothing in it or beside it is wrong."""
        told = self.read and self.failed is None and not (self.own or self.problems or self.broken)
        rules = self.rig.rules if self.rig is not None else None
        return told and not (rules is not None and rules.crashed)


@dataclass(slots=True)
class Parcel:
    """What several files say, and the text of all that was read for it, by the root of the library."""

    examined: list[Examined]
    texts: dict[Path, dict[Path, bytes]] = field(default_factory=dict)


def examine(library: Library, file: Path, terms: Terms) -> Examined:
    """Read one file, and judge it where it is a rig; what riglint stumbles over is told, never thrown.

    Where it was examined before, and nothing has changed since, what it says is remembered.
    """
    if terms.remembered is not None and terms.keep is not None:
        return terms.remembered.examined(library, file, terms, lambda: _afresh(library, file, terms))
    return _afresh(library, file, terms)


def _afresh(library: Library, file: Path, terms: Terms) -> Examined:
    found = Examined(file)

    def failed(error: BaseException) -> None:
        found.failed = stumbled(library.shown(file), error)

    with caught(failed):
        _examine(library, found, terms)
    return found


def _examine(library: Library, found: Examined, terms: Terms) -> None:
    loaded = library.load(found.file)
    tell(found, loaded)
    if loaded.kind != "rig":
        return
    rig, problems, broken = resolve(library, found.file)
    found.problems = bool(problems)
    found.more = tuple(unread(loaded.path, one) for one in problems if one not in loaded.problems)
    found.broken = tuple(one.path for one in broken)
    if rig is not None:
        found.refers_to = rig.refers_to
        judged = judge(
            rig, terms.book, terms.on, terms.force, weighed=True, remedies_from=terms.remedies_from
        )
        found.rig = _judged(judged, terms)


def tell(found: Examined, loaded: Loaded) -> Examined:
    """Fill in what a file says of itself."""
    found.read, found.kind, found.path, found.title = True, loaded.kind, loaded.path, _title(loaded)
    found.own = tuple(unread(loaded.path, one) for one in loaded.problems)
    return found


def _title(loaded: Loaded) -> str | None:
    """Return what a file is called, even where it cannot be understood."""
    said = loaded.document.data.get("title") if loaded.document else None
    return str(said) if isinstance(said, str) else None


def _judged(judged: Judged, terms: Terms) -> ExaminedRig:
    said = tuple(judged.not_judged), judged.answered, judged.unanswered, judged.rules
    more = judged.loads, judged.assumed, judged.unsearched
    if terms.keep is None:
        return ExaminedRig(tuple(judged.findings), *said, {}, None, *more)
    facts = looked_up(Case(judged.loads, terms.on, terms.force.limits, terms.force.recalled))
    findings = tuple(by_itself(one) for one in judged.findings)
    # In one process the loads are at hand for a while; they are not sent to another one.
    return ExaminedRig(findings, *said, facts, terms.keep(judged.loads), *more)


def at_once(rig: ExaminedRig, told: HeldResult) -> ExaminedRig:
    """Return a rig from memory with all that was found in it."""
    findings = (*rig.findings, *told.findings)
    return replace(rig, findings=findings, kept=told.kept, assumed=told.assumed, later=None)
