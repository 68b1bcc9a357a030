"""Which word each rule says where a failure means a stumble, a fall, a life: one rig for each, or why there is none."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Any

from riglint.model.vocabulary.words import Consequence
from riglint.policy import InForce
from riglint.rulekit import Signal
from riglint.testing import findings_of
from tests.faults.seeded import (
    BOOK,
    HERE,
    ON,
    WORDS,
    consequence_of,
    own_rigs,
    read,
    text_of,
    told_of_library,
)

CONSEQUENCES: tuple[Consequence, ...] = ("ground", "fall", "life")


@dataclass(frozen=True, slots=True)
class Word:
    """What a rule says at a consequence, and the rig that shows it; or why no rig can."""

    rule: str
    at: Consequence
    rig: str = ""
    patch: Any = None
    both: Any = None  # of a rule for several rigs: changes of this one and of every one beside it
    beside: tuple[Any, ...] = ()  # in place of those beside it
    recalled: tuple[str, ...] = ()
    never: str = ""

    @property
    def word(self) -> Signal:
        """The rule's own word there."""
        return BOOK.rules[self.rule].at(self.at)


@cache
def words() -> tuple[Word, ...]:
    """All words on file."""
    return tuple(
        Word(**{**one, **{key: tuple(one.get(key, ())) for key in ("recalled", "beside")}})
        for one in read(HERE / f"{WORDS}.yaml")["words"]
    )


def shown(one: Word) -> tuple[Consequence, set[Signal]]:
    """The consequence class of a word's rig, and the words that its rule says of it, open questions left out."""
    patch, both = one.patch or {}, one.both or {}
    text = text_of(one.rig, {**both, **patch})
    if BOOK.rules[one.rule].each.library:
        beside = one.beside or own_rigs()[one.rig]["beside"]
        others = [{**both, **each} for each in beside]
        found = told_of_library(one.rig, {**both, **patch}, others, one.recalled)
        found = [each for each in found if each.rule == one.rule]
    else:
        force = InForce(recalled=frozenset(one.recalled))
        found = findings_of(text, {one.rule: BOOK.rules[one.rule]}, ON.isoformat(), force)
    return consequence_of(text), {each.signal for each in found if each.kind != "open"}
