"""One rig with other values in it, judged by the whole rulebook, each value once."""

from __future__ import annotations

from collections.abc import Set as AbstractSet
from dataclasses import field, replace
from datetime import date

from riglint.findings.finding import Finding
from riglint.findings.judging import judge
from riglint.findings.variation.objecting import IsWorse, Objecting, Objection
from riglint.findings.variation.running_again import Runs
from riglint.findings.variation.side_effects import gravest_by_rule
from riglint.loadpath import build
from riglint.loads import Loads
from riglint.loads.inputs import known
from riglint.loads.what_if.solved_for import Adjustment, Edit, Search
from riglint.model.changed import with_value
from riglint.model.reads import track_below
from riglint.model.vocabulary.fields import Form
from riglint.policy import InForce
from riglint.read.quantity import parse_quantity
from riglint.records import dataclass
from riglint.rulebook import Rulebook
from riglint.rulekit import Signal

_Value = tuple[tuple[object, ...], tuple[str, ...]]  # keys of the rig file, and what is written there
LEFT_M = 0.01  # of rope tail; nobody measures it closer


@dataclass(frozen=True, slots=True)
class RangeEnd:
    """One end of a range: the last value that passes, and what the next one brings; None where the search ended."""

    last: str
    beyond: Finding | None
    # What must be written anew with the last value: the rope tail, which was read off a rope that lies otherwise.
    along: tuple[Edit, ...] = ()


@dataclass(slots=True)
class VariedRig:
    """Judges one rig with other values; each once."""

    loads: Loads
    book: Rulebook
    on: date
    force: InForce
    stop_at: Signal
    search: Search = field(init=False)
    today: list[Finding] = field(init=False)
    _runs: Runs = field(init=False)  # over the rig as it stands
    _objecting: Objecting = field(init=False)
    _known: dict[_Value, list[Finding]] = field(default_factory=dict)
    _unexplained: set[_Value] = field(default_factory=set)  # those that no single rule explains
    _begun: dict[_Value, Runs] = field(default_factory=dict)  # with values that an objection was enough for

    def __post_init__(self) -> None:
        track_below(Form)
        self.search = Search(self.loads)
        self._runs = Runs(self.loads, self.book, self.on, self.force, keep=True)
        self.today = self._grave(self._runs)
        accepted = frozenset(one.rule for one in self.loads.path.rig.rig.accepted)
        first = [Objection(rule) for rule in gravest_by_rule(self.today, self.stop_at)]
        several = bool(self._runs.others)
        self._objecting = Objecting(self.today, accepted, self.stop_at, several, first)

    def at(self, adjustment: Adjustment, steps: int) -> list[Finding]:
        """Return what is found that counts with an adjustment at a step."""
        name = adjustment.keys, self.search.texts(adjustment, steps)
        if name not in self._known:
            runs = self._with(adjustment, name)
            self._known[name] = self._grave(runs)
            self._begun.pop(name, None)
        return self._known[name]

    def silenced(self, adjustment: Adjustment, steps: int, rules: AbstractSet[str]) -> AbstractSet[str]:
        """Return which rules of today say nothing with an adjustment at a step; none where the line is not computed."""
        name = adjustment.keys, self.search.texts(adjustment, steps)
        if name not in self._known and not self._objecting.perhaps_silent(
            self._with(adjustment, name), rules
        ):
            return frozenset()
        found = self.at(adjustment, steps)
        unable = any(
            one.rule in self.book.explaining or (one.kind == "open" and not one.at.key) for one in found
        )
        return frozenset() if unable else rules - {one.rule for one in found}

    def fails(self, adjustment: Adjustment, steps: int, is_worse: IsWorse) -> bool:
        """Return whether some rule is worse with an adjustment at a step.

        One rule that is worse is enough: those that were at another value are asked before all are.
        """
        name = adjustment.keys, self.search.texts(adjustment, steps)
        if name in self._known:
            return bool(self._worse(self._known[name], is_worse))
        runs = self._with(adjustment, name)
        if self._objecting.again(runs, is_worse) or self._objecting.as_written(runs, is_worse):
            return True
        worse = self._worse(self.at(adjustment, steps), is_worse)
        if worse and not self._objecting.note(runs, worse, is_worse):
            self._unexplained.add(name)
        return bool(worse)

    def fails_as_written(self, adjustment: Adjustment, steps: int, is_worse: IsWorse) -> bool:
        """Return whether some rule is worse as written, at the first ends of what is assumed."""
        name = adjustment.keys, self.search.texts(adjustment, steps)
        if name in self._known:
            return bool(self._worse(self._known[name], is_worse))
        runs = self._with(adjustment, name)
        return self._objecting.as_written(runs, is_worse, most=1)

    def is_explained(self, adjustment: Adjustment, steps: int) -> bool:
        """Return whether a value that did not pass was objected to by a rule that can be asked alone."""
        return (adjustment.keys, self.search.texts(adjustment, steps)) not in self._unexplained

    def is_objected_to(self, adjustment: Adjustment, steps: int, is_worse: IsWorse) -> bool:
        """Return whether a rule that was worse with another value is with this one; no other rule is asked."""
        name = adjustment.keys, self.search.texts(adjustment, steps)
        if name in self._known:
            return bool(self._worse(self._known[name], is_worse))
        return self._objecting.again(self._with(adjustment, name), is_worse)

    def _worse(self, found: list[Finding], is_worse: IsWorse) -> list[str]:
        return [rule for rule, said in gravest_by_rule(found, self.stop_at).items() if is_worse(rule, *said)]

    def _with(self, adjustment: Adjustment, name: _Value) -> Runs:
        """Return the runs over the rig with a value."""
        if name not in self._begun:
            moved = self.search.with_texts(adjustment, name[1])
            loads = _with(moved, self.along(moved))
            self._begun[name] = Runs(loads, self.book, self.on, self.force, (self._runs,), keep=True)
        return self._begun[name]

    def edge(self, adjustment: Adjustment, steps: int, text: str, beyond: Finding | None) -> RangeEnd:
        """Return the end of a range at a step, with what must be written anew there."""
        moved = self.search.with_texts(adjustment, self.search.texts(adjustment, steps))
        return RangeEnd(text, beyond, self.along(moved))

    def along(self, moved: Loads) -> tuple[Edit, ...]:
        """Return what a moved rig leaves of the rope tail, where the file says how much is left today."""
        placed = moved.path.haul
        left = (
            placed.part.rope_tail.left if placed is not None and placed.part.rope_tail is not None else None
        )
        behind = [known(lambda one=one: _behind_brake_m(one)) for one in (self.loads, moved)]  # type: ignore[misc]
        if placed is None or left is None or behind[0] is None or behind[1] is None:
            return ()
        text = f"{max(left.si + behind[1] - behind[0], 0.0):.2f} m"
        if abs(parse_quantity(text, "length").si - left.si) < LEFT_M:
            return ()
        return (Edit(moved.geometry.on_part(placed, "tail", "left"), left.text, text),)

    def _grave(self, runs: Runs) -> list[Finding]:
        judged = judge(
            runs.loads.path.rig,
            self.book,
            self.on,
            self.force,
            runs.loads,
            weighed=True,
            with_remedies=False,
            runs=runs,
        )
        # A look on site is asked for whatever the value is, so it ends no range.
        return [
            one
            for one in judged.findings
            if one.counts and one.kind != "review" and one.signal >= self.stop_at
        ]


def _with(loads: Loads, edits: tuple[Edit, ...]) -> Loads:
    """Return the loads of a rig with lengths written anew."""
    rig = loads.path.rig
    for one in edits:
        rig = replace(rig, rig=with_value(rig.rig, one.at.key, parse_quantity(one.new, "length")))
    return Loads(build(rig), loads.values, loads.on) if edits else loads


def _behind_brake_m(loads: Loads) -> float | None:
    haul = loads.haul
    return None if haul is None else haul.behind_brake_m(loads.standing.block_run.standing_m)
