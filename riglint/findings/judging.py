"""Runs every rule over one rig: what it says, what it waits for, what nobody could compute.

A question that cannot be judged is `open`, never passed over; a rule that crashes is a DANGER of its own.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from riglint.findings.accepting import accept
from riglint.findings.bounding import bounded
from riglint.findings.crashing import not_loaded
from riglint.findings.finding import AssumedValue, Finding, NotJudged, RuleCount
from riglint.findings.open_questions import missing_inputs, not_computable
from riglint.findings.raised_class import report_raised_class
from riglint.findings.rule_runs import RulebookRun, RunResult
from riglint.findings.variation.over_ends import over_ends
from riglint.findings.variation.running_again import Runs, judges_rigs, run_again, run_rules
from riglint.findings.variation.side_effects import SideEffectCheck
from riglint.findings.variation.uncertainty import weigh
from riglint.loads import Loads
from riglint.loads.assumed import loads_of, other_ends
from riglint.loads.states.consequence import CLASSES
from riglint.loads.what_if.solved_for import Search
from riglint.loads.what_if.uncertain_inputs import UncertainInput
from riglint.mechanics.valid_range import OutOfRange
from riglint.model.library import RigFile
from riglint.model.reads import track_below
from riglint.model.vocabulary.fields import Form
from riglint.policy import DEFAULT, InForce
from riglint.records import dataclass
from riglint.rulebook import Rulebook
from riglint.rulekit import Signal
from riglint.rulekit.case import NoObjection


@dataclass(slots=True)
class Judged:
    """One rig as the rules see it."""

    loads: Loads  # where it pulls hardest, with what a failure would mean where it means most
    findings: list[Finding]
    not_judged: list[NotJudged]
    answered: frozenset[str] = frozenset()  # rules that judged all that they look at
    unanswered: frozenset[str] = frozenset()  # rules that could not
    rules: RuleCount | None = None  # but for those that look at a whole library
    assumed: tuple[AssumedValue, ...] = ()  # what the rig leaves out and its parts tell
    unsearched: frozenset[str] = (
        frozenset()
    )  # rules that could have looked for remedies and were not asked to


def judge(
    rig: RigFile,
    book: Rulebook,
    on: date,
    force: InForce = DEFAULT,
    loads: Loads | None = None,
    *,
    weighed: bool = False,
    with_remedies: bool = True,
    remedies_from: Signal = Signal.NOTICE,
    runs: Runs | None = None,
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
        remedies_from: the lowest word at which a rule looks for them.
        runs: the runs over these loads, on the same terms, where somebody has begun with them.
    """
    track_below(Form)
    loads = loads or loads_of(rig, force.values, on)
    others = runs.others if runs is not None else list(other_ends(loads))
    runs = runs or Runs(loads, book, on, force, keep=bool(others))
    # What puts a fault right at one end may make another at the next, so nothing is looked for between them.
    least = None if others or not with_remedies else remedies_from
    once = _judged_once(runs, weighed=weighed, remedies_from=least)
    ends = [(one.chosen, _judged_once(runs.at_end(one.chosen, one.loads), weighed=weighed)) for one in others]
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
    whole = loads.of_class(worst.loads.consequence) if others else loads
    return Judged(whole, findings, unable, answered, unanswered, rules, assumed, once.unsearched)


def _judged_once(runs: Runs, *, weighed: bool, remedies_from: Signal | None = None) -> Judged:
    """Run every rule over one rig as it is computed, before anything is accepted; None looks for no remedies."""
    loads, book, first, force = runs.loads, runs.book, runs.first, runs.force

    def judged_again(other: Loads) -> RunResult:
        return result_of(run_again(first, other, book), book)

    def faults_by(rule_id: str, other: Loads) -> list[Finding]:
        return run_again(first, other, book, (rule_id,)).findings

    no_objection = SideEffectCheck(lambda other: judged_again(other).findings, loads, faults_by)
    seeking = frozenset() if remedies_from is None else first.seeking(remedies_from)
    run = _with_remedies(first, book, no_objection, seeking) if seeking else first
    result = result_of(run, book)
    findings = result.findings
    if weighed:
        in_force = {name: rule for name, rule in book.rules.items() if judges_rigs(name, rule, force)}

        def again(moved: UncertainInput, by: float) -> RunResult:
            try:
                again = runs.moved(moved, by)
                result = result_of(again, book)
            except OutOfRange as error:  # a ± that ends where no line is
                return RunResult([], frozenset(in_force), str(error))
            if not runs.keep:
                again.case.loads.let_go()
            return result

        def word(name: str) -> Signal:
            return run.worst(name, book.rules[name])

        findings = weigh(loads.path.rig, result, again, word, in_force, inputs=runs.inputs)
    findings = report_raised_class(
        findings,
        loads,
        lambda of: result_of(run_rules(of, book, runs.on, force), book).findings,
        book.explaining,
    )
    unable = [NotJudged(because, len(rules)) for because, rules in run.unable.items()]
    answered = frozenset(run.looked_at - result.silent)
    unsearched = frozenset() if remedies_from is None else first.seeking(Signal.NOTICE) - seeking
    return Judged(
        loads, findings, unable, answered, result.silent, run.count(book, result), unsearched=unsearched
    )


def result_of(run: RulebookRun, book: Rulebook) -> RunResult:
    """Return all findings of a run, and the rules that could not judge everything they look at."""
    silent = {rule_id for rule_id, one in run.results.items() if one.waits or one.unable}
    silent |= {finding.rule for finding in run.findings if finding.crashed}
    findings = [*run.findings, *missing_inputs(run, book), *not_computable(run, book)]
    return RunResult(findings, frozenset(silent), next(iter(run.unable), ""))


def _with_remedies(
    first: RulebookRun, book: Rulebook, no_objection: NoObjection, seeking: frozenset[str]
) -> RulebookRun:
    """Run the rules again that look for what would put right what they find, and let them look: one search for all."""
    run = RulebookRun(first.case, first.rig, first.force)
    run.remedy_search = Search(first.case.loads), no_objection
    for rule_id, before in first.results.items():
        if rule_id in seeking:
            run.judge(rule_id, book.rules[rule_id])
        else:
            run.results[rule_id] = before
    return run
