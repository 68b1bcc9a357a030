"""The questions, in their order."""

from __future__ import annotations

from collections.abc import Iterator

from riglint.asking.day_questions import DAY
from riglint.asking.gear_questions import PIECES
from riglint.asking.place_questions import PLACE
from riglint.asking.question import Answers, Question

QUESTIONS: tuple[Question, ...] = (*PIECES, *PLACE, *DAY)
# Until these are answered there is no rig to speak of, so nothing is said of it.
GEAR = ("pieces", "legs", "backup_pieces", "leash_pieces", "haul", "multiplier", "tie_back", "labels")


def relevant(answers: Answers, *, from_list: bool) -> Iterator[Question]:
    """Yield the questions that the answers so far make relevant, in their order."""
    for question in QUESTIONS:
        if question.from_list in {None, from_list} and question.when(answers):
            yield question


def waiting(answers: Answers, *, from_list: bool) -> list[Question]:
    """Return those of them that are not answered yet."""
    return [one for one in relevant(answers, from_list=from_list) if one.name not in answers]
