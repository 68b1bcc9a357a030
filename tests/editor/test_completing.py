"""What an editor offers where somebody is writing, and what it says of keys, words and names.

Outside reference: the Language Server Protocol 3.17 (an offer is a change of the text, its places in UTF-16 units).
What must be offered is taken from the files themselves: the gear of the gear lists, the anchors of the spot.
"""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from riglint.model.schema import MODELS
from riglint.model.vocabulary import kinds
from riglint.read.yaml_text import read_yaml
from tests.editor.client import Editor, changed

Start = Callable[..., Editor]
HEAD = "riglint: rig/1\ntitle: Line\nspot: ../spots/orchard.yaml\nshelf: [../shelf/club.yaml]\n"


def offered(editor: Editor, file: Path, text: str) -> dict[str, dict[str, Any]]:
    """Open a text in which `|` is the cursor, and return what is offered there by its label."""
    before, _, after = text.partition("|")
    editor.tell("textDocument/didOpen", _document(file, before + after))
    line = before.split("\n")[-1]
    items = editor.offered(file, before.count("\n"), len(line.encode("utf-16-le")) // 2)
    return {one["label"]: one for one in items}


def taken(text: str, item: dict[str, Any]) -> str:
    """Return a text with an offer taken over."""
    return changed(text.replace("|", "", 1), [item["textEdit"]])


def of_kinds(library: Path, allowed: frozenset[str]) -> set[str]:
    """Return the names of the club's gear that is of some kinds, as a plain reader of YAML finds them."""
    document, _ = read_yaml((library / "shelf/club.yaml").read_bytes(), "club.yaml")
    assert document is not None
    items: Any = document.data["items"]
    return {name for name, piece in items.items() if piece["kind"] in allowed}


@pytest.fixture
def rig(library: Path) -> Path:
    return library / "rigs/new.yaml"


# Keys


def test_keys_of_a_part_are_those_of_its_kind_and_not_yet_there(editor: Editor, rig: Path) -> None:
    found = offered(editor, rig, f"{HEAD}chain:\n  - part: sling\n    gear: RS-2\n    |\n")
    assert found.keys() == (kinds.PART["sling"].takes | kinds.PART_SHARED) - {"part", "gear"}
    hitch = found["hitch"]
    assert hitch["textEdit"]["newText"] == "hitch: "
    assert "How the sling is laid." in hitch["documentation"]["value"]
    assert "- `basket`: " in hitch["documentation"]["value"]


@pytest.mark.parametrize(
    "written",
    [
        "chain:\n  - {part: anchor, at: gate, he|}\n",
        "chain:\n  - {part: anchor, at: gate, he|",
        "chain:\n  - part: anchor\n    he|\n    at: gate\n",
        'title: "never closed\nplan: {crew: {haulers: 2\nchain:\n  - part: anchor\n    he|\n',
        "chain:\n  - part: anchor\n    he|\nchecks: [\n",
    ],
)
def test_half_written_and_broken_text_still_gets_its_keys(editor: Editor, rig: Path, written: str) -> None:
    found = offered(editor, rig, HEAD + written)
    assert "height" in found
    assert "gear" not in found
    assert (
        "Units: mm, cm, m, km, in, ft. From -3000 m to 3000 m." in found["height"]["documentation"]["value"]
    )


def test_a_key_that_is_written_over_keeps_its_colon(editor: Editor, rig: Path) -> None:
    text = f"{HEAD}sta|: planned\nchain: []\n"
    found = offered(editor, rig, text)
    assert taken(text, found["stage"]) == f"{HEAD}stage: planned\nchain: []\n"


def test_an_empty_file_is_begun_and_a_foreign_one_left_alone(editor: Editor, tmp_path: Path) -> None:
    assert offered(editor, tmp_path / "a.yaml", "|").keys() == {"riglint"}
    assert offered(editor, tmp_path / "b.yaml", "riglint: |\n").keys() == {f"{kind}/1" for kind in MODELS}
    assert offered(editor, tmp_path / "c.yaml", "name: build\n|\n") == {}
    assert offered(editor, tmp_path / "d.yaml", "name: build\non: |\n") == {}


# Words and units


def test_words_come_with_their_meaning(editor: Editor, rig: Path) -> None:
    text = f"{HEAD}use: lo|\nchain: []\n"
    found = offered(editor, rig, text)
    assert list(found) == ["lowline", "longline", "jumpline", "midline", "highline", "waterline", "slackrope"]
    assert found["lowline"]["detail"] == "low line, close enough to the ground to step off"
    assert taken(text, found["lowline"]) == f"{HEAD}use: lowline\nchain: []\n"
    moves = offered(editor, rig, f"{HEAD}plan: {{moves: [walk, |]}}\nchain: []\n")
    assert "bounce" in moves
    assert offered(editor, rig, f"{HEAD}plan:\n  public: |\nchain: []\n").keys() == {"true", "false"}


@pytest.mark.parametrize("written", ["15|", "15 |", "15 k|", "15k|"])
def test_a_number_is_offered_its_units(editor: Editor, rig: Path, written: str) -> None:
    text = f"{HEAD}plan:\n  wind: {written}\nchain: []\n"
    found = offered(editor, rig, text)
    assert list(found) == ["15 km/h", "15 m/s", "15 mph"]
    assert "  wind: 15 km/h\n" in taken(text, found["15 km/h"])


def test_without_a_number_none_is_made_up(editor: Editor, rig: Path) -> None:
    assert offered(editor, rig, f"{HEAD}plan:\n  wind: |\nchain: []\n") == {}


# Names


def test_gear_is_offered_where_its_kind_fits(editor: Editor, library: Path, rig: Path) -> None:
    for part in ("sling", "shackle", "webbing", "webbing_join"):
        found = offered(editor, rig, f"{HEAD}chain:\n  - {{part: {part}, gear: |}}\n")
        assert found.keys() == of_kinds(library, kinds.GEAR_OF_PART[part])
    haul = f"{HEAD}chain:\n  - part: haul\n    "
    for key, fits in (
        ("moving_block: ", "moving_block"),
        ("brake: {gear: ", "brake.gear"),
        ("tie_back:\n      sling: ", "tie_back.sling"),
        ("rope:\n      dead_end: {by: ", "rope.dead_end.by"),
    ):
        assert offered(editor, rig, f"{haul}{key}|").keys() == of_kinds(library, kinds.GEAR_OF_HAUL[fits])
    item = offered(editor, rig, f"{HEAD}chain:\n  - {{part: webbing, gear: |}}\n")["W-90"]
    assert item["detail"] == "webbing, mbs 42 kN, length 90 m, 90 m roll, white, with one sewn end"


def test_a_part_may_be_written_by_the_name_of_its_gear(editor: Editor, rig: Path) -> None:
    found = offered(editor, rig, f"{HEAD}chain:\n  - |\n")
    assert {"SH-1", "W-90", "part", "gear", "kit"} <= found.keys()


def test_anchors_are_those_of_the_spot(editor: Editor, rig: Path) -> None:
    for written in ("chain:\n  - {part: anchor, at: |}\n", "edges: [{at: |}]\n"):
        assert offered(editor, rig, HEAD + written).keys() == {"gate", "hut"}
    spot = (
        "riglint: spot/1\nanchors:\n  oak: {kind: tree}\n  rock: {kind: boulder}\nground: {profile_from: |}\n"
    )
    assert offered(editor, rig, spot).keys() == {"oak", "rock"}


def test_gear_lists_in_the_rig_and_ranges_of_names_count(editor: Editor, rig: Path) -> None:
    shelf = "shelf: [{items: {'SH-1 to SH-3': {kind: shackle}, RS-1: {kind: round_sling}}, kits: {bag: [RS-1]}}]\n"
    head = f"riglint: rig/1\ntitle: Line\n{shelf}"
    assert offered(editor, rig, f"{head}chain: [{{part: shackle, gear: |}}]\n").keys() == {
        "SH-1",
        "SH-2",
        "SH-3",
    }
    assert offered(editor, rig, f"{head}chain: [{{kit: |}}]\n").keys() == {"bag"}


def test_an_unsaved_and_half_written_gear_list_counts(editor: Editor, library: Path, rig: Path) -> None:
    shelf = library / "shelf/club.yaml"
    editor.open(
        shelf, "riglint: shelf/1\nitems:\n  SH-77: {kind: shackle}\n  SH-78: {kind: shackle, mbs: [\n"
    )
    found = offered(editor, rig, f"{HEAD}chain: [{{part: shackle, gear: |}}]\n")
    assert found.keys() == {"SH-77", "SH-78"}
    editor.close(shelf)
    assert "SH-77" not in offered(editor, rig, f"{HEAD}chain: [{{part: shackle, gear: |}}]\n")


def test_nothing_is_read_from_outside_the_library(editor: Editor, library: Path, rig: Path) -> None:
    (library.parent / "secret.yaml").write_text("riglint: shelf/1\nitems: {SECRET: {kind: shackle}}\n")
    text = "riglint: rig/1\ntitle: x\nshelf: [../../secret.yaml]\nchain: [{part: shackle, gear: |}]\n"
    assert offered(editor, rig, text) == {}


def test_files_of_the_library_are_offered_by_their_kind(editor: Editor, rig: Path) -> None:
    found = offered(editor, rig, "riglint: rig/1\ntitle: x\nspot: |\nchain: []\n")
    assert "../spots/orchard.yaml" in found
    assert "../shelf/club.yaml" not in found
    assert "../shelf/club.yaml" in offered(editor, rig, "riglint: rig/1\ntitle: x\nshelf: [|]\nchain: []\n")


def test_rules_are_offered_by_name(editor: Editor, tmp_path: Path) -> None:
    text = "riglint: policy/1\ntitle: Club\noff: [{rule: tail/|}]\n"
    found = offered(editor, tmp_path / "p.yaml", text)
    assert found["tail/webbing"]["detail"]
    assert "rule: tail/webbing}" in taken(text, found["tail/webbing"])


def test_a_name_that_yaml_would_misread_is_put_in_quotes(editor: Editor, rig: Path) -> None:
    text = "riglint: rig/1\ntitle: x\nshelf: [{items: {'A: [1]': {kind: ring}}}]\nchain: [{part: ring, gear: |}]\n"
    item = offered(editor, rig, text)["A: [1]"]
    document, problems = read_yaml(taken(text, item).encode(), "a.yaml")
    assert problems == []
    assert document is not None
    assert document.data["chain"] == [{"part": "ring", "gear": "A: [1]"}]


# Columns, ends of lines


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-16", "utf-32"])
def test_columns_and_line_ends_are_those_of_the_editor(
    start: Start, library: Path, end: str, encoding: str
) -> None:
    editor, units = start(encodings=(encoding,)), {"utf-8": 4, "utf-16": 2, "utf-32": 1}
    file = library / "rigs/new.yaml"
    line = 'chain: [{note: "\U0001f333", part: sling, hitch: ba'
    text = (HEAD + line + "}]\n").replace("\n", end)
    editor.open(file, "\ufeff" + text if end == "\n" else text)
    column = len(line) - 1 + units[encoding]
    found = {one["label"]: one for one in editor.offered(file, 4, column)}
    place = found["basket"]["textEdit"]["range"]
    assert place == {"start": {"line": 4, "character": column - 2}, "end": {"line": 4, "character": column}}


def test_every_place_of_every_example_can_be_asked(editor: Editor, library: Path) -> None:
    """No crash and no empty answer where a document is cut off at any line: somebody is always half-way."""
    for name in ("rigs/low-line.yaml", "shelf/club.yaml", "spots/gully.yaml"):
        file = library / name
        lines = file.read_text(encoding="utf-8").split("\n")
        for n in range(0, len(lines), 7):
            indent = len(lines[n]) - len(lines[n].lstrip())
            editor.tell(
                "textDocument/didOpen", _document(file, "\n".join([*lines[:n], lines[n][: indent + 2]]))
            )
            editor.offered(file, n, indent + 2)
            editor.hover(file, n, indent + 1)


def _document(file: Path, text: str) -> dict[str, Any]:
    return {"textDocument": {"uri": file.as_uri(), "languageId": "yaml", "version": 1, "text": text}}


# Hover


def test_hover_says_what_words_and_names_mean(editor: Editor, library: Path) -> None:
    file = library / "rigs/low-line.yaml"
    lines = file.read_text(encoding="utf-8").split("\n")
    editor.open(file)

    def said(piece: str) -> str:
        row = next(n for n, line in enumerate(lines) if piece in line)
        return editor.hover(file, row, lines[row].index(piece) + len(piece) - 1)

    assert "**lowline** – low line, close enough to the ground to step off." in said("use: lowline")
    assert "**RS-2** – round sling" in said("gear: RS-2")
    assert "**gate** – tree, girth 140 cm." in said("at: gate")
    assert "From 0 km/h to 200 km/h." in said("wind: 10")
    assert "- `choke`: " in said("hitch")
    assert not [
        n for n, line in enumerate(lines[:30]) if "null" in editor.hover(file, n, max(0, len(line) - 1))
    ]


def test_hover_explains_a_key_in_broken_text(editor: Editor, rig: Path) -> None:
    editor.open(rig, f"{HEAD}plan:\n  wind: 10 km/h\nchain: [\n")
    assert editor.hover(rig, 5, 4).startswith("**wind** – Strongest wind expected.")
