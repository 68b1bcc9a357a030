"""Where things stand in a text as an editor shows it: the end of each value, and columns as the editor counts them."""

from __future__ import annotations

import re
from collections.abc import Callable
from contextlib import suppress
from typing import Any, NamedTuple

import yaml
from yaml import events

from riglint.read.decoding import MAX_BYTES
from riglint.read.problems import UNSEEN, Place
from riglint.records import dataclass

BOM = "\ufeff"
# How many units an editor counts for a text: of UTF-16 unless it has asked for another encoding.
Units = Callable[[str], int]


class TextRange(NamedTuple):
    """One value or key on one line, from 1, in characters; `end` is the column after it."""

    line: int
    start: int
    end: int
    quote: str = ""  # the quote mark that it stands in
    whole: bool = True  # whether it ends on that line


@dataclass(frozen=True, slots=True)
class Text:
    """A text, its lines, and the span of every value and key in it, by the place where it begins."""

    text: str
    lines: tuple[str, ...]
    spans: dict[Place, TextRange]

    def span(self, place: Place) -> TextRange:
        """Return what stands at a place: the key or value that begins there, else the rest of its line."""
        found = self.spans.get(place)
        if found is not None:
            return found
        line = self.lines[place.line - 1] if 0 < place.line <= len(self.lines) else ""
        end = len(re.sub(r"\s+#.*$", "", line).rstrip()) + 1
        if place.column < end:
            return TextRange(place.line, place.column, end, whole=False)
        begin = len(line) - len(line.lstrip()) + 1
        return TextRange(place.line, min(begin, end), end, whole=False)

    def to_editor(self, line: int, column: int, units: Units) -> tuple[int, int]:
        """Return line and column, from 0, as an editor counts them."""
        if not 0 < line <= len(self.lines):
            return max(0, len(self.lines) - 1), 0
        hidden = BOM if line == 1 and self.text.startswith(BOM) else ""
        return line - 1, units(hidden + self.lines[line - 1][: column - 1])

    def from_editor(self, line: int, column: int, units: Units) -> Place:
        """Return the place of an editor's line and column; beyond the end of a line it is that end."""
        written = self.lines[line] if line < len(self.lines) else ""
        left = column - (units(BOM) if line == 0 and self.text.startswith(BOM) else 0)
        for n, letter in enumerate(written):
            if left <= 0:
                return Place(line + 1, n + 1)
            left -= units(letter)
        return Place(line + 1, len(written) + 1)


def text_of(text: str) -> Text:
    """Look through a text. One that cannot be read to its end has spans up to there."""
    readable = UNSEEN.sub(" ", text.removeprefix(BOM))
    lines = tuple(re.split(r"\r\n|\n|\r", text.removeprefix(BOM)))
    spans: dict[Place, TextRange] = {}
    if len(readable) <= MAX_BYTES:
        with suppress(yaml.YAMLError, ValueError, OverflowError):  # what is wrong there, the reader says
            _look_through(readable, lines, spans)
    return Text(text, lines, spans)


def _look_through(text: str, lines: tuple[str, ...], spans: dict[Place, TextRange]) -> None:
    opened: list[Any] = []
    for event in yaml.parse(text, Loader=yaml.CSafeLoader if yaml.__with_libyaml__ else yaml.SafeLoader):
        if isinstance(event, events.CollectionStartEvent):
            opened.append(event)
        elif isinstance(event, events.CollectionEndEvent):
            start = opened.pop()
            if start.flow_style:
                _note(start.start_mark, event.end_mark, "", lines, spans)
        elif isinstance(event, events.ScalarEvent):
            quote = event.style if event.style in ('"', "'") else ""
            _note(event.start_mark, event.end_mark, quote, lines, spans)


def _note(start: Any, end: Any, quote: str, lines: tuple[str, ...], spans: dict[Place, TextRange]) -> None:
    if start.index == end.index:
        return  # a key without a value
    whole = start.line == end.line
    written = lines[start.line] if start.line < len(lines) else ""
    last = end.column if whole else len(written.rstrip())
    place = Place(start.line + 1, start.column + 1)
    spans[place] = TextRange(place.line, place.column, max(last, start.column) + 1, quote, whole)
