"""Runs every rule over one rig: what it says, what it waits for, what nobody could compute.

A question that cannot be judged is `open`, never passed over; a rule that crashes is a DANGER of its own.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from datetime import date
from functools import cached_property

from riglint.findings.accepting import accept
from riglint.findings.bounding import bounded
from riglint.findings.crashing import RubbishError, caught, crashed, faults_of, not_loaded
from riglint.findings.finding import Finding, NotJudged, RuleCount, Where
from riglint.findings.raised_class import report_raised_class
from riglint.findings.telling import finding_of, where
from riglint.findings.variation.not_worse import NoWorse
from riglint.findings.variation.uncertainty import Told, weigh
from riglint.findings.waiting import Waiting
from riglint.loadpath import build
from riglint.loads import Loads
from riglint.loads.inputs import At, MissingInput, NotComputable, known, outside
from riglint.loads.what_if.solved_for import Search
from riglint.loads.what_if.uncertain_inputs import UncertainInput, nudged_loads
from riglint.mechanics.valid_range import OutOfRange
from riglint.model.library import RigFile
from riglint.model.reads import Read, changes, reading, track_below
from riglint.model.values.sources import OWN
from riglint.model.vocabulary.fields import Form
from riglint.policy import DEFAULT, InForce
from riglint.rulebook import Rulebook
from riglint.rulekit import Case, Fault, Input, Rule, Signal
from riglint.rulekit.case import Asked

# What a rule throws where it cannot judge.
ANSWERS = (MissingInput, NotComputable, OutOfRange)
FORCES = frozenset({"T0", "T", "F"})  # symbols of inputs that follow the standing tension


@dataclass(slots=True)
class Judged:
    """One rig as the rules see it."""

    loads: Loads
    findings: list[Finding]
    not_judged: list[NotJudged]
    answered: frozenset[str] = frozenset()  # rules that judged all that they look at
    unanswered: frozenset[str] = frozenset()  # rules that could not
    rules: RuleCount | None = None  # but for those that look at a whole library


def judge(
    rig: RigFile,
    book: Rulebook,
    on: date,
    force: InForce = DEFAULT,
    loads: Loads | None = None,
    *,
    weighed: bool = False,
    turned: bool = True,
) -> Judged:
    """Run every rule over one rig.

    Args:
        rig: the rig.
        book: the rules.
        on: the day to judge by.
        force: limits, words and values in force.
        loads: its loads on that day, where they are computed already.
        weighed: whether the ± of its inputs is weighed, for which the rules run twice more for each.
        turned: whether rules look for what would put right what they find, for which rigs are computed again.
    """
    track_below(Form)
    loads = loads or Loads(build(rig), force.values, on)
    first = _run(loads, book, on, force)

    def told_of(other: Loads) -> Told:
        return _again(first, other, book).told(book)

    def told_by(rule_id: str, other: Loads) -> list[Finding]:
        return _again(first, other, book, (rule_id,)).findings

    no_worse = NoWorse(lambda other: told_of(other).findings, loads, told_by)
    run = _turned(first, book, no_worse) if turned else first
    told = run.told(book)
    findings = told.findings
    if weighed:
        in_force = {name: rule for name, rule in book.rules.items() if _judges_rigs(name, rule, force)}

        def again(moved: UncertainInput, by: float) -> Told:
            try:
                return told_of(nudged_loads(loads, moved, by))
            except OutOfRange as error:  # a ± that ends where no line is
                return Told([], frozenset(in_force), str(error))

        findings = weigh(rig, told, again, lambda name: run.worst(name, book.rules[name]), in_force)
    findings = report_raised_class(
        findings, loads, lambda of: _run(of, book, on, force).told(book).findings, book.explaining
    )
    findings = accept(findings, loads, book, on)
    findings += [not_loaded(one.name, one.because, rig.document.path) for one in book.broken]
    findings = bounded(findings, rig.document.path)
    unable = [NotJudged(because, len(rules)) for because, rules in run.unable.items()]
    answered = frozenset(run.looked_at - told.silent)
    rules = run.count(book, told)
    return Judged(loads, findings, unable, answered, told.silent, rules)


def _run(loads: Loads, book: Rulebook, on: date, force: InForce) -> _Run:
    """Run every rule that is not off."""
    run = _Run(Case(loads, on, force.limits, force.recalled), loads.path.rig, force)
    for rule_id, rule in book.rules.items():
        if _judges_rigs(rule_id, rule, force):
            run.judge(rule_id, rule)
    return run


def _again(first: _Run, loads: Loads, book: Rulebook, rules: Iterable[str] | None = None) -> _Run:
    """Run rules over a rig with other numbers: those again that have read one of them, all else as it was."""
    run = _Run(first.case.of(loads), loads.path.rig, first.force)
    different = changes(first.rig, run.rig)
    different.beyond |= different.touch(first.made_of) or loads.values is not first.case.loads.values
    for rule_id in first.said if rules is None else rules:
        said = first.said[rule_id]
        if _is_own(rule_id, book) and not different.touch(said.read):
            run.said[rule_id] = replace(said, read=different.moved(said.read))
        else:
            run.judge(rule_id, book.rules[rule_id])
    return run


def _is_own(rule_id: str, book: Rulebook) -> bool:
    """Whether a rule is riglint's own; what somebody else's rests on beside the rig, nobody knows."""
    return rule_id.partition("/")[0] not in book.house


def _turned(first: _Run, book: Rulebook, no_worse: NoWorse) -> _Run:
    """Run the rules again that look for what would put right what they find, and let them look."""
    run = _Run(first.case, first.rig, first.force)
    run.turned = Search(first.case.loads), no_worse
    for rule_id, said in first.said.items():
        if said.would_turn:
            run.judge(rule_id, book.rules[rule_id])
        else:
            run.said[rule_id] = said
    return run


def _judges_rigs(rule_id: str, rule: Rule, force: InForce) -> bool:
    return rule_id not in force.off and not rule.each.library


@dataclass(slots=True)
class _Said:
    """What one rule says of a rig, and the numbers that this rests on."""

    findings: list[Finding] = field(default_factory=list)
    waits: list[tuple[tuple[str, str], At, Signal]] = field(default_factory=list)  # by file and key
    unable: list[str] = field(default_factory=list)
    looked_at: bool = False  # whether it has something to judge there
    would_turn: bool = False  # whether it would look for what puts right what it finds
    read: frozenset[Read] = frozenset()


class _Run:
    """Collects what the rules say of one rig."""

    def __init__(self, case: Case, rig: RigFile, force: InForce) -> None:
        self.case, self.rig, self.force = case, rig, force
        self.said: dict[str, _Said] = {}
        self._by_id = {placed.id: placed for placed in reversed(case.path.parts)}
        self.turned: tuple[Search, NoWorse] | None = None

    @cached_property
    def made_of(self) -> frozenset[Read]:
        """What loads of this rig have read before any rule asks them."""
        with reading() as read:
            Loads(build(self.rig), self.case.loads.values, self.case.on)
        return frozenset(read)

    @property
    def findings(self) -> list[Finding]:
        """What the rules find, in their order."""
        return [one for said in self.said.values() for one in said.findings]

    @property
    def looked_at(self) -> set[str]:
        """Rules that have something to judge in this rig."""
        return {rule_id for rule_id, said in self.said.items() if said.looked_at}

    @property
    def unable(self) -> dict[str, set[str]]:
        """Why something could not be computed, and the rules that needed it."""
        found: dict[str, set[str]] = {}
        for rule_id, said in self.said.items():
            for because in said.unable:
                found.setdefault(because, set()).add(rule_id)
        return found

    @property
    def waiting(self) -> list[Waiting]:
        """What is not filled in, with the rules that wait for it."""
        found: dict[tuple[str, str], Waiting] = {}
        for rule_id, said in self.said.items():
            for place, at, word in said.waits:
                found.setdefault(place, Waiting(at)).add(at, rule_id, word)
        return list(found.values())

    def told(self, book: Rulebook) -> Told:
        """Return all findings, and the rules that could not judge everything they look at."""
        silent = {rule_id for rule_id, said in self.said.items() if said.waits or said.unable}
        silent |= {finding.rule for finding in self.findings if finding.crashed}
        findings = [*self.findings, *self.open_findings(book), *self.unexplained(book)]
        return Told(findings, frozenset(silent), next(iter(self.unable), ""))

    def count(self, book: Rulebook, told: Told) -> RuleCount:
        """Return what became of every rule in force that looks at single rigs."""
        asked = {name for name, rule in book.rules.items() if not rule.each.library} - self.force.off
        crashed = frozenset(one.rule for one in told.findings if one.crashed)
        judged = frozenset(self.looked_at - told.silent)
        return RuleCount(
            judged, told.silent - crashed, frozenset(asked - judged - told.silent - crashed), crashed
        )

    def judge(self, rule_id: str, rule: Rule) -> None:
        """Run one rule; whatever it throws is a finding, not the end of the run."""
        said = self.said[rule_id] = _Said()
        with reading() as read, caught(lambda error: self._crashed(rule_id, error)):
            self._all(rule_id, rule)
        said.read = frozenset(read)

    def _all(self, rule_id: str, rule: Rule) -> None:
        """Judge every subject of a rule."""
        case = self.case.for_rule(rule_id)
        try:
            subjects: Iterable[object] = rule.each.of(case)
            for number, subject in enumerate(subjects):
                self.said[rule_id].looked_at = True
                asked = case.asked(Asked(rule, number, *self.turned)) if self.turned else case
                self._one(rule_id, rule, asked, subject)
        except ANSWERS as answer:
            self._note(rule_id, rule, answer)

    def _one(self, rule_id: str, rule: Rule, case: Case, subject: object) -> None:
        """Judge one subject; what is missing there keeps no other from being judged."""
        try:
            for fault in faults_of(rule.check(case, subject)):
                self.said[rule_id].findings.append(self._told(rule_id, rule, fault))
        except ANSWERS as answer:
            self._note(rule_id, rule, answer)
        finally:
            self.said[rule_id].would_turn |= case.would_turn

    def _note(self, rule_id: str, rule: Rule, answer: MissingInput | NotComputable | OutOfRange) -> None:
        """Take note of an answer: something is missing, or cannot be computed."""
        if isinstance(answer, MissingInput):
            self._wait(rule_id, rule, answer)
        elif isinstance(answer, NotComputable):
            self._cannot(rule_id, answer)
        else:  # the number that is wrong is the file's, not the rule's
            self._cannot(rule_id, outside("a number", answer))

    def _cannot(self, rule_id: str, unable: NotComputable) -> None:
        self.said[rule_id].unable.append(unable.because)

    def unexplained(self, book: Rulebook) -> list[Finding]:
        """Return an open finding for each reason why nothing could be computed that no other finding tells."""
        failed = {finding.rule for finding in self.findings if finding.kind == "fail"}
        if failed & book.explaining:
            return []
        told = {reason for name in failed if name in book.rules for reason in book.rules[name].tells}
        at = Where(self.rig.document.path, 1, 1, "")
        found = []
        for because, waiting in self.unable.items():
            if because in told:
                continue
            words = {name: self.worst(name, book.rules[name]) for name in waiting}
            rules = sorted(words, key=lambda name: (-words[name], name))
            message = f"{rules[0]}{_more(rules)} cannot be judged: {because}."
            do = "Look at the values that this depends on. If they are right, a person must judge it."
            first = book.rules[rules[0]]
            worst = max(words.values())
            found.append(
                Finding(
                    rules[0],
                    worst,
                    "open",
                    message,
                    first.why,
                    do,
                    at,
                    OWN,
                    first.formula,
                    rules=tuple(rules),
                )
            )
        return found

    def worst(self, rule_id: str, rule: Rule) -> Signal:
        """Return the worst word that a rule could give here: the policy's, else its own, else what it grades to."""
        return max(rule.worst, self.force.word(rule_id, rule, self.case.consequence))

    def _told(self, rule_id: str, rule: Rule, fault: Fault) -> Finding:
        signal = self.force.word(rule_id, rule, self.case.consequence, fault.signal)
        elsewhere = fault.at.path != self.rig.document.path
        shared = elsewhere and (rule.each.shared or fault.at.in_kit)
        return replace(
            finding_of(rule_id, rule, fault, signal),
            inputs=self._inputs(fault),
            rigs=(self.rig.document.path,) if shared else (),
            part_words=self._in_words(fault.at.part),
        )

    def _inputs(self, fault: Fault) -> tuple[Input, ...]:
        """Return what a finding rests on; a standing tension that was read on site is named with its reading."""
        read = known(lambda: self.case.loads.tension_reading)
        if read is None or not (fault.state or FORCES & {one.symbol for one in fault.inputs}):
            return fault.inputs
        kept = [one for one in fault.inputs if one.symbol != "T0" or one.where]
        name = f"standing tension, {read.words}"
        return (*kept, Input(name, "T0", read.tension_n / 1000.0, "kN", read.at.reference))

    def _in_words(self, part: str | None) -> str | None:
        placed = self._by_id.get(part or "")
        return self.case.path.count_words(placed) if placed else None

    def _wait(self, rule_id: str, rule: Rule, missing: MissingInput) -> None:
        word = self.worst(rule_id, rule)
        if not missing.fields:
            raise RubbishError("it waits for something without a name")
        for at in missing.fields:
            place = at.path, at.key_text  # what is no place throws here, where the rule is caught
            self.said[rule_id].waits.append((place, at, word))

    def _crashed(self, rule_id: str, error: BaseException) -> None:
        self.said[rule_id].findings.append(crashed(rule_id, error, self.rig.document.path))

    def open_findings(self, book: Rulebook) -> list[Finding]:
        """Return one finding for each missing field, with all rules that wait for it."""
        found = []
        for waiting in self.waiting:
            rules = sorted(waiting.rules, key=lambda name: (-waiting.rules[name], name))
            first = book.rules[rules[0]]
            shared = waiting.at.path != self.rig.document.path
            message = f"{waiting.lacking}, so {rules[0]}{_more(rules)} cannot be judged."
            found.append(
                Finding(
                    rules[0],
                    max(waiting.rules.values()),
                    "open",
                    message,
                    first.why,
                    waiting.do,
                    where(waiting.at),
                    first.source,
                    first.formula,
                    rules=tuple(rules),
                    rigs=(self.rig.document.path,) if shared else (),
                    part_words=self._in_words(waiting.at.part),
                    asks=waiting.asks,
                )
            )
        return found


def _more(rules: list[str]) -> str:
    return f" and {len(rules) - 1} more" if len(rules) > 1 else ""
