"""What a file says as data: JSON and nothing else, so that reading it back runs no code.

Only the classes that are named here come back. A file that says anything of another class is not remembered.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable
from dataclasses import fields, is_dataclass
from datetime import date
from enum import Enum
from functools import cache
from pathlib import Path
from typing import Any

from pydantic import BaseModel

from riglint.findings.finding import Finding, NotJudged, RuleCount, Where
from riglint.loads.day.days_up import DaysUp
from riglint.loads.inputs import At
from riglint.loads.what_if.solved_for import Edit, Remedy
from riglint.model.documents import rig
from riglint.model.values.sources import Source
from riglint.read.document import Document
from riglint.read.problems import Place
from riglint.read.quantity import Quantity
from riglint.rulekit import Input, Signal
from riglint.rulekit.facts import LineKey, LineTitle, Using

OF_A_RIG = tuple(one for one in vars(rig).values() if isinstance(one, type) and issubclass(one, BaseModel))
OURS: tuple[type, ...] = (
    At,
    DaysUp,
    Document,
    Edit,
    Finding,
    Input,
    LineKey,
    LineTitle,
    NotJudged,
    Place,
    Quantity,
    Remedy,
    RuleCount,
    Signal,
    Source,
    Using,
    Where,
    *OF_A_RIG,
)


_Put = Callable[[Any], Any]


class NoRecordError(Exception):
    """Something is of a class that has no record."""


class Records:
    """Values to JSON and back, of the classes that are known."""

    def __init__(self, more: Iterable[type] = ()) -> None:
        self.known = {one.__name__: one for one in (*OURS, *more)}

    def text(self, value: object) -> bytes:
        """Return a value as JSON.

        Raises:
            NoRecordError: a part of it is of a class that is not known.
        """
        return json.dumps(self._put(value), ensure_ascii=False, separators=(",", ":")).encode()

    def value(self, text: bytes) -> Any:
        """Return the value that a text was made of.

        Raises:
            ValueError, TypeError, KeyError: it is no such text.
        """
        return self._take(json.loads(text))

    def _put(self, value: Any) -> Any:
        if value is None or type(value) in {bool, int, float, str}:
            return value
        if type(value) is tuple and (row := self._row(value)):
            return {"rows": row, "holds": value}
        if type(value) in _TO:
            return _TO[type(value)](value, self._put)
        return {"path": str(value)} if isinstance(value, Path) else self._put_made(value)

    def _put_made(self, value: Any) -> dict[str, Any]:
        name = type(value).__name__
        if self.known.get(name) is not type(value):
            raise NoRecordError(name)
        if isinstance(value, Enum):
            return {"word": name, "is": value.name}
        if isinstance(value, BaseModel):
            held = {one: self._put(held) for one, held in value.__dict__.items()}
            return {"model": name, "holds": held, "set": sorted(value.model_fields_set)}
        return {"of": name, "holds": [self._put(one) for one in _held(value)]}

    def _row(self, value: tuple[Any, ...]) -> str:
        """Return of which class a row of named tuples is that hold texts and numbers alone; empty where it is none."""
        kind = type(value[0]) if value else tuple
        if not hasattr(kind, "_fields") or self.known.get(kind.__name__) is not kind:
            return ""
        alike = all(type(one) is kind and _PLAIN.issuperset(map(type, one)) for one in value)
        return kind.__name__ if alike else ""

    def _take(self, data: Any) -> Any:
        if type(data) is list:
            return _each(data, self._take)
        return data if type(data) is not dict else self._take_made(data)

    def _take_made(self, data: dict[str, Any]) -> Any:
        kind = next(iter(data))
        if kind == "of":
            return self._made(data["of"], _each(data["holds"], self._take))
        if kind == "model":
            model: Any = self.known[data["model"]]
            held = {name: self._take(one) for name, one in data["holds"].items()}
            return model.model_construct(set(data["set"]), **held)
        if kind == "rows":
            made: Any = self.known[data["rows"]]
            return tuple(map(made._make, data["holds"]))
        if kind == "word":
            return self.known[data["word"]][data["is"]]  # type: ignore[index]  # an enumeration
        return _FROM[kind](data[kind], self._take)

    def _made(self, name: str, held: list[Any]) -> Any:
        one: Any = self.known[name]
        names = _names(one)
        if names is None:
            return one(*held)
        if len(names) != len(held):
            raise ValueError(name)
        made = object.__new__(one)
        for field, what in zip(names, held, strict=False):
            _set(made, field, what)  # also what it works out for itself when it is made
        return made


def _held(value: Any) -> list[Any]:
    if is_dataclass(value):
        return [getattr(value, one.name) for one in fields(value)]
    return list(value)  # a named tuple


_set = object.__setattr__
_PLAIN = frozenset({type(None), bool, int, float, str})
_NESTED = frozenset({dict, list})


@cache
def _names(one: Any) -> tuple[str, ...] | None:
    """Return the fields of a class, None where it has none of a dataclass."""
    return tuple(field.name for field in fields(one)) if is_dataclass(one) else None


def _each(data: list[Any], take: _Put) -> list[Any]:
    """Return each value; most are texts and numbers, which stay as they are."""
    return [take(one) if type(one) in _NESTED else one for one in data]


def _pairs(value: dict[Any, Any], put: _Put) -> dict[str, Any]:
    return {"dict": [[put(key), put(held)] for key, held in value.items()]}


_TO: dict[type, Callable[[Any, _Put], Any]] = {
    list: lambda value, put: [put(one) for one in value],
    tuple: lambda value, put: {"tuple": [put(one) for one in value]},
    frozenset: lambda value, put: {"set": sorted((put(one) for one in value), key=repr)},
    dict: _pairs,
    date: lambda value, _: {"day": value.isoformat()},
}
_FROM: dict[str, Callable[[Any, _Put], Any]] = {
    "tuple": lambda data, take: tuple(_each(data, take)),
    "set": lambda data, take: frozenset(_each(data, take)),
    "dict": lambda data, take: dict(_each(one, take) for one in data),
    "day": lambda data, _: date.fromisoformat(data),
    "path": lambda data, _: Path(data),
}


def canonical(value: Any) -> str:
    """Return a text that two values share only if they are alike, whatever the order of their sets.

    Raises:
        NoRecordError: it holds something that has no such text.
    """
    if is_dataclass(value) and not isinstance(value, type):
        return f"{type(value).__name__}({','.join(canonical(getattr(value, one.name)) for one in fields(value))})"
    if isinstance(value, dict):
        return f"{{{','.join(sorted(f'{canonical(key)}:{canonical(held)}' for key, held in value.items()))}}}"
    if isinstance(value, (set, frozenset)):
        return f"{{{','.join(sorted(map(canonical, value)))}}}"
    if isinstance(value, (list, tuple)):
        return f"({','.join(map(canonical, value))})"
    if isinstance(value, (type(None), bool, int, float, str, bytes, date, Path, Enum)):
        return repr(value)
    raise NoRecordError(type(value).__name__)
