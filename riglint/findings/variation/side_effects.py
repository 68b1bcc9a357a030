"""Whether a changed rig is no worse than the rig as it stands, by any rule."""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property

from riglint.findings.finding import Finding
from riglint.loads import Loads
from riglint.rulekit import Signal

MOST_ASKED_FIRST = 4  # rules that are asked alone before all are
Gravest = dict[str, tuple[Signal, int]]
Looks = dict[tuple[str, str], tuple[float, Signal]]
ALIKE = 1e-6  # a figure that goes no further than this is the same


class SideEffectCheck:
    """Compares by rule: the gravest word of its faults and open questions, and how many there are.

    What is below WARNING is no objection: a change that puts right a grave fault may cost an advised margin. It is a
    cost all the same, and so is a figure to look at that goes further beyond its limit.
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
        self._costs: dict[Loads, list[tuple[str, Signal]]] = {}
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
            findings = self._findings_of(loads)
            there = gravest_by_rule(findings)
            found = [
                (rule, word) for rule, (word, count) in there.items() if self._is_worse(rule, word, count)
            ]
            self._known[loads] = sorted(found, key=lambda one: (-one[1], one[0]))
            self._costs[loads] = self._more_than_today(findings)
            seen = [rule for rule, _ in self._known[loads]]
            self._objected = [*seen, *(one for one in self._objected if one not in seen)][:MOST_ASKED_FIRST]
        return self._known[loads]

    def costs(self, loads: Loads) -> list[tuple[str, Signal]]:
        """Return the rules that say more or worse of a changed rig, from CAUTION up or by a figure to look at."""
        objecting = self.objecting(loads)
        return objecting or self._costs[loads]

    def costs_nothing(self, loads: Loads) -> bool:
        """Return whether no rule says more or worse of a changed rig, however mild."""
        return self(loads) and not self.costs(loads)

    def _more_than_today(self, findings: list[Finding]) -> list[tuple[str, Signal]]:
        faults, figures = gravest_by_rule(findings, Signal.CAUTION), _looks(findings)
        today_faults, today_figures = self._today_from_caution
        found = {
            rule: word for rule, (word, n) in faults.items() if (word, n) > today_faults.get(rule, (word, 0))
        }
        found |= {
            rule: word
            for (rule, at), (beyond, word) in figures.items()
            if beyond > today_figures.get((rule, at), (0.0, word))[0] * (1.0 + ALIKE)
        }
        return sorted(found.items(), key=lambda one: (-one[1], one[0]))

    @cached_property
    def _today_from_caution(self) -> tuple[Gravest, Looks]:
        today = self._findings_of(self._loads)
        return gravest_by_rule(today, Signal.CAUTION), _looks(today)


def _looks(findings: list[Finding]) -> Looks:
    """Return by rule and place how far a figure that is to be looked at is beyond its limit, with its word."""
    found: Looks = {}
    for one in findings:
        if one.kind == "review" and isinstance(one.value, int | float) and isinstance(one.limit, int | float):
            low, high = sorted((abs(one.value), abs(one.limit)))
            found[one.rule, one.at.key] = (high / low if low > 0.0 else 0.0, one.signal)
    return found


def gravest_by_rule(findings: list[Finding], least: Signal = Signal.WARNING) -> Gravest:
    """Return of each rule with a fault or open question at that word or graver the gravest word and their number."""
    found: Gravest = {}
    for one in findings:
        if one.kind != "review" and one.signal >= least:
            word, count = found.get(one.rule, (least, 0))
            found[one.rule] = max(word, one.signal), count + 1
    return found
