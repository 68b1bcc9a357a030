"""Runs every rule over one rig: what it says, what it waits for, what nobody could compute.

A question that cannot be judged is `open`, never passed over; a rule that crashes is a DANGER of its own.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date

from riglint.findings.accepting import accept
from riglint.findings.bounding import bounded
from riglint.findings.crashing import not_loaded
from riglint.findings.finding import AssumedValue, Finding, NotJudged, RuleCount
from riglint.findings.open_questions import missing_inputs, not_computable
from riglint.findings.raised_class import report_raised_class
from riglint.findings.rule_runs import RulebookRun, RunResult
from riglint.findings.variation.over_ends import over_ends
from riglint.findings.variation.side_effects import SideEffectCheck
from riglint.findings.variation.uncertainty import weigh
from riglint.loads import Loads
from riglint.loads.assumed import loads_of, other_ends
from riglint.loads.states.consequence import CLASSES
from riglint.loads.what_if.solved_for import Search
from riglint.loads.what_if.uncertain_inputs import UncertainInput, nudged_loads
from riglint.mechanics.valid_range import OutOfRange
from riglint.model.library import RigFile
from riglint.model.reads import changes, track_below
from riglint.model.vocabulary.fields import Form
from riglint.policy import DEFAULT, InForce
from riglint.rulebook import Rulebook
from riglint.rulekit import Case, Rule
from riglint.rulekit.case import NoObjection


@dataclass(slots=True)
class Judged:
    """One rig as the rules see it."""

    loads: Loads
    findings: list[Finding]
    not_judged: list[NotJudged]
    answered: frozenset[str] = frozenset()  # rules that judged all that they look at
    unanswered: frozenset[str] = frozenset()  # rules that could not
    rules: RuleCount | None = None  # but for those that look at a whole library
    assumed: tuple[AssumedValue, ...] = ()  # what the rig leaves out and its parts tell


def judge(
    rig: RigFile,
    book: Rulebook,
    on: date,
    force: InForce = DEFAULT,
    loads: Loads | None = None,
    *,
    weighed: bool = False,
    with_remedies: bool = True,
) -> Judged:
    """Run every rule over one rig; where something is assumed of it, at each end of that.

    Args:
        rig: the rig.
        book: the rules.
        on: the day to judge by.
        force: limits, words and values in force.
        loads: its loads on that day, where they are computed already.
        weighed: whether the ± of its inputs is weighed, for which the rules run twice more for each.
        with_remedies: whether rules look for what would put right what they find, for which rigs are computed again.
    """
    track_below(Form)
    loads = loads or loads_of(rig, force.values, on)
    others = list(other_ends(loads))
    # What puts a fault right at one end may make another at the next, so nothing is looked for between them.
    once = _judged_once(loads, book, on, force, weighed=weighed, with_remedies=with_remedies and not others)
    ends = [(one.chosen, _judged_once(one.loads, book, on, force, weighed=weighed)) for one in others]
    found = [(one, each.findings) for one, each in ends]
    findings, assumed = over_ends(loads.path.rig, once.findings, found, book.explaining)
    judged = [once, *(each for _, each in ends)]
    findings = accept(findings, loads, book, on)
    findings += [not_loaded(one.name, one.because, rig.document.path) for one in book.broken]
    findings = bounded(findings, rig.document.path)
    worst = max(judged, key=lambda one: CLASSES.index(one.loads.consequence.word))
    unanswered = frozenset().union(*(one.unanswered for one in judged))
    answered = frozenset.intersection(*(one.answered for one in judged)) - unanswered
    unable = list(dict.fromkeys(gap for one in judged for gap in one.not_judged))
    rules = once.rules and replace(once.rules, judged=answered, open=once.rules.open | unanswered)
    return Judged(worst.loads, findings, unable, answered, unanswered, rules, assumed)


def _judged_once(
    loads: Loads,
    book: Rulebook,
    on: date,
    force: InForce,
    *,
    weighed: bool,
    with_remedies: bool = False,
) -> Judged:
    """Run every rule over one rig as it is computed, before anything is accepted."""
    rig = loads.path.rig
    first = run_rules(loads, book, on, force)

    def judged_again(other: Loads) -> RunResult:
        return result_of(run_again(first, other, book), book)

    def faults_by(rule_id: str, other: Loads) -> list[Finding]:
        return run_again(first, other, book, (rule_id,)).findings

    no_objection = SideEffectCheck(lambda other: judged_again(other).findings, loads, faults_by)
    run = _with_remedies(first, book, no_objection) if with_remedies else first
    result = result_of(run, book)
    findings = result.findings
    if weighed:
        in_force = {name: rule for name, rule in book.rules.items() if _judges_rigs(name, rule, force)}

        def again(moved: UncertainInput, by: float) -> RunResult:
            try:
                return judged_again(nudged_loads(loads, moved, by))
            except OutOfRange as error:  # a ± that ends where no line is
                return RunResult([], frozenset(in_force), str(error))

        findings = weigh(rig, result, again, lambda name: run.worst(name, book.rules[name]), in_force)
    findings = report_raised_class(
        findings, loads, lambda of: result_of(run_rules(of, book, on, force), book).findings, book.explaining
    )
    unable = [NotJudged(because, len(rules)) for because, rules in run.unable.items()]
    answered = frozenset(run.looked_at - result.silent)
    return Judged(loads, findings, unable, answered, result.silent, run.count(book, result))


def result_of(run: RulebookRun, book: Rulebook) -> RunResult:
    """Return all findings of a run, and the rules that could not judge everything they look at."""
    silent = {rule_id for rule_id, one in run.results.items() if one.waits or one.unable}
    silent |= {finding.rule for finding in run.findings if finding.crashed}
    findings = [*run.findings, *missing_inputs(run, book), *not_computable(run, book)]
    return RunResult(findings, frozenset(silent), next(iter(run.unable), ""))


def run_rules(loads: Loads, book: Rulebook, on: date, force: InForce) -> RulebookRun:
    """Run every rule that is not off."""
    run = RulebookRun(Case(loads, on, force.limits, force.recalled), loads.path.rig, force)
    for rule_id, rule in book.rules.items():
        if _judges_rigs(rule_id, rule, force):
            run.judge(rule_id, rule)
    return run


def run_again(
    first: RulebookRun, loads: Loads, book: Rulebook, rules: Iterable[str] | None = None
) -> RulebookRun:
    """Run rules over a rig with other numbers: those again that have read one of them, all else as it was."""
    run = RulebookRun(first.case.of(loads), loads.path.rig, first.force)
    different = changes(first.rig, run.rig)
    different.beyond |= different.touch(first.made_of) or loads.values is not first.case.loads.values
    for rule_id in first.results if rules is None else rules:
        before = first.results[rule_id]
        if _is_own(rule_id, book) and not different.touch(before.read):
            run.results[rule_id] = replace(before, read=different.moved(before.read))
        else:
            run.judge(rule_id, book.rules[rule_id])
    return run


def _is_own(rule_id: str, book: Rulebook) -> bool:
    """Whether a rule is riglint's own; what somebody else's rests on beside the rig, nobody knows."""
    return rule_id.partition("/")[0] not in book.house


def _with_remedies(first: RulebookRun, book: Rulebook, no_objection: NoObjection) -> RulebookRun:
    """Run the rules again that look for what would put right what they find, and let them look."""
    run = RulebookRun(first.case, first.rig, first.force)
    run.remedy_search = Search(first.case.loads), no_objection
    for rule_id, before in first.results.items():
        if before.seeks_remedies:
            run.judge(rule_id, book.rules[rule_id])
        else:
            run.results[rule_id] = before
    return run


def _judges_rigs(rule_id: str, rule: Rule, force: InForce) -> bool:
    return rule_id not in force.off and not rule.each.library
