"""Which word each rule says where a failure means a stumble, a fall, a life: one rig for each, or why there is none."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Any

from riglint.model.vocabulary.words import Consequence
from riglint.policy import InForce
from riglint.rulekit import Signal
from riglint.testing import findings_of
from tests.faults.seeded import BOOK, HERE, ON, WORDS, consequence_of, read, text_of

CONSEQUENCES: tuple[Consequence, ...] = ("ground", "fall", "life")


@dataclass(frozen=True, slots=True)
class Word:
    """What a rule says at a consequence, and the rig that shows it; or why no rig can."""

    rule: str
    at: Consequence
    rig: str = ""
    patch: Any = None
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
        Word(**{**one, "recalled": tuple(one.get("recalled", ()))})
        for one in read(HERE / f"{WORDS}.yaml")["words"]
    )


def shown(one: Word) -> tuple[Consequence, set[Signal]]:
    """The consequence class of a word's rig, and the words that its rule says of it, open questions left out."""
    text = text_of(one.rig, one.patch or {})
    force = InForce(recalled=frozenset(one.recalled))
    found = findings_of(text, {one.rule: BOOK.rules[one.rule]}, ON.isoformat(), force)
    return consequence_of(text), {each.signal for each in found if each.kind != "open"}
