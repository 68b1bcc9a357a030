"""The JSON Schema of each document, for editors and other programs; made from the models and the table of kinds.

`python -m riglint.model.schema` writes the files into schemas/. Nothing here is needed for an audit. What a
schema cannot say (references between files, the first key, duplicate keys, a stretch table that rises) only
the reader checks; everything else both accept or both refuse.
"""

import json
import sys
from pathlib import Path
from typing import Any, NamedTuple

from pydantic import BaseModel

from riglint.model import kinds, schema_values
from riglint.model.gear import Shelf
from riglint.model.policy_file import Policy
from riglint.model.rig import Rig
from riglint.model.schema_values import Schema, or_null
from riglint.model.spot import Spot

MODELS: dict[str, type[BaseModel]] = {"rig": Rig, "spot": Spot, "shelf": Shelf, "policy": Policy}
DRAFT = "http://json-schema.org/draft-07/schema#"

# Words that mean something to editors only; a strict validator has to be told of them.
EDITOR_KEYWORDS = (
    "defaultSnippets",
    "errorMessage",
    "markdownDescription",
    "markdownEnumDescriptions",
    "patternErrorMessage",
)


class Table(NamedTuple):
    """A model whose keys depend on the word under one of them."""

    name: str
    word: str
    shared: frozenset[str]
    kinds: dict[str, kinds.Kind]


TABLES = {
    "Part": Table("part", "part", kinds.PART_SHARED, kinds.PART),
    "Gear": Table("gear", "kind", kinds.GEAR_SHARED, kinds.GEAR),
    "Anchor": Table("anchor", "kind", kinds.ANCHOR_SHARED, kinds.ANCHOR),
}


def schema_of(kind: str) -> Schema:
    """Return the schema (JSON Schema draft-07) of a document.

    Args:
        kind: One of rig, spot, shelf, policy.

    Raises:
        KeyError: There is no such document.
    """
    model = MODELS[kind]
    raw = model.model_json_schema(by_alias=True)
    writer = _Writer(raw.get("$defs", {}))
    body = writer.group(raw)
    own = {
        "$schema": {"description": "Where editors find the schema of this file; riglint does not read it."},
        "riglint": _document_kind(kind),
    }
    return {
        "$schema": DRAFT,
        "$id": f"urn:riglint:schema:{kind}/1",
        "title": f"{kind}/1 of riglint",
        "description": (model.__doc__ or "").strip(),
        **body,
        "properties": {**own, **{key: value for key, value in body["properties"].items() if key not in own}},
        "required": ["riglint", *(key for key in body.get("required", []) if key != "riglint")],
        "definitions": dict(sorted(writer.definitions.items())),
    }


def _document_kind(kind: str) -> Schema:
    said = f"{kind}/1"
    return {
        "description": "Kind and version of the document; the first key of the file.",
        "type": "string",
        "const": said,
        "errorMessage": f"Write riglint: {said}.",
    }


class _Writer:
    """Turns what pydantic says of one model into a schema that editors can work with."""

    def __init__(self, defs: dict[str, Schema]) -> None:
        self.defs = defs
        self.definitions: dict[str, Schema] = {}

    def group(self, raw: Schema) -> Schema:
        """Return the schema of keys with values."""
        keys: Schema = {
            "type": "object",
            "properties": {key: self.field(one) for key, one in raw["properties"].items()},
            "additionalProperties": False,
            "errorMessage": "Write keys with values here.",
        }
        return {**keys, "required": raw["required"]} if raw.get("required") else keys

    def field(self, raw: Schema, *, needed: bool = False) -> Schema:
        """Return the schema of a field: its description, its default, and how its value is written."""
        value = self.value(raw, needed=needed)
        said: Schema = {"description": raw["description"]}
        marked = raw if "quantity" in raw else next(iter(_branches(raw)), {})
        if "quantity" in marked:
            units = ", ".join(schema_values.units_of(marked["quantity"]))
            said["markdownDescription"] = (
                f"{raw['description']}\n\nUnits: {units}; such as `{marked['examples'][0]}`."
            )
        if raw.get("default") is not None:
            said["default"] = raw["default"]
        return {**said, **value}

    def value(self, raw: Schema, *, needed: bool = False) -> Schema:
        """Return how a value is written, without description."""
        if "anyOf" in raw:
            branches = _branches(raw)
            nullable = len(branches) < len(raw["anyOf"]) and not needed
            value = self._one_of_words(branches) if len(branches) > 1 else self.value(branches[0])
            return or_null(value) if nullable else value
        if "oneOf" in raw:
            plain, group = (self.value(one) for one in raw["oneOf"])
            return {"if": {"type": "object"}, "then": group, "else": plain}
        if "$ref" in raw:
            return self._referred(raw["$ref"].rpartition("/")[2])
        return self._marked(raw) or self._typed(raw)

    def _one_of_words(self, branches: list[Schema]) -> Schema:
        return schema_values.words_schema([word for branch in branches for word in branch["enum"]])

    def _marked(self, raw: Schema) -> Schema | None:
        """Return the schema of what the fields have noted: a quantity, or a table of quantities."""
        if "quantity" in raw:
            return schema_values.quantity_schema(raw["quantity"], raw["least"], raw["examples"])
        if "table" in raw:
            names, values = (
                schema_values.quantity_schema(one, 0.0, ["1 kN", "0.7 %"][n : n + 1])
                for n, one in enumerate(raw["table"])
            )
            return schema_values.table_schema(names, values, raw["examples"])
        return None

    def _typed(self, raw: Schema) -> Schema:
        if "const" in raw:
            return schema_values.words_schema([raw["const"]])
        if "enum" in raw:
            return schema_values.words_schema(raw["enum"])
        if raw.get("format") == "date":
            return schema_values.day_schema()
        kind = raw["type"]
        if kind == "array":
            return self._list(raw)
        if kind == "object":
            return self._named(raw)
        if kind == "integer":
            return schema_values.whole_schema(raw["ge"] if "ge" in raw else raw["minimum"])
        simple = {
            "string": schema_values.text_schema,
            "boolean": schema_values.flag_schema,
            "number": schema_values.number_schema,
        }
        return simple[kind]() if isinstance(kind, str) else schema_values.written_schema()

    def _list(self, raw: Schema) -> Schema:
        if "prefixItems" in raw:  # a pair of the same
            item, wrong = self.value(raw["prefixItems"][0]), "Write two in brackets, such as [2 m, 2 m]."
            return {"type": "array", "items": item, "minItems": 2, "maxItems": 2, "errorMessage": wrong}
        return {
            "type": "array",
            "items": self.value(raw["items"]),
            "errorMessage": "Write a list, or [] for none.",
        }

    def _named(self, raw: Schema) -> Schema:
        values = self.value(raw["additionalProperties"])
        return {
            "type": "object",
            "additionalProperties": values,
            "errorMessage": "Write names with values here.",
        }

    def _referred(self, name: str) -> Schema:
        """Return another model: in place, but by reference where its keys depend on its kind."""
        if name not in TABLES:
            return self.group(self.defs[name])
        table = TABLES[name]
        if table.name not in self.definitions:
            self.definitions[table.name] = {}  # a part may hold parts
            self.definitions[table.name] = self._by_kind(table, self.defs[name])
        return {"$ref": f"#/definitions/{table.name}"}

    def _by_kind(self, table: Table, raw: Schema) -> Schema:
        """Return the schema of a part, a piece of gear or an anchor: the word first, then the keys of its kind."""
        fields: Schema = raw["properties"]
        for key in sorted(fields.keys() - {table.word}):
            self.definitions[f"{table.name}.{key}"] = self.field(fields[key])
        word = self.field(fields[table.word])
        word["markdownEnumDescriptions"] = [_takes(table.kinds[one]) for one in word["enum"]]
        return {
            "description": raw["description"].partition(". ")[0].rstrip(".") + ".",
            "type": "object",
            "properties": {table.word: word},
            "required": [table.word],
            "errorMessage": f"Write keys with values here, such as {{{table.word}: {word['enum'][0]}}}.",
            "defaultSnippets": [_snippet(table, one) for one in word["enum"]],
            "allOf": [self._of_one_kind(table, one, fields) for one in word["enum"]],
        }

    def _of_one_kind(self, table: Table, name: str, fields: Schema) -> Schema:
        kind = table.kinds[name]
        keys: Schema = {table.word: True}
        for key in fields:  # in the order of the model
            if key in kind.needs:
                keys[key] = self.field(fields[key], needed=True)
            elif key != table.word and key in kind.takes | table.shared:
                keys[key] = {"$ref": f"#/definitions/{table.name}.{key}"}
        needs = {"required": sorted(kind.needs)} if kind.needs else {}
        return {
            "if": {"properties": {table.word: {"const": name}}, "required": [table.word]},
            "then": {"properties": keys, "additionalProperties": False, **needs},
        }


def _branches(raw: Schema) -> list[Schema]:
    """Return what a field takes beside null."""
    return [one for one in raw.get("anyOf", []) if one != {"type": "null"}]


def _takes(kind: kinds.Kind) -> str:
    optional = ", ".join(f"`{key}`" for key in sorted(kind.takes - kind.needs))
    needs = ", ".join(f"`{key}`" for key in sorted(kind.needs))
    said = [f"Needs {needs}." if needs else "", f"Takes {optional}." if optional else ""]
    return " ".join(one for one in said if one) or "Takes only the keys that all kinds share."


def _snippet(table: Table, name: str) -> Schema:
    kind = table.kinds[name]
    asked = [*sorted(kind.needs), *(["gear"] if "gear" in kind.takes else [])]
    body: dict[str, Any] = {table.word: name, **{key: f"${n}" for n, key in enumerate(asked, 1)}}
    return {"label": name.replace("_", " "), "description": _takes(kind), "body": body}


def schema_text(kind: str) -> str:
    """Return the schema of a document as it stands in its file."""
    return json.dumps(schema_of(kind), indent=1, ensure_ascii=False) + "\n"


def write_schemas(folder: Path) -> list[Path]:
    """Write all schemas into a folder and return their paths."""
    folder.mkdir(parents=True, exist_ok=True)
    written = []
    for kind in MODELS:
        path = folder / f"{kind}-1.schema.json"
        path.write_text(schema_text(kind), encoding="utf-8", newline="\n")
        written.append(path)
    return written


if __name__ == "__main__":
    for path in write_schemas(Path(*sys.argv[1:2] or ["schemas"])):
        print(path)  # noqa: T201 - the command's answer
