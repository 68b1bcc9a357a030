"""Edits of YAML text that touch nothing but the values they are about: comments, order and spaces stay."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

import yaml

from riglint.read.problems import Place


class TextEdit(NamedTuple):
    """What takes the place of some letters of a text."""

    start: int
    end: int
    text: str


class CannotEditError(ValueError):
    """The text is written in a way that this does not edit: one sentence."""


def edited(text: str, edits: Iterable[TextEdit]) -> str:
    """Return a text with edits made, none of which overlap."""
    for edit in sorted(edits, reverse=True):
        text = text[: edit.start] + edit.text + text[edit.end :]
    return text


class Nodes:
    """The values of a text by where they begin."""

    def __init__(self, text: str) -> None:
        """Read a text.

        Raises:
            CannotEditError: it holds no group of keys.
        """
        self.text = text
        self.newline = "\r\n" if "\r\n" in text else "\n"
        root = yaml.compose(text, Loader=yaml.SafeLoader)
        if not isinstance(root, yaml.MappingNode):
            raise CannotEditError("The file holds no keys.")
        self.root = root
        self._by_place = {
            (one.start_mark.line + 1, one.start_mark.column + 1): one for one in _values(self.root)
        }

    def at(self, place: Place) -> yaml.Node | None:
        """Return the value that begins at a place."""
        return self._by_place.get((place.line, place.column))

    def below(self, group: yaml.Node, key: str) -> yaml.Node | None:
        """Return what a group has under a key."""
        pairs = group.value if isinstance(group, yaml.MappingNode) else []
        return next((held for name, held in pairs if name.value == key), None)

    def set_key(self, group: yaml.Node, key: str, value: str) -> TextEdit:
        """Return the edit that gives a key of a group a value; a name alone becomes `{gear: NAME, key: value}`.

        Raises:
            CannotEditError: the group is written otherwise.
        """
        if isinstance(group, yaml.ScalarNode):
            said = self.text[group.start_mark.index : group.end_mark.index]
            return TextEdit(group.start_mark.index, group.end_mark.index, f"{{gear: {said}, {key}: {value}}}")
        if not isinstance(group, yaml.MappingNode):
            raise CannotEditError(
                f"Line {group.start_mark.line + 1} holds a list. Write {key}: {value} by hand."
            )
        for name, held in group.value:
            if name.value == key:
                return self._replaced(name, held, value)
        if group.flow_style:
            return self._after_last(group, f"{key}: {value}")
        return self._new_line(group, f"{key}: {value}")

    def _replaced(self, name: yaml.Node, held: yaml.Node, value: str) -> TextEdit:
        if not isinstance(held, yaml.ScalarNode):
            raise CannotEditError(f"Line {name.start_mark.line + 1} holds a group. Write {value} by hand.")
        if held.start_mark.index == held.end_mark.index:  # nothing behind the colon
            after = self.text.index(":", name.end_mark.index) + 1
            return TextEdit(after, after, f" {value}")
        return TextEdit(held.start_mark.index, held.end_mark.index, value)

    def _after_last(self, group: yaml.CollectionNode, text: str) -> TextEdit:
        """Return the edit that adds to a group or list in brackets."""
        if not group.value:
            return TextEdit(group.start_mark.index + 1, group.start_mark.index + 1, text)
        last = group.value[-1][1] if isinstance(group, yaml.MappingNode) else group.value[-1]
        end = last.end_mark.index
        return TextEdit(end, end, f", {text}")

    def _new_line(self, group: yaml.MappingNode, text: str) -> TextEdit:
        """Return the edit that adds a key to a group of lines, below its first value that takes one line."""
        for name, held in group.value:
            if (
                isinstance(held, yaml.ScalarNode)
                and held.start_mark.line == held.end_mark.line == name.start_mark.line
            ):
                end = self._end_of_line(name.start_mark.index)
                return TextEdit(end, end, f"{self.newline}{' ' * name.start_mark.column}{text}")
        raise CannotEditError(f"Line {group.start_mark.line + 1}: write {text} by hand.")

    def _end_of_line(self, index: int) -> int:
        end = self.text.find("\n", index)
        end = len(self.text) if end < 0 else end
        return end - 1 if self.text[end - 1 : end] == "\r" else end

    def add_entries(self, key: str, entries: list[str]) -> TextEdit:
        """Return the edit that adds entries to a list at the top of the text, or the list itself.

        Raises:
            CannotEditError: something else stands under that key.
        """
        lines = "".join(f"{self.newline}  - {one}" for one in entries)
        found = next(((name, held) for name, held in self.root.value if name.value == key), None)
        if found is None:
            ended = "" if self.text.endswith("\n") else self.newline
            return TextEdit(len(self.text), len(self.text), f"{ended}{key}:{lines}{self.newline}")
        name, held = found
        if isinstance(held, yaml.ScalarNode) and held.start_mark.index == held.end_mark.index:
            after = self.text.index(":", name.end_mark.index) + 1
            return TextEdit(after, after, lines)
        if not isinstance(held, yaml.SequenceNode):
            raise CannotEditError(
                f"Line {name.start_mark.line + 1}: {key} holds no list. Add the entries by hand."
            )
        if held.flow_style and not held.value:
            return TextEdit(held.start_mark.index, held.end_mark.index, lines.removeprefix(" "))
        if held.flow_style:
            return self._after_last(held, ", ".join(entries))
        indent = " " * (held.start_mark.column)
        end = self._end_of_line(max(_last_letter(held.value[-1]) - 1, 0))
        return TextEdit(end, end, "".join(f"{self.newline}{indent}- {one}" for one in entries))


def _values(node: yaml.Node) -> Iterator[yaml.Node]:
    """Yield every value, outer ones first; names of keys are none."""
    yield node
    if isinstance(node, yaml.MappingNode):
        for _, held in node.value:
            yield from _values(held)
    elif isinstance(node, yaml.SequenceNode):
        for one in node.value:
            yield from _values(one)


def _last_letter(node: yaml.Node) -> int:
    """Return where a value ends, without the comments and lines that follow a block."""
    if isinstance(node, yaml.CollectionNode) and not node.flow_style and node.value:
        last = node.value[-1]
        return _last_letter(last[1] if isinstance(last, tuple) else last)
    return int(node.end_mark.index)
