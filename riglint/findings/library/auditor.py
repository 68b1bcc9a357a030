"""Audits files one by one, then the libraries that they belong to, and keeps what was found in each file."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import field, replace
from datetime import date
from functools import partial
from pathlib import Path
from typing import Any

from riglint.findings.crashing import caught, stopped, stumbled
from riglint.findings.finding import FileResult, Finding, NotJudged, RuleCount, in_order
from riglint.findings.let_go.bodies import Later
from riglint.findings.let_go.result_again import ResultAgain
from riglint.findings.let_go.results import LetGo
from riglint.findings.library.across_rigs import (
    asked_already,
    cannot_judge,
    counted_across,
    library_rules,
    look_across,
)
from riglint.findings.library.again import CaseAgain, CasesAgain, FilesAgain, Recent, RigAgain
from riglint.findings.library.examined import Examined, ExaminedRig, at_once, tell
from riglint.findings.library.opened import Libraries
from riglint.findings.library.said_once import SharedFault, say_once, touching_more
from riglint.findings.library.shared_names import SharedNames
from riglint.findings.library.unreadable import unread
from riglint.findings.library.unreferenced import judge_unreferenced
from riglint.findings.settled.by_library import Settled
from riglint.loads import Loads
from riglint.model.library import Library
from riglint.read.library import FoundDocuments, real
from riglint.records import dataclass
from riglint.rulebook import Rulebook
from riglint.rulekit import Case, LibraryCase
from riglint.rulekit.facts import Fact, plan, planned


class _LostError(Exception):
    """A file was seen and nothing became of it."""


@dataclass(slots=True)
class Auditor:
    """Audits files one by one and keeps what was found in each."""

    book: Rulebook
    on: date
    settled: Settled
    libraries: Libraries
    day: date | None = None
    keep: Callable[[Loads], object] | None = None
    results: dict[Path, FileResult] = field(default_factory=dict)  # two libraries may hold files of one name
    rigs: dict[Path, list[Case]] = field(default_factory=dict)  # by the root of their library
    shelves: dict[Path, list[Path]] = field(default_factory=dict)
    apart: dict[Path, Library] = field(default_factory=dict)  # of spots and shelves, by their whole path
    referred: set[Path] = field(default_factory=set)  # what rigs refer to
    shared: dict[tuple[object, ...], SharedFault] = field(default_factory=dict)  # faults of shared files
    broken: dict[Path, set[str]] = field(
        default_factory=dict
    )  # files with problems, and the rigs that use them
    recent: Recent = field(default_factory=Recent)
    findings: int = 0  # so far
    names: SharedNames = field(default_factory=SharedNames)  # of rules
    let_go: LetGo = field(default_factory=lambda: LetGo(in_order))  # of rigs, where not all is kept

    def sorted_results(self) -> list[FileResult]:
        """Return the results by path, the findings of each by gravity."""
        none: frozenset[str] = frozenset()
        self.let_go.sort()
        for file, result in self.results.items():
            if not isinstance(result, ResultAgain):
                result.findings.sort(key=in_order)
            if result.kind == "rig" and result.rules is None:  # not judged, so that every question stays open
                off = self.settled.force(self.libraries.root_of(file)).off
                result.rules = RuleCount(none, frozenset(self.book.rules) - off, none, none)
        return sorted(self.results.values(), key=lambda result: result.path)

    def refuse(self, found: FoundDocuments) -> None:
        """Add what was seen and is not read, and whatever got lost: it would pass for a checked file."""
        for file, problem in found.refused.items():
            # A link is called by its own name: what it leads to may lie outside.
            shown = self.libraries.of(file.parent).shown_link(file)
            findings = [unread(shown, problem)]
            self.results[real(file)] = FileResult(
                shown, None, None, [], findings, judged=False, file=file.absolute()
            )
        for file in found.lost(self.results):
            self._stumbled(self.libraries.of(file), file, _LostError())

    def take(self, library: Library, found: Examined) -> None:
        """Add what one file was found to say; one that riglint stumbles over hides no other."""
        if found.read:
            with caught(lambda error: self._stumbled(library, found.file, error)):
                self._take(library, found)
        if found.failed is not None:
            own = real(found.file)
            result = self.results.setdefault(own, FileResult(found.failed.at.path, None, file=own))
            result.judged = False
            result.findings.append(found.failed)

    def _take(self, library: Library, found: Examined) -> None:
        result = self._home(library, found)
        if found.kind == "shelf":
            self.shelves.setdefault(library.root, []).append(found.file)
        if found.kind != "rig":
            self.apart[library.file(found.path)] = library
            return
        self.referred |= {library.file(path) for path in found.refers_to}
        if found.more:
            result.findings += found.more
            self.findings += len(found.more)
        for path in found.broken:
            self._at(library, path)
            self.broken.setdefault(library.file(path), set()).add(found.path)
            because = f"{path} could not be read in full"
            result.not_judged.append(NotJudged(because, len(self.book.rules)))
        if found.rig is not None:
            self._take_rig(library, found.file, found.rig, result)
        elif found.failed is None:
            result.judged = False
            if found.problems:
                because = "the problems above keep us from calculating this rig"
                result.not_judged.append(NotJudged(because, len(self.book.rules)))

    def _take_rig(self, library: Library, file: Path, rig: ExaminedRig, result: FileResult) -> None:
        self._hold(library, file, rig, result)
        result.not_judged += rig.not_judged
        result.answered, result.unanswered = self.names.of(rig.answered), self.names.of(rig.unanswered)
        result.rules, result.unsearched = self.names.counted(rig.rules), self.names.of(rig.unsearched)
        if rig.later is None:
            result.assumed = rig.assumed
        for finding in rig.findings:
            home = result
            if finding.rigs:
                home = self._at(library, finding.at.path)
            self._add(home, finding)

    def _hold(self, library: Library, file: Path, rig: ExaminedRig, result: FileResult) -> None:
        """Hold a rig, or what is to be kept of it."""
        force = self.settled.force(library.root)
        if self.keep is None:
            assert rig.loads is not None  # noqa: S101 - all is kept
            result.loads = rig.loads
            case = Case(rig.loads, self.on, force.limits, force.recalled)
        else:
            again = RigAgain(library, file, force, self.on, self.recent)
            if rig.loads is not None:
                self.recent.take(file, rig.loads)
            result.again = again.loads
            if rig.later is None:
                result.kept = rig.kept
            facts = {fact: self.names.alike(value) for fact, value in rig.facts.items()}
            plan_by = self._plan_by(facts, rig.later)
            if plan_by is not None:
                facts.pop(plan, None)
            case = CaseAgain(again, facts, plan_by)
        self.rigs.setdefault(library.root, []).append(case)

    def _plan_by(self, facts: dict[Fact, Any], later: Later | None) -> Callable[[], Any] | None:
        """Put by what is planned for the day, which takes most of the room of all facts; None where it stays."""
        if later is not None:
            return self.let_go.by_text(later.plan) if later.plan else None
        return self.let_go.put_by(facts[plan]) if plan in facts else None

    def stop(self, missing: list[Path]) -> None:
        """Add the files that an audit did not come to, and leave open what looks at rigs together."""
        self._tell_shared()
        for file, result in self.results.items():
            if result.rules is not None:
                together = library_rules(self.book, self.settled.force(self.libraries.root_of(file)))
                result.rules = replace(result.rules, open=result.rules.open | together)
        for file in missing:
            own, shown = real(file), self.libraries.of(file).shown(file)
            self.results[own] = FileResult(shown, None, None, [], [stopped(shown)], judged=False, file=own)

    def _add(self, home: FileResult, new: Finding) -> None:
        """Add a finding; the same fault of a shared file is kept once, with all rigs that it touches."""
        accepted = new.accepted is not None  # one rig answers for itself only
        name = new.rule, new.kind, home.file, new.at.key, accepted, new.message
        known = self.shared.get(name) if new.rigs else None
        if known is not None:
            known.take(new)
            return
        if new.rigs:
            self.shared[name] = SharedFault(home, len(home.findings))
        home.findings.append(new)
        self.findings += 1

    def _tell_shared(self) -> None:
        """Say of each fault of a shared file which rigs it touches, once all of them have been there."""
        for one in self.shared.values():
            one.tell()
        for file, rigs in self.broken.items():
            held = self.results[file]
            held.findings = [touching_more(finding, rigs) for finding in held.findings]
        self.shared.clear()
        self.broken.clear()

    def audit_libraries(self) -> None:
        """Add what shows only when the rigs of a library are looked at together; a library that fails hides nothing."""
        self._tell_shared()
        for root in self.rigs.keys() | self.shelves.keys():
            with caught(partial(self._stumbled_below, root)):
                self._audit_library(root)
        with caught(lambda error: self._stumbled_in(list(self.results.values()), error)):
            say_once(self.results, {result.path: file for file, result in self.results.items()})

    def _stumbled_below(self, root: Path, error: BaseException) -> None:
        self._stumbled_in(
            [result for file, result in self.results.items() if file.is_relative_to(root)], error
        )

    def _stumbled_in(self, results: list[FileResult], error: BaseException) -> None:
        for result in results:
            result.findings.append(stumbled(result.path, error))

    def _audit_library(self, root: Path) -> None:
        opened, force = self.libraries.opened[root], self.settled.force(root)
        cases = tuple(self.rigs.get(root, ()))
        shelves = FilesAgain(opened, self.shelves.get(root, ()), self.recent)
        library = LibraryCase(
            CasesAgain(cases, self.recent),
            shelves,
            self.on,
            force.limits,
            force.recalled,
            day=self.day or self.settled.of(root).days,
        )
        found, unable = look_across(library, self.book, force, self.settled.on_shelves(root, shelves))
        together = counted_across(self.book, force, [*found, *(one.finding for one in unable)])
        for case in cases:
            result = self.results[opened.file(case.fact(planned).path)]
            result.rules = self.names.together(result.rules, together)
        for finding in found:
            file = opened.file(finding.at.path)
            # A rule may point anywhere.
            home = self.results.setdefault(file, FileResult(finding.at.path, None, file=file))
            if finding.kind != "open" or not asked_already(home.findings, finding):
                home.findings.append(finding)
        for one in unable:
            file = opened.file(one.finding.at.path)
            cannot_judge(self.results.setdefault(file, FileResult(one.finding.at.path, None, file=file)), one)

    def _stumbled(self, library: Library, file: Path, error: BaseException) -> None:
        own = real(file)
        self._stumbled_at(
            self.results.setdefault(own, FileResult(library.shown(file), None, file=own)), error
        )

    def _stumbled_at(self, result: FileResult, error: BaseException) -> None:
        result.judged = False
        result.findings.append(stumbled(result.path, error))

    def audit_alone(self) -> None:
        """Judge each spot and shelf that no rig refers to by all that can be judged without one."""
        for file in self.apart.keys() - self.referred:
            held = self.results[file]
            # What a shelf says of its gear in full need not be said of gear that lies idle.
            held.findings = [one for one in held.findings if not self._beside_rigs(one.rule)]
            with caught(partial(self._stumbled_at, held)):
                library = self.apart[file]
                held.findings += judge_unreferenced(
                    library.load(file), self.book, self.on, self.settled.force(library.root)
                )

    def _beside_rigs(self, rule_id: str) -> bool:
        rule = self.book.rules.get(rule_id)
        return rule is not None and rule.beside_rigs

    def _at(self, library: Library, path: str) -> FileResult:
        """Return what was found in a file, as its path stands in reports."""
        file = library.file(path)
        if file not in self.results:
            self._home(library, tell(Examined(file), library.load(file)))
        return self.results[file]

    def _home(self, library: Library, found: Examined) -> FileResult:
        """Return what was found in a file, with its own problems."""
        file = library.file(found.path)
        rig = found.rig
        if file in self.results:
            if rig is not None and rig.later is not None:  # it has been told of already
                found.rig = at_once(rig, self.let_go.read(rig.later.body))
            return self.results[file]
        result = FileResult(
            found.path, found.kind, found.title, [], list(found.own), judged=not found.own, file=file
        )
        self.findings += len(found.own)
        if rig is not None and rig.later is not None:
            result = ResultAgain.of_text(result, self.let_go, rig.later.body, rig.later.short)
            self.findings += len(rig.later.short.gists)
        elif self.keep is not None and found.kind == "rig":
            result = ResultAgain.of(result, self.let_go)
        self.results[file] = result
        return result
