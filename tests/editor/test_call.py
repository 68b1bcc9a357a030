"""How `riglint serve-editor` is called and how it ends: house rules, policies, exit status, the missing package.

Outside reference: the Language Server Protocol 3.17 (exit status 0 after `shutdown`, 1 without it).
"""

import hashlib
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from riglint.cli import main
from riglint.rulebook import load_rulebook
from tests.editor.client import Editor
from tests.editor.reading import ERROR, audited, places, shown

Start = Callable[..., Editor]


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


def test_rules_that_a_policy_turns_off_leave_no_empty_list(start: Start, library: Path) -> None:
    policy, file = library / "policy.yaml", library / "rigs/low-line.yaml"
    every = list(load_rulebook().rules)
    tail = [rule for rule in every if rule.startswith("tail/")]
    for rules, said in (
        (tail, "The policy Club turns off every rule of tail"),
        (every, "No rule is in force"),
    ):
        rows = "".join(f"  - {{rule: {rule}, because: hall}}\n" for rule in rules)
        policy.write_text(f"riglint: policy/1\ntitle: Club\noff:\n{rows}", encoding="utf-8")
        found = start("--policy", str(policy)).open(file)
        (told,) = [one for one in found if one["code"] == "file/policy"]
        assert told["message"].startswith(f"DANGER: {said}")
        assert told["severity"] == ERROR


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


def test_each_library_is_judged_by_its_own_settings(
    start: Start, library: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """One server, two libraries: the mark file of one names a policy, and a change of it is heard of at once."""
    plain = library.parent / "plain"
    shutil.copytree(library, plain)
    (library / "policy.yaml").write_text(
        "riglint: policy/1\ntitle: Club\nvalues: {tail/webbing.least_tail: 90 m}\n", encoding="utf-8"
    )
    mark = library / "rig-library"
    mark.write_text("riglint: library/1\npolicy: policy.yaml\n", encoding="utf-8")
    editor = start()
    ours, theirs = (folder / "rigs/low-line.yaml" for folder in (library, plain))
    by_mark, by_default = shown(editor.open(ours)), shown(editor.open(theirs))
    for file, found in ((ours, by_mark), (theirs, by_default)):
        assert found == places(audited(capsys, file), "rigs/low-line.yaml")
    assert by_mark != by_default
    editor.open(mark)
    editor.told_of(ours.as_uri())
    editor.change(mark, "riglint: library/1\n", wait_for=ours)
    assert shown(editor.diagnostics[ours.as_uri()]) == by_default


def test_what_a_library_sets_is_told_once_and_at_the_head_of_each_file(start: Start, library: Path) -> None:
    """The words are those at the head of an audit; what is loosened is put before the person."""
    policy, mark, file = library / "policy.yaml", library / "rig-library", library / "rigs/low-line.yaml"
    looser = "values: {model.bounce_height: {value: 0.4 m, because: beginners walk here only}}"
    policy.write_text(f"riglint: policy/1\ntitle: Club\n{looser}\n", encoding="utf-8")
    mark.write_text("riglint: library/1\npolicy: policy.yaml\n", encoding="utf-8")
    editor = start()
    editor.open(file)
    editor.open(library / "rigs/slackrope.yaml")
    shown = [said for method, said in editor.messages if method == "window/showMessage"]
    logged = [said for method, said in editor.messages if method == "window/logMessage"]
    assert shown == logged[1:]
    assert len(shown) == 1
    digest = hashlib.sha256(mark.read_bytes()).hexdigest()[:12]
    assert f"Settings of rig-library (sha256 {digest}): Its policy is Club" in shown[0]
    assert "Loosened: model.bounce_height from 0.5 m to 0.4 m, because beginners walk here only." in shown[0]
    assert shown[0] in editor.hover(file, 0, 3)
    assert "Settings of" not in editor.hover(file, 2, 6)

    editor.open(mark)
    editor.told_of(file.as_uri())
    editor.change(mark, "riglint: library/1\n", wait_for=file)
    assert editor.messages[-1] == ("window/logMessage", "The library club sets nothing any more.")
    assert "bounce_height" not in editor.hover(file, 0, 3)
    assert len([said for method, said in editor.messages if method == "window/showMessage"]) == 1


def test_a_library_that_sets_nothing_says_nothing(start: Start, library: Path) -> None:
    (library / "rig-library").write_text("", encoding="utf-8")
    editor, file = start(), library / "rigs/low-line.yaml"
    editor.open(file)
    assert len(editor.messages) == 1  # the caution
    assert "Settings" not in editor.hover(file, 0, 3)
