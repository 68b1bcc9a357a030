"""The JSON Schema of each document, for editors: made from the models and the table of kinds.

`python -m riglint.model.schema` writes the files into schemas/. Nothing here is needed for an audit. What a
schema cannot say (references, the first key, duplicate keys, a stretch table that rises, how large a number
with a unit may be) only the reader checks; everything else both accept or both refuse.
"""

import json
import sys
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

from pydantic import BaseModel

from riglint.model.documents.gear import Shelf
from riglint.model.documents.known_file import KnownFile
from riglint.model.documents.library_file import LibraryFile
from riglint.model.documents.policy_file import Policy
from riglint.model.documents.rig import Rig
from riglint.model.documents.spot import Spot
from riglint.model.schema_values import (
    Schema,
    day_schema,
    flag_schema,
    is_above_zero,
    number_schema,
    or_null,
    quantity_schema,
    reason_schema,
    table_schema,
    text_schema,
    whole_schema,
    words_schema,
    written_schema,
)
from riglint.model.schema_words import branches, keys_in_words, units_in_words
from riglint.model.vocabulary import kinds

MODELS: dict[str, type[BaseModel]] = {
    "rig": Rig,
    "spot": Spot,
    "shelf": Shelf,
    "policy": Policy,
    "library": LibraryFile,
    "known": KnownFile,
}
DRAFT = "http://json-schema.org/draft-07/schema#"

# Words that mean something to editors only; a strict validator has to be told of them.
SHORT = "Part"  # the model that may be written short
EDITOR_KEYWORDS = (
    "doNotSuggest",
    "defaultSnippets",
    "errorMessage",
    "markdownDescription",
    "enumDescriptions",
    "markdownEnumDescriptions",
    "patternErrorMessage",
)


class KindTable(NamedTuple):
    """A model whose keys depend on the word under one of them."""

    name: str
    word: str
    shared: frozenset[str]
    kinds: dict[str, kinds.Kind]


TABLES = {
    "Part": KindTable("part", "part", kinds.PART_SHARED, kinds.PART),
    "Gear": KindTable("gear", "kind", kinds.GEAR_SHARED, kinds.GEAR),
    "Anchor": KindTable("anchor", "kind", kinds.ANCHOR_SHARED, kinds.ANCHOR),
}


def schema_of(kind: str) -> Schema:
    """Return the schema (JSON Schema draft-07) of a document.

    Args:
        kind: One of rig, spot, shelf, policy, library, known.

    Raises:
        KeyError: There is no such document.
    """
    model = MODELS[kind]
    raw = model.model_json_schema(by_alias=True)
    writer = _Writer(raw.get("$defs", {}))
    body = writer.keys(raw)
    own = {
        "$schema": {"description": "Where editors find the schema of this file. riglint does not read it."},
        "riglint": _document_kind(kind),
    }
    return {
        "$schema": DRAFT,
        "$id": f"urn:riglint:schema:{kind}/1",
        "title": f"riglint {kind}/1",
        "description": (model.__doc__ or "").strip(),
        "type": "object",
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
        """Return the schema of keys with values. Its message stands apart, or editors show it for a misspelt key."""
        return {
            "type": "object",
            "errorMessage": "Write keys with values here.",
            "allOf": [self.keys(raw)],
        }

    def keys(self, raw: Schema) -> Schema:
        """Return which keys a group takes and needs."""
        keys: Schema = {
            "properties": {key: self.field(one) for key, one in raw["properties"].items()},
            "additionalProperties": False,
        }
        return {**keys, "required": raw["required"]} if raw.get("required") else keys

    def field(self, raw: Schema, *, needed: bool = False) -> Schema:
        """Return the schema of a field: its description, its default, and how its value is written."""
        said: Schema = {"description": raw["description"]}
        units = units_in_words(raw)
        if units:
            said["markdownDescription"] = f"{raw['description']}\n\n{units}"
        if raw.get("default") is not None:
            said["default"] = raw["default"]
        return {**said, **self.value(raw, needed=needed)}

    def value(self, raw: Schema, *, needed: bool = False) -> Schema:
        """Return how a value is written, without description. `needed`: a null is refused all the same."""
        if "anyOf" not in raw:
            return self._one(raw, nullable="default" in raw and not needed)
        choices = branches(raw)
        nullable = len(choices) < len(raw["anyOf"]) and not needed
        if len(choices) > 1:
            choices = [{"enum": [word for branch in choices for word in branch["enum"]]}]
        return self._one(choices[0], nullable=nullable)

    def _one(self, raw: Schema, *, nullable: bool) -> Schema:
        if "oneOf" in raw:
            plain, group = raw["oneOf"]
            scalar = self._one(plain, nullable=nullable)
            return {"if": {"type": "object"}, "then": self.value(group), "else": scalar}
        referred = raw["$ref"].rpartition("/")[2] if "$ref" in raw else None
        schema = self._referred(referred) if referred else _scalar(raw) or self._several(raw)
        schema = or_null(schema) if nullable else schema
        return self._shared(raw, schema, nullable=nullable) if _worth_sharing(raw) else schema

    def _shared(self, raw: Schema, schema: Schema, *, nullable: bool) -> Schema:
        """Return a reference to how quantities and days are written: once is enough for the long patterns."""
        name = str(raw.get("quantity", "day"))
        name += "_of_any_sign" if raw.get("least", 0.0) is None else ""
        name += "_above_zero" if is_above_zero(raw.get("band")) else ""
        name += "_or_null" if nullable else ""
        self.definitions[name] = schema
        return {"$ref": f"#/definitions/{name}"}

    def _several(self, raw: Schema) -> Schema:
        if raw["type"] == "object":
            return self._named(raw)
        if "prefixItems" in raw:  # a pair of the same
            item, wrong = self.value(raw["prefixItems"][0]), "Write two in brackets, such as [2 m, 2 m]."
            return {"type": "array", "items": item, "minItems": 2, "maxItems": 2, "errorMessage": wrong}
        wrong = "Write a list, or [] for none."
        return {"type": "array", "items": self.value(raw["items"]), "errorMessage": wrong}

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
            if name == SHORT:
                self.definitions |= self._short_parts(table, self.defs[name]["properties"])
        return {"$ref": f"#/definitions/{'part_of_a_chain' if name == SHORT else table.name}"}

    def _short_parts(self, table: KindTable, fields: Schema) -> dict[str, Schema]:
        """Return how a part may be written short: by a name, without its kind, or as a kit."""
        called = {"kit": text_schema(), "reversed": or_null(flag_schema())}
        by_gear = sorted(set(kinds.PART_OF_GEAR.values()))
        ticked = kinds.TICKED | kinds.TICKED_INSIDE
        looked_at = {key: {"$ref": f"#/definitions/{table.name}.{key}"} for key in fields if key in ticked}
        of_several = {
            "type": "object",
            "properties": called | looked_at,
            "required": ["kit"],
            "additionalProperties": False,
        }
        told = [("gear", one) for one in by_gear] + [("at", "anchor"), ("legs", "legs")]
        return {
            "part_by_name": {
                "type": "object",
                "anyOf": [self._keys_of(table, one, fields, {}, key) for key, one in told],
                "errorMessage": "Write a piece of gear with the keys of its part, such as {gear: SH-1, pins: true}.",
            },
            "kit_call": {
                "type": "object",
                "anyOf": [
                    of_several,
                    *(self._keys_of(table, one, fields, called, "kit") for one in table.kinds),
                ],
                "errorMessage": "Write a kit of a gear list, such as {kit: tree bag}, and what differs here.",
            },
            "part_of_a_chain": {
                "if": {"type": text_schema()["type"]},
                "then": text_schema(),
                "else": {
                    "if": {"type": "object", "properties": {"kit": True}, "required": ["kit"]},
                    "then": {"$ref": "#/definitions/kit_call"},
                    "else": {
                        "if": {"type": "object", "properties": {table.word: True}, "required": [table.word]},
                        "else": {"$ref": "#/definitions/part_by_name"},
                        "then": {"$ref": f"#/definitions/{table.name}"},
                    },
                },
            },
        }

    def _keys_of(self, table: KindTable, name: str, fields: Schema, more: Schema, needed: str) -> Schema:
        """Return the keys of one kind without the word for it, one of them needed."""
        takes = table.kinds[name].takes | table.shared
        keys = {
            key: {"$ref": f"#/definitions/{table.name}.{key}"}
            for key in fields
            if key in takes - {table.word}
        }
        keys |= more or {needed: self.field(fields[needed], needed=True)}
        return {"properties": keys, "required": [needed], "additionalProperties": False}

    def _by_kind(self, table: KindTable, raw: Schema) -> Schema:
        """Return the schema of a part, a piece of gear or an anchor: its kind, then the keys of that kind."""
        fields: Schema = raw["properties"]
        for key in sorted(fields.keys() - {table.word}):
            self.definitions[f"{table.name}.{key}"] = self.field(fields[key])
        word = self.field(fields[table.word])
        meant = zip(word["enum"], word["enumDescriptions"], strict=True)
        word["markdownEnumDescriptions"] = [
            f"{said[:1].upper()}{said[1:]}. {keys_in_words(table.kinds[one])}" for one, said in meant
        ]
        return {
            "description": raw["description"].partition(". ")[0].rstrip(".") + ".",
            "type": "object",
            "errorMessage": f"Write keys with values here, such as {{{table.word}: {word['enum'][0]}}}.",
            "allOf": [
                {"properties": {table.word: word}, "required": [table.word]},
                _without_kind(table.word, fields),
                *(self._of_one_kind(table, one, fields) for one in word["enum"]),
            ],
        }

    def _of_one_kind(self, table: KindTable, name: str, fields: Schema) -> Schema:
        kind = table.kinds[name]
        keys: Schema = {table.word: True}
        for key in fields:  # in the order of the model
            if key in kind.needs:
                keys[key] = self.field(fields[key], needed=True)
            elif key != table.word and key in kind.takes | table.shared:
                keys[key] = {"$ref": f"#/definitions/{table.name}.{key}"}
        needs = {"required": sorted(kind.needs)} if kind.needs else {}
        # A pattern and not `const`: while completing, editors would take rope for the beginning of rope_knot.
        said = {"type": "string", "pattern": f"^{name}$"}
        return {
            "if": {"type": "object", "properties": {table.word: said}, "required": [table.word]},
            "then": {"properties": keys, "additionalProperties": False, **needs},
        }


def _without_kind(word: str, fields: Schema) -> Schema:
    """Return what a group takes before its kind is written, so that a misspelt word for it is named."""
    keys = {key: {"doNotSuggest": True} for key in fields if key != word}
    return {"if": {"required": [word]}, "else": {"properties": keys, "additionalProperties": False}}


def _scalar(raw: Schema) -> Schema | None:
    """Return the schema of a single value, or None where several stand."""
    if "table" in raw:
        return table_schema(raw["table"], raw["examples"])
    if "const" in raw or "enum" in raw:
        return words_schema(raw["enum"] if "enum" in raw else [raw["const"]])
    if isinstance(raw.get("type"), list):
        return written_schema()
    make = _SCALARS.get("quantity" if "quantity" in raw else str(raw.get("format") or raw["type"]))
    return make(raw) if make else None


_SCALARS: dict[str, Callable[[Schema], Schema]] = {
    "quantity": lambda raw: quantity_schema(raw["quantity"], raw["least"], raw["examples"], raw.get("band")),
    "date": lambda _: day_schema(),
    "string": lambda _: text_schema(),
    "reason": lambda _: reason_schema(),
    "boolean": lambda _: flag_schema(),
    "number": number_schema,
    "integer": lambda raw: whole_schema(_bound(raw, "ge", "minimum"), _bound(raw, "le", "maximum")),
}


def _bound(raw: Schema, written: str, named: str) -> int:
    """Return a bound of a whole number, which stands as `ge` or `le` behind a reader of ours."""
    return int(raw[written] if written in raw else raw[named])


def _worth_sharing(raw: Schema) -> bool:
    return "quantity" in raw or raw.get("format") == "date"


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
