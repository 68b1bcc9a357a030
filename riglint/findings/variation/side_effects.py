"""Whether a changed rig is no worse than the rig as it stands, by any rule."""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property

from riglint.findings.finding import Finding
from riglint.loads import Loads
from riglint.rulekit import Signal

MOST_ASKED_FIRST = 4  # rules that are asked alone before all are
Gravest = dict[str, tuple[Signal, int]]


class SideEffectCheck:
    """Compares by rule: the gravest word of its faults and open questions, and how many there are.

    What is below WARNING is not counted: a change that puts right a grave fault may cost an advised margin.
    """

    def __init__(
        self,
        findings_of: Callable[[Loads], list[Finding]],
        loads: Loads,
        findings_by_rule: Callable[[str, Loads], list[Finding]] = lambda _rule, _loads: [],
    ) -> None:
        """Compare with the findings of a rig; `findings_by_rule` runs one rule alone."""
        self._findings_of, self._loads, self._findings_by_rule = findings_of, loads, findings_by_rule
        self._known: dict[Loads, list[tuple[str, Signal]]] = {}
        self._objected: list[str] = []  # rules that have objected to a change before, the last one first

    @cached_property
    def _today(self) -> Gravest:
        return gravest_by_rule(self._findings_of(self._loads))

    def __call__(self, loads: Loads) -> bool:
        """Return whether no rule says more or worse of a changed rig."""
        if loads not in self._known and any(self._objects(rule, loads) for rule in self._objected):
            return False
        return not self.objecting(loads)

    def _objects(self, rule: str, loads: Loads) -> bool:
        """Return whether the faults of one rule, which no other rule can make fewer, are enough for an objection."""
        there = gravest_by_rule(self._findings_by_rule(rule, loads)).get(rule)
        return there is not None and self._is_worse(rule, *there)

    def _is_worse(self, rule: str, word: Signal, count: int) -> bool:
        today_word, today_count = self._today.get(rule, (Signal.CAUTION, 0))
        return word > today_word or count > today_count

    def objecting(self, loads: Loads) -> list[tuple[str, Signal]]:
        """Return the rules that say more or worse of a changed rig, with the gravest word of each, gravest first."""
        if loads not in self._known:
            there = gravest_by_rule(self._findings_of(loads))
            found = [
                (rule, word) for rule, (word, count) in there.items() if self._is_worse(rule, word, count)
            ]
            self._known[loads] = sorted(found, key=lambda one: (-one[1], one[0]))
            seen = [rule for rule, _ in self._known[loads]]
            self._objected = [*seen, *(one for one in self._objected if one not in seen)][:MOST_ASKED_FIRST]
        return self._known[loads]


def gravest_by_rule(findings: list[Finding], least: Signal = Signal.WARNING) -> Gravest:
    """Return of each rule with a fault or open question at that word or graver the gravest word and their number."""
    found: Gravest = {}
    for one in findings:
        if one.kind != "review" and one.signal >= least:
            word, count = found.get(one.rule, (least, 0))
            found[one.rule] = max(word, one.signal), count + 1
    return found
