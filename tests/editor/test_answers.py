"""What an editor gets at a place: columns as it counts them, what a key means, changes of the text that end a finding.

Outside reference: the Language Server Protocol 3.17 (positions in UTF-16 units unless the editor asks otherwise).
"""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.editor.client import Editor, changed
from tests.editor.reading import HINT, audited, places, shown

Start = Callable[..., Editor]


# Places


@pytest.mark.parametrize("encodings", [(), ("utf-16",), ("utf-32", "utf-16"), ("utf-8",)])
def test_columns_are_those_of_the_editor(start: Start, tmp_path: Path, encodings: tuple[str, ...]) -> None:
    units = {"utf-8": 4, "utf-16": 2, "utf-32": 1}
    editor = start(encodings=encodings)
    text = 'riglint: rig/1\ntitle: Line\nchain: [{note: "\U0001f333", id: ä, hich: x, part: sling}]\n'
    counted = editor.capabilities["positionEncoding"]
    assert counted == (encodings[0] if encodings else "utf-16")
    (found,) = [one for one in editor.open(tmp_path / "a.yaml", text) if "'hich'" in one["message"]]
    before = 'chain: [{note: "", id: , hich'
    start_at = len(before) - 4 + units[counted] + (2 if counted == "utf-8" else 1)
    assert found["range"]["start"] == {"line": 2, "character": start_at}
    assert found["range"]["end"] == {"line": 2, "character": start_at + 4}
    (action,) = [one for one in editor.actions(tmp_path / "a.yaml", 2) if one["title"] == "Write hitch"]
    assert action["edit"]["changes"][(tmp_path / "a.yaml").as_uri()][0]["range"] == found["range"]


@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_line_ends_and_a_byte_order_mark_move_nothing(
    editor: Editor, library: Path, end: str, capsys: pytest.CaptureFixture[str]
) -> None:
    file = library / "faulty/low-line.yaml"
    expected = places(audited(capsys, file), "faulty/low-line.yaml")
    text = "\ufeff" + file.read_text(encoding="utf-8").replace("\n", end)
    assert shown(editor.open(file, text)) == expected


# Hover


def test_hover_says_what_a_key_means_and_in_which_units(editor: Editor, library: Path) -> None:
    file = library / "spots/orchard.yaml"
    lines = file.read_text(encoding="utf-8").splitlines()
    editor.open(file)
    n = next(n for n, line in enumerate(lines) if line.startswith("span:"))
    for column in (1, len("span: 2")):
        said = editor.hover(file, n, column)
        assert said.startswith("**span** – ")
        assert "Units: mm, cm, m, km, in, ft." in said
    assert "the words" not in editor.hover(file, len(lines) + 5, 0)


def test_hover_tells_the_whole_finding(editor: Editor, library: Path) -> None:
    file = library / "faulty/slackrope.yaml"
    found = editor.open(file)
    tail = next(one for one in found if one["code"] == "tail/webbing" and one["severity"] != HINT)
    at = tail["range"]["start"]
    said = editor.hover(file, at["line"], at["character"] + 1)
    for part in ("value: ", "limit: 0.5 m", "why: ", "do: ", "rule: tail/webbing; source: "):
        assert part in said, said


# Changes of the text


def offered(editor: Editor, file: Path, text: str) -> list[dict[str, Any]]:
    return [one for n in range(text.count("\n")) for one in editor.actions(file, n)]


def after(text: str, action: dict[str, Any], file: Path) -> str:
    assert action["edit"]["changes"].keys() == {file.as_uri()}
    return changed(text, action["edit"]["changes"][file.as_uri()])


@pytest.mark.parametrize("name", ["slackrope", "highline-rope-backup", "waterline", "long-line"])
def test_a_remedy_taken_over_ends_the_finding(editor: Editor, library: Path, name: str) -> None:
    file = library / "faulty" / f"{name}.yaml"
    text = file.read_text(encoding="utf-8")
    editor.open(file)
    actions = offered(editor, file, text)
    assert actions, "nothing is offered"
    for action in actions:
        (ended,) = action["diagnostics"]
        assert ended["message"] in {one["message"] for one in editor.change(file, text)}
        left = editor.change(file, after(text, action, file))
        same = [
            one
            for one in left
            if (one["code"], one["range"]["start"]) == (ended["code"], ended["range"]["start"])
        ]
        assert [one for one in same if one["severity"] <= ended["severity"]] == []


@pytest.mark.parametrize("quote", ["'", '"'])
def test_a_remedy_keeps_quotes_and_comment(editor: Editor, library: Path, quote: str) -> None:
    file = library / "faulty/waterline.yaml"
    text = file.read_text(encoding="utf-8")
    editor.open(file)
    (edit,) = offered(editor, file, text)[0]["edit"]["changes"][file.as_uri()]
    row, start, end = edit["range"]["start"]["line"], edit["range"]["start"], edit["range"]["end"]
    lines = text.split("\n")
    before, value = lines[row][: start["character"]], lines[row][start["character"] : end["character"]]
    lines[row] = f"{before}{quote}{value}{quote}   # as hauled"
    quoted = "\n".join(lines)
    editor.change(file, quoted)
    taken = after(quoted, offered(editor, file, quoted)[0], file)
    lines[row] = f"{before}{quote}{edit['newText']}{quote}   # as hauled"
    assert taken == "\n".join(lines)


def test_a_misspelt_word_is_put_right(editor: Editor, library: Path) -> None:
    file = library / "rigs/low-line.yaml"
    text = file.read_text(encoding="utf-8")
    wrong = text.replace("hitch: basket ", "hich: 'baskett' ", 1)
    assert wrong != text
    found = editor.open(file, wrong)
    assert {one["code"] for one in found} == {"file/key"}
    for title in ("Write hitch", "Write basket"):
        row = next(n for n, line in enumerate(wrong.split("\n")) if "'baskett'" in line)
        action = next(one for one in editor.actions(file, row) if one["title"] == title)
        wrong = changed(wrong, action["edit"]["changes"][file.as_uri()])
        found = editor.change(file, wrong)
    assert wrong == text.replace("hitch: basket ", "hitch: 'basket' ", 1)
    assert not any(one["code"].startswith("file/") for one in found)


def test_nothing_is_offered_for_a_text_that_was_not_audited_yet(editor: Editor, library: Path) -> None:
    file = library / "faulty/slackrope.yaml"
    text = file.read_text(encoding="utf-8")
    editor.open(file)
    row = next(n for n in range(text.count("\n")) if editor.actions(file, n))
    document = {"uri": file.as_uri(), "version": 99}
    newer = {"textDocument": document, "contentChanges": [{"text": "# one more line\n" + text}]}
    editor.tell("textDocument/didChange", newer)
    assert editor.actions(file, row) == []


MEANT = {  # as written, and as the sentence says to write it
    "public: yes": "true", "watcher: NO": "false", "spotters: 010": "10", "spotters: 1_0": "10",
    "standing_tension: 3 KN": "3 kN", "standing_tension: 3 kn ± 1 kN": "3 kN ± 1 kN", "wind: 010 km/h": "10 km/h",
    "lowering: brakes": "brake", "wind: '10 KM/H'": "10 km/h",
}  # fmt: skip


def test_every_plain_slip_in_a_value_is_put_right(editor: Editor, library: Path) -> None:
    """What the sentence says to write is offered, ends the finding, and keeps quotes."""
    file = library / "rigs/slip.yaml"
    for written, meant in MEANT.items():
        key, value = written.split(": ")
        text = f"riglint: rig/1\ntitle: Line\nplan:\n  {written}\nchain: []\n"
        found = [one for one in editor.open(file, text) if one["range"]["start"]["line"] == 3]
        assert any(meant in one["message"] for one in found), written
        (action,) = editor.actions(file, 3)
        assert action["title"] == f"Write {meant}"
        quote = "'" if value.startswith("'") else ""
        right = after(text, action, file)
        assert f"\n  {key}: {quote}{meant}{quote}\n" in right
        wrong = {"file/value", "file/unit", "file/key"}
        left = [one for one in editor.change(file, right) if one["range"]["start"]["line"] == 3]
        assert [one for one in left if one["code"] in wrong] == []


def test_the_quotes_of_a_number_go_with_it(editor: Editor, library: Path) -> None:
    """Within its quotes it would stay text."""
    file = library / "rigs/slip.yaml"
    text = "riglint: rig/1\ntitle: Line\nplan:\n  spotters: '3'\n  public: \"yes\"\nchain: []\n"
    editor.open(file, text)
    for row, right in ((3, "Write 3"), (4, "Write true")):
        (action,) = editor.actions(file, row)
        assert action["title"] == right
        text = after(text, action, file)
        editor.change(file, text)
    assert text == "riglint: rig/1\ntitle: Line\nplan:\n  spotters: 3\n  public: true\nchain: []\n"
    assert [editor.actions(file, row) for row in (3, 4)] == [[], []]


def test_a_part_of_a_kit_is_not_rewritten_where_the_kit_is_called(editor: Editor, library: Path) -> None:
    """The finding stands at the call; the misspelt name stands in the gear list."""
    shelf, file = library / "shelf/kits.yaml", library / "rigs/kit.yaml"
    shelf.write_text(
        "riglint: shelf/1\ntitle: Kits\nitems:\n  RS-1: {kind: round_sling, wll: 2 t}\n"
        "kits:\n  bag: [{part: sling, gear: RS-9, hitch: basket}]\n",
        encoding="utf-8",
    )
    text = "riglint: rig/1\ntitle: Line\nshelf: [../shelf/kits.yaml]\nchain:\n  - kit: bag\n  - {kit: bag}\n"
    found = editor.open(file, text)
    assert any("'RS-9' is in no gear list" in one["message"] for one in found)
    assert [one for row in (4, 5) for one in editor.actions(file, row)] == []
