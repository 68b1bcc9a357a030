"""The hooks of the examples in a library with settings: each commit, merge and push made by git itself."""

import re
import shutil
from pathlib import Path

import pytest

from tests.cli.calling import DAY, SOUND, commit, git, run, write
from tests.cli.test_known_findings import MARK, POLICY, take_on
from tests.cli.test_revision import DANGEROUS, gear_list, hooked, refers, tried

ALL = ("pre-commit", "pre-merge-commit", "pre-push")
LONG_TAIL = SOUND.replace("tail: 1 m,", "tail: 3 m,")


@pytest.fixture
def club(library: Path) -> Path:
    """A library with a policy and known findings, committed before the hooks were there."""
    git(library, "init", "-q", "-b", "main")
    write(library / "rig-library", f"{MARK}policy: policy.yaml\n")
    write(library / "policy.yaml", POLICY)
    write(library / "known.yaml", "riglint: known/1\nknown: []\n")
    write(library / "rigs/a.yaml", LONG_TAIL)
    commit(library, "A club")
    hooked(library, *ALL)
    return library


def commits(club: Path, *call: str) -> tuple[int, str]:
    """Stage all and commit; return git's status and what was said, in one row."""
    git(club, "add", "-A")
    status, said = tried(club, "commit", "-m", "Change", *call)
    return status, " ".join(said.split())


def test_settings_are_read_by_a_second_person_then_committed_and_then_the_hook_is_calm(club: Path) -> None:
    """What the hook says to do is done word by word."""
    write(club / "policy.yaml", POLICY.replace("2 m", "1.5 m"))
    status, said = commits(club)
    assert status == 1
    assert said.count("has changed") >= 1
    do = re.search(r"what to do (.*?) rule ", said)
    assert do is not None
    reading, committing = re.findall(r"`([^`]+)`", do[1])
    assert run(club, *reading.split()[1:], *DAY)[0] == 1
    assert "WARNING rig-library: The policy policy.yaml has changed." in " ".join(
        run(club, *reading.split()[1:], *DAY)[1].split()
    )
    assert tried(club, *committing.split()[1:], "-m", "Shorter tails will do")[0] == 0
    write(club / "rigs/a.yaml", LONG_TAIL.replace("title:", "note: seen\ntitle:", 1))
    status, said = commits(club)
    assert (status, "has changed" in said) == (0, False), said


def test_a_mark_file_alone_is_seen_where_xargs_starts_nothing_without_names(
    club: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Some systems have an xargs that runs its command only where there is a name to hand over."""
    real = shutil.which("xargs")
    write(tmp_path / "bin/xargs", f'#!/bin/sh\nexec {real} -r "$@"\n').chmod(0o755)
    monkeypatch.setenv("PATH", str(tmp_path / "bin"), prepend=":")
    for mark in ("", "riglint: library/1\n"):
        write(club / "rig-library", mark)
        status, said = commits(club)
        assert (status, "The mark file has changed." in said) == (1, True), said


def test_a_known_finding_passes_where_it_is_as_it_was_and_no_further(
    club: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write(club / "rigs/a.yaml", SOUND)
    monkeypatch.chdir(club)
    assert take_on(monkeypatch)[0] == 0
    status, said = commits(club)
    assert (status, "known.yaml takes on" in said) == (1, True), said
    assert commits(club, "--no-verify")[0] == 0
    write(club / "rigs/a.yaml", SOUND.replace("title:", "note: seen\ntitle:", 1))
    assert commits(club)[0] == 0
    write(club / "rigs/b.yaml", SOUND)
    status, said = commits(club)
    assert (status, "rigs/b.yaml" in said) == (1, True), said
    (club / "rigs/b.yaml").unlink()
    git(club, "mv", "rigs/a.yaml", "rigs/renamed.yaml")
    status, said = commits(club)
    assert (status, "rigs/renamed.yaml" in said) == (1, True), said


def test_a_renamed_or_deleted_gear_list_stops_the_rig_that_names_it(club: Path) -> None:
    gear_list(club / "shelf/one.yaml")
    text = refers(club / "rigs/a.yaml", "../shelf/one.yaml").read_text(encoding="utf-8")
    write(club / "rigs/a.yaml", text.replace("tail: 1 m,", "tail: 3 m,"))
    assert commits(club)[0] == 0
    git(club, "mv", "shelf/one.yaml", "shelf/two.yaml")
    status, said = commits(club)
    assert (status, "There is no file '../shelf/one.yaml'" in said) == (1, True), said
    git(club, "rm", "-qf", "shelf/two.yaml")
    status, said = commits(club)
    assert (status, "There is no file '../shelf/one.yaml'" in said) == (1, True), said


def test_of_two_libraries_with_like_names_each_is_judged_by_its_own_settings(library: Path) -> None:
    """Only the one with a policy of its own asks for two metres of tail."""
    git(library, "init", "-q", "-b", "main")
    (library / "rig-library").unlink()
    for name in ("meadow", "forest"):
        write(library / name / "rig-library", "")
        write(library / name / "rigs/a.yaml", LONG_TAIL)
    write(library / "forest/rig-library", "riglint: library/1\npolicy: policy.yaml\n")
    write(library / "forest/policy.yaml", POLICY)
    commit(library, "Two clubs")
    hooked(library, *ALL)
    for name in ("meadow", "forest"):
        write(library / name / "rigs/a.yaml", SOUND)
    status, said = commits(library)
    assert status == 1, said
    assert "forest/rigs/a.yaml" in said
    assert "meadow/rigs/a.yaml line" not in said


def test_two_green_branches_meet_under_stricter_settings(club: Path) -> None:
    """One branch asks for longer tails, the other adds a rig; a merge and a push hold both."""
    git(club, "switch", "-qc", "strict")
    write(club / "policy.yaml", POLICY.replace("2 m", "4 m"))
    write(club / "rigs/a.yaml", LONG_TAIL.replace("tail: 3 m,", "tail: 5 m,"))
    assert commits(club, "--no-verify")[0] == 0
    git(club, "switch", "-q", "main")
    write(club / "rigs/b.yaml", LONG_TAIL)
    assert commits(club)[0] == 0
    status, said = tried(club, "merge", "--no-edit", "strict")
    assert (status, "rigs/b.yaml" in said) == (1, True), said
    git(club, "commit", "-q", "--no-verify", "-m", "Forced")
    git(club.parent, "init", "-q", "--bare", "elsewhere.git")
    git(club, "remote", "add", "origin", str(club.parent / "elsewhere.git"))
    status, said = tried(club, "push", "-q", "origin", "main")
    assert (status, "rigs/b.yaml" in said) == (1, True), said


def test_a_known_finding_that_grows_to_a_danger_stops(club: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write(club / "rigs/a.yaml", SOUND)
    monkeypatch.chdir(club)
    assert take_on(monkeypatch)[0] == 0
    assert commits(club, "--no-verify")[0] == 0
    write(club / "rigs/a.yaml", DANGEROUS)
    status, said = commits(club)
    assert (status, "DANGER" in said) == (1, True), said
