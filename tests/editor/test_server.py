"""`riglint serve-editor` as an editor meets it: a process of its own, spoken to over pipes.

Outside references: the Language Server Protocol 3.17 (framing, positions in UTF-16 units, severities 1 to 4, exit
status 0 after `shutdown` and 1 without), and `riglint audit`, which must say the same of the same file.
"""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from riglint.cli import main
from tests.editor.client import DAY, Editor, changed

ERROR, WARNING, INFORMATION, HINT = 1, 2, 3, 4  # of the protocol
FAULTY = ("low-line", "long-line", "highline-webbing-backup")
Start = Callable[..., Editor]


def audited(capsys: pytest.CaptureFixture[str], file: Path, *options: str) -> list[dict[str, Any]]:
    """Return every finding that an audit of one file gives, whichever file it stands in."""
    main(["audit", str(file), *DAY, "--format", "json", *options])
    report = json.loads(capsys.readouterr().out)
    return [finding for one in report["files"] for finding in one["findings"]]


def places(findings: list[dict[str, Any]], path: str) -> list[tuple[str, int, int]]:
    ours = [one for one in findings if one["at"]["path"] == path]
    return sorted((one["rule"], one["at"]["line"], one["at"]["column"]) for one in ours)


def shown(diagnostics: list[dict[str, Any]]) -> list[tuple[str, int, int]]:
    starts = [(one["code"], one["range"]["start"]) for one in diagnostics]
    return sorted((code, start["line"] + 1, start["character"] + 1) for code, start in starts)


def marked(text: str, diagnostic: dict[str, Any]) -> str:
    """Return the text that a diagnostic is drawn under, found as the protocol counts."""
    start: dict[str, int]
    end: dict[str, int]
    start, end = diagnostic["range"]["start"], diagnostic["range"]["end"]
    assert start["line"] == end["line"]
    line = text.split("\n")[start["line"]].encode("utf-16-le")
    return line[2 * start["character"] : 2 * end["character"]].decode("utf-16-le")


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
    assert stopper["message"].startswith("WARNING: The overhand behind the brake stops no rope")
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
    for name in ("highline-webbing-backup", "long-line", "waterline"):
        found = editor.open(library / "faulty" / f"{name}.yaml")
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
    assert ["'RS-2' stands on no shelf of this rig." in one["message"] for one in found].count(True) >= 1
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


# The call


def test_a_crash_in_a_rule_is_a_danger_and_its_print_stays_off_the_protocol(
    start: Start, library: Path
) -> None:
    rules = library / "own_rules"
    model = (library / "house_rules/meadow_club").rglob("*.py")
    source = next(file for file in model if "@rule(" in file.read_text(encoding="utf-8"))
    head, body = source.read_text(encoding="utf-8").rsplit("\n\n\n@rule(", 1)
    signature = body.index("def ")
    docstring_end = (
        body.index('"""', body.index('"""', signature) + 3) + 3 if '"""' in body[signature:] else None
    )
    cut = docstring_end or body.index("\n", signature)
    crash = "\n    print('noise', flush=True)\n    raise RuntimeError('stumbled')\n    yield\n"
    target = rules / source.relative_to(library / "house_rules/meadow_club")
    target.parent.mkdir(parents=True)
    target.write_text(f"{head}\n\n\n@rule({body[:cut]}{crash}", encoding="utf-8")
    editor = start("--house-rules", str(rules))
    found = editor.open(library / "rigs/low-line.yaml")
    (crashed,) = [one for one in found if "crashed (RuntimeError: stumbled)" in one["message"]]
    assert crashed["message"].startswith("DANGER: ")
    assert crashed["severity"] == ERROR
    status, complaint = editor.leave()
    assert status == 0
    assert "noise" in complaint


def test_a_policy_counts_and_one_in_the_folder_does_not(
    start: Start, library: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    policy = library / "policy.yaml"
    policy.write_text(
        "riglint: policy/1\ntitle: Club\nvalues: {tail/webbing.least_tail: 90 m}\n", encoding="utf-8"
    )
    file = library / "rigs/low-line.yaml"
    ours, theirs = start(), start("--policy", str(policy))
    by_default, by_policy = shown(ours.open(file)), shown(theirs.open(file))
    assert by_default == places(audited(capsys, file), "rigs/low-line.yaml")
    assert by_policy == places(audited(capsys, file, "--policy", str(policy)), "rigs/low-line.yaml")
    assert by_policy != by_default
    for editor in (ours, theirs):
        ((method, foot),) = editor.messages
        assert method == "window/logMessage"
        assert "A calculation is no inspection." in foot
        assert ("tail/webbing.least_tail from 0.5 m to 90 m" in foot) == (editor is theirs)


def test_what_a_policy_loosens_is_put_before_the_person(start: Start, library: Path) -> None:
    policy = library / "policy.yaml"
    looser = "values: {model.bounce_height: {value: 0.4 m, because: beginners walk here only}}"
    policy.write_text(f"riglint: policy/1\ntitle: Club\n{looser}\n", encoding="utf-8")
    editor = start("--policy", str(policy))
    editor.open(library / "rigs/low-line.yaml")
    said = dict(editor.messages)["window/showMessage"]
    assert "model.bounce_height from 0.5 m to 0.4 m, because beginners walk here only" in " ".join(
        said.split()
    )


def test_leaving_without_a_word_gives_1(start: Start) -> None:
    editor = start()
    assert editor.read()["method"] == "window/logMessage"
    editor.tell("exit", None)
    assert editor.ended() == (1, "")


def test_without_the_package_one_sentence_names_it(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("riglint.cli.serve_editor.find_spec", lambda _: None)
    assert main(["serve-editor"]) == 3
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err == (
        'The editor server needs one more package; install it with: pip install "riglint[editor]"\n'
    )
