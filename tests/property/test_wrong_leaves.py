"""A wrong value at every key of every example: it is told of in its own file, and nothing ends the run.

Places are those of PyYAML's composer, a general-purpose library. What is checked is our own promise: one problem of one
file, with a sentence, and never an exception.
"""

import types
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Union, get_args, get_origin

import pytest
import yaml
from pydantic import BaseModel, Discriminator

from riglint.model.documents.policy_file import Policy
from riglint.model.documents.rig import Rig
from riglint.model.documents.spot import Spot
from riglint.model.library import Library
from riglint.model.references import resolve

EXAMPLES = Path(__file__).parents[2] / "examples"
FILES = sorted(
    file
    for file in EXAMPLES.rglob("*.yaml")
    if file.read_text("utf-8").startswith("riglint: ") and "policies" not in file.parts
)
WRONG = ("figure_8", "7", "-1 m", "true", '"82 m"', "[]", "{}", "[[7]]", "{figure_8: 7}", "~")


def test_there_are_examples() -> None:
    kinds = {file.read_text("utf-8").split("/")[0] for file in FILES}
    assert kinds == {"riglint: rig", "riglint: spot", "riglint: shelf"}


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.relative_to(EXAMPLES).as_posix())
def test_a_wrong_value_at_every_key(file: Path) -> None:
    text = file.read_text(encoding="utf-8")
    library = Library(EXAMPLES)
    for number, (start, end) in enumerate(spans(yaml.compose(text))):
        for wrong in rotated(WRONG, number):
            changed = replaced(text, start, end, wrong)
            loaded = library.take(file, changed.encode())
            rig, problems, broken = resolve(library, file)
            lines = changed.count("\n") + 2
            if loaded.model is None and loaded.kind in {"rig", "spot", "shelf"}:
                assert loaded.problems, changed
            if loaded.kind == "rig":
                assert rig is not None or problems or broken, changed
            for problem in [*loaded.problems, *problems]:
                assert problem.message.isprintable()
                assert problem.do
                assert 1 <= problem.place.line <= lines
            told = [one for one in problems if one.rule in {"file/value", "file/unit"}]
            assert len({one.key for one in told}) == len(told), "one key is told of twice"


def rotated(leaves: tuple[str, ...], number: int) -> tuple[str, ...]:
    """Return two of the leaves, other ones at the next key: over all files, each key's like meets all of them."""
    return tuple(leaves[(2 * number + n) % len(leaves)] for n in range(2))


def spans(node: yaml.Node | None) -> Iterator[tuple[int, int]]:
    """Yield where each value of a document begins and ends, in characters."""
    if node is None:
        return
    if isinstance(node, yaml.MappingNode):
        for _, value in node.value:
            yield value.start_mark.index, value.end_mark.index
            yield from spans(value)
    elif isinstance(node, yaml.SequenceNode):
        for item in node.value:
            yield item.start_mark.index, item.end_mark.index
            yield from spans(item)


def replaced(text: str, start: int, end: int, wrong: str) -> str:
    """Return a text with one value replaced; a block ends where the next line begins."""
    removed = text[start:end]
    return text[:start] + wrong + removed[len(removed.rstrip()) :] + text[end:]


# A union that is not told apart by us names its branches in the places of its errors, and they are no keys.


@pytest.mark.parametrize("model", [Rig, Spot, Policy])
def test_no_field_is_a_union_that_nobody_tells_apart(model: type[BaseModel]) -> None:
    unions = [where for where, kind in kinds_in(model, set()) if kind == "union"]
    assert unions == []


def kinds_in(model: type[BaseModel], seen: set[type[BaseModel]]) -> Iterator[tuple[str, str]]:
    if model in seen:
        return
    seen.add(model)
    for name, field in model.model_fields.items():
        chosen = any(isinstance(one, Discriminator) for one in field.metadata)
        yield from kinds_of(f"{model.__name__}.{name}", field.annotation, seen, chosen=chosen)


def kinds_of(
    where: str, annotation: Any, seen: set[type[BaseModel]], *, chosen: bool
) -> Iterator[tuple[str, str]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield from kinds_in(annotation, seen)
        return
    inner = [one for one in get_args(annotation) if one is not type(None)]
    chosen = chosen or any(isinstance(one, Discriminator) for one in inner)
    if get_origin(annotation) in {Union, types.UnionType} and len(inner) > 1 and not chosen:
        yield where, "union"
    for one in inner:
        if not isinstance(one, str):
            yield from kinds_of(where, one, seen, chosen=chosen)
