"""The rules over one rig with other numbers: those run again that have read one of them, all else stands as it was."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from functools import cached_property

from riglint.findings.rule_runs import RulebookRun, RuleResult
from riglint.loads import Loads
from riglint.loads.assumed import other_ends
from riglint.loads.assumed.ends import AtEnds, Chosen
from riglint.loads.what_if.uncertain_inputs import (
    MOST_WEIGHED,
    UncertainInput,
    moved_ones,
    nudged_loads,
)
from riglint.model.differences import Changes, changes
from riglint.policy import InForce
from riglint.rulebook import Rulebook
from riglint.rulekit import Case, Rule

Place = tuple[str, float]  # the name of an input with a ±, and by how many of its ± it is moved


def judges_rigs(rule_id: str, rule: Rule, force: InForce) -> bool:
    """Whether a rule is in force and looks at single rigs."""
    return rule_id not in force.off and not rule.each.library


def run_rules(loads: Loads, book: Rulebook, on: date, force: InForce) -> RulebookRun:
    """Run every rule that is not off."""
    run = RulebookRun(Case(loads, on, force.limits, force.recalled), loads.path.rig, force)
    for rule_id, rule in book.rules.items():
        if judges_rigs(rule_id, rule, force):
            run.judge(rule_id, rule)
    return run


def run_again(
    first: RulebookRun, loads: Loads, book: Rulebook, rules: Iterable[str] | None = None
) -> RulebookRun:
    """Run rules over a rig with other numbers: those again that have read one of them, all else as it was."""
    again = RunAgain([first], loads, book)
    if rules is None:
        return again.whole
    for rule_id in rules:
        again.result(rule_id)
    return again.run


class RunAgain:
    """A run over a rig with other numbers than those of runs before it, rule by rule as they are asked for."""

    def __init__(self, before: Sequence[RulebookRun], loads: Loads, book: Rulebook) -> None:
        """Start with runs over the rig with other numbers, on the same terms; the first of them ran every rule."""
        self._first, self._book = before[0], book
        self.run = RulebookRun(before[0].case.of(loads), loads.path.rig, before[0].force)
        compared = [(one, _different(one, self.run)) for one in before]
        self._before = [(one, different) for one, different in compared if not different.beyond]
        self._known: dict[str, RuleResult] = {}

    def result(self, rule_id: str) -> RuleResult:
        """Return what one rule says."""
        if rule_id not in self.run.results:
            self.run.results[rule_id] = self._as_before(rule_id) or self._judged(rule_id)
        return self.run.results[rule_id]

    @cached_property
    def whole(self) -> RulebookRun:
        """The run of every rule, in their order."""
        said = {rule_id: self.result(rule_id) for rule_id in self._first.results}
        self.run.results = said
        return self.run

    def _as_before(self, rule_id: str) -> RuleResult | None:
        """Return what a rule said of a rig with other numbers, where it read none of those; None where it did."""
        if not _is_own(rule_id, self._book):
            return None
        for one, different in self._before:
            said = one.results.get(rule_id)
            if said is not None and not different.touch(said.read):
                return said.in_another(different)
        return None

    def _judged(self, rule_id: str) -> RuleResult:
        self.run.judge(rule_id, self._book.rules[rule_id])
        return self.run.results[rule_id]


def _different(before: RulebookRun, run: RulebookRun) -> Changes:
    """Return what differs between the rigs of two runs."""
    different = changes(before.rig, run.rig)
    different.beyond |= different.touch(before.made_of)
    different.beyond |= run.case.loads.values is not before.case.loads.values
    different.decide(before.case.loads, run.case.loads, "consequence_word")
    return different


def _is_own(rule_id: str, book: Rulebook) -> bool:
    """Whether a rule is riglint's own; what somebody else's rests on beside the rig, nobody knows."""
    return rule_id.partition("/")[0] not in book.house


class Runs:
    """The runs over one rig: as it stands, and with each input moved inside its ±.

    With runs over the same rig with another value in it, each of these is made of them.
    """

    def __init__(
        self,
        loads: Loads,
        book: Rulebook,
        on: date,
        force: InForce,
        like: tuple[Runs, ...] = (),
        *,
        keep: bool,
    ) -> None:
        """Start with the loads of the rig; `keep` says whether runs with moved inputs are kept for other values."""
        self.loads, self.book, self.on, self.force = loads, book, on, force
        self._like, self.keep = like, keep
        self._moved: dict[Place, RunAgain] = {}
        self._ends: dict[Chosen, Runs] = {}
        self._alone: dict[Chosen, Runs] = {}

    @cached_property
    def others(self) -> list[AtEnds]:
        """The rig at the other ends of what is assumed of it."""
        return list(other_ends(self.loads))

    @cached_property
    def inputs(self) -> tuple[list[UncertainInput], list[UncertainInput]]:
        """The inputs that are moved, and those that are too many."""
        return moved_ones(self.loads.path.rig, MOST_WEIGHED)

    @cached_property
    def first(self) -> RulebookRun:
        """The run over the rig as it stands."""
        if self._again is not None:
            return self._again.whole
        return run_rules(self.loads, self.book, self.on, self.force)

    def at_end(self, chosen: Chosen, loads: Loads) -> Runs:
        """Return the runs over the rig at other ends of what is assumed of it.

        Beside the rig itself, it is like itself with other values in it, and like the other ends: where a word is
        assumed, only they differ by no more than numbers.
        """
        before = (one._ends[chosen] for one in self._like if chosen in one._ends)  # noqa: SLF001 - of the same kind
        if chosen not in self._ends:
            like = (self, *before, *self._ends.values())
            self._ends[chosen] = Runs(loads, self.book, self.on, self.force, like, keep=self.keep)
        return self._ends[chosen]

    def alone_at(self, chosen: Chosen) -> Runs | None:
        """Return the runs at other ends, for which no rule runs here; None where nothing like them is known."""
        if chosen not in self._alone:
            like = tuple(one._ends[chosen] for one in self._like if chosen in one._ends)  # noqa: SLF001
            loads = next((one.loads for one in self.others if one.chosen == chosen), None)
            if loads is None or not like:
                return None
            self._alone[chosen] = Runs(loads, self.book, self.on, self.force, like, keep=self.keep)
        return self._alone[chosen]

    def moved(self, moved: UncertainInput, by: float) -> RulebookRun:
        """Return the run over the rig with one input moved by so many of its ±.

        Raises:
            OutOfRange: no line is there.
        """
        return self._with(moved, by, [self.first]).whole

    def said(self, rule_id: str, at: Place | None) -> tuple[RuleResult, RuleResult | None]:
        """Return what one rule says of the rig, and with an input moved; that is None where no such input is.

        For a rig with another value in it than one whose runs are known: no other rule runs.

        Raises:
            OutOfRange: no line is there.
        """
        assert self._again is not None  # noqa: S101 - asked only then
        here = self._again.result(rule_id)
        moved = next((one for one in self.inputs[0] if at is not None and one.name == at[0]), None)
        if at is None or moved is None:
            return here, None
        return here, self._with(moved, at[1], [self._again.run]).result(rule_id)

    @cached_property
    def _again(self) -> RunAgain | None:
        return RunAgain([one.first for one in self._like], self.loads, self.book) if self._like else None

    def _with(self, moved: UncertainInput, by: float, before: list[RulebookRun]) -> RunAgain:
        at = moved.name, by
        if at in self._moved:
            return self._moved[at]
        likewise = (one._moved.get(at) for one in self._like)  # noqa: SLF001 - of the same kind
        before = [*before, *(one.whole for one in likewise if one is not None)]
        again = RunAgain(before, nudged_loads(self.loads, moved, by), self.book)
        if self.keep:
            self._moved[at] = again
        return again
