"""`riglint serve-editor` as an editor meets it: a process of its own, spoken to over pipes.

Outside references: the Language Server Protocol 3.17 (framing, positions in UTF-16 units, severities 1 to 4, exit
status 0 after `shutdown` and 1 without), and `riglint audit`, which must say the same of the same file.
"""

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.editor.client import Editor
from tests.editor.reading import ERROR, HINT, INFORMATION, WARNING, audited, marked, places, shown

FAULTY = ("low-line", "long-line", "highline-webbing-backup")
Start = Callable[..., Editor]


# Findings


@pytest.mark.parametrize("name", FAULTY)
def test_it_shows_what_an_audit_of_the_file_says(
    editor: Editor, library: Path, capsys: pytest.CaptureFixture[str], name: str
) -> None:
    file = library / "faulty" / f"{name}.yaml"
    findings = audited(capsys, file)
    expected = places(findings, f"faulty/{name}.yaml")
    assert len(expected) > 5
    assert shown(editor.open(file)) == expected
    elsewhere = {one["at"]["path"] for one in findings} - {f"faulty/{name}.yaml"}
    while any((library / path).as_uri() not in editor.diagnostics for path in elsewhere):
        editor.read()
    for path in elsewhere:  # what an audit says of the spot and the shelf stands in their files
        assert shown(editor.diagnostics[(library / path).as_uri()]) == sorted(set(places(findings, path)))


def test_each_finding_has_its_severity_its_words_and_the_text_that_it_is_about(
    editor: Editor, library: Path
) -> None:
    file = library / "faulty/low-line.yaml"
    text = file.read_text(encoding="utf-8")
    by_rule = {one["code"]: one for one in editor.open(file)}
    assert {one["source"] for one in by_rule.values()} == {"riglint"}
    stopper = by_rule["tail/stopper"]
    assert stopper["severity"] == ERROR
    assert stopper["message"].startswith(
        "WARNING: The overhand behind the brake can roll or be pulled through"
    )
    assert "Tie a double overhand" in stopper["message"]
    assert marked(text, stopper) == "overhand"
    assert by_rule["anchor/sling_angle"]["severity"] == WARNING
    assert marked(text, by_rule["anchor/sling_angle"]) == "RS-1"
    assert by_rule["placement/pins"]["severity"] == HINT
    assert by_rule["placement/pins"]["message"].startswith("NOTICE, to look at on site: ")


def test_an_open_question_says_so(editor: Editor, library: Path) -> None:
    found = editor.open(library / "open/low-line-six-open.yaml")
    questions = [one for one in found if ", open question: " in one["message"]]
    assert questions
    assert {one["severity"] for one in questions} <= {ERROR, WARNING, INFORMATION}


def test_putting_it_right_takes_the_finding_away(editor: Editor, library: Path) -> None:
    file = library / "faulty/low-line.yaml"
    text = file.read_text(encoding="utf-8")
    assert "tail/stopper" in {one["code"] for one in editor.open(file)}
    right = text.replace("stopper: overhand", "stopper: double_overhand")
    assert right != text
    assert "tail/stopper" not in {one["code"] for one in editor.change(file, right)}
    assert "tail/stopper" in {one["code"] for one in editor.change(file, text)}
    assert editor.close(file) == []


def test_an_input_of_another_file_is_named_with_its_line(editor: Editor, library: Path) -> None:
    related = []
    for name in ("long-line", "low-line"):
        rig = library / "rigs" / f"{name}.yaml"
        editor.open(rig)
        tighter = re.sub(
            r"standing_tension: \d+ kN", "standing_tension: 19 kN", rig.read_text(encoding="utf-8")
        )
        found = editor.change(rig, tighter)
        related += [place for one in found for place in one.get("relatedInformation") or ()]
    assert related
    for one in related:
        file = Path(one["location"]["uri"].removeprefix("file://"))
        assert file.is_relative_to(library)
        assert file.parent.name in {"spots", "shelf"}
        lines = file.read_text(encoding="utf-8").splitlines()
        assert lines[one["location"]["range"]["start"]["line"]].strip()


# Files that belong together


def test_an_unsaved_shelf_reaches_the_rig_and_is_forgotten_when_closed(editor: Editor, library: Path) -> None:
    rig, shelf = library / "rigs/low-line.yaml", library / "shelf/club.yaml"
    text = shelf.read_text(encoding="utf-8")
    before = shown(editor.open(rig))
    editor.open(shelf, text)
    renamed = text.replace("  RS-2:", "  RS-99:")
    assert renamed != text
    found = editor.change(shelf, renamed, wait_for=rig)
    assert ["'RS-2' is in no gear list (`shelf`) of this rig." in one["message"] for one in found].count(
        True
    ) >= 1
    assert shelf.read_text(encoding="utf-8") == text
    editor.tell("textDocument/didClose", {"textDocument": {"uri": shelf.as_uri()}})
    assert shown(editor.told_of(rig.as_uri())) == before


def test_a_spot_that_is_nowhere_on_the_disk_yet_is_read_from_the_editor(
    editor: Editor, library: Path
) -> None:
    rig, spot = library / "rigs/low-line.yaml", library / "spots/new.yaml"
    text = rig.read_text(encoding="utf-8").replace("../spots/orchard.yaml", "../spots/new.yaml")
    assert "file/reference" in {one["code"] for one in editor.open(rig, text)}
    orchard = (library / "spots/orchard.yaml").read_text(encoding="utf-8")
    editor.open(spot, orchard)
    assert not spot.exists()
    assert "file/reference" not in {one["code"] for one in editor.change(rig, text + "\n")}


def test_a_shelf_changed_on_the_disk_reaches_the_rig(editor: Editor, library: Path) -> None:
    rig, shelf = library / "rigs/low-line.yaml", library / "shelf/club.yaml"
    before = shown(editor.open(rig))
    shelf.write_text(shelf.read_text(encoding="utf-8").replace("  RS-2:", "  RS-99:"), encoding="utf-8")
    changes = [{"uri": shelf.as_uri(), "type": 2}]
    editor.tell("workspace/didChangeWatchedFiles", {"changes": changes})
    after_it = shown(editor.told_of(rig.as_uri()))
    assert "file/reference" in {code for code, _, _ in after_it} - {code for code, _, _ in before}


# Documents of every kind


@pytest.mark.parametrize(
    ("text", "code", "drawn"),
    [
        ("riglint: rig/1\ntitle: 'x\n", "file/yaml", "'x"),
        ("riglint: rgi/1\n", "file/kind", "rgi/1"),
        ("riglint: rig/1\ntitle: Line\nchian: []\nchain: []\n", "file/key", "chian"),
        ("riglint: spot/1\nanchors:\n  a: {kind: tee}  # lime\n", "file/value", "tee"),
        ("riglint: shelf/1\nitems:\n  A: {kind: webbing, mbs: 42 KN}\n", "file/unit", "42 KN"),
        ("riglint: policy/1\ntitle: Club\noff: [{rule: tail/webing, because: x}]\n", "file/policy", "tail/webing"),
        ("riglint: policy/1\n", "file/key", "riglint"),
        ("riglint: rig/1\nshelf: *club\n", "file/yaml", "*club"),
        ("chain: []\n", "file/kind", "chain"),
    ],
)  # fmt: skip
def test_what_keeps_a_document_from_being_read_is_shown(
    editor: Editor, tmp_path: Path, text: str, code: str, drawn: str
) -> None:
    found = editor.open(tmp_path / "a.yaml", text)
    assert (code, drawn) in {(one["code"], marked(text, one)) for one in found}
    assert {one["severity"] for one in found} == {ERROR}


@pytest.mark.parametrize("text", ["", "a: 1\n", "- riglint\n", "title: x\nname: y\n", "\x00\x01", "{"])
def test_a_document_that_is_not_ours_gets_nothing(editor: Editor, tmp_path: Path, text: str) -> None:
    assert editor.open(tmp_path / "other.yaml", text) == []
    assert editor.hover(tmp_path / "other.yaml", 0, 0) == ""
    assert editor.actions(tmp_path / "other.yaml", 0) == []


def test_it_outlives_documents_and_messages_that_make_no_sense(start: Start, library: Path) -> None:
    editor = start()
    file = library / "rigs/low-line.yaml"
    text = file.read_text(encoding="utf-8")
    garbage = [
        "riglint: rig/1\n" + "[" * 3000,
        "riglint: rig/1\ntitle: \ud800\n",
        "riglint: rig/1\n" + "".join(f"key_{n}: x\n" for n in range(300)),
        text.replace("\n", "\u2028"),
        text.replace("\n", "\r"),
        text[: len(text) // 2],
        text.replace(":", ""),
        text.replace("chain:", "chain: \U0001f9d7"),
        "riglint: rig/1\n? {a: b}\n: c\n" + "x" * 100_000,
        "riglint: rig/1\nchain: [" + "{part: ring}, " * 500 + "]\ntitle: Rings\n",
    ]
    editor.open(file, text)
    for one in garbage:
        editor.change(file, one)
        for line in (0, 1, 10**6):
            editor.hover(file, line, 10**6)
            editor.actions(file, line)
    editor.send_bytes(b"{ this is no JSON")
    editor.tell("textDocument/didChange", {"nothing": "of use"})
    editor.tell("textDocument/didSave", {"textDocument": {"uri": "untitled:Untitled-1"}})
    assert "file/yaml" not in {one["code"] for one in editor.change(file, text)}
    status, complaint = editor.leave()
    assert status == 0
    assert "JSONDecodeError" in complaint  # of the message that was none, and of nothing else
    assert "riglint could not" not in complaint
