"""What may be written at a key: the groups whose keys fit there, its words, yes or no, its units and its bounds."""

from __future__ import annotations

from collections.abc import Iterator
from types import UnionType
from typing import Annotated, Any, Union, get_args, get_origin

from pydantic import BaseModel, WithJsonSchema

from riglint.model.load import Key
from riglint.model.schema import MODELS, TABLES, KindTable
from riglint.model.schema_words import band_in_words
from riglint.model.vocabulary import kinds
from riglint.read.quantity import units_of

Model = type[BaseModel]


def model_of(kind: str) -> Model | None:
    """Return the model of a kind of document."""
    return MODELS.get(kind)


def kind_of(data: Any) -> str:
    """Return the kind that a document says it is; empty for none."""
    return str(data.get("riglint", "")).partition("/")[0] if isinstance(data, dict) else ""


def kinds_at(model: Model, key: Key) -> list[Any]:
    """Return the annotations of what may stand at a key, one for each way to write it."""
    found: list[Any] = [model]
    for step in key:
        found = [inner for one in found for inner in _below(one, step)]
    return found


def groups_at(model: Model, key: Key) -> list[Model]:
    """Return the groups that may stand at a key: those whose keys may be written there."""
    return [one for one in kinds_at(model, key) if isinstance(one, type) and issubclass(one, BaseModel)]


def words_at(model: Model, key: Key) -> list[str]:
    """Return the words that a value may be: of a closed list, or true and false."""
    found = [word for one in kinds_at(model, key) for word in _words(one)]
    return list(dict.fromkeys(found))


def notes_at(model: Model, key: Key) -> dict[str, Any]:
    """Return what is noted of the value at a key, such as its quantity and its band."""
    for one in kinds_at(model, key):
        for note in getattr(one, "__metadata__", ()):
            if isinstance(note, WithJsonSchema) and note.json_schema:
                return note.json_schema
    return {}


def units_at(model: Model, key: Key) -> list[str]:
    """Return the units that the value at a key may be written in."""
    note = notes_at(model, key)
    dimensions = [one for one in (note.get("quantity"), *note.get("table", ())) if one]
    return [unit for dimension in dict.fromkeys(dimensions) for unit in units_of(dimension)]


def band_at(model: Model, key: Key) -> str:
    """Return between which values the one at a key must lie, in a sentence; empty where nothing is said of it."""
    note = notes_at(model, key)
    if "low" in note:
        return band_in_words(f"{note['low']:g}", f"{note['high']:g}")
    return band_in_words(*note["band"]) if "band" in note else ""


def about_key(group: Model, name: str) -> str:
    """Return what a key of a group is about."""
    found = _fields(group).get(name)
    return (found.description or "") if found is not None else ""


def keys_of(group: Model, data: Any) -> dict[str, bool]:
    """Return the keys that a group takes as far as it is written, and whether it needs each of them."""
    named = {name: field.is_required() for name, field in _fields(group).items()}
    table = TABLES.get(group.__name__)
    if table is None:
        return named
    kind = _kind_in(table, data)
    if kind is None:
        first = ["part", "gear", "kit", "at", "legs"] if table.word == "part" else [table.word]
        shared = [name for name in named if name in table.shared and name not in first]
        return {name: name == table.word != "part" for name in [*first, *shared]}
    keys = {table.word: True} | {name: name in kind.needs for name in named if name in kind.takes}
    return keys | {name: False for name in named if name in table.shared and name != table.word}


def _kind_in(table: KindTable, data: Any) -> kinds.Kind | None:
    written = data if isinstance(data, dict) else {}
    return table.kinds.get(str(written.get(table.word)))


def _fields(group: Model) -> dict[str, Any]:
    return {field.alias or name: field for name, field in group.model_fields.items()}


def _below(annotation: Any, step: str | int) -> Iterator[Any]:
    """Yield what stands at a step below a group, a list or a table."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        field = _fields(annotation).get(str(step))
        if field is not None:
            yield from _ways(field.annotation, tuple(field.metadata))
        return
    origin, inner = get_origin(annotation), get_args(annotation)
    if origin is dict and isinstance(step, str):
        yield from _ways(inner[1], ())
    elif origin in {list, tuple} and isinstance(step, int):
        yield from _ways(inner[min(step, len(inner) - 1)], ())


def _ways(annotation: Any, notes: tuple[Any, ...]) -> Iterator[Any]:
    """Yield each way to write a value: of a choice, each of them; notes stay with what they are about."""
    origin = get_origin(annotation)
    if origin is Annotated:
        inner, *more = get_args(annotation)
        yield from _ways(inner, (*more, *notes))
    elif origin in {Union, UnionType}:
        for one in get_args(annotation):
            yield from _ways(one, notes)
    elif annotation is not type(None):
        plain = origin is None and not (isinstance(annotation, type) and issubclass(annotation, BaseModel))
        yield Annotated[annotation, *notes] if plain and notes else annotation


def _words(annotation: Any) -> list[str]:
    if annotation is bool or (get_origin(annotation) is Annotated and get_args(annotation)[0] is bool):
        return ["true", "false"]
    inner = get_args(annotation)
    return list(inner) if inner and all(isinstance(one, str) for one in inner) else []
