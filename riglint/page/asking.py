"""The questions of `riglint ask`, one at a time: the page keeps what was typed, and each call starts from there."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

from riglint.asking import GEAR, AnswerError, GearList, Question, read_answer, relevant, rig_document, rig_text
from riglint.asking.question import Values
from riglint.cli.questions.verdict import Verdicts
from riglint.model.documents.gear import Shelf
from riglint.model.library import load_file
from riglint.policy import DEFAULT
from riglint.rulebook import Rulebook

NEW = "rig.yaml"


def next_question(
    library: Path, book: Rulebook, title: str, typed: list[str] | tuple[str, ...] | Any, gear_lists: Any, on: date
) -> dict[str, Any]:
    """Return the question that follows the answers typed so far, or the rig when there is none.

    An answer that cannot be taken comes back under `wrong`, with its question.
    """
    try:
        gear = _gear(library, gear_lists)
    except AnswerError as error:
        return {"stop": str(error)}
    verdicts = Verdicts(library / NEW, library, book, DEFAULT, on, title, gear)
    answers: dict[str, tuple[Values, ...]] = {}
    wrong, said = "", list[str]()
    for n, text in enumerate(typed):
        question = _waiting(answers, gear)[0]
        try:
            tried = answers | {question.name: read_answer(question, text, answers, gear)}
            rig = verdicts.check(tried)
        except AnswerError as error:
            wrong, said = str(error), []
            break
        answers = tried
        last = n == len(typed) - 1
        waits = any(one.name in GEAR for one in _waiting(answers, gear))
        if rig is not None and not waits and n >= len(typed) - 2:  # noqa: PLR2004 - the one before, to compare with
            said = list(verdicts.moved(rig)) if last else list(verdicts.moved(rig)) and []
    waiting = _waiting(answers, gear)
    if not waiting:
        return {"rig": rig_text(rig_document(title, answers, gear)), "moved": said}
    return {
        "question": _told(waiting[0], answers, gear),
        "asked": len(answers),
        "of": len(answers) + len(waiting),
        "wrong_answer": wrong,
        "moved": said,
    }


def _waiting(answers: dict[str, tuple[Values, ...]], gear: GearList) -> list[Question]:
    return [one for one in relevant(answers, from_list=bool(gear.paths)) if one.name not in answers]


def _told(question: Question, answers: dict[str, tuple[Values, ...]], gear: GearList) -> dict[str, Any]:
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
                "choices": list(gear.fitting(one)) if one.kind == "gear" and gear.paths else list(one.choices),
                "usual": one.usual,
                "such_as": one.such_as,
                "may_be_none": one.may_be_none,
            }
            for one in question.blanks_for(answers, gear)
        ],
    }


def _gear(library: Path, paths: Any) -> GearList:
    """Return the gear of the lists that were chosen.

    Raises:
        AnswerError: one cannot be used.
    """
    items = {}
    for path in paths:
        loaded = load_file(library / path, path)
        for problem in loaded.problems:
            raise AnswerError(problem.told(loaded.path))
        if not isinstance(loaded.model, Shelf):
            raise AnswerError(f"{path} is not a gear list. Choose a file that begins with riglint: shelf/1.")
        items.update(loaded.model.items)
    return GearList(items, tuple(paths))
