"""One run of the rules over one rig: what each of them finds, waits for and cannot judge.

Whatever a rule throws is caught here, so that it hides nothing that other rules say.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import field
from functools import cached_property

from riglint.findings.crashing import RubbishError, caught, crashed, faults_of
from riglint.findings.finding import Finding, RuleCount
from riglint.findings.telling import finding_of
from riglint.findings.waiting import Waiting
from riglint.loadpath import build
from riglint.loads import Loads
from riglint.loads.inputs import At, MissingInput, NotComputable, known, outside
from riglint.loads.what_if.solved_for import Search
from riglint.mechanics.valid_range import OutOfRange
from riglint.model.differences import Changes
from riglint.model.library import RigFile
from riglint.model.reads import Read, reading
from riglint.policy import InForce
from riglint.records import dataclass
from riglint.rulebook import Rulebook
from riglint.rulekit import Case, Fault, Input, Rule, Signal
from riglint.rulekit.case import Asked, NoObjection

# What a rule throws where it cannot judge.
ANSWERS = (MissingInput, NotComputable, OutOfRange)
FORCES = frozenset({"T0", "T", "F"})  # symbols of inputs that follow the standing tension


@dataclass(slots=True)
class RuleResult:
    """What one rule says of a rig, and the numbers that this rests on."""

    findings: list[Finding] = field(default_factory=list)
    waits: list[tuple[tuple[str, str], At, Signal]] = field(default_factory=list)  # by file and key
    unable: list[str] = field(default_factory=list)
    looked_at: bool = False  # whether it has something to judge there
    seeks_remedies: bool = False  # whether it would look for what puts right what it finds
    _read: frozenset[Read] = frozenset()
    _before: RuleResult | None = None  # of a rig with other numbers, where that said the same
    _different: Changes | None = None  # what differs between the two

    @property
    def read(self) -> frozenset[Read]:
        """The numbers that it rests on."""
        if self._before is not None and self._different is not None:  # most are never asked
            self._read = self._different.moved(self._before.read)
            self._before = self._different = None
        return self._read

    @read.setter
    def read(self, read: frozenset[Read]) -> None:
        self._read = read

    def in_another(self, different: Changes) -> RuleResult:
        """Return the same, said of another rig that differs so far."""
        return RuleResult(
            self.findings,
            self.waits,
            self.unable,
            self.looked_at,
            self.seeks_remedies,
            _before=self,
            _different=different,
        )


@dataclass(frozen=True, slots=True)
class RunResult:
    """What the rules find in a rig, and the rules that could not judge it."""

    findings: list[Finding]
    silent: frozenset[str]
    because: str = ""  # why some of them could not, where there is one reason


class RulebookRun:
    """Collects what the rules say of one rig."""

    def __init__(self, case: Case, rig: RigFile, force: InForce) -> None:
        self.case, self.rig, self.force = case, rig, force
        self.results: dict[str, RuleResult] = {}
        self._by_id = {placed.id: placed for placed in reversed(case.path.parts)}
        self.remedy_search: tuple[Search, NoObjection] | None = None  # where remedies are looked for

    @cached_property
    def made_of(self) -> frozenset[Read]:
        """What loads of this rig have read before any rule asks them."""
        with reading() as read:
            Loads(build(self.rig), self.case.loads.values, self.case.on)
        return read.all()

    @property
    def findings(self) -> list[Finding]:
        """What the rules find, in their order."""
        return [one for result in self.results.values() for one in result.findings]

    @property
    def looked_at(self) -> set[str]:
        """Rules that have something to judge in this rig."""
        return {rule_id for rule_id, result in self.results.items() if result.looked_at}

    @property
    def unable(self) -> dict[str, set[str]]:
        """Why something could not be computed, and the rules that needed it."""
        found: dict[str, set[str]] = {}
        for rule_id, result in self.results.items():
            for because in result.unable:
                found.setdefault(because, set()).add(rule_id)
        return found

    @property
    def waiting(self) -> list[Waiting]:
        """What is not filled in, with the rules that wait for it."""
        found: dict[tuple[str, str], Waiting] = {}
        for rule_id, result in self.results.items():
            for place, at, word in result.waits:
                found.setdefault(place, Waiting(at)).add(at, rule_id, word)
        return list(found.values())

    def seeking(self, least: Signal) -> frozenset[str]:
        """Return the rules that would look for what puts right what they find, where that is so grave or graver."""
        return frozenset(
            rule_id
            for rule_id, one in self.results.items()
            if one.seeks_remedies and any(each.signal >= least for each in one.findings)
        )

    def count(self, book: Rulebook, result: RunResult) -> RuleCount:
        """Return what became of every rule in force that looks at single rigs."""
        asked = {name for name, rule in book.rules.items() if not rule.each.library} - self.force.off
        crashed = frozenset(one.rule for one in result.findings if one.crashed)
        judged = frozenset(self.looked_at - result.silent)
        return RuleCount(
            judged, result.silent - crashed, frozenset(asked - judged - result.silent - crashed), crashed
        )

    def judge(self, rule_id: str, rule: Rule) -> None:
        """Run one rule; whatever it throws is a finding, not the end of the run."""
        result = self.results[rule_id] = RuleResult()
        with reading() as read, caught(lambda error: self._crashed(rule_id, error)):
            self._all(rule_id, rule, result)
        result.read = read.all()

    def _all(self, rule_id: str, rule: Rule, result: RuleResult) -> None:
        """Judge every subject of a rule."""
        case = self.case.for_rule(rule_id)
        try:
            subjects: Iterable[object] = rule.each.of(case)
            for number, subject in enumerate(subjects):
                result.looked_at = True
                asked = case.asked(Asked(rule, number, *self.remedy_search)) if self.remedy_search else case
                self._one(rule_id, rule, asked, subject, result)
        except ANSWERS as answer:
            self._note(rule_id, rule, answer)

    def _one(self, rule_id: str, rule: Rule, case: Case, subject: object, result: RuleResult) -> None:
        """Judge one subject; what is missing there keeps no other from being judged."""
        try:
            for fault in faults_of(rule.check(case, subject)):
                result.findings.append(self._finding(rule_id, rule, fault))
        except ANSWERS as answer:
            self._note(rule_id, rule, answer)
        finally:
            result.seeks_remedies |= case.seeks_remedies

    def _note(self, rule_id: str, rule: Rule, answer: MissingInput | NotComputable | OutOfRange) -> None:
        """Take note of an answer: something is missing, or cannot be computed."""
        if isinstance(answer, MissingInput):
            self._wait(rule_id, rule, answer)
        elif isinstance(answer, NotComputable):
            self._cannot(rule_id, answer)
        else:  # the number that is wrong is the file's, not the rule's
            self._cannot(rule_id, outside("a number", answer))

    def _cannot(self, rule_id: str, unable: NotComputable) -> None:
        self.results[rule_id].unable.append(unable.because)

    def worst(self, rule_id: str, rule: Rule) -> Signal:
        """Return the worst word that a rule could give here: the policy's, else its own, else what it grades to."""
        return max(rule.worst, self.force.word(rule_id, rule, self.case.consequence))

    def _finding(self, rule_id: str, rule: Rule, fault: Fault) -> Finding:
        signal = self.force.word(rule_id, rule, self.case.consequence, fault.signal)
        elsewhere = fault.at.path != self.rig.document.path
        shared = elsewhere and (rule.each.shared or fault.at.in_kit)
        return finding_of(
            rule_id,
            rule,
            fault,
            signal,
            inputs=self._inputs(fault),
            rigs=(self.rig.document.path,) if shared else (),
            part_words=self.in_words(fault.at.part),
        )

    def _inputs(self, fault: Fault) -> tuple[Input, ...]:
        """Return what a finding rests on; a standing tension that was read on site is named with its reading."""
        read = known(lambda: self.case.loads.tension_reading)
        if read is None or not (fault.state or FORCES & {one.symbol for one in fault.inputs}):
            return fault.inputs
        kept = [one for one in fault.inputs if one.symbol != "T0" or one.where]
        name = f"standing tension, {read.words}"
        return (*kept, Input(name, "T0", read.tension_n / 1000.0, "kN", read.at.reference))

    def in_words(self, part: str | None) -> str | None:
        """Return a part as a person counts it along the line, by its id."""
        placed = self._by_id.get(part or "")
        return self.case.path.count_words(placed) if placed else None

    def _wait(self, rule_id: str, rule: Rule, missing: MissingInput) -> None:
        word = self.worst(rule_id, rule)
        if not missing.fields:
            raise RubbishError("it waits for something without a name")
        for at in missing.fields:
            place = at.path, at.key_text  # what is no place throws here, where the rule is caught
            self.results[rule_id].waits.append((place, at, word))

    def _crashed(self, rule_id: str, error: BaseException) -> None:
        self.results[rule_id].findings.append(crashed(rule_id, error, self.rig.document.path))
