"""Notes every key of the format that is read while rigs are judged."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from typing import Any, get_args

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from riglint.findings import judge
from riglint.findings.library.across_rigs import judge_library
from riglint.loadpath import build
from riglint.loads import Loads
from riglint.model.documents.rig import Rig
from riglint.model.vocabulary.fields import Form
from riglint.policy import DEFAULT
from riglint.rulekit import Example
from riglint.testing import library_of, rig_of
from tests.faults.seeded import BOOK, ON

Read = tuple[str, str]  # a model and one of its fields


@contextmanager
def noted() -> Iterator[set[Read]]:
    """Note which fields of documents are read meanwhile."""
    read: set[Read] = set()

    def get(self: Form, name: str) -> Any:
        if name in type(self).model_fields:
            read.add((type(self).__name__, name))
        return object.__getattribute__(self, name)

    Form.__getattribute__ = get  # type: ignore[method-assign, assignment]
    try:
        yield read
    finally:
        del Form.__getattribute__


def read_in(texts: Iterable[str]) -> set[Read]:
    """Return the fields that are read while rigs are judged; the reading of their files does not count."""
    found: set[Read] = set()
    for text in texts:
        rig = rig_of(text)
        with noted() as read:
            judge(rig, BOOK, ON, DEFAULT, Loads(build(rig), DEFAULT.values, ON), with_remedies=False)
        found |= read
    return found


def read_in_libraries(examples: Iterable[Example]) -> set[Read]:
    """Return the fields that rules for several rigs together read in the libraries of examples."""
    found: set[Read] = set()
    for example in examples:
        library = library_of(example, DEFAULT)
        with noted() as read:
            judge_library(library, BOOK, DEFAULT)
        found |= read
    return found


def fields() -> set[Read]:
    """Return all fields of a rig, of its spot and of its gear."""
    return {(model.__name__, name) for model in models_below(Rig) for name, _ in fields_of(model)}


def fields_of(model: type[BaseModel]) -> list[tuple[str, FieldInfo]]:
    """Return the fields of a model by their names."""
    return list(model.model_fields.items())


def models_below(
    model: type[BaseModel], seen: tuple[type[BaseModel], ...] = ()
) -> tuple[type[BaseModel], ...]:
    """Return a model and all that its fields lead to, each once."""
    seen = (*seen, model)
    for _, field in fields_of(model):
        for inner in _models(field.annotation):
            if inner not in seen:
                seen = models_below(inner, seen)
    return seen


def _models(annotation: Any) -> Iterator[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for inner in get_args(annotation):
        yield from _models(inner)
