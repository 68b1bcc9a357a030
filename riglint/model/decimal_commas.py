"""A decimal comma in braces, `{height: 1,2 m}`: YAML reads two keys there, and we tell of one slip."""

from __future__ import annotations

import re
from collections.abc import Iterator

from riglint.model.changed import value_at
from riglint.model.sentences import CUT_OFF, Key
from riglint.read.document import Document
from riglint.read.problems import Problem, key_text, shown

WHOLE = re.compile(r"[+-]?\d{1,6}")
THOUSANDS = re.compile(r"\d{3}(?!\d)")


def with_commas_joined(document: Document, problems: list[Problem]) -> list[Problem]:
    """Return the problems of a document, those of the two halves of a number as one."""
    wrong = {one.key for one in problems}
    joined, gone = [], set[str]()
    for before, after, number in _halves(document):
        halves = {key_text(before), key_text(after)}
        if key_text(after) in wrong:
            gone |= halves
            joined.append(
                Problem(
                    "file/unit",
                    document.place(before),
                    key_text(before),
                    f"{shown(number)} has a decimal comma. Write a decimal point.",
                    *_right(number),
                    written=number,
                )
            )
    return [*(one for one in problems if one.key not in gone), *joined]


def _halves(document: Document) -> Iterator[tuple[Key, Key, str]]:
    """Yield the keys that the halves of a number are read as, and the number as it is written."""
    for after in document.key_places:
        rest = after[-1] if after else 0
        if not (isinstance(rest, str) and CUT_OFF.fullmatch(rest)):
            continue
        held = value_at(document.data, after[:-1])
        keys = list(held) if isinstance(held, dict) else []
        n = keys.index(rest) if rest in keys else 0
        if (
            n
            and held[rest] is None
            and isinstance(held[keys[n - 1]], str)
            and WHOLE.fullmatch(held[keys[n - 1]])
        ):
            yield (*after[:-1], keys[n - 1]), after, f"{held[keys[n - 1]]},{rest}"


def _right(number: str) -> tuple[str, tuple[str, ...]]:
    """Return the sentence that says what to write, and each reading alone."""
    whole, _, rest = number.partition(",")
    if THOUSANDS.match(rest):
        readings = f"{whole}{rest}", f"{whole}.{rest}"
        return f"Write {' or '.join(readings)}, whichever is meant.", readings
    return f"Write {whole}.{rest}.", (f"{whole}.{rest}",)
