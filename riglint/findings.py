"""Runs the rulebook over rigs and collects what it says: one list of findings a file, and the exit status.

A question that cannot be judged is `open`, never passed over; a rule that crashes is a DANGER of its own.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path

from riglint.loadpath import build
from riglint.loads import Loads
from riglint.loads.inputs import At, MissingInput, NotComputable
from riglint.model.library import Library, Loaded, RigFile
from riglint.model.rig import Accepted
from riglint.model.sources import OWN, Source
from riglint.policy import DEFAULT, InForce
from riglint.read.library import find_documents, is_folder, library_root, real
from riglint.read.problems import Problem
from riglint.rulebook import Rulebook
from riglint.rulekit import Case, Fault, Input, Kind, Rule, Signal

READING = Source("riglint's own file format", "own")
WHY_READ = "What cannot be read cannot be checked, and an unchecked rig must not pass for a checked one."


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


@dataclass(slots=True)
class Audit:
    """The whole result of one run."""

    on: date
    files: list[FileResult]
    left_out: int = 0
    nothing_found: bool = False
    rules: int = 0
    force: InForce = DEFAULT

    @property
    def findings(self) -> list[Finding]:
        """All findings, file by file."""
        return [finding for result in self.files for finding in result.findings]

    def status(self, stop_at: Signal) -> int:
        """Return the exit status: 0 nothing, 1 findings, 2 something unread, 3 a rule crashed; the highest wins."""
        findings = self.findings
        if any(finding.crashed for finding in findings):
            return 3
        if self.nothing_found or any(not result.judged for result in self.files):
            return 2
        return 1 if any(finding.counts and finding.signal >= stop_at for finding in findings) else 0


def audit(
    paths: Sequence[Path],
    book: Rulebook,
    on: date,
    *,
    root: Path | None = None,
    force: InForce = DEFAULT,
    sift_named: bool = False,
) -> Audit:
    """Audit files and folders: every rig with what it refers to.

    Args:
        paths: files and folders.
        book: the rules to run.
        on: the day to judge by.
        root: where the library begins, if no mark file says so.
        force: limits, words and values as a policy leaves them.
        sift_named: leave out files that are not ours even where they are named one by one.
    """
    found = find_documents(paths, sift_named=sift_named)
    libraries: dict[Path, Library] = {}
    results: dict[Path, FileResult] = {}  # by whole path: two libraries may hold files of one name

    def library_of(file: Path) -> Library:
        named = root or next((path for path in paths if is_folder(path) and file.is_relative_to(path)), None)
        base = library_root(file, named)
        return libraries.setdefault(base, Library(base))

    for file in found.files:
        _audit_file(library_of(file), file, book, on, force, results)
    for file, problem in found.near_misses.items():
        shown = library_of(file).shown(file)
        results[real(file)] = FileResult(shown, None, None, [], [_problem(shown, problem)], judged=False)
    files = sorted(results.values(), key=lambda result: result.path)
    for result in files:
        result.findings.sort(key=_order)
    return Audit(on, files, found.left_out, not results, len(book.rules) - len(force.off), force)


def _order(finding: Finding) -> tuple[int, str, int, int, str, str]:
    at = finding.at
    return (-finding.signal, at.path, at.line, at.column, finding.rule, at.part or "")


def _audit_file(
    library: Library, file: Path, book: Rulebook, on: date, force: InForce, results: dict[Path, FileResult]
) -> None:
    loaded = library.load(file)
    result = _file_result(library, loaded, results)
    if loaded.kind != "rig":
        return
    rig, problems, broken = library.resolve(file)
    result.findings += [_problem(loaded.path, one) for one in problems if one not in loaded.problems]
    for other in broken:
        held = _file_result(library, other, results)
        held.findings = [_touching(finding, loaded.path) for finding in held.findings]
        because = f"{other.path} could not be read in full"
        result.not_judged.append(NotJudged(because, len(book.rules)))
    if rig is None:
        result.judged = False
        if problems:
            because = "the problems above keep this rig from being computed"
            result.not_judged.append(NotJudged(because, len(book.rules)))
        return
    try:
        judged = judge(rig, book, on, force)
    except Exception as error:  # noqa: BLE001 - one rig that riglint stumbles over must not hide the others
        result.judged = False
        result.findings.append(_stumbled(rig, error))
        return
    result.loads = judged.loads
    result.not_judged += judged.not_judged
    for finding in judged.findings:
        home = result
        if finding.rigs:
            home = _file_result(library, library.load(library.root / finding.at.path), results)
        _add(home.findings, finding)


def _file_result(library: Library, loaded: Loaded, results: dict[Path, FileResult]) -> FileResult:
    file = library.root / loaded.path
    if file not in results:
        title = _title(loaded)
        findings = [_problem(loaded.path, problem) for problem in loaded.problems]
        results[file] = FileResult(loaded.path, loaded.kind, title, [], findings, judged=not loaded.problems)
    return results[file]


def _title(loaded: Loaded) -> str | None:
    """Return what a file is called, even where it cannot be understood."""
    said = loaded.document.data.get("title") if loaded.document else None
    return str(said) if isinstance(said, str) else None


def _stumbled(rig: RigFile, error: Exception) -> Finding:
    what = f"{type(error).__name__}: {error}"
    message = f"riglint could not compute this rig ({what}), so nothing here is checked."
    why = "A rig that was not computed must not look like a rig that passed."
    do = "Do not rely on this audit. Report the file and this sentence to whoever keeps riglint."
    at = Where(rig.document.path, 1, 1, "")
    return Finding("file/readable", Signal.DANGER, "fail", message, why, do, at, OWN, crashed=True)


def _problem(path: str, problem: Problem) -> Finding:
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
    )


def _touching(finding: Finding, rig: str) -> Finding:
    return replace(finding, rigs=tuple(sorted({*finding.rigs, rig})))


def _add(findings: list[Finding], new: Finding) -> None:
    """Add a finding; the same fault of a shared file is kept once, with all rigs that it touches."""
    for n, old in enumerate(findings):
        same = (old.rule, old.kind, old.at.path, old.at.key) == (new.rule, new.kind, new.at.path, new.at.key)
        if same and old.rigs and new.rigs and old.message == new.message:
            rules = tuple(sorted({*old.rules, *new.rules}))
            worst = max(old.signal, new.signal)
            findings[n] = replace(old, rigs=tuple(sorted({*old.rigs, *new.rigs})), rules=rules, signal=worst)
            return
    findings.append(new)


@dataclass(slots=True)
class Judged:
    """One rig as the rules see it."""

    loads: Loads
    findings: list[Finding]
    not_judged: list[NotJudged]


@dataclass(slots=True)
class _Waiting:
    """A field that rules wait for."""

    at: At
    rules: dict[str, Signal] = field(default_factory=dict)


def judge(rig: RigFile, book: Rulebook, on: date, force: InForce = DEFAULT) -> Judged:
    """Run every rule over one rig."""
    loads = Loads(build(rig), force.values, on)
    case = Case(loads, on, force.limits, force.recalled)
    run = _Run(case, rig, force)
    for rule_id, rule in book.rules.items():
        if rule_id not in force.off:
            run.judge(rule_id, rule)
    findings = [*run.findings, *run.open_findings(book)]
    findings = _accepted(findings, rig, on)
    unable = [NotJudged(because, len(rules)) for because, rules in run.unable.items()]
    return Judged(loads, findings, unable)


class _Run:
    """Collects what the rules say of one rig."""

    def __init__(self, case: Case, rig: RigFile, force: InForce) -> None:
        self.case, self.rig, self.force = case, rig, force
        self.findings: list[Finding] = []
        self.waiting: dict[tuple[str, str], _Waiting] = {}
        self.unable: dict[str, set[str]] = {}

    def judge(self, rule_id: str, rule: Rule) -> None:
        case = self.case.for_rule(rule_id)
        try:
            subjects: Iterable[object] = rule.each.of(case)
            for subject in subjects:
                self._one(rule_id, rule, case, subject)
        except MissingInput as missing:
            self._wait(rule_id, rule, missing)
        except NotComputable as unable:
            self.unable.setdefault(unable.because, set()).add(rule_id)
        except Exception as error:  # noqa: BLE001 - a crashed rule is a finding, not the end of the run
            self._crashed(rule_id, error)

    def _one(self, rule_id: str, rule: Rule, case: Case, subject: object) -> None:
        """Judge one subject; what is missing there keeps no other subject from being judged."""
        try:
            for fault in rule.check(case, subject):
                self.findings.append(self._told(rule_id, rule, fault))
        except MissingInput as missing:
            self._wait(rule_id, rule, missing)

    def _word(self, rule_id: str, rule: Rule) -> Signal:
        """Return a rule's word here: the policy's, else its own."""
        consequence = self.case.consequence
        return self.force.words.get((rule_id, consequence), rule.at(consequence))

    def _told(self, rule_id: str, rule: Rule, fault: Fault) -> Finding:
        signal = fault.signal or self._word(rule_id, rule)
        source = fault.source or next((limit.source for limit in rule.limits), None)
        return Finding(
            rule_id,
            signal,
            fault.kind,
            fault.message,
            fault.why or rule.why,
            fault.do,
            where(fault.at),
            source or next(iter(rule.sources), OWN),
            rule.formula,
            fault.state,
            fault.value,
            fault.limit,
            fault.unit,
            fault.inputs,
            rigs=(self.rig.document.path,)
            if rule.each.shared and fault.at.document is not self.rig.document
            else (),
            part_words=self._in_words(fault.at.part),
        )

    def _in_words(self, part: str | None) -> str | None:
        path = self.case.path
        return next((path.count_words(placed) for placed in path.parts if placed.id == part), None)

    def _wait(self, rule_id: str, rule: Rule, missing: MissingInput) -> None:
        word = max(rule.worst, self._word(rule_id, rule))
        for at in missing.fields:
            waiting = self.waiting.setdefault((at.path, at.key_text), _Waiting(at))
            waiting.rules[rule_id] = max(word, waiting.rules.get(rule_id, word))

    def _crashed(self, rule_id: str, error: Exception) -> None:
        at = Where(self.rig.document.path, 1, 1, "")
        message = (
            f"The rule {rule_id} crashed ({type(error).__name__}: {error}), so its question is not answered."
        )
        why = "A check that did not run must not look like a check that passed."
        do = "Do not rely on this audit. Report the file and this sentence to whoever keeps the rule."
        self.findings.append(Finding(rule_id, Signal.DANGER, "fail", message, why, do, at, OWN, crashed=True))

    def open_findings(self, book: Rulebook) -> list[Finding]:
        """Return one finding for each missing field, with all rules that wait for it."""
        found = []
        for waiting in self.waiting.values():
            rules = sorted(waiting.rules, key=lambda name: (-waiting.rules[name], name))
            first = book.rules[rules[0]]
            key, at = waiting.at.key_text, where(waiting.at)
            shared = at.path != self.rig.document.path
            also = f" and {len(rules) - 1} more" if len(rules) > 1 else ""
            message = f"'{key}' is not filled in, so {rules[0]}{also} cannot be judged."
            found.append(
                Finding(
                    rules[0],
                    max(waiting.rules.values()),
                    "open",
                    message,
                    first.why,
                    f"Fill in {key} in {at.path}.",
                    at,
                    next((limit.source for limit in first.limits), next(iter(first.sources), OWN)),
                    first.formula,
                    rules=tuple(rules),
                    rigs=(self.rig.document.path,) if shared else (),
                    part_words=self._in_words(waiting.at.part),
                )
            )
        return found


def where(at: At) -> Where:
    """Return a place as reports show it."""
    return Where(at.path, at.line, at.column, at.key_text, at.part)


def _accepted(findings: list[Finding], rig: RigFile, on: date) -> list[Finding]:
    """Mark what somebody answers for; report entries that are out of date or match nothing."""
    result = list(findings)
    for n, entry in enumerate(rig.rig.accepted):
        matching = [
            m for m, one in enumerate(result) if one.rule == entry.rule and entry.part in {None, one.at.part}
        ]
        at = where(At(rig.document, ("accepted", n)))
        if on > entry.until:
            result.append(_stale(entry, at, f"ran out on {entry.until}"))
        elif not matching:
            result.append(_stale(entry, at, "matches no finding of this rig"))
        for m in matching if on <= entry.until else []:
            if result[m].kind != "open" and result[m].signal < Signal.DANGER and not result[m].crashed:
                result[m] = replace(result[m], accepted=entry)
    return result


def _stale(entry: Accepted, at: Where, what: str) -> Finding:
    message = f"The accepted finding {entry.rule} {what}."
    why = "An acceptance that is out of date would hide the same finding if it came back."
    return Finding(
        "file/accepted", Signal.CAUTION, "fail", message, why, "Take the entry out or renew it.", at, OWN
    )


def load_rig(
    path: Path, on: date, root: Path | None, force: InForce = DEFAULT
) -> tuple[Loads | None, list[str]]:
    """Return one rig computed, or sentences that say why it cannot be."""
    library = Library(library_root(path, root))
    loaded = library.load(path)
    if loaded.kind not in {None, "rig"}:
        return None, [f"{loaded.path} is a {loaded.kind} document; name a rig."]
    rig, problems, broken = library.resolve(path)
    told = [(loaded.path, problem) for problem in problems]
    told += [(other.path, problem) for other in broken for problem in other.problems]
    if rig is None:
        return None, [f"{where}, line {one.place.line}: {one.message} {one.do}" for where, one in told]
    return Loads(build(rig), force.values, on), []
