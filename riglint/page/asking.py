"""The questions of `riglint ask`, one at a time: the page keeps what was typed, and each call starts from there."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import Any

from riglint.asking import (
    GEAR,
    AnswerError,
    GearList,
    Question,
    place,
    read_answer,
    rig_document,
    rig_text,
    waiting,
)
from riglint.asking.question import Values
from riglint.cli.questions.gear_lists import gear_of
from riglint.cli.questions.verdict import Verdicts
from riglint.policy import DEFAULT
from riglint.records import dataclass
from riglint.rulebook import Rulebook

NEW = "rig.yaml"
Given = dict[str, tuple[Values, ...]]


@dataclass(slots=True)
class Dialogue:
    """The questions over the files of a library; the page keeps what was typed."""

    library: Path
    book: Rulebook
    on: date
    title: str
    gear_lists: Sequence[str]

    def next_question(self, typed: Sequence[str]) -> dict[str, Any]:
        """Return the question that follows the answers typed so far, or the rig when there is none.

        An answer that cannot be taken comes back under `wrong_answer`, with its question.
        """
        try:
            items = gear_of((self.library / path, path) for path in self.gear_lists)
        except AnswerError as error:
            return {"stop": str(error)}
        gear = GearList(items, tuple(self.gear_lists))
        answers, wrong, moved = self._answered(typed, gear)
        left = _waiting(answers, gear)
        if not left:
            return {"rig": rig_text(rig_document(self.title, answers, gear)), "moved": moved}
        return {
            "question": _told(left[0], answers, gear),
            "place": place(left[0], answers, from_list=bool(gear.paths)),
            "asked": len(answers),
            "of": len(answers) + len(left),
            "wrong_answer": wrong,
            "moved": moved,
        }

    def _answered(self, typed: Sequence[str], gear: GearList) -> tuple[Given, str, list[str]]:
        """Read all answers; return them, what is wrong with the last one, and what it changed in the verdict."""
        verdicts = Verdicts(self.library / NEW, self.library, self.book, DEFAULT, self.on, self.title, gear)
        answers: Given = {}
        moved: list[str] = []
        for n, text in enumerate(typed):
            question = _waiting(answers, gear)[0]
            try:
                tried = answers | {question.name: read_answer(question, text, answers, gear)}
                rig = verdicts.check(tried)
            except AnswerError as error:
                return answers, str(error), []
            answers = tried
            # Only the last answer's changes are told, held against the verdict before it.
            if rig is not None and n >= len(typed) - 2 and not _gear_waits(answers, gear):
                moved = list(verdicts.moved(rig))
        return answers, "", moved


def _gear_waits(answers: Given, gear: GearList) -> bool:
    return any(one.name in GEAR for one in _waiting(answers, gear))


def _waiting(answers: Given, gear: GearList) -> list[Question]:
    return waiting(answers, from_list=bool(gear.paths))


def _told(question: Question, answers: Given, gear: GearList) -> dict[str, Any]:
    return {
        "name": question.name,
        "ask": question.ask,
        "why": question.why,
        "ticks": question.ticks,
        "any_number": question.any_number,
        "groups": list(question.groups(answers)),
        "blanks": [
            {
                "words": one.words,
                "kind": one.kind,
                "choices": list(gear.fitting(one))
                if one.kind == "gear" and gear.paths
                else list(one.choices),
                "usual": one.usual,
                "such_as": one.such_as,
                "may_be_none": one.may_be_none,
            }
            for one in question.blanks_for(answers, gear)
        ],
    }
