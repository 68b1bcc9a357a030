"""The dialogue of `riglint ask`: prints each question, takes the answer, and asks again where it cannot be taken."""

from __future__ import annotations

from textwrap import wrap
from typing import TYPE_CHECKING, Protocol, TextIO

from riglint.asking import (
    GEAR,
    QUESTIONS,
    AnswerError,
    Answers,
    GearList,
    Question,
    place,
    read_answer,
    waiting,
)
from riglint.asking.answered import kind_of_line
from riglint.asking.recipes import LAYOUT
from riglint.cli.call.output import put_out
from riglint.cli.call.stopping import CALL_WRONG, StopError
from riglint.read.problems import visible

if TYPE_CHECKING:
    from riglint.asking import Blank
    from riglint.asking.question import Values
    from riglint.cli.questions.verdict import Verdicts

BACK = "back"
WIDTH = 78  # characters; any terminal has as many


class Replies(Protocol):
    """Where answers come from."""

    again: bool  # whether a wrong answer may be typed once more

    def reply(self, question: Question) -> str:
        """Return the answer to a question as typed."""


class Typed:
    """Answers typed at a terminal, or piped in, one a line."""

    def __init__(self, stream: TextIO) -> None:
        self.stream = stream
        self.again = stream.isatty()

    def reply(self, question: Question) -> str:
        """Return the next line."""
        line = self.stream.readline()
        if not line:
            message = f"The answers ended at question '{question.name}'. Nothing was written."
            raise StopError(message, CALL_WRONG)
        return line.strip()


class Recorded:
    """Answers from a file, `name: answer` a line; a question without a line is answered with Enter."""

    again = False

    def __init__(self, path: str, text: str) -> None:
        known = {question.name for question in QUESTIONS}
        self.said: dict[str, str] = {}
        for number, line in enumerate(text.splitlines(), 1):
            name, colon, answer = line.partition(":")
            if not line.strip() or line.lstrip().startswith("#"):
                continue
            if not colon or name.strip() not in known or name.strip() in self.said:
                wrong = "is answered twice" if name.strip() in self.said else "is no question"
                message = (
                    f"{path}, line {number}: '{name.strip()}' {wrong}. The questions are {', '.join(known)}."
                )
                raise StopError(message, CALL_WRONG)
            self.said[name.strip()] = answer.strip()

    def reply(self, question: Question) -> str:
        """Return the answer recorded for a question."""
        answer = self.said.get(question.name, "")
        put_out(f"{visible(answer)}\n")
        return answer


def ask_all(replies: Replies, gear: GearList, verdicts: Verdicts) -> Answers:
    """Ask whatever the answers make relevant; return them all.

    Raises:
        StopError: the answers ended early, or one that cannot be typed again is wrong.
    """
    answers: dict[str, tuple[Values, ...]] = {}
    try:
        verdicts.check(answers)  # what is wrong before anything is answered, no answer can put right
    except AnswerError as error:
        raise StopError(f"{error} Nothing was written.", CALL_WRONG) from error
    while True:
        left = waiting(answers, from_list=bool(gear.paths))
        if not left:
            return answers
        question = left[0]
        put_out(_in_words(question, answers, gear, place(question, answers, from_list=bool(gear.paths))))
        typed = replies.reply(question)
        if typed == BACK:
            if answers:
                answers.popitem()
            continue
        try:
            tried = answers | {question.name: read_answer(question, typed, answers, gear)}
            rig = verdicts.check(tried)
        except AnswerError as error:
            if not replies.again:
                raise StopError(f"{question.name}: {error} Nothing was written.", CALL_WRONG) from error
            put_out(f"  {error}\n")
            continue
        answers = tried
        if rig is None or any(one.name in GEAR and one.name not in answers for one in left):
            continue
        for sentence in verdicts.moved(rig):
            put_out(f"  {sentence}\n")


def _in_words(question: Question, answers: Answers, gear: GearList, place_words: str) -> str:
    blanks = question.blanks_for(answers, gear)
    lines = [
        "",
        *wrap(f"{place_words}  {question.ask}", WIDTH, subsequent_indent="  ", break_on_hyphens=False),
    ]
    lines += _indented(question.why)
    if question.name == "layout":
        lines += _indented(LAYOUT[kind_of_line(answers)])
    if question.ticks:
        lines += _indented(", ".join(blank.words for blank in blanks))
        lines.append("  such as: permission, watcher; none if none of them; Enter if you don't know")
    else:
        lines += [f"  {_shape(blank)}" for blank in blanks]
        lines += _between(question, answers, len(blanks))
    usual = [blank.usual or "?" for blank in blanks]
    shown = "?" if question.ticks or all(one == "?" for one in usual) else ", ".join(usual)
    if len(shown) > WIDTH - 8:
        shown = "the usual ones"
    return "\n".join(lines) + f"\n  [{shown}] > "


def _indented(text: str) -> list[str]:
    return [f"  {row}" for row in wrap(text, WIDTH - 2, break_on_hyphens=False)]


def _between(question: Question, answers: Answers, count: int) -> list[str]:
    groups = question.groups(answers)
    comma = " and , between values" if count > 1 else ""
    if len(groups) > 1:
        return [f"  for {' and '.join(groups)}, with ; between them{comma}"]
    if question.any_number:
        return [f"  as many as you like, with {';' if count > 1 else ','} between them{comma}"]
    return ["  with , between values"] if count > 1 else []


def _shape(blank: Blank) -> str:
    if blank.kind == "word":
        return f"{blank.words}: {', '.join(blank.choices)}"
    usual = f" (usual {blank.usual})" if blank.usual else ""
    return f"{blank.words}: such as {blank.such_as}" if blank.such_as else f"{blank.words}{usual}"
