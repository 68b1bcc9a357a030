"""One value in a model or in the plain data of a file: read, or replaced with nothing changed in place."""

from __future__ import annotations

from functools import cache
from typing import Any

from pydantic import BaseModel

from riglint.model.sentences import Key


def with_value(node: Any, key: Key, value: Any) -> Any:
    """Return a model or plain data with one value replaced; the rest is shared."""
    if not key:
        return value
    first, rest = key[0], key[1:]
    if isinstance(node, BaseModel):
        name = _field(node, first)
        return node.model_copy(update={name: with_value(getattr(node, name), rest, value)})
    if isinstance(node, dict):
        return {**node, first: with_value(node[first], rest, value)}
    changed = [with_value(one, rest, value) if n == first else one for n, one in enumerate(node)]
    return tuple(changed) if isinstance(node, tuple) else changed


def value_at(node: Any, key: Key) -> Any:
    """Return the value at a key of a model or of plain data; None where something on the way is not given."""
    for step in key:
        if node is None:
            return None
        if isinstance(node, BaseModel):
            node = getattr(node, _field(node, step))
        elif isinstance(node, dict):
            node = node.get(step)
        else:
            node = node[step] if isinstance(step, int) and step < len(node) else None
    return node


def _field(model: BaseModel, key: str | int) -> str:
    """Return the attribute behind a key of the file."""
    return _fields(type(model))[key]


@cache
def _fields(model: type[BaseModel]) -> dict[str | int, str]:
    """Return the attribute behind each key of a file, and behind its own name."""
    found: dict[str | int, str] = {}
    for name, field in model.model_fields.items():
        for key in (name, field.alias):
            if key is not None:
                found.setdefault(key, name)
    return found
