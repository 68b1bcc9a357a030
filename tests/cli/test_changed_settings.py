"""A mark file or policy that is new, changed or nearer is a WARNING in the hook and in compare, whatever it sets.

Each scenario makes its commit, its merge or its renaming with git itself.
"""

import json
import re
import shlex
import subprocess
from pathlib import Path
from typing import Any

import pytest
import yaml

from tests.cli.calling import CHECKOUT, DAY, SHORT_TAIL, SOUND, command, commit, environment, git, write
from tests.cli.test_library_settings import judged, said

MARK = "riglint: library/1\npolicy: policy.yaml\nknown: known.yaml\n"
POLICY = "riglint: policy/1\ntitle: Club\n"
LOOSE = f"{POLICY}values:\n  peak/discipline.jump_off_height: {{value: 4 m, because: soft sand}}\n"
ENTRY = (
    "\n  - {rule: tail/webbing, file: rigs/a.yaml, cause: x, word: CAUTION, since: 2026-05-01, "
    "until: 2026-12-31, role: keeper, reason: old}"
)
HOOK = ("--revision", "staged", "--if-any", "--with-rigs")


@pytest.fixture
def club(library: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    git(library, "init", "-q", "-b", "main")
    write(library / "rig-library", MARK)
    write(library / "policy.yaml", POLICY)
    write(library / "known.yaml", "riglint: known/1\nknown: []\n")
    write(library / "rigs/a.yaml", SOUND)
    commit(library, "A club")
    monkeypatch.chdir(library)
    return library


def staged(club: Path, *named: str) -> tuple[int, list[tuple[str, str]]]:
    """Stage all and run the hook; return its status and all WARNINGs about settings, with their paths."""
    git(club, "add", "-A")
    status, report = judged(*named, *HOOK)
    return status, warnings(report)


def warnings(report: dict[str, Any]) -> list[tuple[str, str]]:
    return [
        (file["path"], one["message"])
        for file in report["files"]
        for one in file["findings"]
        if one["rule"] == "file/library" and one["signal"] == "WARNING"
    ]


def test_a_commit_that_leaves_the_settings_alone_is_not_warned(club: Path) -> None:
    write(club / "rigs/a.yaml", SOUND.replace("title:", "note: seen\ntitle:", 1))
    assert staged(club, "rigs/a.yaml") == (0, [])


CHANGES = {
    "a comment in the mark file": ("rig-library", f"# ours\n{MARK}", "rig-library", "has changed"),
    "the mark file emptied": ("rig-library", "", "rig-library", "has changed. It sets nothing"),
    "something left out": (
        "rig-library",
        f"{MARK}leave_out: [{{path: drafts, because: trainees}}]\n",
        "rig-library",
        "because trainees",
    ),
    "the policy loosened": ("policy.yaml", LOOSE, "rig-library", "jump_off_height from 3 m to 4 m"),
    "the policy tightened": ("policy.yaml", f"{POLICY}note: x\n", "rig-library", "Loosened now: nothing"),
    "a known finding taken on": (
        "known.yaml",
        f"riglint: known/1\nknown:{ENTRY}\n",
        "rig-library",
        "takes on 1 more known",
    ),
    "a nearer mark file": ("rigs/rig-library", "", "rigs/rig-library", "is new here"),
    "a nearer mark file elsewhere": ("guests/rig-library", "", "guests/rig-library", "is new here"),
    "a broken mark file": (
        "rig-library",
        "riglint: library/1\nstop_at: NOTICE\n",
        "rig-library",
        "can't be used",
    ),
}


@pytest.mark.parametrize("name", CHANGES)
@pytest.mark.parametrize("named", [(), ("rigs/a.yaml",)])
def test_the_hook_warns_of_changed_settings_whatever_else_is_committed(
    club: Path, name: str, named: tuple[str, ...]
) -> None:
    file, text, at, says = CHANGES[name]
    write(club / file, text)
    status, told = staged(club, *named)
    assert status >= 1
    assert [path for path, _ in told if path == at]
    assert says in " ".join(words for _, words in told)


def test_a_mark_file_that_is_gone_or_renamed_is_told(club: Path) -> None:
    git(club, "mv", "rig-library", "rigs/rig-library")
    status, told = staged(club, "rigs/a.yaml")
    assert status >= 1
    assert {path for path, _ in told} >= {"rig-library", "rigs/rig-library"}
    assert "is gone" in dict(told)["rig-library"]


def test_what_is_not_staged_is_neither_used_nor_told(club: Path) -> None:
    write(club / "policy.yaml", LOOSE)
    _, report = judged("rigs/a.yaml", *HOOK)
    assert warnings(report) == []
    assert report["policy"]["changed"] == []


def test_the_policy_that_the_call_names_is_told_as_well(club: Path) -> None:
    write(club / "hook.yaml", POLICY)
    commit(club, "A policy for the hook")
    write(club / "hook.yaml", LOOSE)
    git(club, "add", "-A")
    status, report = judged("rigs/a.yaml", *HOOK, "--policy", "hook.yaml")
    assert status == 1
    assert ("hook.yaml", "The policy hook.yaml that the call names is new or has changed.") in warnings(
        report
    )


def test_the_first_commit_tells_only_what_sets_something(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    git(tmp_path, "init", "-q", "-b", "main")
    write(tmp_path / "rigs/a.yaml", SOUND)
    write(tmp_path / "rig-library", "")
    monkeypatch.chdir(tmp_path)
    assert staged(tmp_path, "rigs/a.yaml") == (0, [])
    write(tmp_path / "rig-library", "riglint: library/1\nunits: both\n")
    status, told = staged(tmp_path)
    assert (status, told[0][0]) == (1, "rig-library")


def test_a_merge_that_brings_settings_is_warned_in_its_hook(club: Path) -> None:
    git(club, "switch", "-qc", "guests")
    write(club / "policy.yaml", LOOSE)
    commit(club, "Jump from higher")
    git(club, "switch", "-q", "main")
    write(club / "rigs/b.yaml", SOUND)
    commit(club, "A second rig")
    git(club, "merge", "-q", "--no-commit", "--no-ff", "guests")
    status, report = judged(*HOOK)
    assert status == 1
    assert "jump_off_height" in warnings(report)[0][1]


def test_of_two_libraries_with_like_names_the_hook_warns_of_the_one_that_changed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    git(tmp_path, "init", "-q", "-b", "main")
    for name in ("north", "south"):
        library = tmp_path / "clubs" / name
        write(library / "rig-library", "riglint: library/1\npolicy: policy.yaml\n")
        write(library / "policy.yaml", POLICY)
        write(library / "rigs/a.yaml", SOUND)
    commit(tmp_path, "Two clubs")
    monkeypatch.chdir(tmp_path)
    write(tmp_path / "clubs/south/policy.yaml", LOOSE)
    both = ("clubs/north/rigs/a.yaml", "clubs/south/rigs/a.yaml")
    status, told = staged(tmp_path, *both)
    assert status == 1
    assert [path for path, _ in told] == ["clubs/south/rig-library"]
    git(tmp_path, "switch", "-qc", "change")
    commit(tmp_path, "Jump from higher in the south")
    status, report = compared("main..change")
    assert [one["path"] for one in report["settings_changed"]] == ["clubs/south/rig-library"]
    # The north is judged as before.
    _, audited = judged(".")
    loosened = [one["path"] for one in audited["settings"] if "Loosened:" in " ".join(one["sets"])]
    assert loosened == ["clubs/south/rig-library"]


def compared(*call: str) -> tuple[int, dict[str, Any]]:
    status, text = said("compare", *call, *DAY, "--format", "json")
    return status, json.loads(text)


@pytest.mark.parametrize("name", [name for name in CHANGES if "broken" not in name])
def test_compare_warns_between_branches(club: Path, name: str) -> None:
    file, text, at, says = CHANGES[name]
    git(club, "switch", "-qc", "change")
    write(club / file, text)
    commit(club, "Settings")
    status, report = compared("main..change")
    assert status == 1
    assert at in [one["path"] for one in report["settings_changed"]]
    assert says in " ".join(one["message"] for one in report["settings_changed"])
    for form in ("text", "markdown"):
        _, shown = said("compare", "main..change", *DAY, "--format", form)
        assert "WARNING" in shown
        assert "mark file" in shown or "policy" in shown
    assert compared("main..change", "--stop-at", "DANGER")[0] == 0
    assert compared("main..main") == (0, compared("main..main")[1])


def test_compare_groups_what_is_new_worse_better_and_gone(club: Path) -> None:
    write(club / "policy.yaml", POLICY + "values: {tail/webbing.least_tail: 2 m}\n")
    commit(club, "Longer tails")
    git(club, "switch", "-qc", "change")
    write(club / "rigs/a.yaml", SHORT_TAIL)
    write(club / "rigs/b.yaml", SOUND)
    commit(club, "A shorter tail, and a second rig")
    status, report = compared("main..change", "--stop-at", "CAUTION")
    fates = {rig["path"]: {one["fate"] for one in rig["findings"]} for rig in report["rigs"]}
    assert status == 1
    assert "worse" in fates["rigs/a.yaml"]  # the same word, and farther from its limit
    assert fates["rigs/b.yaml"] == {"new"}
    assert report["count"]["worse"] >= 1
    assert report["count"]["new"] >= 1
    _, back = compared("change..main")
    assert back["count"]["better"] >= 1
    assert back["count"]["gone"] >= 1
    for form in ("text", "markdown"):
        _, shown = said("compare", "main..change", *DAY, "--format", form)
        assert -1 < shown.find("New (") < shown.find("Worse (")
        _, shown = said("compare", "change..main", *DAY, "--format", form)
        assert -1 < shown.find("Better (") < shown.find("Gone (")


GUIDE = CHECKOUT / "examples/guides/club-library.md"


def recipe() -> list[str]:
    """Return the commands that the guide gives a CI for a proposed change."""
    (block,) = [
        one for one in re.findall(r"```yaml\n(.*?)```", GUIDE.read_text("utf-8"), re.DOTALL) if "run:" in one
    ]
    return [step["run"] for step in yaml.safe_load(block)]


@pytest.mark.parametrize(("text", "status"), [(SHORT_TAIL, 0), (SOUND, 0), ("loosened", 1), ("worse", 1)])
def test_the_recipe_of_the_guide_holds_a_change_against_its_branch(
    club: Path, text: str, status: int
) -> None:
    git(club.parent, "clone", "-q", str(club), "fork")
    fork = club.parent / "fork"
    git(fork, "switch", "-qc", "change")
    file = "policy.yaml" if text == "loosened" else "rigs/a.yaml"
    heavier = SOUND.replace("standing_tension: 3 kN", "standing_tension: 30 kN")
    write(fork / file, {"loosened": LOOSE, "worse": heavier}.get(text, text))
    commit(fork, "A proposed change") if git(fork, "status", "--porcelain") else None
    write(club / "rigs/b.yaml", SOUND)
    commit(club, "Meanwhile on the branch")
    ended = []
    for words in map(shlex.split, recipe()):
        call = command(*words[1:]) if words[0] == "riglint" else words
        done = subprocess.run(call, cwd=fork, env=environment(), check=False, capture_output=True)
        ended.append(done.returncode)
    assert ended == [0, status]
    report = (fork / "change.md").read_text("utf-8")
    assert ("Settings of a library changed" in report) == (text == "loosened")
    assert ("New (" in report) == (text in {"worse", SHORT_TAIL})
