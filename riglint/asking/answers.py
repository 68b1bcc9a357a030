"""Reads one answer as typed: values, groups, words, and what nobody knows."""

from __future__ import annotations

from riglint.asking.gear_list import GearList
from riglint.asking.question import NO_PIECE, Answers, Blank, Question, Values, name_and_hitch
from riglint.loadpath.path import first_up
from riglint.read.problems import shown
from riglint.read.quantity import QuantityError, parse_quantity
from riglint.read.spelling import nearest

__all__ = ["AnswerError", "Answers", "read_answer"]

UNKNOWN = "?"
NONE = "none"
LONGEST = 400  # characters of one answer


class AnswerError(ValueError):
    """An answer that cannot be taken: one sentence that says what was read and what to type."""


def read_answer(question: Question, typed: str, answers: Answers, gear: GearList) -> tuple[Values, ...]:
    """Return the groups of values that an answer gives.

    Values stand between commas, groups between semicolons. `?` leaves a value or the whole question open. An empty
    answer takes what is usual, and leaves open what has nothing usual.

    Raises:
        AnswerError: the answer, or a value in it, is something else.
    """
    if len(typed) > LONGEST:
        raise AnswerError(f"That is more than {LONGEST} characters. Type only what is asked.")
    text = " ".join(typed.split())
    blanks = question.blanks_for(answers, gear)
    names = question.groups(answers)
    if question.ticks:
        return (_ticks(blanks, text),)
    if text in {"", UNKNOWN}:
        known = [blank.usual if not text else None for blank in blanks]
        return tuple(tuple(None if one == UNKNOWN else one for one in known) for _ in names or ("",))
    if question.any_number and len(blanks) == 1:
        text = text.replace(",", ";")
    groups = [one.strip() for one in text.split(";")]
    expected = len(names) or 1
    if not question.any_number and len(groups) != expected:
        wanted = f"{expected} groups ({', '.join(names)}), with ; between them" if names else "no ; in it"
        raise AnswerError(f"{len(groups)} groups were read. This answer has {wanted}.")
    return tuple(_group(one, blanks, gear) for one in groups)


def _group(text: str, blanks: tuple[Blank, ...], gear: GearList) -> Values:
    if text == UNKNOWN:
        return (None,) * len(blanks)
    values = [one.strip() for one in text.split(",")]
    if len(values) != len(blanks):
        wanted = ", ".join(blank.words for blank in blanks)
        raise AnswerError(
            f"{len(values)} of {len(blanks)} values were read in {shown(text)}. Type {wanted}; ? for one not known."
        )
    return tuple(_value(one, blank, gear) for one, blank in zip(values, blanks, strict=True))


def _value(text: str, blank: Blank, gear: GearList) -> str | None:
    if text == UNKNOWN or (text == "" and blank.usual is None):
        return None
    text = text or str(blank.usual)
    if blank.may_be_none and text == NONE:
        return NONE
    if blank.kind == "quantity":
        try:
            parse_quantity(text, blank.dimension)
        except QuantityError as error:
            raise AnswerError(f"{first_up(blank.words)}: {error.message} {error.do}") from None
    elif blank.kind == "word":
        return _word(text, blank.words, blank.choices)
    elif blank.kind == "count" and not (text.isascii() and text.isdecimal()):
        raise AnswerError(f"{first_up(blank.words)}: {shown(text)} isn't a whole number. Type one such as 2.")
    elif blank.kind == "gear":
        return _piece(text, blank, gear)
    return text


def _word(text: str, words: str, choices: tuple[str, ...]) -> str:
    lower = text.lower().replace(" ", "_").replace("-", "_")
    starting = [one for one in choices if one.startswith(lower)]
    if lower in choices or len(starting) == 1:
        return lower if lower in choices else starting[0]
    if lower.isdecimal() and 1 <= int(lower[:4]) <= len(choices):
        return choices[int(lower[:4]) - 1]
    suggestion = nearest(lower, choices)
    hint = f" Did you mean {suggestion}?" if suggestion else ""
    raise AnswerError(f"{first_up(words)}: {shown(text)} isn't one of {', '.join(choices)}.{hint}")


def _piece(text: str, blank: Blank, gear: GearList) -> str | None:
    if text == NO_PIECE:
        return NO_PIECE
    name, _ = name_and_hitch(text)
    fitting = list(gear.fitting(blank))
    if name in fitting:
        return text
    kinds = " or ".join((blank.form or kind).replace("_", " ") for kind in blank.choices)
    if name in gear.items:
        is_a = (gear.items[name].form or gear.items[name].kind).replace("_", " ")
        raise AnswerError(f"{first_up(blank.words)}: {shown(name)} is a {is_a}. This place takes a {kinds}.")
    suggestion = nearest(name, fitting)
    hint = f" Did you mean {suggestion}?" if suggestion else ""
    listed = ", ".join(fitting[:8]) or "none"
    raise AnswerError(
        f"{first_up(blank.words)}: {shown(name)} isn't in the gear list.{hint} It has these for a {kinds}: {listed}."
    )


def _ticks(blanks: tuple[Blank, ...], text: str) -> Values:
    """Return `true`, `false` or None for each blank: those named are so, one with a ? is open, the others aren't."""
    names = [blank.words for blank in blanks]
    if text in {"", UNKNOWN}:
        return (None,) * len(names)
    said: dict[str, str | None] = dict.fromkeys(names, "false")
    if text == NONE:
        return tuple(said.values())
    for one in text.split(","):
        open_ = one.strip().endswith(UNKNOWN)
        name = _word(one.strip().rstrip(UNKNOWN).strip(), "one of these", tuple(names))
        said[name] = None if open_ else "true"
    return tuple(said.values())
