"""What a question is: its words, its blanks, and when it is asked."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Literal, get_args

from riglint.model.vocabulary.words import Hitch
from riglint.read.quantity import Dimension, QuantityError, parse_quantity
from riglint.records import dataclass

if TYPE_CHECKING:
    from riglint.asking.gear_list import GearList

Values = tuple[str | None, ...]  # one value for each blank, as typed; None: nobody knows
Answers = Mapping[str, tuple[Values, ...]]  # the groups of values given so far, by the name of the question
HITCHES: tuple[str, ...] = get_args(Hitch)
NO_PIECE = "-"  # typed where no piece stands in a place
Is = Literal["quantity", "word", "text", "day", "count", "gear"]


@dataclass(frozen=True, slots=True)
class Blank:
    """One value that an answer gives."""

    words: str
    kind: Is = "quantity"
    dimension: Dimension = "length"
    choices: tuple[str, ...] = ()  # of a word; of gear: the kinds that fit
    usual: str | None = None  # what Enter stands for; None: Enter leaves it open
    such_as: str = ""  # a value with its unit
    may_be_none: bool = False  # `none` says that there is no such thing
    form: str | None = None  # of a puller: the form that fits
    hitched: bool = False  # of a sling: the hitch stands behind its name
    least_m: float = 0.0  # of gear: one this long is sure to reach


@dataclass(frozen=True, slots=True)
class Question:
    """One question: one choice, or one short list of values.

    `groups` names what the blanks are asked for, such as both trees; empty: once. With `any_number` there may be
    as many groups as people want. A question of `ticks` has yes/no blanks: the answer lists those that are so.
    """

    name: str
    ask: str
    why: str
    blanks: tuple[Blank, ...] = ()
    groups: Callable[[Answers], tuple[str, ...]] = lambda _: ()
    any_number: bool = False
    ticks: bool = False
    when: Callable[[Answers], bool] = lambda _: True
    pieces: Callable[[Answers], tuple[Blank, ...]] | None = None  # blanks that depend on earlier answers
    from_list: bool | None = None  # True: only with a gear list; False: only without
    follows: bool = False  # asks more about the question before it, and so takes no number of its own

    def blanks_for(self, answers: Answers, gear: GearList) -> tuple[Blank, ...]:
        """Return the blanks with what Enter stands for, gear proposed from the list."""
        blanks = self.blanks if self.pieces is None else self.pieces(answers)
        return gear.proposed(blanks, answers)


def piece(answers: Answers, name: str, n: int) -> str | None:
    """Return the piece that was chosen for a place, its hitch behind it; None where there is none."""
    chosen = word(answers, name, n)
    return None if chosen == NO_PIECE else chosen


def name_and_hitch(chosen: str) -> tuple[str, str]:
    """Return the name of a piece and the hitch that stands behind it, which may be empty.

    >>> name_and_hitch("long sling basket")
    ('long sling', 'basket')
    """
    name, _, hitch = chosen.rpartition(" ")
    return (name, hitch) if hitch in HITCHES else (chosen, "")


def word(answers: Answers, name: str, n: int = 0, group: int = 0) -> str | None:
    """Return one value given so far, or None where it is not known or was not asked."""
    groups = answers.get(name, ())
    return groups[group][n] if group < len(groups) and n < len(groups[group]) else None


def metres(text: str | None) -> float:
    """Return a length that was typed, 0 where there is none."""
    try:
        return parse_quantity(text, "length").si if text else 0.0
    except QuantityError:
        return 0.0
