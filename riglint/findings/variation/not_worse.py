"""Whether a changed rig is no worse than the rig as it stands, by any rule."""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property

from riglint.findings.finding import Finding
from riglint.loads import Loads
from riglint.rulekit import Signal

Gravest = dict[str, tuple[Signal, int]]


class NoWorse:
    """Compares by rule: the gravest word of its faults and open questions, and how many there are.

    What is below WARNING is not counted: a change that puts right a grave fault may cost an advised margin.
    """

    def __init__(self, told: Callable[[Loads], list[Finding]], loads: Loads) -> None:
        self._told, self._loads = told, loads

    @cached_property
    def _today(self) -> Gravest:
        return gravest_by_rule(self._told(self._loads))

    def __call__(self, loads: Loads) -> bool:
        """Return whether no rule says more or worse of a changed rig."""
        return not self.objecting(loads)

    def objecting(self, loads: Loads) -> list[tuple[str, Signal]]:
        """Return the rules that say more or worse of a changed rig, with the gravest word of each, gravest first."""
        found = []
        for rule, (word, count) in gravest_by_rule(self._told(loads)).items():
            today_word, today_count = self._today.get(rule, (Signal.CAUTION, 0))
            if word > today_word or count > today_count:
                found.append((rule, word))
        return sorted(found, key=lambda one: (-one[1], one[0]))


def gravest_by_rule(findings: list[Finding], least: Signal = Signal.WARNING) -> Gravest:
    """Return of each rule with a fault or open question at that word or graver the gravest word and their number."""
    found: Gravest = {}
    for one in findings:
        if one.kind != "review" and one.signal >= least:
            word, count = found.get(one.rule, (least, 0))
            found[one.rule] = max(word, one.signal), count + 1
    return found
