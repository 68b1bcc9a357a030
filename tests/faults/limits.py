"""Just inside and just outside each limit, by the rule's own examples, judged with the whole rulebook.

That a rule alone tells the two apart is tested in tests/rules; here the others must neither join in nor drop out.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from itertools import product
from typing import Any

from riglint.findings import Finding
from riglint.policy import InForce
from riglint.rulekit import Example, Limit
from riglint.testing import edited, findings_of
from tests.faults.seeded import BOOK, HERE, LIMITS, ON, Expected, Told, new, read, text_of, told

# How far a limit may lie from what stands outside it.
NEAR = 0.05


@dataclass(frozen=True, slots=True)
class Boundary:
    """A limit with the text of a rig just inside and of one just outside."""

    name: str
    inside: str
    outside: str
    also: tuple[Expected, ...]

    @property
    def rule(self) -> str:
        """The rule whose limit it is."""
        return self.name.partition(".")[0]


def names() -> list[str]:
    """All limits, but those of rules that look at a whole library: their own examples judge them with it."""
    rules = {rule_id: rule for rule_id, rule in BOOK.rules.items() if not rule.each.library}
    return sorted(f"{rule_id}.{limit.name}" for rule_id, rule in rules.items() for limit in rule.limits)


@cache
def rows() -> dict[str, Any]:
    """What `limits.yaml` says of a limit beyond the examples of its rule."""
    return {one["limit"]: one for one in read(HERE / f"{LIMITS}.yaml")["limits"]}


@cache
def boundary(name: str) -> Boundary:
    """The boundary of a limit: its own pair in `limits.yaml`, else the nearest pair of its rule's examples."""
    row = rows().get(name, {})
    also = tuple(Expected(**each) for each in row.get("also", ()))
    if "rig" in row:
        return Boundary(name, text_of(row["rig"], row["inside"]), text_of(row["rig"], row["outside"]), also)
    inside, outside = pair_of_examples(name)
    return Boundary(name, edited(inside), edited(outside), also)


def pair_of_examples(name: str) -> tuple[Example, Example]:
    """The two examples of a rule nearest to each other between which one of its limits lies.

    Raises:
        StopIteration: the rule has no such two.
    """
    examples = BOOK.rules[name.partition(".")[0]].examples
    outside = [one for one in examples if one.verdict != "sound"]
    pairs = [(a, b) for b, a in product(outside, examples) if a.baseline == b.baseline and a is not b]
    pairs.sort(key=lambda pair: _edits_apart(*pair))
    return next((a, b) for a, b in pairs if moves(name, edited(b), 1) and moves(name, edited(a), -1))


def _edits_apart(one: Example, other: Example) -> int:
    """In how many keys two examples differ."""
    mine, its = dict(one.edits), dict(other.edits)
    return sum(mine.get(key) != its.get(key) for key in mine.keys() | its.keys())


def said_outside(one: Boundary) -> list[Finding]:
    """What is said outside and not inside."""
    return new(told(one.inside), told(one.outside))


@cache
def moves(name: str, text: str, looser: int) -> bool:
    """Whether a limit's rule says something else of a rig once the limit is a little looser (1) or tighter (-1)."""
    rule_id = name.partition(".")[0]
    limit = _limit(name)
    step = max(NEAR * abs(limit.si), 1.0 if limit.text.isdigit() else 0.0)  # a count has no nearer neighbour
    moved = limit.si - looser * step if limit.tighter == "higher" else limit.si + looser * step
    alone = {rule_id: BOOK.rules[rule_id]}
    before = findings_of(text, alone, ON.isoformat())
    after = findings_of(text, alone, ON.isoformat(), InForce(limits={name: moved}))
    return [_short(each) for each in before] != [_short(each) for each in after]


def _limit(name: str) -> Limit:
    rule_id, _, word = name.partition(".")
    return next(one for one in BOOK.rules[rule_id].limits if one.name == word)


def both(one: Boundary) -> tuple[Told, Told]:
    """What the whole rulebook says inside and outside."""
    return told(one.inside), told(one.outside)


def _short(one: Finding) -> tuple[object, ...]:
    return one.signal, one.kind, one.at.key, one.at.part
