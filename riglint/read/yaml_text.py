"""YAML text to plain values, each with its line and column.

Values stay text: whether `no`, `12:30` or `017` is a word, a number or a mistake is for the field to decide,
so none of YAML's readings can change a load. What makes a file mean two things at once (duplicate keys,
anchors and aliases, merge keys, tags, a second document) is refused, and so is what no rig needs and only
harms a reader: more than 40 levels, more than 2 MB, NaN and infinities, unseen characters.
"""

from __future__ import annotations

import re
from typing import NoReturn

import yaml
from yaml import events

from riglint.read.broken_yaml import syntax_problem
from riglint.read.decoding import decoded
from riglint.read.document import FALSE, TRUE, Document, Path, Plain, Value, plain_number
from riglint.read.problems import UNSEEN, Place, Problem, key_text, shown
from riglint.read.yaml_events import Event, next_event

MAX_DEPTH = 40
MAX_PROBLEMS = 100  # in one file; more would hide the first ones
MAX_VALUES = 100_000  # a shelf of 5,000 items stays below; keeps a hostile file of 2 MB under a second or two

NULL = ("", "~", "null", "Null", "NULL")  # of YAML 1.2
_NO_NUMBER = re.compile(r"[-+]?\.(?:inf|nan)", re.IGNORECASE)


def read_yaml(raw: bytes, path: str) -> tuple[Document | None, list[Problem]]:
    """Read one file. `path` is how the file is named to people.

    Returns:
        The document and all problems found in one run, in the order of the file. With problems beside it a
        document serves only to look for more of them: nothing in it may be judged. No document is returned
        where its values are not whole (bad syntax, an alias, a merge key, …); a problem then says why.
    """
    text, problems = decoded(raw)
    if text is None:
        return None, problems
    # Each unseen character was reported; a space in its place keeps all columns and lets the rest be read.
    readable = UNSEEN.sub(" ", text)
    builder = _Builder(readable, problems)
    data = builder.document()
    problems.sort(key=lambda problem: problem.place)
    if data is None:
        return None, problems
    return Document(path, text, data, builder.places, builder.key_places), problems


def resolved(value: Value) -> object:
    """Return plain values: unquoted true, false and numbers become those, all else stays text.

    >>> resolved({"public": Plain("true"), "mass": Plain("82 kg"), "at": Plain("0.5"), "title": "12"})
    {'public': True, 'mass': '82 kg', 'at': 0.5, 'title': '12'}
    """
    if isinstance(value, dict):
        return {key: resolved(item) for key, item in value.items()}
    if isinstance(value, list):
        return [resolved(item) for item in value]
    if not isinstance(value, Plain):
        return value
    if value in TRUE or value in FALSE:
        return value in TRUE
    number = plain_number(value)
    return str(value) if number is None else number


class _Stop(Exception):  # noqa: N818 - not an error of its own: the problem stands in the list
    """There is no sense in reading on."""


class _Builder:
    """Builds values from parser events and notes places and problems as it goes."""

    def __init__(self, text: str, problems: list[Problem]) -> None:
        self.text = text
        self.problems = problems
        self.places: dict[Path, Place] = {}
        self.key_places: dict[Path, Place] = {}
        self.whole = True  # false once a value had to be left out
        self.values_left = MAX_VALUES

    def document(self) -> dict[str, Value] | None:
        """Return the top-level keys and values, or None where they could not be read whole."""
        try:
            self.next = next_event(self.text)
            data = self._document()
        except _Stop:
            return None
        except (yaml.YAMLError, ValueError, OverflowError) as error:  # the last two: \U escapes, pure parser
            self.problems.append(syntax_problem(self.text, error))
            return None
        return data if self.whole else None

    def _document(self) -> dict[str, Value] | None:
        self.next()  # start of the stream
        start = self.next()
        if isinstance(start, events.StreamEndEvent):
            self._stop(
                Place(1, 1), (), "The file is empty.", "Begin it with its kind, such as riglint: rig/1."
            )
        event = self.next()
        data = self._node(event, ())
        self.next()  # end of the document
        rest = self.next()
        if not isinstance(rest, events.StreamEndEvent):
            message = "A second document begins here. One file holds one document."
            self._stop(_place(rest), (), message, "Move it to a file of its own, or take out the line ---.")
        if not isinstance(data, dict):
            self._no_mapping(event, data)
        return data

    def _no_mapping(self, event: Event, data: Value) -> NoReturn:
        place, begin = _place(event), "Begin the file with its kind, such as riglint: rig/1."
        if data is None:
            self._stop(Place(1, 1), (), "The file is empty.", begin)
        if not isinstance(data, str):
            self._stop(place, (), "The file is a list. Expected keys with values.", begin)
        if re.search(r"\w:\S", data):
            begin = "Write a colon and a space after each key, such as riglint: rig/1."
        self._stop(place, (), f"The file is one text, {shown(data)}. Expected keys with values.", begin)

    def _node(self, event: Event, path: Path) -> Value:
        """Return one value: a scalar, or everything up to the end of its list or mapping."""
        self.values_left -= 1
        if self.values_left < 0:
            message = f"The file holds more than {MAX_VALUES} values."
            self._stop(_place(event), path, message, "Split it into several files.")
        if path not in self.places:
            self.places[path] = _place(event)
        if isinstance(event, events.AliasEvent):
            alias = shown("*" + str(event.anchor))
            message = f"{alias} is an alias for another part of the file. Expected the value itself."
            self._left_out(event, path, message)
            return None
        if event.anchor is not None or event.tag is not None:
            self._refuse_labels(event, path)
        if isinstance(event, events.ScalarEvent):
            return self._scalar(event, path)
        if len(path) >= MAX_DEPTH:
            message = f"Lists and keys are more than {MAX_DEPTH} levels deep."
            do = "Write it flatter. No rig needs more than ten levels."
            self._stop(_place(event), path[:2], message, do)  # the whole key would fill the report
        return self._mapping(path) if isinstance(event, events.MappingStartEvent) else self._list(path)

    def _scalar(self, event: Event, path: Path) -> Value:
        text: str = event.value
        if not text.isprintable():
            text = self._seen(event, path)
        if event.style:
            return text
        if text in NULL:
            return None
        if text[0] in ".+-" and _NO_NUMBER.fullmatch(text):
            message = f"A rig can't be calculated with {shown(text)}."
            self._left_out(event, path, message, "Write a number. If you don't know it, leave the key out.")
            return None
        return Plain(text)

    def _list(self, path: Path) -> list[Value]:
        items: list[Value] = []
        while not isinstance(event := self.next(), events.SequenceEndEvent):
            items.append(self._node(event, (*path, len(items))))
        return items

    def _mapping(self, path: Path) -> dict[str, Value]:
        found: dict[str, Value] = {}
        while not isinstance(event := self.next(), events.MappingEndEvent):
            key = self._key(event, path)
            if key is None:
                self._node(self.next(), (*path, "?"))
                continue
            key_path = (*path, key)
            if key in found:
                self._duplicate(event, key_path)
            else:
                self.key_places[key_path] = _place(event)
            value = self._node(self.next(), key_path)
            if value is None and ":" in key and not event.style:
                message = f"{shown(key)} is a key without a value: there is no space after its colon."
                self._refuse(_place(event), key_path, message, "Write a space after the colon.")
            found.setdefault(key, value)
        return found

    def _key(self, event: Event, path: Path) -> str | None:
        """Return the text of a key, or None for what cannot be one; its value is then read and dropped."""
        if not isinstance(event, events.ScalarEvent):
            self._left_out(event, path, "Expected one key, found a list, keys or an alias.", "Write the key.")
            if not isinstance(event, events.AliasEvent):
                self._node(event, (*path, "?"))
            return None
        if event.anchor is not None or event.tag is not None:
            self._refuse_labels(event, path)
        text = event.value if event.value.isprintable() else self._seen(event, path)
        if text == "<<" and not event.style:
            self._left_out(
                event,
                path,
                "<< merges keys from elsewhere in the file. Expected the keys themselves.",
                "Write them here, in full.",
            )
            return None
        if not text and not event.style:
            self._left_out(event, path, "There is a colon without a key before it.", "Write the key.")
            return None
        return text

    def _duplicate(self, event: Event, path: Path) -> None:
        first, second = self.key_places[path], _place(event)
        where = (
            f"on lines {first.line} and {second.line}"
            if first.line != second.line
            else f"on line {first.line}"
        )
        message = f"The key {shown(str(path[-1]))} is there twice, {where}. Only one can be right."
        self._refuse(second, path, message, "Keep one of them.", rule="file/duplicate")

    def _refuse_labels(self, event: Event, path: Path) -> None:
        """Refuse an anchor or a tag before a value. The value itself is whole."""
        place = _place(event)
        if event.anchor is not None:
            message = f"{shown('&' + event.anchor)} is a YAML anchor. Write each value where you use it."
            self._refuse(place, path, message, "Take it out, or put the whole value in quotes if it is text.")
        if event.tag is not None:
            written = event.tag.replace("tag:yaml.org,2002:", "!!")
            message = f"{shown(written)} is a YAML tag. Expected a plain value."
            self._refuse(place, path, message, "Take it out, or put the whole value in quotes if it is text.")

    def _seen(self, event: Event, path: Path) -> str:
        """Return a scalar without the unseen characters that escapes have put into it."""
        if UNSEEN.search(event.value):
            message = f"The text {shown(event.value)} contains an invisible character."
            self._refuse(_place(event), path, message, "Take the escape with its backslash out.")
        return UNSEEN.sub("\ufffd", event.value)

    def _left_out(self, event: Event, path: Path, message: str, do: str | None = None) -> None:
        self.whole = False
        self._refuse(_place(event), path, message, do or "Write the value itself here, in full.")

    def _refuse(self, place: Place, path: Path, message: str, do: str, rule: str = "file/yaml") -> None:
        self.problems.append(Problem(rule, place, key_text(path), message, do))
        if len(self.problems) >= MAX_PROBLEMS:
            message = f"Reading stopped here, after {MAX_PROBLEMS} problems in this file."
            self._stop(place, path, message, "Correct these first.")

    def _stop(self, place: Place, path: Path, message: str, do: str) -> NoReturn:
        self.problems.append(Problem("file/yaml", place, key_text(path), message, do))
        raise _Stop


def _place(event: Event) -> Place:
    mark = event.start_mark
    return Place(mark.line + 1, mark.column + 1)
