"""The values of one YAML file, and where each stands."""

from __future__ import annotations

import re
from dataclasses import field
from functools import lru_cache
from math import isfinite
from typing import NamedTuple

from riglint.read.problems import Place
from riglint.records import dataclass

LINE_BREAK = re.compile(r"\r\n|[\n\r\x85\u2028\u2029]")  # those that the parser counts


TRUE, FALSE = frozenset({"true", "True", "TRUE"}), frozenset({"false", "False", "FALSE"})  # of YAML 1.2


class Plain(str):
    """An unquoted scalar: its field decides whether it is text, a number or a yes/no."""

    __slots__ = ()


LONGEST_NUMBER = 20  # characters; keeps every number finite
# Numbers as YAML 1.2 has them (core schema), or editors would take what we refuse. Not 010: YAML 1.1 reads it as 8.
_BASED = re.compile(r"0x[0-9a-fA-F]+|0o[0-7]+")
_DECIMAL = re.compile(r"[-+]?(?:(?:0|[1-9][0-9]*)(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][-+]?[0-9]+)?")
_WHOLE = re.compile(r"[-+]?[0-9]+")


def plain_number(value: str) -> int | float | None:
    """Return the number that an unquoted scalar stands for; None for all else.

    >>> [plain_number(text) for text in ("82", "0.5", ".5", "1e3", "0x10", "010", "1_000", "82 m")]
    [82, 0.5, 0.5, 1000.0, 16, None, None, None]
    """
    if len(value) > LONGEST_NUMBER:
        return None
    if _BASED.fullmatch(value):
        return int(value, 0)
    if not _DECIMAL.fullmatch(value):
        return None
    if _WHOLE.fullmatch(value):
        return int(value)
    number = float(value)
    return number if isfinite(number) else None


Value = dict[str, "Value"] | list["Value"] | str | None
Path = tuple[str | int, ...]


class Origin(NamedTuple):
    """Where a group of values was written, if not where it is read: in which document, at which key."""

    document: Document
    key: Path
    called_at: Place  # where it was asked for
    name: str  # what it is called there


@dataclass(frozen=True, slots=True)
class Document:
    """The values of one file and where each stands. `path` is relative to the library root, with `/`."""

    path: str
    text: str
    data: dict[str, Value]
    places: dict[Path, Place]
    key_places: dict[Path, Place]
    origins: dict[Path, Origin] = field(default_factory=dict)

    def place(self, path: Path) -> Place:
        """Return where a value stands, else its key, else the nearest thing that holds it."""
        for length in range(len(path), -1, -1):
            found = self.places.get(path[:length]) or self.key_places.get(path[:length])
            if found:
                return found
            if path[:length] in self.origins:
                return self.origins[path[:length]].called_at
        return Place(1, 1)

    def origin(self, path: Path) -> Origin | None:
        """Return where a value was written, its whole key with it; None where it was written here."""
        for length in range(len(path), 0, -1):
            if path[:length] in self.places or path[:length] in self.key_places:
                return None
            if found := self.origins.get(path[:length]):
                return found._replace(key=(*found.key, *path[length:]))
        return None

    def row(self, line: int) -> str:
        """Return the text of a line, counted from 1; nothing where there is no such line."""
        rows = _rows(self.text)
        return rows[line - 1] if 0 < line <= len(rows) else ""


@lru_cache(maxsize=4)  # many findings stand in one file
def _rows(text: str) -> list[str]:
    return LINE_BREAK.split(text)
