"""Programs of other people read the schema files: a strict validator, and the language server of editors.

Outside references: ajv and yaml-language-server, general-purpose programs from the npm registry, at the
versions in node/package-lock.json. Without node or the registry these tests are skipped.
"""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from riglint.model.schema import EDITOR_KEYWORDS
from riglint.read.yaml_text import read_yaml, resolved
from tests.schema.corpus import CASES
from tests.schema.node_programs import LanguageServer, run_script

FOLDER = Path(__file__).parents[2] / "schemas"
KINDS = ("rig", "spot", "shelf", "policy")
URI = "file:///library/meadow.yaml"

BROKEN = """\
riglint: rig/1
title: Meadow
use: highlin
spot:
  span: 82
  anchors: {north: {kind: tree, radial: 3 kN}}
shelf:
  - items:
      W-1:
        kind: webbing
        mbs: 42 KN
        |
plan:
  wet: yes
  wind:
chain:
  - {part: anchor}
  - part: webbing
    gear: W-1
    |
  - part: sling
    colour: red
""".replace("|", "")  # where somebody is about to write on


def test_ajv_compiles_them_strictly_and_agrees_on_every_document() -> None:
    """Only lists of types are allowed beyond `strict`: text takes what YAML reads as a number or a yes/no."""
    cases = [case for cases in CASES.values() for case in cases]
    read = [(case, read_yaml(case.text.encode(), "a.yaml")[0]) for case in cases]
    documents = [
        {"schema": case.kind, "data": resolved(document.data)} for case, document in read if document
    ]
    assert len(documents) == len(cases)
    schemas = {kind: json.loads((FOLDER / f"{kind}-1.schema.json").read_text("utf-8")) for kind in KINDS}
    answer = run_script(
        "compile.cjs", {"keywords": EDITOR_KEYWORDS, "schemas": schemas, "documents": documents}
    )
    assert answer["refused"] == {}
    said = [(case.text, not errors) for case, errors in zip(cases, answer["errors"], strict=True)]
    # A document without its first key, or of another version, is refused by the schema asked for as well.
    assert said == [(case.text, case.good) for case in cases]


def test_ajv_points_at_the_mistake_and_at_little_else() -> None:
    schemas = {"rig": json.loads((FOLDER / "rig-1.schema.json").read_text("utf-8"))}
    document = read_yaml(BROKEN.encode(), "a.yaml")[0]
    assert document is not None
    asked = {"schema": "rig", "data": resolved(document.data)}
    answer = run_script(
        "compile.cjs", {"keywords": EDITOR_KEYWORDS, "schemas": schemas, "documents": [asked]}
    )
    (errors,) = answer["errors"]
    assert {error["path"] for error in errors if error["keyword"] != "if"} == {
        "/use",
        "/spot/span",
        "/spot/anchors/north",
        "/shelf/0/items/W-1/mbs",
        "/plan/wet",
        "/chain/0",
        "/chain/2",
    }


@pytest.fixture(scope="module")
def server() -> Iterator[LanguageServer]:
    started = LanguageServer(FOLDER / "rig-1.schema.json")
    yield started
    started.close()


@pytest.fixture(scope="module")
def diagnostics(server: LanguageServer) -> dict[tuple[int, int], str]:
    """Return what the server says of the broken file, by line and column counted from 1."""
    return {
        (one["range"]["start"]["line"] + 1, one["range"]["start"]["character"] + 1): one["message"]
        for one in server.diagnostics(URI, BROKEN)
    }


def test_an_editor_shows_each_mistake_at_its_place(diagnostics: dict[tuple[int, int], str]) -> None:
    assert diagnostics == {
        (3, 6): "Write one of these: lowline, longline, jumpline, midline, highline, waterline, slackrope.",
        (5, 9): "Write a number with its unit, such as 82 m. Units: mm, cm, m, km, in, ft; above zero.",
        (6, 33): "Property radial is not allowed.",
        (11, 14): "Write a number with its unit, such as 42 kN. "
        "Units: kN, N, daN, lbf, kgf, t, kg, lb; above zero.",
        (14, 8): "Write true or false, without quotes.",
        (17, 5): 'Missing property "at".',
        (22, 5): "Property colour is not allowed.",
    }


# A misspelt key at the top of each document, in its groups, and in each way to write a part.
MISSPELT = {
    "rig": """\
riglint: rig/1
title: Line
titel: Line
plan:
  wether: dry
  crew: {puller: 3}
  users: [{mas: 80 kg}]
shelf: [{items: {A: {kind: swivel, rech: 9 cm}}}]
chain:
  - {part: anchor, at: north, hite: 3 m}
  - {gear: SH-1, pinz: true}
  - {kit: tree bag, hich: basket}
leash: {hangs: 1 m}
checks: [{what: pins, wo: north}]
""",
    "spot": """\
riglint: spot/1
span: 30 m
anchers: {}
anchors:
  north: {kid: tree}
  south: {kind: tree, grith: 1 m}
ground: {surfase: grass}
access: {meeting_piont: gate}
""",
    "shelf": """\
riglint: shelf/1
item: {}
items:
  A: {kind: shackle, jawz: 3 mm}
  B: {kind: rope, events: [{date: 2026-05, what: cut, were: end}]}
""",
    "policy": """\
riglint: policy/1
title: Club
value: {}
off: [{rule: a/b, because: x, becaus: y}]
required: [{state: peak, part: rope, consequence: life, ratio: 3, wy: x}]
""",
}
SPELT_WRONG = {
    "rig": {"titel", "wether", "puller", "mas", "rech", "hite", "pinz", "hich", "hangs", "wo"},
    "spot": {"anchers", "kid", "grith", "surfase", "meeting_piont"},
    "shelf": {"item", "jawz", "were"},
    "policy": {"value", "becaus", "wy"},
}


@pytest.mark.parametrize("kind", KINDS)
def test_an_editor_names_each_misspelt_key_where_it_stands(kind: str) -> None:
    lines = MISSPELT[kind].split("\n")
    server = LanguageServer(FOLDER / f"{kind}-1.schema.json")
    try:
        said = set()
        for one in server.diagnostics(URI, MISSPELT[kind]):
            start, end = one["range"]["start"], one["range"]["end"]
            said.add((lines[start["line"]][start["character"] : end["character"]], one["message"]))
        missing = {("north", 'Missing property "kind".')} if kind == "spot" else set()
        assert said == missing | {(key, f"Property {key} is not allowed.") for key in SPELT_WRONG[kind]}
    finally:
        server.close()


def test_an_editor_never_shows_or_offers_a_null_as_a_word() -> None:
    text = "riglint: rig/1\ntitle: Line\nuse: highline\nstage: \nchain: []\n"
    server = LanguageServer(FOLDER / "rig-1.schema.json")
    try:
        assert server.diagnostics(URI, text) == []
        shown = server.at("hover", URI, 2, 1)["contents"]["value"]
        assert "`highline`: line over a drop" in shown
        assert "null" not in shown
        assert completed(server, 4, 8).keys() == {"planned", "built", "walking", "lowered"}
    finally:
        server.close()


def completed(server: LanguageServer, line: int, column: int) -> dict[str, str]:
    """Return what is offered at a line and column counted from 1, each with its description."""
    offered = server.at("completion", URI, line - 1, column - 1)
    items: list[dict[str, Any]] = offered["items"] if isinstance(offered, dict) else offered

    def said(item: dict[str, Any]) -> str:
        about = item.get("documentation") or ""
        return str(about["value"] if isinstance(about, dict) else about)

    return {item["label"]: said(item) for item in items}


@pytest.mark.usefixtures("diagnostics")
def test_an_editor_offers_the_keys_that_a_webbing_still_lacks(server: LanguageServer) -> None:
    gear = completed(server, 12, 9)
    own = {"width", "thickness", "length", "mass_per_metre", "stretch", "stretch_in_use"}
    shared = {
        "title", "note", "serial", "material", "standard", "wll", "made", "made_by", "first_used", "inspected", "label",
        "events", "days_used", "reach",
    }  # fmt: skip
    assert gear.keys() == own | shared
    assert gear["width"].startswith("Width of the flat band.")
    assert "Units: mm, cm, m, km, in, ft; such as `25 mm`." in gear["width"]
    assert all(gear.values())
    assert completed(server, 20, 5).keys() == {"id", "note", "cut", "length", "twists"}


@pytest.mark.usefixtures("diagnostics")
def test_an_editor_offers_an_example_and_explains_a_key(server: LanguageServer) -> None:
    text = BROKEN.replace("  wind:\n", "  wind: \n")
    other = URI.replace("meadow", "other")
    server.diagnostics(other, text)
    offered = server.at("completion", other, 14, 8)
    inserted = {item["label"]: item["textEdit"]["newText"] for item in offered["items"]}
    assert inserted["15 km/h"] == "15 km/h"
    assert inserted["… km/h"] == "${1:15} km/h"
    hover = server.at("hover", other, 14, 4)["contents"]["value"]
    assert "Strongest wind expected." in hover


# One broken document of each kind: where `|` stands somebody is about to write on.
KINDS_BROKEN = {
    "rig": ("riglint: rig/1\ntitle: Line\nplan:\n  walk_zone: 3 m\n  |\nchain: []\n", "walk_zone"),
    "spot": ("riglint: spot/1\nspan: 82\nanchors:\n  north:\n    kind: tree\n    |\n", "span"),
    "shelf": ("riglint: shelf/1\nitems:\n  W-1:\n    kind: webbing\n    stretch: 5 %\n    |\n", "stretch"),
    "policy": (
        "riglint: policy/1\ntitle: Club\nsignals: none\noff:\n  - rule: tail/webbing\n    |\n",
        "signals",
    ),
}
WRONG = {
    "rig": "Write two in brackets, such as [2 m, 2 m].",
    "spot": "Write a number with its unit, such as 160 cm. Units: mm, cm, m, km, in, ft; above zero.",
    "shelf": "Write tensions and strains, such as {1 kN: 0.7 %, 5 kN: 2.4 %}.",
    "policy": "Write a list, or [] for none.",
}
SHOWN = {  # on hovering over the key that is wrong
    "rig": ("How close a user comes to each end of the webbing.", "Units: mm, cm, m, km, in, ft;"),
    "spot": ("Distance between the two anchors", "Units: mm, cm, m, km, in, ft;"),
    "shelf": ("Stretch at some tensions", "Units: kN, N, daN, lbf, kgf for the tension, % for the stretch."),
    "policy": ("Other signal words, each for one rule and class.",),
}
OFFERED = {  # with the beginning of its units, where it has some
    "rig": {"standing_tension": "Units: kN, N", "wind": "Units: km/h", "at_once": "", "moves": ""},
    "spot": {"girth": "Units: mm, cm, m", "lean": "Units: deg", "bark": ""},
    "shelf": {"width": "Units: mm, cm, m", "mass_per_metre": "Units: g/m", "mbs": "Units: kN, N", "made": ""},
    "policy": {"because": ""},
}
OF_OTHERS = {  # never offered there: keys of the file's top, or of another kind of part, gear or anchor
    "rig": {"title", "chain", "mass", "gear"},
    "spot": {"points", "rock", "friction", "span", "tested_force"},
    "shelf": {"gate", "sheaves", "bearing", "items", "diameter"},
    "policy": {"signal", "values", "consequence"},
}


@pytest.mark.parametrize("kind", KINDS)
def test_an_editor_marks_completes_and_explains_each_kind_of_document(kind: str) -> None:
    text, key = KINDS_BROKEN[kind]
    lines = text.split("\n")
    row = next(n for n, line in enumerate(lines) if "|" in line)
    server = LanguageServer(FOLDER / f"{kind}-1.schema.json")
    try:
        said = {one["message"] for one in server.diagnostics(URI, text.replace("|", ""))}
        assert WRONG[kind] in said
        offered = completed(server, row + 1, lines[row].index("|") + 1)
        for name, units in OFFERED[kind].items():
            assert offered[name], f"{name} is offered without a word on what it is"
            assert units in offered[name]
        assert OF_OTHERS[kind] & offered.keys() == set()
        wrong = next(n for n, line in enumerate(lines) if line.strip().startswith(f"{key}:"))
        hover = server.at("hover", URI, wrong, lines[wrong].index(key) + 1)["contents"]["value"]
        assert [part for part in SHOWN[kind] if part not in hover] == []
    finally:
        server.close()


def test_without_a_mistake_an_editor_marks_nothing() -> None:
    examples = FOLDER.parent / "examples"
    right = {"rig": "rigs/low-line.yaml", "spot": "spots/orchard.yaml", "shelf": "shelf/club.yaml"}
    for kind, name in right.items():
        server = LanguageServer(FOLDER / f"{kind}-1.schema.json")
        try:
            assert server.diagnostics(URI, (examples / name).read_text(encoding="utf-8")) == []
        finally:
            server.close()
