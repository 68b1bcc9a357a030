"""The questions, in their order."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import takewhile

from riglint.asking.answered import kind_of_line
from riglint.asking.day_questions import DAY
from riglint.asking.gear_questions import PIECES
from riglint.asking.place_questions import PLACE
from riglint.asking.question import Answers, Question

QUESTIONS: tuple[Question, ...] = (*PIECES, *PLACE, *DAY)
# Until these are answered there is no rig to speak of, so nothing is said of it.
GEAR = (
    "pieces",
    "legs",
    "backup_pieces",
    "leash_pieces",
    "haul",
    "multiplier",
    "haul_lengths",
    "tie_back",
    "labels",
    "data_sheet",
    "sizes",
    "around",
)


def relevant(answers: Answers, *, from_list: bool) -> Iterator[Question]:
    """Yield the questions that the answers so far make relevant, in their order."""
    for question in QUESTIONS:
        if question.from_list in {None, from_list} and question.when(answers):
            yield question


def waiting(answers: Answers, *, from_list: bool) -> list[Question]:
    """Return those of them that are not answered yet."""
    return [one for one in relevant(answers, from_list=from_list) if one.name not in answers]


def number(question: Question, answers: Answers, *, from_list: bool) -> tuple[int, int | None]:
    """Return which question this is, and of how many; None until that number can't change any more.

    A question that follows on the one before it has that one's number.
    """
    before = list(takewhile(lambda one: one.name != question.name, QUESTIONS))
    asked = [one for one in before if one.name in answers and not one.follows]
    this = len(asked) + (0 if question.follows else 1)
    settled = "line" in answers and (kind_of_line(answers) != "highline" or "ends" in answers)
    count = sum(not one.follows for one in relevant(answers, from_list=from_list))
    return this, count if settled else None


def place(question: Question, answers: Answers, *, from_list: bool) -> str:
    """Return the number of a question as it stands before it: `3 of 12`, `3` or `3 of 12, more on it`."""
    this, count = number(question, answers, from_list=from_list)
    of = f"{this} of {count}" if count is not None else str(this)
    return f"{of}, more on it" if question.follows else of
