"""How far each value of a rig may move: varied one at a time, every rig judged by the whole rulebook.

A value ends where a rule says more or worse than it does today: a fault or an open question of the word that is asked
for, or graver. What stands today is of two kinds for each value: what some value of it ends counts against today's as
well, what none ends is left aside. A search goes outwards in growing strides, judged as written, and back in from the
first value that fails. Both ends of a range are judged whole. So a search may step over a fault that comes and goes
again within one stride, or only inside some ± on the way.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from functools import partial

from riglint.findings.finding import Finding
from riglint.findings.variation.side_effects import Gravest, gravest_by_rule
from riglint.findings.variation.varied_rig import RangeEnd, VariedRig
from riglint.loads import Loads
from riglint.loads.inputs import At
from riglint.loads.what_if.adjustable import (
    FAR,
    backup_length,
    fewer_at_once,
    fewer_haulers,
    fewer_turns,
    heavier_user,
    higher_anchors,
    lighter_user,
    lower_anchors,
    lower_tension,
    more_at_once,
    more_haulers,
    more_tension,
    more_turns,
    open_blocks,
    rope_length,
)
from riglint.loads.what_if.solved_for import Adjusting, Adjustment, Search, nearest_step
from riglint.loads.what_if.strides import GROWING, inwards, outwards
from riglint.policy import DEFAULT, InForce
from riglint.records import dataclass
from riglint.rulebook import Rulebook
from riglint.rulekit import Signal

# Counts start at one or two, so a multiple of today's is no end to look to; no crew uses more than these.
MOST = {"haulers": 12.0, "people on the line at a time": 6.0, "turns of the tail round the trunk": 5.0}


@dataclass(frozen=True, slots=True)
class Range:
    """How far one value may move while all others stay as they are."""

    name: str
    at: tuple[At, ...]
    now: str
    inside: bool  # whether today's value passes
    lower: RangeEnd | None  # both None where no value passes
    upper: RangeEnd | None
    against: tuple[Finding, ...] = ()  # what stands today and some value of this one ends
    aside: tuple[Finding, ...] = ()  # what stands today whatever this value is
    today: tuple[str, ...] = ()  # of each key, as written
    capped: bool = False  # whether all are brought to the same value, those within it left as they are


@dataclass(frozen=True, slots=True)
class Limits:
    """How far a rig may change: every value that was moved, and the faults of today that stay whatever is moved."""

    title: str
    path: str
    on: date
    force: InForce
    stop_at: Signal
    ranges: tuple[Range, ...]
    standing: tuple[Finding, ...]
    seal: str = ""  # of the rulebook


def limits_of(
    loads: Loads, book: Rulebook, on: date, force: InForce = DEFAULT, stop_at: Signal = Signal.WARNING
) -> Limits:
    """Return how far each value of a rig may move; costs some five judgements of the rig for each.

    Args:
        loads: the rig, computed.
        book: the rules.
        on: the day to judge by.
        force: limits, words and values in force.
        stop_at: least signal word that ends a range.
    """
    judging = VariedRig(loads, book, on, force, stop_at)
    found = []
    for name, down, up in _variables(loads):
        both_directions = down(loads), up(loads)
        if both_directions[0] is not None and both_directions[1] is not None:
            found.append(
                _Walk(name, both_directions[0], _bounded(loads, name, both_directions[1]), judging).range()
            )
    moved = {one.rule for each in found for one in each.against}
    standing = tuple(one for one in judging.today if one.rule not in moved)
    rig = loads.path.rig
    ranges = tuple(found)
    return Limits(rig.rig.title, rig.document.path, on, force, stop_at, ranges, standing, book.seal)


def _variables(loads: Loads) -> Iterator[tuple[str, Adjusting, Adjusting]]:
    """Yield every value that is moved, with its adjustments down and up."""
    yield "standing tension", lower_tension, more_tension
    yield "heaviest user", lighter_user, heavier_user
    yield "people on the line at a time", fewer_at_once, more_at_once
    yield "height of both anchors", lower_anchors, higher_anchors
    haul = loads.path.haul
    if haul is not None:
        yield "haulers", fewer_haulers, more_haulers
        yield "turns of the tail round the trunk", fewer_turns, more_turns
        if haul.part.stays:
            yield "rope of the pulley system", rope_length(haul, "down"), rope_length(haul, "up")
            yield "blocks laid out hand-tight", open_blocks(haul, "down"), open_blocks(haul, "up")
    for backup in loads.backups:
        if backup.is_line:
            yield f"length of {backup.id}", backup_length(backup, "down"), backup_length(backup, "up")


def _bounded(loads: Loads, name: str, adjustment: Adjustment) -> Adjustment:
    """Return an adjustment upwards with an end to what is tried, if it has none: a few times today's value."""
    if adjustment.farthest is not None:
        return adjustment
    today = Search(loads).reach(adjustment)[0] * adjustment.step
    return replace(adjustment, farthest=max(today, MOST.get(name, FAR * today)))


class _Walk:
    """One value, moved down and up from today's."""

    def __init__(self, name: str, down: Adjustment, up: Adjustment, judging: VariedRig) -> None:
        self.name, self.down, self.up, self.judging = name, down, up, judging
        self.today: Gravest = gravest_by_rule(judging.today, judging.stop_at)
        ended = self._ended()
        self.against = tuple(one for one in judging.today if one.rule in ended)
        self.aside = tuple(one for one in judging.today if one.rule not in ended)

    def range(self) -> Range:
        """Return the range of values that pass: round today's, else the nearest."""
        search = self.judging.search
        at = tuple(At(search.loads.path.rig.document, key) for key in self.down.keys)
        now = search.written(self.down.keys[0])
        lower, upper = self._around(now) if not self.against else self._beside()
        today = tuple(search.written(key) for key in self.down.keys)
        return Range(
            self.name,
            at,
            now,
            not self.against,
            lower,
            upper,
            self.against,
            self.aside,
            today,
            self.down.capped,
        )

    def _around(self, now: str) -> tuple[RangeEnd, RangeEnd]:
        """Return both ends round today's value."""
        down, up = (
            self._edge(adjustment, self.judging.search.reach(adjustment)[0], now)
            for adjustment in (self.down, self.up)
        )
        return down, up

    def _beside(self) -> tuple[RangeEnd | None, RangeEnd | None]:
        """Return both ends of the nearest range that today's value lies outside of; None where there is none."""
        near = self._nearest()
        if near is None:
            return None, None
        adjustment, steps = near
        text = self.judging.search.texts(adjustment, steps)[0]
        far = self._edge(adjustment, steps, text)
        back = self.judging.edge(
            adjustment, steps, text, self._worse(adjustment, steps - _step_sign(adjustment))
        )
        return (back, far) if adjustment.direction == "up" else (far, back)

    def _ended(self) -> set[str]:
        """Return the rules of today that some value silences, where that is no mere failure to compute."""
        ended: set[str] = set()
        for adjustment in (self.down, self.up):
            start, bound = self.judging.search.reach(adjustment)
            stride = 1
            while self.today.keys() - ended and start != bound and stride < abs(bound - start) * 2:
                steps = start + _step_sign(adjustment) * min(stride, abs(bound - start))
                ended |= self.judging.silenced(adjustment, steps, self.today.keys() - ended)
                stride *= 2
        return ended

    def _worse(self, adjustment: Adjustment, steps: int) -> Finding | None:
        """Return the gravest of what keeps a value from passing; None where it passes."""
        found = self.judging.at(adjustment, steps)
        worse = []
        for rule, said in gravest_by_rule(found, self.judging.stop_at).items():
            if self._is_worse(rule, *said):
                worse += [one for one in found if one.rule == rule]
        # Why nothing can be computed says more than the silence that follows from it.
        explaining = self.judging.book.explaining
        return max(
            worse, key=lambda one: (one.rule in explaining, one.signal, one.kind == "fail"), default=None
        )

    def _is_worse(self, rule: str, word: Signal, count: int) -> bool:
        was_word, was_count = self.today.get(rule, (Signal.DANGER, 0))
        against = {one.rule for one in self.against}
        return rule in against or word > was_word or count > was_count

    def _passes(self, adjustment: Adjustment, steps: int) -> bool:
        """Return whether `_worse` finds nothing."""
        return not self.judging.fails(adjustment, steps, self._is_worse)

    def _edge(self, adjustment: Adjustment, start: int, text: str) -> RangeEnd:
        """Return the last value that passes, from one that does."""
        _, bound = self.judging.search.reach(adjustment)
        texts, edge = self.judging.search.texts, self.judging.edge
        if start == bound:
            return RangeEnd(text, None)
        first = self._first_failing(adjustment, start, bound)
        if first is None:
            return edge(adjustment, bound, texts(adjustment, bound)[0], None)
        last = first - _step_sign(adjustment)
        if last == start:
            return RangeEnd(text, self._worse(adjustment, first))
        return edge(adjustment, last, texts(adjustment, last)[0], self._worse(adjustment, first))

    def _first_failing(self, adjustment: Adjustment, start: int, bound: int) -> int | None:
        """Return a value that does not pass, the one before it does; None where none up to the bound fails.

        From one that fails, the rules that object are asked alone for the place where they begin to; whether the value
        before it passes is then asked of all.
        """
        judging, is_worse = self.judging, self._is_worse
        first = 1 if adjustment.unit == "" else GROWING
        held, fails = outwards(
            lambda n: not judging.fails_as_written(adjustment, n, is_worse), start, bound, first=first
        )
        if fails is None:
            if self._passes(adjustment, bound):
                return None
            held, fails = start, bound
        while True:
            told = judging.is_explained(adjustment, fails)
            asked = judging.is_objected_to if told else judging.fails
            near, fails = inwards(
                partial(asked, adjustment, is_worse=is_worse), held if told else start, fails
            )
            if near == start or self._passes(adjustment, near):
                return fails
            held, fails = start, near

    def _nearest(self) -> tuple[Adjustment, int] | None:
        """Return the nearest value that passes, down or up."""
        found = [(one, steps) for one in (self.down, self.up) if (steps := self._first(one)) is not None]
        return min(found, key=lambda one: abs(one[1] - self.judging.search.reach(one[0])[0]), default=None)

    def _first(self, adjustment: Adjustment) -> int | None:
        start, bound = self.judging.search.reach(adjustment)
        return None if start == bound else nearest_step(lambda n: self._passes(adjustment, n), start, bound)


def _step_sign(adjustment: Adjustment) -> int:
    return 1 if adjustment.direction == "up" else -1
