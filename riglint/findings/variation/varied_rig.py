"""One rig with other values in it, judged by the whole rulebook, each value once."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import field, replace
from datetime import date

from riglint.findings.bounding import LEFT_OUT
from riglint.findings.finding import Finding
from riglint.findings.judging import judge
from riglint.findings.variation.running_again import Place, Runs
from riglint.findings.variation.side_effects import gravest_by_rule
from riglint.findings.variation.uncertainty import appearing
from riglint.loadpath import build
from riglint.loads import Loads
from riglint.loads.inputs import known
from riglint.loads.what_if.solved_for import Adjustment, Edit, Search
from riglint.mechanics.valid_range import OutOfRange
from riglint.model.changed import with_value
from riglint.model.reads import track_below
from riglint.model.vocabulary.fields import Form
from riglint.policy import InForce
from riglint.read.quantity import parse_quantity
from riglint.records import dataclass
from riglint.rulebook import Rulebook
from riglint.rulekit import Signal

IsWorse = Callable[
    [str, Signal, int], bool
]  # whether a rule with such a gravest word and so many findings is
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
    _known: dict[_Value, list[Finding]] = field(default_factory=dict)
    _begun: dict[_Value, Runs] = field(default_factory=dict)  # with values that an objection was enough for
    _objected: list[tuple[str, Place | None]] = field(
        default_factory=list
    )  # to other values, the last one first

    def __post_init__(self) -> None:
        track_below(Form)
        self.search = Search(self.loads)
        self._runs = Runs(self.loads, self.book, self.on, self.force, keep=True)
        self.today = self._grave(self._runs)

    def at(self, adjustment: Adjustment, steps: int) -> list[Finding]:
        """Return what is found that counts with an adjustment at a step."""
        name = adjustment.keys, self.search.texts(adjustment, steps)
        if name not in self._known:
            runs = self._with(adjustment, name)
            self._known[name] = self._grave(runs)
            self._begun.pop(name, None)
        return self._known[name]

    def passes(self, adjustment: Adjustment, steps: int, is_worse: IsWorse) -> bool:
        """Return whether no rule is worse with an adjustment at a step.

        One rule that is worse is enough: those that were at another value are asked before all are.
        """
        name = adjustment.keys, self.search.texts(adjustment, steps)
        if name in self._known:
            return not self._worse(self._known[name], is_worse)
        runs = self._with(adjustment, name)
        if any(self._objects(runs, *one, is_worse) for one in self._objected):
            return False
        as_written = next(
            (one for one in runs.first.results if self._objects(runs, one, None, is_worse)), None
        )
        if as_written is not None:
            self._objected.insert(0, (as_written, None))
            return False
        worse = self._worse(self.at(adjustment, steps), is_worse)
        places = [(one.name, by) for one in runs.inputs[0] for by in (-1.0, 1.0)]
        objecting = [(rule, at) for at in places for rule in worse if self._objects(runs, rule, at, is_worse)]
        self._objected[:0] = objecting[:1]
        return not worse

    def _worse(self, found: list[Finding], is_worse: IsWorse) -> list[str]:
        return [rule for rule, said in gravest_by_rule(found, self.stop_at).items() if is_worse(rule, *said)]

    def _objects(self, runs: Runs, rule: str, at: Place | None, is_worse: IsWorse) -> bool:
        """Return whether the faults of one rule are enough to know that it is worse, whatever all others say.

        Faults that one rule finds, as written or with an input at an end of its ±, stay in an audit, at that word or a
        graver one. Not so where somebody answers for them, or where something is assumed, or where the class of
        consequence is not known.
        """
        try:
            assumed = any(len(one.ends) > 1 for one in runs.loads.path.rig.assumed)
            unknown = assumed or runs.loads.consequence.unknown is not None
            if unknown or self._too_many or any(one.rule == rule for one in self.loads.path.rig.rig.accepted):
                return False
            here, there = runs.said(rule, at)
        except OutOfRange:
            return False
        faults = [*here.findings, *(appearing(here.findings, there.findings) if there is not None else ())]
        said = gravest_by_rule(faults, self.stop_at).get(rule)
        return said is not None and is_worse(rule, *said)

    @property
    def _too_many(self) -> bool:
        """Whether an audit leaves out findings of the rig as it stands."""
        return any(one.rule == LEFT_OUT for one in self.today)

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
