"""What keeps a rig with another value from passing: the rules that object, each asked alone before all are.

One rule that says more or worse than today is enough, as long as nothing that other rules say can take it back.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from collections.abc import Set as AbstractSet
from itertools import islice
from typing import NamedTuple

from riglint.findings.bounding import LEFT_OUT
from riglint.findings.finding import Finding
from riglint.findings.judging import result_of
from riglint.findings.variation.running_again import Place, Runs
from riglint.findings.variation.side_effects import gravest_by_rule
from riglint.findings.variation.uncertainty import appearing
from riglint.loads.assumed.ends import Chosen
from riglint.mechanics.valid_range import OutOfRange
from riglint.records import dataclass
from riglint.rulekit import Signal

IsWorse = Callable[
    [str, Signal, int], bool
]  # whether a rule with such a gravest word and so many findings is


class Objection(NamedTuple):
    """A rule that was worse than today, and where."""

    rule: str
    chosen: Chosen | None = None  # at these ends of what is assumed; None at the first
    at: Place | None = None  # with this input moved; None as written


@dataclass(slots=True)
class Objecting:
    """Asks single rules whether they are worse over a rig with another value in it."""

    today: list[Finding]
    accepted: frozenset[str]  # rules that somebody answers for
    stop_at: Signal
    several: bool  # whether the rig is judged at several ends of what is assumed of it
    before: list[Objection]  # to other values, the last one first

    def again(self, runs: Runs, is_worse: IsWorse) -> bool:
        """Return whether a rule objects that did to another value."""
        return any(self._objects(runs, one, is_worse) for one in self.before)

    def as_written(self, runs: Runs, is_worse: IsWorse, *, most: int | None = None) -> bool:
        """Return whether any rule objects at any, or so many, ends of what is assumed, with no input moved."""
        here = [one for one in self.before if one.chosen is None and one.at is None]
        if any(self._objects(runs, one, is_worse) for one in here):
            return True
        for chosen, each in islice(_ends(runs), most):
            for rule, said in each.first.results.items():
                if said.findings and self._tells(each, rule, said.findings, is_worse):
                    self.before.insert(0, Objection(rule, chosen))
                    return True
        return False

    def note(self, runs: Runs, rules: list[str], is_worse: IsWorse) -> bool:
        """Return whether, with an input moved, one of the rules that are worse objects by itself."""
        for chosen, each in _ends(runs):
            places = [(one.name, by) for one in each.inputs[0] for by in (-1.0, 1.0)]
            for one in (Objection(rule, chosen, at) for at in places for rule in rules):
                if self._objects(runs, one, is_worse):
                    self.before.insert(0, one)
                    return True
        return False

    def perhaps_silent(self, runs: Runs, rules: AbstractSet[str]) -> set[str]:
        """Return which of some rules may say nothing, by what all of them say at the first ends, as written."""
        left = {rule for rule in rules if not self._objects(runs, Objection(rule), lambda *_: True)}
        if not left or self._too_many:
            return left
        told = result_of(runs.first, runs.book).findings
        return left - {one.rule for one in told if one.kind == "open" and one.signal >= self.stop_at}

    def _objects(self, runs: Runs, one: Objection, is_worse: IsWorse) -> bool:
        each = runs if one.chosen is None else runs.alone_at(one.chosen)
        if each is None:
            return False
        try:
            here, there = each.said(one.rule, one.at)
        except OutOfRange:
            return False
        faults = [*here.findings, *(appearing(here.findings, there.findings) if there is not None else ())]
        return bool(faults) and self._tells(each, one.rule, faults, is_worse)

    def _tells(self, runs: Runs, rule: str, faults: list[Finding], is_worse: IsWorse) -> bool:
        """Return whether the faults of one rule are enough to know that it is worse, whatever all others say.

        Faults that one rule finds, as written or with an input at an end of its ±, stay in an audit, at that word or a
        graver one; where something is assumed, at least one at each place. Not so where somebody answers for them, or
        where the class of consequence is not known.
        """
        said = gravest_by_rule(faults, self.stop_at).get(rule)
        if said is None or rule in self.accepted or self._too_many:
            return False
        word, count = said
        if self.several:
            grave = [one for one in faults if one.kind != "review" and one.signal >= self.stop_at]
            count = len({(one.at.path, one.at.key, one.at.part) for one in grave})
        known = rule in runs.book.explaining or runs.loads.consequence.unknown is None
        return is_worse(rule, word, count) and known

    @property
    def _too_many(self) -> bool:
        """Whether an audit leaves out findings of the rig as it stands."""
        return any(one.rule == LEFT_OUT for one in self.today)


def _ends(runs: Runs) -> Iterator[tuple[Chosen | None, Runs]]:
    """Yield the runs over a rig, and those at the other ends of what is assumed of it."""
    yield None, runs
    for one in runs.others:
        yield one.chosen, runs.at_end(one.chosen, one.loads)
