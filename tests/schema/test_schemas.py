"""The schema files are those that the models give, and say what every key is about."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft7Validator
from pydantic import BaseModel

from riglint.model import schema
from riglint.model.vocabulary import kinds
from riglint.model.vocabulary.fields import Form

FOLDER = Path(__file__).parents[2] / "schemas"


def forms(start: type[BaseModel] = Form) -> set[type[BaseModel]]:
    """Return every model of the documents."""
    below = set(start.__subclasses__())
    return below.union(*(forms(one) for one in below))


@pytest.mark.parametrize("kind", schema.MODELS)
def test_the_file_is_not_stale(kind: str) -> None:
    path = FOLDER / f"{kind}-1.schema.json"
    assert path.read_text(encoding="utf-8") == schema.schema_text(kind), "run python -m riglint.model.schema"


def test_writing_gives_the_same_files_again(tmp_path: Path) -> None:
    written = schema.write_schemas(tmp_path)
    assert sorted(path.name for path in written) == sorted(path.name for path in FOLDER.glob("*.json"))
    assert all(path.read_bytes() == (FOLDER / path.name).read_bytes() for path in written)


@pytest.mark.parametrize("kind", schema.MODELS)
def test_it_is_a_schema_of_draft_07(kind: str) -> None:
    made = schema.schema_of(kind)
    Draft7Validator.check_schema(made)
    assert made["$schema"] == Draft7Validator.META_SCHEMA["$id"]
    assert made["$id"] == f"urn:riglint:schema:{kind}/1"
    assert made["title"]
    assert made["description"]


def test_every_field_of_every_model_has_a_description() -> None:
    found = forms()
    assert len(found) > 30
    bare = [
        f"{model.__name__}.{name}"
        for model in found
        for name, field in model.model_fields.items()
        if len(field.description or "") < 3 or not (field.description or "").endswith(".")
    ]
    assert bare == []


def test_every_key_of_the_kinds_is_a_field() -> None:
    """A key in the table that no model has would be offered by editors and refused by the reader."""
    fields = {model.__name__: {f.alias or n for n, f in model.model_fields.items()} for model in forms()}
    for name, table in schema.TABLES.items():
        takes = set().union(table.shared, *(kind.takes for kind in table.kinds.values()))
        assert takes == fields[name]
    assert kinds.PART.keys() == {
        *schema.schema_of("rig")["definitions"]["part"]["allOf"][0]["properties"]["part"]["enum"]
    }


def described(node: Any, name: str = "") -> list[str]:
    """Return the keys without a description, references followed."""
    if not isinstance(node, dict):
        return []
    bare = []
    for key, one in node.get("properties", {}).items():
        if one in (True, {"doNotSuggest": True}):
            continue
        reference = one.get("$ref", "") if isinstance(one, dict) else ""
        if (
            one is not True
            and one != {"doNotSuggest": True}
            and "description" not in one
            and not reference.startswith("#/definitions/")
        ):
            bare.append(f"{name}.{key}")
        bare += described(one, f"{name}.{key}")
    for key in ("items", "then", "else", "additionalProperties"):
        bare += described(node.get(key), f"{name}.{key}")
    for n, one in enumerate(node.get("allOf", [])):
        bare += described(one, f"{name}.{n}")
    return bare


@pytest.mark.parametrize("kind", schema.MODELS)
def test_every_key_of_the_schema_has_a_description(kind: str) -> None:
    made = schema.schema_of(kind)
    fields = {name: one for name, one in made["definitions"].items() if "." in name}
    assert all(one["description"] for one in fields.values())
    assert [key for one in (made, *made["definitions"].values()) for key in described(one)] == []


@pytest.mark.parametrize("kind", schema.MODELS)
def test_quantities_say_their_units_and_an_example(kind: str) -> None:
    written = [one for one in schema.schema_of(kind)["definitions"].values() if "patternErrorMessage" in one]
    quantities = [one for one in written if "maxLength" in one]
    assert quantities or kind in {"policy", "library", "known"}
    for one in quantities:
        assert "Units: " in one["patternErrorMessage"]
        assert one["examples"][0] in one["patternErrorMessage"]
        assert Draft7Validator(one).is_valid(one["examples"][0])
        assert not Draft7Validator(one).is_valid("82")


def quantities(raw: object) -> bool:
    """Whether a field of pydantic's own schema takes quantities: one, several, or a table of them."""
    if isinstance(raw, list):
        return any(quantities(one) for one in raw)
    if not isinstance(raw, dict):
        return False
    return bool({"quantity", "table"} & raw.keys()) or any(
        quantities(raw.get(key)) for key in ("anyOf", "items", "prefixItems")
    )


@pytest.mark.parametrize("kind", ["rig", "spot", "shelf"])
def test_every_field_that_takes_quantities_says_its_units(kind: str) -> None:
    raw = schema.MODELS[kind].model_json_schema()
    models = [raw, *raw.get("$defs", {}).values()]
    fields = [
        field for model in models for field in model.get("properties", {}).values() if quantities(field)
    ]
    assert len(fields) > 3
    writer = schema._Writer(raw.get("$defs", {}))
    assert [one for one in fields if "Units: " not in writer.field(one).get("markdownDescription", "")] == []


def _nodes(node: Any) -> Iterator[dict[str, Any]]:
    if isinstance(node, dict):
        yield node
    for item in node.values() if isinstance(node, dict) else node if isinstance(node, list) else ():
        yield from _nodes(item)


@pytest.mark.parametrize("kind", schema.MODELS)
def test_no_message_hides_which_key_is_wrong_and_no_word_is_null(kind: str) -> None:
    """Editors show `errorMessage` in place of the name of a key that is misspelt or missing."""
    nodes = list(_nodes(schema.schema_of(kind)))
    groups = [one for one in nodes if one.get("additionalProperties") is False or "required" in one]
    assert len(groups) > 1
    assert [one for one in groups if "errorMessage" in one] == []
    words = [one["enum"] for one in nodes if "enum" in one]
    assert [one for one in words if None in one] == []
