"""What a YAML parser could not make sense of, said in words for a rigger.

PyYAML has two parsers. They name nearly the same places; only their wording differs a little, and each phrase
below occurs in both. Each sentence says what stands there and what was expected.
"""

import re
from collections.abc import Callable
from typing import NamedTuple

import yaml

from riglint.read.problems import Place, Problem, shown

_QUOTE = "Put the whole value in quotes."


class _ParserStop(NamedTuple):
    """Where the parser stopped, where the thing that it was reading began, and the lines around."""

    lines: list[str]
    at: Place
    began: Place
    words: str  # of the parser: what it was reading, and what was wrong

    def line(self, place: Place) -> str:
        return self.lines[place.line - 1] if place.line <= len(self.lines) else ""

    def rest(self, place: Place) -> str:
        """Return what stands from a place to the end of its line, quoted; words for the end of the file."""
        text = self.line(place)[place.column - 1 :].strip()
        if text:
            return shown(text)
        return "the end of the line" if place.line < len(self.lines) else "the end of the file"

    def text(self) -> str:
        """Return what stands on the line where the fault began, from there on."""
        return self.line(self.began)[self.began.column - 1 :].strip()

    def indent(self, place: Place) -> int:
        line = self.line(place)
        return len(line) - len(line.lstrip(" "))

    def starts_line(self, place: Place) -> bool:
        return not self.line(place)[: place.column - 1].strip(" ")


_Sentence = tuple[Place, str, str]


def syntax_problem(text: str, error: Exception) -> Problem:
    """Return our own account of a parser's error: the place, what was read, what was expected."""
    fault = _fault(text, error)
    line = fault.line(fault.at)
    at_tab = line[fault.at.column - 1 : fault.at.column] == "\t" or "a tab" in fault.words
    if at_tab or re.match(r" *\t", line):
        place, message, do = _tab(fault)
        return Problem("file/yaml", place, "", message, do)
    sentence = next((say for words, say in _SENTENCES if re.search(words, fault.words)), _unknown)
    place, message, do = sentence(fault)
    written = fault.text() if sentence is _no_colon else ""
    return Problem("file/yaml", place, "", message, do, _with_colon(written), written)


def _fault(text: str, error: Exception) -> _ParserStop:
    lines = re.split(r"\r\n|\n|\r", text)
    if not isinstance(error, yaml.MarkedYAMLError):
        return _ParserStop(lines, Place(1, 1), Place(1, 1), str(error))
    at = error.problem_mark or error.context_mark
    began = error.context_mark or at
    words = f"{error.context or ''}: {error.problem or ''}"
    return _ParserStop(lines, _place(at, lines), _place(began, lines), words)


def _place(mark: object, lines: list[str]) -> Place:
    """Return the place of a parser's mark; the end of a file is where its last line ends."""
    place = Place(getattr(mark, "line", 0) + 1, getattr(mark, "column", 0) + 1)
    return place if place.line <= len(lines) else Place(len(lines), len(lines[-1]) + 1)


def _tab(fault: _ParserStop) -> _Sentence:
    tabbed = [number for number, line in enumerate(fault.lines, 1) if re.match(r" *\t\s*\S", line)]
    line = fault.line(fault.at)
    place = Place(fault.at.line, line.find("\t") + 1 if "\t" in line else fault.at.column)
    more = f" ({len(tabbed)} lines of this file begin with one)" if len(tabbed) > 1 else ""
    return place, "There is a tab here. YAML needs spaces.", f"Indent with spaces, two for each level{more}."


def _open_quote(fault: _ParserStop) -> _Sentence:
    message = f"The quote that opens at {fault.rest(fault.began)} is never closed."
    return fault.began, message, "Write the same quote mark at the end of the text."


def _no_colon(fault: _ParserStop) -> _Sentence:
    message = f"{shown(fault.text())} has no colon. Expected a key, a colon and a space."
    right = _with_colon(fault.text())
    return fault.began, message, f"Write {shown(right[0])}." if right else "Write a colon after the key."


def _with_colon(text: str) -> tuple[str, ...]:
    """Return a line as it is with a colon behind its first word; nothing where it has no second."""
    found = re.match(r"([\w$]+):?\s*(\S.*)", text)
    return (f"{found[1]}: {found[2]}",) if found else ()


def _backslash(fault: _ParserStop) -> _Sentence:
    message = "A backslash in double quotes begins an escape that YAML doesn't know."
    return fault.at, message, "Use single quotes, or write the backslash twice."


def _needs_quotes(fault: _ParserStop) -> _Sentence:
    place = fault.began
    begins = fault.line(place)[place.column - 1 : place.column]
    message = f"{fault.rest(place)} begins with {begins}, which YAML keeps for itself. Expected a value."
    return place, message, _QUOTE


def _two_values(fault: _ParserStop) -> _Sentence:
    line = fault.line(fault.at)
    before = line[: fault.at.column - 1]
    if re.search(r":\s", before) or line.startswith("---"):
        message = f"{shown(line)} has a second colon. Expected one key and its value on this line."
        return fault.at, message, "Put text with a colon in quotes, or begin another key on a new line."
    spaces = fault.indent(fault.at)
    if not spaces:  # a key of more than 1024 characters
        return _unknown(fault)
    message = f"{shown(line)} is indented by {_spaces(spaces)}, under a line that already has its value."
    do = "Give it the same indentation as the key beside it."
    return Place(fault.at.line, spaces + 1), message, do


def _list_beside_key(fault: _ParserStop) -> _Sentence:
    message = f"A list begins at {fault.rest(fault.at)}, on the line of its key. Expected a value."
    return fault.at, message, "Begin the list on the next line, or write it in brackets: [one, two]."


def _open_bracket(fault: _ParserStop) -> _Sentence:
    bracket = fault.line(fault.began)[fault.began.column - 1 : fault.began.column]
    closing = {"[": "]", "{": "}"}.get(bracket, "its closing bracket")
    where = f"The bracket {bracket} on line {fault.began.line}, column {fault.began.column}"
    if fault.at.line == fault.began.line:
        place, before = fault.at, fault.rest(fault.at)
    else:
        line = fault.line(fault.at)
        place, before = fault.began, f"line {fault.at.line}, {shown(line) if line else 'the end of the file'}"
    message = f"{where} is not closed before {before}. Expected a comma or {closing}."
    return place, message, f"Write {closing} where the group ends, and a comma between its values."


def _no_value(fault: _ParserStop) -> _Sentence:
    return (
        fault.at,
        f"Expected a value, found {fault.rest(fault.at)}.",
        "Write a value. Put text that begins like this in quotes.",
    )


def _block_text(fault: _ParserStop) -> _Sentence:
    message = f"Something follows the mark of a text over several lines: {fault.rest(fault.at)}."
    return fault.at, message, "Begin the text on the next line, or put it in quotes."


def _directive(fault: _ParserStop) -> _Sentence:
    message = f"{shown(fault.line(fault.at))} is, or follows, a YAML directive. Expected keys and values."
    return fault.at, message, "Take the line that begins with % out."


def _misplaced(fault: _ParserStop) -> _Sentence:
    """Say why a line does not continue the keys or the list that it stands in."""
    here = fault.rest(fault.at)
    if here[1] in "]}":
        return (
            fault.at,
            f"{here} closes a bracket that is not open.",
            "Take it out, or write the opening bracket.",
        )
    if not fault.starts_line(fault.at):
        message = f"{here} follows a value that has already ended."
        return fault.at, message, "Put the whole value in quotes, or take the rest out."
    spaces, outer = fault.at.column - 1, fault.began.column - 1
    if spaces == outer and "collection" in fault.words:
        message = f"{here} is in the list of line {fault.began.line}. Expected an item that begins with -."
        return fault.at, message, "Begin it with -, or indent it less than the list."
    if spaces == outer:
        message = f"Expected a key and a colon, found {here}."
        return fault.at, message, "Write the key, or indent the line under the key that it belongs to."
    message = (
        f"{here} is indented by {_spaces(spaces)}, and no line above is. The group that begins on "
        f"line {fault.began.line} is indented by {outer}."
    )
    return fault.at, message, "Give it the same indentation as its group."


def _spaces(count: int) -> str:
    return "1 space" if count == 1 else f"{count} spaces"


def _unknown(fault: _ParserStop) -> _Sentence:
    message = f"{fault.rest(fault.at)} can't be read as YAML ({fault.words.strip(': ')})."
    return fault.at, message, "Compare the line with a file that works."


def _too_deep(fault: _ParserStop) -> _Sentence:
    return fault.at, "The brackets are more than a thousand levels deep.", "Write it flatter."


_SENTENCES: tuple[tuple[str, Callable[[_ParserStop], _Sentence]], ...] = (
    (r"quoted scalar: found unexpected", _open_quote),
    (r"simple key: could not find", _no_colon),
    (r"quoted scalar|int too large|chr\(\)", _backslash),
    (r"alphabetic or numeric|\btag\b|start any token", _needs_quotes),
    (r"mapping values", _two_values),
    (r"sequence entries", _list_beside_key),
    (r"flow (?:sequence|mapping)", _open_bracket),
    (r"node content|mapping keys", _no_value),
    (r"block scalar", _block_text),
    (r"exceeded|nesting|depth", _too_deep),
    (r"directive|document start|incompatible", _directive),
    (r"block (?:mapping|collection)", _misplaced),
)
