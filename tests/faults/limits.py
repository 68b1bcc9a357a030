"""Just inside and just outside a limit, as the file has it, judged with the whole rulebook.

That a rule alone tells the two apart is tested in tests/rules; here the others must neither join in nor drop out.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Any

from riglint.findings import Finding
from riglint.policy import InForce
from riglint.rulekit import Limit
from riglint.testing import findings_of
from tests.faults.seeded import BOOK, HERE, LIMITS, ON, Expected, Told, new, read, text_of, told

# How far a limit may lie from what stands outside it.
NEAR = 0.05


@dataclass(frozen=True, slots=True)
class Boundary:
    """A limit with a rig just inside and one just outside."""

    name: str
    rig: str
    inside: dict[str, Any]
    outside: dict[str, Any]
    also: tuple[Expected, ...]

    @property
    def rule(self) -> str:
        """The rule whose limit it is."""
        return self.name.partition(".")[0]

    @property
    def limit(self) -> Limit:
        """The limit itself."""
        return next(one for one in BOOK.rules[self.rule].limits if self.name == f"{self.rule}.{one.name}")


@cache
def boundaries() -> tuple[Boundary, ...]:
    """All boundaries on file."""
    return tuple(
        Boundary(
            one["limit"],
            one["rig"],
            one["inside"],
            one["outside"],
            tuple(Expected(**each) for each in one.get("also", ())),
        )
        for one in read(HERE / f"{LIMITS}.yaml")["limits"]
    )


def both(one: Boundary) -> tuple[Told, Told]:
    """What the whole rulebook says inside and outside."""
    return told(text_of(one.rig, one.inside)), told(text_of(one.rig, one.outside))


def said_outside(one: Boundary) -> list[Finding]:
    """What is said outside and not inside."""
    return new(*both(one))


def moves(one: Boundary) -> bool:
    """Whether the rule says something else outside once its limit is loosened a little."""
    limit = one.limit
    step = max(NEAR * abs(limit.si), 1.0 if limit.text.isdigit() else 0.0)  # a count has no nearer neighbour
    looser = {one.name: limit.si - step if limit.tighter == "higher" else limit.si + step}
    text, alone = text_of(one.rig, one.outside), {one.rule: BOOK.rules[one.rule]}
    before = findings_of(text, alone, ON.isoformat())
    after = findings_of(text, alone, ON.isoformat(), InForce(limits=looser))
    return [_short(each) for each in before] != [_short(each) for each in after]


def _short(one: Finding) -> tuple[object, ...]:
    return one.signal, one.kind, one.at.key, one.at.part
