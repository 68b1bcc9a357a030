"""The file formats as one markdown page: every document, every key, made from the models and the table of kinds.

`python -m riglint.reports.rules.format_page` writes it to `schemas/README.md`.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

from pydantic import BaseModel

from riglint.model.schema import MODELS, TABLES, KindTable
from riglint.model.vocabulary.kinds import GEAR_OF_HAUL, GEAR_OF_PART
from riglint.model.vocabulary.meanings import MEANINGS
from riglint.read.quantity import units_of
from riglint.read.units import UNITS
from riglint.reports.rules.rule_words import flow, in_markdown
from riglint.rulebook import shipped

Raw = dict[str, Any]
GENERATED = "<!-- Generated from the models; do not edit. -->"
HEAD = (
    "There are six kinds of document, and the first key says which. Each may begin with "
    "`$schema`, which only editors read. The schema files beside this page tell an editor the "
    "same. A missing key is an open question, never a pass; an unknown key is an error. Only the "
    "reader checks references between files, the order of keys and a stretch table that rises."
)
QUANTITIES = (
    "A quantity is a number and one of its units, with a space or without: `82 m`. A ± may "
    "follow in any unit of the same quantity: `82 m ± 30 cm`; it goes into the findings. A bare "
    "number is an error."
)
SHORT_PARTS = (
    "A part may be written short. riglint writes it out before anything else looks at it.",
    "",
    "| in a chain | means |",
    "|---|---|",
    "| `SH-1` | the part that this piece of gear is, such as a shackle |",
    "| `{gear: RS-1, hitch: basket}` | the same, with keys of its own |",
    "| `QL-1 to QL-3` | three pieces, one after the other |",
    "| `{at: near}` | the anchor of that name |",
    "| `{to: n1 to n3, chain: [QL-1 to QL-3]}`, in `legs` | three legs, each with its bolt and its piece |",
    "| `{kit: near tree}` | the parts that the gear list keeps under that name in `kits`; `kit` takes the name |",
    "| `{kit: near tree, reversed: true}` | the same parts from last to first; `reversed` takes `true` or `false` |",
    "",
    "Other keys beside `kit` go to its only part; where a kit has several parts, write them out.",
    "What is ticked on site, such as `pins: true`, goes to all its parts.",
)
LEFT_OUT = (
    "Some keys may be left out where other values tell them. Each report lists under *Assumed* what it takes, and why.",
    "Every rule judges at each end of what is possible. Where that decides a verdict, the finding stays open.",
    "",
    "| left out | told by |",
    "|---|---|",
    "| `stretch` and `mass_per_metre` of webbing | `material`, `mbs` and `width` on its label |",
    "| `rope.length` of a pulley system | `length` of the rope in the gear list |",
    "| `rope.dead_end.on` | `strands`: an odd number ends on the moving block |",
    "| `closed` | `reach` of both blocks, or the longest that blocks usually are |",
    "| `hitch` of a sling round a tree or in a part | all ways in which it can lie there |",
)
PLAIN = {
    "string": "text",
    "boolean": "`true` or `false`",
    "number": "number",
    "integer": "whole number",
}


MODELS_BY_NAME = {model.__name__: kind for kind, model in MODELS.items()}


class Field(NamedTuple):
    """What a key takes: in words, and the groups of keys that it leads to."""

    words: str
    leads_to: tuple[str, ...] = ()


def format_page() -> str:
    """Return the page: documents with their groups, parts, gear and anchors by kind, quantities."""
    raws = {kind: model.model_json_schema(by_alias=True) for kind, model in MODELS.items()}
    lines = ["# File formats", "", GENERATED, "", HEAD, ""]
    listed: set[str] = set()
    for kind, raw in raws.items():
        lines += [
            f"## {kind}/1",
            "",
            *_about(MODELS[kind]),
            f"Schema: [{kind}-1.schema.json]({kind}-1.schema.json).",
            "",
        ]
        lines += [*_table(raw, first=f"`{kind}/1`"), ""]
        for name in _groups_in_order(raw):
            if name not in listed and name not in MODELS_BY_NAME:
                listed.add(name)
                group = raw["$defs"][name]
                lines += [f"### {_title(name)}", "", _said(group), ""]
                lines += _by_kind(TABLES[name], group) if name in TABLES else [*_table(group), ""]
    return (
        "\n".join(
            [
                *lines,
                "## Parts written short",
                "",
                *SHORT_PARTS,
                "",
                "## Keys that other values tell",
                "",
                *LEFT_OUT,
                "",
                *_gear_of_places(),
                *_words(),
                *_quantities(),
            ]
        )
        + "\n"
    )


def _about(model: type[BaseModel]) -> list[str]:
    return [" ".join((model.__doc__ or "").split()), ""]


def _said(group: Raw) -> str:
    return in_markdown(str(group["description"]).partition(". ")[0].rstrip(".") + ".")


def _title(name: str) -> str:
    """Return the heading of a group, such as `dead end` of DeadEnd."""
    return "".join(f" {one.lower()}" if one.isupper() else one for one in name).strip()


def _anchor(name: str) -> str:
    return _title(name).replace(" ", "-")


def _groups_in_order(raw: Raw) -> Iterator[str]:
    """Yield the groups of a document as its keys lead to them, each once."""
    seen: list[str] = []
    waiting = [raw]
    while waiting:
        for field in waiting.pop(0)["properties"].values():
            for name in _field(field).leads_to:
                if name not in seen:
                    seen.append(name)
                    waiting.append(raw["$defs"][name])
                    yield name


def _table(group: Raw, keys: list[str] | None = None, first: str = "") -> list[str]:
    """Return the keys of a group as a table, in the order of the model."""
    lines = ["| key | takes | if left out | what it is |", "|---|---|---|---|"]
    needed = group.get("required", [])
    for key, field in group["properties"].items():
        if keys is not None and key not in keys:
            continue
        takes = first if key == "riglint" and first else _field(field).words
        without = "**needed**" if key in needed or (key == "riglint" and first) else _default(field)
        lines += [f"| `{key}` | {takes} | {without} | {in_markdown(field.get('description', ''))} |"]
    return lines


def _default(field: Raw) -> str:
    value = field.get("default")
    if value is None:
        return ""
    return f"`{flow(value)}`"


def _field(raw: Raw) -> Field:
    """Return what a field takes, in words."""
    branches = [one for one in raw.get("anyOf") or raw.get("oneOf") or [] if one != {"type": "null"}]
    if branches:
        found = [_field(one) for one in branches]
        words = dict.fromkeys(one.words for one in found)
        return Field(" or ".join(words), tuple(name for one in found for name in one.leads_to))
    if "$ref" in raw:
        return _reference(raw["$ref"].rpartition("/")[2])
    if "quantity" in raw:
        return Field(f"[{raw['quantity'].replace('_', ' ')}](#quantities), such as `{raw['examples'][0]}`")
    if "table" in raw:
        return Field("table of tensions and strains, such as `{1 kN: 0.7 %}`")
    if "enum" in raw or "const" in raw:
        closed: list[str] = raw["enum"] if "enum" in raw else [raw["const"]]
        return Field(", ".join(f"`{word}`" for word in closed))
    return _several(raw) or Field(_scalar(raw))


def _reference(name: str) -> Field:
    if name in MODELS_BY_NAME:
        return Field(f"the keys of [{MODELS_BY_NAME[name]}/1](#{MODELS_BY_NAME[name]}1)")
    return Field(f"[{_title(name)}](#{_anchor(name)})", (name,))


def _several(raw: Raw) -> Field | None:
    """Return a list, a pair or named values in words; None where it is one value."""
    if "prefixItems" in raw:
        item = _field(raw["prefixItems"][0])
        return Field(f"two in brackets: {item.words}", item.leads_to)
    if raw.get("type") == "array":
        item = _field(raw["items"])
        return Field(f"list of {item.words}", item.leads_to)
    if raw.get("type") == "object":
        item = _field(raw["additionalProperties"])
        return Field(f"names, each with {item.words}", item.leads_to)
    return None


def _scalar(raw: Raw) -> str:
    if raw.get("format") == "date":
        return "day `2026-05-02` or month `2026-05`"
    if isinstance(raw.get("type"), list):
        return "text or number"
    least = raw.get("minimum", raw.get("ge"))
    return f"{PLAIN[raw['type']]}{f', {least} or more' if least else ''}"


def _by_kind(table: KindTable, group: Raw) -> list[str]:
    """Return which keys each kind takes, then every key once."""
    lines = [f"All kinds take {_listed(table.shared - {table.word})}. Needed keys are bold.", ""]
    lines += [f"| `{table.word}` | takes |", "|---|---|"]
    for name, kind in table.kinds.items():
        keys = [key for key in group["properties"] if key in kind.takes]
        keys_in_words = ", ".join(f"**`{key}`**" if key in kind.needs else f"`{key}`" for key in keys)
        lines += [f"| `{name}` | {keys_in_words or 'nothing else'} |"]
    return [*lines, "", *_table(group), ""]


def _listed(keys: frozenset[str]) -> str:
    return ", ".join(f"`{key}`" for key in sorted(keys))


def _gear_of_places() -> list[str]:
    """Return which kinds of gear may stand where."""
    lines = ["## Gear by place", "", "| at | kind of gear |", "|---|---|"]
    lines += [f"| part `{part}` | {_listed(kinds)} |" for part, kinds in GEAR_OF_PART.items()]
    return [*lines, *(f"| haul, `{key}` | {_listed(kinds)} |" for key, kinds in GEAR_OF_HAUL.items()), ""]


def _words() -> list[str]:
    """Return what the words of the closed lists mean, each list once."""
    lines = ["## Words", "", "| list | word | meaning |", "|---|---|---|"]
    return [
        *lines,
        *(
            f"| {_title(name)} | `{word}` | {meaning} |"
            for name, meant in MEANINGS.items()
            for word, meaning in meant.items()
        ),
        "",
    ]


def _quantities() -> list[str]:
    lines = ["## Quantities", "", QUANTITIES, "", "| quantity | units |", "|---|---|"]
    return [
        *lines,
        *(
            f"| {one.replace('_', ' ')} | {', '.join(f'`{unit}`' for unit in units_of(one))} |"
            for one in UNITS
        ),
    ]


def main() -> None:
    """Write the page that stands beside the schemas."""
    (shipped("schemas") / "README.md").write_text(format_page(), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
