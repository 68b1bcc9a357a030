"""Text laid out as spans: the characters are the same on a terminal, in a pipe and without colour."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Callable, Iterable
from functools import lru_cache
from typing import NamedTuple

from riglint.read.problems import row_escaped, visible
from riglint.read.units import UNITS
from riglint.reports.layout.units_shown import in_units

WIDEST = 100  # longer lines are hard to read on any screen
NARROWEST = 40
LABEL = 11  # columns for the word in front of a paragraph


class Span(NamedTuple):
    """A run of text with one look."""

    text: str
    look: str = ""


Line = tuple[Span, ...]


class Passage(NamedTuple):
    """Some lines of a report, made when somebody asks for them, and their text alone, which may be known already."""

    lines: Callable[[], Iterable[Line]]
    known: Callable[[Callable[[], str]], str] | None = None  # gives the text, from what makes it

    def text(self) -> str:
        """Return the characters alone."""
        return self.known(self._made) if self.known is not None else self._made()

    def _made(self) -> str:
        return characters(self.lines())


def plain(text: str) -> Line:
    """Return a line with no look of its own."""
    return (Span(text),)


def paragraph(text: str, width: int, *, indent: int = 0, look: str = "") -> list[Line]:
    """Return text wrapped to a width."""
    return [(Span(" " * indent), Span(row, look)) for row in _rows(text, width - indent)]


def labelled(
    label: str, text: str, width: int, *, indent: int = 2, look: str = "", label_look: str = "dim"
) -> list[Line]:
    """Return a paragraph with a word in front of it, its further lines below its first."""
    column = indent + max(LABEL, len(label) + 1)
    rows = _rows(text, width - column) or [""]
    lines: list[Line] = [
        (
            Span(" " * indent),
            Span(label, label_look),
            Span(" " * (column - indent - len(label))),
            Span(rows[0], look),
        )
    ]
    return lines + [(Span(" " * column), Span(row, look)) for row in rows[1:]]


def one_row(label: str, text: str, width: int, *, indent: int = 2, label_look: str = "dim") -> list[Line]:
    """Return a labelled paragraph of one line; what finds no room is cut off, with a mark that says so."""
    lines = labelled(label, text, width, indent=indent, label_look=label_look)
    if len(lines) == 1:
        return lines
    room = width - indent - max(LABEL, len(label) + 1)
    row = "".join(span.text for span in lines[0][3:])
    cut = " ".join(row.split(" ")[:-1]) if len(row) > room - 2 else row
    return [(*lines[0][:3], Span(f"{cut} …"))]


# A number stays on one row with its unit, and `line` with its number; visible text holds no joint of its own.
_JOINT = "\x00"
_EVERY_UNIT = sorted({re.escape(unit) for units in UNITS.values() for unit in units}, key=len, reverse=True)
_TOGETHER = re.compile(rf"(?<=\d) (?=(?:{'|'.join(_EVERY_UNIT)})(?![\w/]))|(?<=\bline) (?=\d)")


def together(text: str, joint: str = "\u00a0") -> str:
    """Return visible text in which a joint keeps each number on one row with its unit."""
    return _TOGETHER.sub(joint, visible(" ".join(text.split())))


def _rows(text: str, width: int) -> list[str]:
    """Return the rows of a wrapped text. Whatever a file says, no row can steer a terminal or a host of CI."""
    return list(_wrapped(in_units(text), max(width, 20)))


@lru_cache(maxsize=1024)  # why a rule asks stands below each of its findings
def _wrapped(text: str, room: int) -> tuple[str, ...]:
    whole = together(text, _JOINT)
    if len(whole) <= room and whole and whole == whole.strip():
        return (row_escaped(whole.replace(_JOINT, " ")),)
    rows = textwrap.wrap(whole, room, break_long_words=True, break_on_hyphens=False)
    return tuple(row_escaped(row.replace(_JOINT, " ")) for row in rows)


def characters(lines: Iterable[Line]) -> str:
    """Return the text alone."""
    return "".join("".join(span.text for span in line).rstrip() + "\n" for line in lines)
