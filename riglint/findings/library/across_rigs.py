"""Runs the rules that look at all rigs of a library together: gear in two places, spots told in two ways."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import nullcontext
from dataclasses import field
from typing import TYPE_CHECKING, Any

from riglint.findings.crashing import RubbishError, StoppedError, caught, crashed, faults_of
from riglint.findings.finding import FileResult, Finding, NotJudged, RuleCount, Where
from riglint.findings.library.again import CaseAgain
from riglint.findings.open_questions import cannot_be_judged, with_rules
from riglint.findings.telling import finding_of, where
from riglint.findings.waiting import Waiting
from riglint.loads.inputs import MissingInput, NotComputable, known, outside
from riglint.mechanics.valid_range import OutOfRange
from riglint.model.vocabulary.words import Consequence
from riglint.policy import InForce
from riglint.records import dataclass
from riglint.rulebook import Rulebook
from riglint.rulekit import Case, LibraryCase, Rule
from riglint.rulekit.facts import consequence, planned

if TYPE_CHECKING:
    from riglint.findings.remembering.on_shelves import ShelvesBefore

Cases = dict[str, Case]  # by the path of their file
GRAVITY_OF: tuple[Consequence, ...] = ("ground", "fall", "life")
LOOK = "Look at the values that this depends on. If they are right, a person must judge it."


@dataclass(frozen=True, slots=True)
class Unable:
    """What a rule cannot judge, since something of one rig cannot be computed."""

    because: str
    finding: Finding  # the open question, in the rig's file


def judge_library(library: LibraryCase, book: Rulebook, force: InForce) -> list[Finding]:
    """Return what the rules for whole libraries say of one, open questions with it."""
    found, unable = look_across(library, book, force)
    return [*found, *(one.finding for one in unable)]


def look_across(
    library: LibraryCase, book: Rulebook, force: InForce, before: ShelvesBefore | None = None
) -> tuple[list[Finding], list[Unable]]:
    """Return what the rules for whole libraries say of one, and what they cannot judge since forces are missing.

    Rules that look at what stands together do so company by company: so only one company's loads are needed at a time.

    Args:
        library: its rigs and gear lists.
        book: all rules.
        force: what is in force.
        before: the gear lists as they were judged before; None judges each.
    """
    asked = library_rules(book, force)
    runs = [
        LibraryRun(rule_id, rule, library.for_rule(rule_id), force)
        for rule_id, rule in book.rules.items()
        if rule_id in asked
    ]
    cases = {case.fact(planned).path: case for case in library.rigs}
    path = next(iter(cases)) if cases else library.shelves[0].path
    _by_company(library, [run for run in runs if run.rule.each.of_company is not None], cases, path)
    _by_shelf(library, [run for run in runs if run.rule.each.of_shelf is not None], cases, path, before)
    alike: dict[Each, list[LibraryRun]] = {}
    for run in runs:
        if run.rule.each.of_company is None and run.rule.each.of_shelf is None:
            alike.setdefault(run.rule.each.of, []).append(run)
    for of, some in alike.items():
        _by_subject(of, library, some, cases, path)
    found: dict[tuple[str, ...], Finding] = {}
    unable: dict[tuple[str, ...], Unable] = {}
    for run in runs:
        for one in run.found:
            # Several rigs may wait for one field, and several pairs for one rig.
            if isinstance(one, Unable):
                unable.setdefault((run.rule_id, one.finding.at.path, one.because), one)
            else:
                found.setdefault((run.rule_id, one.at.path, one.at.key, one.message), one)
    return list(found.values()), list(unable.values())


Each = Callable[[Any], Iterable[object]]  # gives what rules are asked of


def _by_shelf(
    library: LibraryCase, runs: list[LibraryRun], cases: Cases, path: str, before: ShelvesBefore | None
) -> None:
    """Run rules over each gear list in turn, so that it is read once for all of them; one that is known is not read."""
    try:
        for shelf in library.shelves_in_use:
            if before is not None and before.say_again(shelf, runs):
                continue
            pieces = list(shelf.pieces)
            with before.judging(shelf, runs) if before is not None else nullcontext():
                for piece in pieces:
                    for run in runs:
                        run.judge(lambda one: (one,), piece, cases, path)
        if before is not None:
            before.pieces.keep()
    except StoppedError:
        raise
    except BaseException as error:  # noqa: BLE001 - it is each rule's that asks for them
        _crash(runs, error, path)


def _crash(runs: list[LibraryRun], error: BaseException, path: str) -> None:
    for run in runs:
        if not run.crashed:
            run.found.append(crashed(run.rule_id, error, path))


def _by_subject(of: Each, library: LibraryCase, runs: list[LibraryRun], cases: Cases, path: str) -> None:
    """Run rules that ask the same subjects over each of them in turn."""
    try:
        for subject in of(library):
            for run in runs:
                run.judge(lambda one: (one,), subject, cases, path)
    except StoppedError:
        raise
    except BaseException as error:  # noqa: BLE001 - it is each rule's that asks for them
        _crash(runs, error, path)


def _by_company(library: LibraryCase, runs: list[LibraryRun], cases: Cases, path: str) -> None:
    """Run rules over each company in turn."""
    try:
        companies = library.companies
    except StoppedError:
        raise
    except BaseException as error:  # noqa: BLE001 - it is each rule's that asks for them
        for run in runs:
            run.found.append(crashed(run.rule_id, error, path))
        return
    for company in companies:
        alive = [case.loads for case in company.cases] if len(company.cases) > 1 else []
        for run in runs:
            if run.rule.each.of_company is not None:
                run.judge(run.rule.each.of_company, company, cases, path)
        del alive
        for case in company.cases:
            if isinstance(case, CaseAgain):
                case.let_go()


def library_rules(book: Rulebook, force: InForce) -> frozenset[str]:
    """Return the rules in force that look at a whole library."""
    return frozenset(name for name, rule in book.rules.items() if rule.each.library and name not in force.off)


def counted_across(book: Rulebook, force: InForce, found: list[Finding]) -> RuleCount:
    """Return what became of the rules that look at a whole library."""
    crashed = frozenset(one.rule for one in found if one.crashed)
    open_ = frozenset(one.rule for one in found if one.kind == "open") - crashed
    return RuleCount(library_rules(book, force) - crashed - open_, open_, frozenset(), crashed)


def with_library(rules: RuleCount | None, together: RuleCount) -> RuleCount | None:
    """Return what became of the rules for one rig, with those that look at a whole library."""
    if rules is None:
        return None
    return RuleCount(
        rules.judged | together.judged,
        rules.open | together.open,
        rules.not_applicable,
        rules.crashed | together.crashed,
    )


@dataclass(slots=True)
class LibraryRun:
    """One rule and what it says of a library."""

    rule_id: str
    rule: Rule
    library: LibraryCase
    force: InForce
    found: list[Finding | Unable] = field(default_factory=list)
    crashed: bool = False

    def judge(self, of: Each, whole: object, cases: Cases, path: str) -> None:
        """Judge what there is in a library, or in one company of it; a rule that has crashed says no more."""
        if self.crashed:
            return
        with caught(lambda error: self._crashed(error, path)):
            for subject in of(whole):
                self.found += _one(self.library, self.rule_id, self.rule, self.force, subject, cases=cases)

    def _crashed(self, error: BaseException, path: str) -> None:
        self.crashed = True
        self.found.append(crashed(self.rule_id, error, path))


def _one(
    library: LibraryCase, rule_id: str, rule: Rule, force: InForce, subject: object, *, cases: Cases
) -> Iterator[Finding | Unable]:
    """Judge one subject; what is missing there keeps no other subject from being judged."""
    try:
        for fault in faults_of(rule.check(library, subject)):
            signal = force.word(rule_id, rule, _gravest(cases, fault.rigs), fault.signal)
            yield finding_of(rule_id, rule, fault, signal)
    except MissingInput as missing:
        if not missing.fields:
            raise RubbishError("it waits for something without a name") from missing
        for at in missing.fields:
            waiting = Waiting(at)
            message = f"{waiting.lacking}, so {cannot_be_judged([rule_id])}."
            yield _open(rule_id, rule, force, (message, waiting.do), where(at))
    except (NotComputable, OutOfRange) as unable:
        because = (unable if isinstance(unable, NotComputable) else outside("a number", unable)).because
        top = Where(_without_forces(cases, subject), 1, 1, "")
        message = f"{cannot_be_judged([rule_id])}: {because}."
        yield Unable(because, _open(rule_id, rule, force, (message, LOOK), top))


def _without_forces(cases: Cases, subject: object) -> str:
    """Return the file of the rig that has no forces, of those that a subject is about; of the first where all have."""
    about: Sequence[Case] = getattr(subject, "cases", ()) or tuple(cases.values())
    paths = [case.file.document.path for case in about]
    broken = [path for path, case in zip(paths, about, strict=True) if not _has_forces(case)]
    return next(iter((*broken, *paths)), "")


def _has_forces(case: Case) -> bool:
    loads = case.loads
    lines = case.path.whole and all(one.path.whole for one in loads.backups if one.is_line)
    return lines and known(lambda: loads.standing) is not None


def _open(rule_id: str, rule: Rule, force: InForce, says: tuple[str, str], at: Where) -> Finding:
    """Return the finding for a question that cannot be answered, with the sentence and what to do."""
    message, do = says
    word = max(rule.worst, force.word(rule_id, rule, "ground"))
    return Finding(
        rule_id, word, "open", message, rule.why, do, at, rule.source, rule.formula, rules=(rule_id,)
    )


def _gravest(cases: Cases, rigs: tuple[str, ...]) -> Consequence:
    """Return the gravest consequence among the rigs that a fault touches; ground where it touches none."""
    words = [cases[path].fact(consequence) for path in rigs if path in cases]
    return max(words, key=GRAVITY_OF.index, default="ground")


def asked_already(findings: list[Finding], new: Finding) -> bool:
    """Let an open question that stands already speak for one more rule; return whether one did."""
    for n, old in enumerate(findings):
        if old.kind == "open" and old.at.path == new.at.path and old.at.key == new.at.key and old.rules:
            findings[n] = with_rules(old, new.rules, new.signal)
            return True
    return False


def cannot_judge(home: FileResult, unable: Unable) -> None:
    """Count what cannot be judged among what cannot be there for the same reason; else ask."""
    new, said = unable.finding, f": {unable.because}."
    for n, gap in enumerate(home.not_judged):
        if gap.because == unable.because:
            home.not_judged[n] = NotJudged(gap.because, gap.rules + len(new.rules))
            break
    else:
        home.not_judged.append(NotJudged(unable.because, len(new.rules)))
        home.findings.append(new)
        return
    for n, old in enumerate(home.findings):
        if old.kind == "open" and old.rules and old.message.endswith(said):
            home.findings[n] = with_rules(old, new.rules, new.signal)
