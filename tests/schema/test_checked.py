"""Our own checks and those that pydantic puts together take and refuse the same, with the same words and values.

Outside reference: pydantic's `model_validate`, which reads the field types by itself.
"""

from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import Any

import pytest
from pydantic import BaseModel, ValidationError

from riglint.model.checked import checked
from riglint.model.schema import MODELS
from riglint.read.yaml_text import read_yaml
from tests.schema.mutations import mutants
from tests.schema.test_mutations import FILES, SETTINGS

CHECKOUT = Path(__file__).parents[2]
for one in MODELS.values():  # ours are built first: pydantic's, once there, would be taken over into them
    with suppress(ValidationError):
        checked(one, {})


@pytest.mark.parametrize("file", FILES)
def test_the_same_is_taken_and_refused_in_changed_documents(file: str) -> None:
    kind, every = FILES[file]
    for mutant in mutants(CHECKOUT / file, max(1, every // 2)):
        holds_the_same(kind, mutant.text.encode(), f"{mutant.file}: {mutant.done}")


@pytest.mark.parametrize("kind", SETTINGS)
def test_the_same_is_taken_and_refused_in_changed_settings(kind: str, tmp_path: Path) -> None:
    file = tmp_path / "settings.yaml"
    file.write_text(SETTINGS[kind], "utf-8")
    for mutant in mutants(file, 3):
        holds_the_same(kind, mutant.text.encode(), mutant.done)


def test_a_leg_holds_parts_and_a_part_holds_legs() -> None:
    text = (
        b"{riglint: rig/1, title: x, chain: [{part: legs, legs: [{to: a, chain: [{part: legs, "
        b"legs: [{to: b, chain: [{part: sling, tail: 0.5 m}, {part: no}]}]}]}]}]}"
    )
    (problem,) = holds_the_same("rig", text, "legs in legs")
    assert problem[1] == ("chain", 0, "legs", 0, "chain", 0, "legs", 0, "chain", 1, "part")


def holds_the_same(kind: str, text: bytes, what: str) -> Any:
    """Check one document both ways and return what they say."""
    document, problems = read_yaml(text, "x.yaml")
    if document is None or problems:
        return []
    model, data = MODELS[kind], document.data
    ours = said(lambda: checked(model, data))
    assert ours == said(lambda: model.model_validate(data)), what
    return ours


def said(check: Callable[[], BaseModel]) -> Any:
    """Return all values of a model with their types, or all that is wrong."""
    try:
        found = check()
    except ValidationError as error:
        return [
            (one["type"], one["loc"], repr(one["input"]), repr(one.get("ctx")))
            for one in error.errors(include_url=False)
        ]
    return typed(found)


def typed(value: Any) -> Any:
    """Return a value with its type, and so whatever it holds."""
    if isinstance(value, BaseModel):
        return type(value), value.model_fields_set, [(name, typed(one)) for name, one in vars(value).items()]
    if isinstance(value, dict):
        return dict, [(type(name), name, typed(one)) for name, one in value.items()]
    if isinstance(value, list | tuple):
        return type(value), [typed(one) for one in value]
    return type(value), value
