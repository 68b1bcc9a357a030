"""Where somebody is writing in a text, however far it has come: the key there, and the values round it.

A text with an open bracket or a broken line has no document. Its events up to that place still say where it is, so
a stand-in is put where the next word goes. A line that keeps the parser from getting there is left out.
"""

from __future__ import annotations

import re
from typing import Any

import yaml
from yaml import events

from riglint.read.decoding import MAX_BYTES
from riglint.read.document import Path as Key
from riglint.read.problems import UNSEEN
from riglint.records import dataclass

STAND_IN = "stands-in-for-the-next-word"
MOST_LEFT_OUT = 20  # lines; more than that is no half-written document
# What comes before a word: the beginning of the line with its dashes, a bracket, a comma, a colon; then the word.
_BEFORE = re.compile(
    r"(?:^[ \t]*(?:-[ \t]+)*|[\[{,][ \t]*|:[ \t]+|(?<=[ \t])-[ \t]+)(?P<quote>[\"']?)(?P<word>[^\[\]{},:\"'#]*)$"
)
_MORE = re.compile(r"(?P<word>[\w./-]*)[\"']?")
_COMMENT = re.compile(r"(?:^|[ \t])#")


@dataclass(frozen=True, slots=True)
class Here:
    """A place where a key or a value may be written, and all that could be read of the document."""

    key: Key  # of the group for a key, of the value itself for a value
    is_key: bool
    data: Any
    word: str  # what stands there up to the cursor
    start: int  # the column where it begins, from 0
    end: int  # the column where the word ends behind the cursor
    colon: bool  # whether a colon follows already
    quoted: bool  # whether a quote mark stands before it


def places_at(text: str, line: int, column: int) -> list[Here]:
    """Return what may be written at a line and column, both from 0: a key, a value, or either of them."""
    lines = text.split("\n")
    if len(text) > MAX_BYTES or line >= len(lines):
        return []
    before, after = lines[line][:column], lines[line][column:]
    found, more = _BEFORE.search(before), _MORE.match(after)
    if found is None or more is None or _COMMENT.search(before):
        return []
    head, rest = before[: found.start("quote")], after[more.end() if found["quote"] else more.end("word") :]
    colon = rest.lstrip().startswith(":")
    here = []
    for add in ("",) if colon else (": ", ""):
        lines[line] = f"{head}{STAND_IN}{add}{rest}"
        key, is_key, data = _reach(lines, line)
        if key is not None and is_key == (colon or bool(add)):
            start, end = found.start("word"), column + more.end("word")
            here.append(Here(key, is_key, data, found["word"], start, end, colon, bool(found["quote"])))
    return here


def at(data: Any, key: Key) -> Any:
    """Return what stands at a key of what could be read; None where nothing does."""
    for step in key:
        if isinstance(data, dict):
            data = data.get(str(step))
        elif isinstance(data, list) and isinstance(step, int) and step < len(data):
            data = data[step]
        else:
            return None
    return data


def read_loosely(text: str) -> Any:
    """Return what can be read of a text up to its end or its first fault that no line less would mend."""
    return _walk(text.split("\n"), None).data


def _reach(lines: list[str], line: int) -> tuple[Key | None, bool, Any]:
    """Return where the stand-in is: with the whole text, else with nothing behind it."""
    for tried in (lines, lines[: line + 1]):
        walk = _walk(list(tried), line)
        if walk.found is not None:
            return (*walk.found, walk.data)
    return None, False, None


def _walk(lines: list[str], line: int | None) -> _LineWalk:
    """Read lines, leaving out one after the other that stops the parser before the stand-in."""
    walk = _LineWalk()
    for _ in range(MOST_LEFT_OUT):
        walk = _LineWalk()
        try:
            walk.read("\n".join(lines))
        except yaml.MarkedYAMLError as error:
            wrong = _line_of(error, len(lines) if line is None else line)
            if walk.found is not None or wrong is None:
                break
            lines[wrong] = ""
        except (yaml.YAMLError, ValueError, OverflowError, RecursionError):
            break
        else:
            break
    return walk


def _line_of(error: yaml.MarkedYAMLError, before: int) -> int | None:
    """Return the line to leave out: where what went wrong begins, or where it was seen, if it is above a line."""
    marks = [mark.line for mark in (error.context_mark, error.problem_mark) if mark is not None]
    return next((line for line in marks if line < before), None)


class _LineWalk:
    """Builds values from parser events as far as they come, and notes where the stand-in is."""

    def __init__(self) -> None:
        self.data: Any = None
        self.found: tuple[Key, bool] | None = None
        self._opened: list[Any] = []
        self._keys: list[str | int | None] = []

    def read(self, text: str) -> None:
        loader = yaml.CSafeLoader if yaml.__with_libyaml__ else yaml.SafeLoader
        for event in yaml.parse(UNSEEN.sub(" ", text), Loader=loader):
            if isinstance(event, events.MappingStartEvent):
                self._open({})
            elif isinstance(event, events.SequenceStartEvent):
                self._open([])
            elif isinstance(event, events.CollectionEndEvent):
                self._opened.pop()
                self._keys.pop()
                self._next()
            elif isinstance(event, events.ScalarEvent):
                self._scalar(event.value)
            elif isinstance(event, events.AliasEvent):
                self._scalar("")

    def _open(self, group: Any) -> None:
        self._take(group)
        self._opened.append(group)
        self._keys.append(0 if isinstance(group, list) else None)

    def _scalar(self, text: str) -> None:
        if self._opened and isinstance(self._opened[-1], dict) and self._keys[-1] is None:
            if text == STAND_IN:
                self.found = (self._key()[:-1], True)
            self._keys[-1] = text
            return
        if text == STAND_IN:
            self.found = (self._key(), False)
        self._take(text)
        self._next()

    def _key(self) -> Key:
        return tuple("" if step is None else step for step in self._keys)

    def _take(self, value: Any) -> None:
        """Put a value where it belongs."""
        if not self._opened:
            self.data = value
        elif isinstance(self._opened[-1], list):
            self._opened[-1].append(value)
        elif isinstance(self._keys[-1], str):
            self._opened[-1][self._keys[-1]] = value

    def _next(self) -> None:
        """Go on to the next value of a list, or to the next key of a group."""
        if self._opened:
            last = self._keys[-1]
            self._keys[-1] = last + 1 if isinstance(last, int) else None
