"""`audit --revision`: what a commit, a merge or a push holds is judged, whatever lies on the disk beside it."""

import contextlib
import io
import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from riglint.cli import main
from tests.cli.calling import CHECKOUT, DAY, SHORT_TAIL, SOUND, commit, git, run, write

STAGED = ("--revision", "staged", *DAY, "--stop-at", "DANGER")
DANGEROUS = SOUND.replace("standing_tension: 3 kN", "standing_tension: 30 kN")
HOOKS = CHECKOUT / "examples/hooks"


BEFORE, _, REST = SOUND.partition("shelf:\n")
HELD, _, AFTER = REST.partition("\nplan:\n")


def gear_list(file: Path) -> Path:
    """Write the gear of the sound rig as a gear list of its own."""
    rows = [row[4:] for row in HELD.splitlines()]
    return write(file, "\n".join(["riglint: shelf/1", *rows, ""]))


def refers(file: Path, shelf: str) -> Path:
    """Write the sound rig so that it refers to a gear list."""
    return write(file, f"{BEFORE}shelf: [{shelf}]\nplan:\n{AFTER}")


@pytest.fixture
def repository(library: Path) -> Path:
    git(library, "init", "-q", "-b", "main")
    gear_list(library / "shelf/one.yaml")
    refers(library / "rigs/a.yaml", "../shelf/one.yaml")
    write(library / "rigs/b.yaml", SOUND)
    commit(library, "A club's rigs")
    return library


def report(where: Path, *call: str, status: int) -> dict[str, Any]:
    """Return the report of an audit in this process, which has to end with this status."""
    with contextlib.chdir(where), contextlib.redirect_stdout(io.StringIO()) as out:
        assert main(["audit", "--format", "json", *call]) == status
    read: dict[str, Any] = json.loads(out.getvalue())
    return read


def words(read: dict[str, Any]) -> set[tuple[str, str]]:
    return {(file["path"], one["rule"]) for file in read["files"] for one in file["findings"]}


def test_a_rig_mended_on_the_disk_alone_is_judged_as_it_is_staged(repository: Path) -> None:
    write(repository / "rigs/b.yaml", SHORT_TAIL)
    git(repository, "add", "-A")
    write(repository / "rigs/b.yaml", SOUND)
    call = ("rigs/b.yaml", "--stop-at", "CAUTION")
    staged = report(repository, *STAGED, *call, status=1)
    on_disk = report(repository, *DAY, *call, status=report_status(repository, *DAY, *call))
    assert ("rigs/b.yaml", "tail/webbing") in words(staged) - words(on_disk)


def report_status(where: Path, *call: str) -> int:
    with contextlib.chdir(where), contextlib.redirect_stdout(io.StringIO()):
        return main(["audit", *call])


def test_a_gear_list_that_nobody_else_gets_does_not_let_a_commit_pass(repository: Path) -> None:
    gear_list(repository / "shelf/new.yaml")
    refers(repository / "rigs/a.yaml", "../shelf/new.yaml")
    git(repository, "add", "rigs")
    assert report_status(repository, *DAY, "--stop-at", "DANGER", "rigs/a.yaml") == 0
    read = report(repository, *STAGED, "rigs/a.yaml", status=2)
    (missing,) = [
        one for file in read["files"] for one in file["findings"] if one["rule"] == "file/reference"
    ]
    assert "../shelf/new.yaml" in missing["message"]
    git(repository, "add", "-A")
    report(repository, *STAGED, "rigs/a.yaml", status=0)


def test_a_deleted_gear_list_brings_its_rigs_and_a_renamed_one_too(repository: Path) -> None:
    git(repository, "mv", "shelf/one.yaml", "shelf/two.yaml")
    call = (*STAGED, "--if-any", "--with-rigs", "--")
    for named in ((), ("shelf/two.yaml",), ("shelf/one.yaml",)):
        read = report(repository, *call, *named, status=2)
        assert "rigs/a.yaml" in {file["path"] for file in read["files"]}


def test_paths_are_those_of_the_repository_wherever_the_call_stands(repository: Path) -> None:
    write(repository / "rigs/b.yaml", SHORT_TAIL)
    git(repository, "add", "-A")
    for where, named in ((repository, "rigs"), (repository / "rigs", ".")):
        read = report(where, *STAGED, named, status=0)
        assert {file["path"] for file in read["files"]} >= {"rigs/a.yaml", "rigs/b.yaml"}
    _, lines, _ = run(repository / "rigs", "audit", *STAGED, "b.yaml", "--format", "lines")
    assert lines.startswith("b.yaml:")


def test_a_file_outside_the_revision_is_not_there(repository: Path) -> None:
    write(repository / "rigs/c.yaml", SOUND)
    assert report_status(repository, *STAGED, "rigs/c.yaml") == 2
    assert report_status(repository, *STAGED, "--if-any", "--with-rigs", "--", "rigs/c.yaml") == 0


def test_a_policy_counts_as_it_is_staged(repository: Path) -> None:
    write(repository / "club.yaml", "riglint: policy/1\ntitle: Club\noff: []\n")
    call = ("--policy", "club.yaml", "rigs/b.yaml")
    assert report_status(repository, *STAGED, *call) == 2
    git(repository, "add", "club.yaml")
    read = report(repository, *STAGED, *call, status=0)
    assert read["policy"]["path"] == "club.yaml"


def test_an_older_revision_is_judged_as_it_was(repository: Path) -> None:
    write(repository / "rigs/b.yaml", SHORT_TAIL)
    commit(repository, "A short tail")
    call = (*DAY, "rigs/b.yaml", "--stop-at", "DANGER")
    now = report(repository, *call, "--revision", "HEAD", status=0)
    before = report(repository, *call, "--revision", "HEAD~1", status=0)
    assert "tail/webbing" in {rule for _, rule in words(now)} - {rule for _, rule in words(before)}


def test_a_rig_saved_under_another_name_is_told_of(repository: Path) -> None:
    write(repository / "rigs/low.yaml.txt", SOUND)
    git(repository, "add", "-A")
    read = report(repository, *STAGED, "rigs", status=2)
    assert "rigs/low.yaml.txt" in {file["path"] for file in read["files"]}


@pytest.mark.parametrize(
    ("call", "said"),
    [
        (("--revision", "nowhere", "rigs"), "'nowhere' is not a file, a folder or a revision"),
        (("--revision", "staged", "--set", "plan.users=2", "rigs/b.yaml"), "does not go with --revision"),
        (("--revision", "staged", "-", "--as", "rigs/b.yaml"), "To judge standard input"),
    ],
)
def test_a_wrong_call_gives_2_and_a_sentence(repository: Path, call: tuple[str, ...], said: str) -> None:
    status, out, err = run(repository, "audit", *call)
    assert (status, out) == (2, "")
    assert said in err


def test_outside_a_repository_there_is_nothing_staged(library: Path) -> None:
    write(library / "b.yaml", SOUND)
    status, _, err = run(library, "audit", "--revision", "staged", "b.yaml")
    assert status == 2
    assert "no git repository" in err


def hooked(repository: Path, *hooks: str) -> None:
    """Install hooks of the examples as their guide says, with this riglint and a day of our own."""
    ours = f'"{sys.executable}" -m riglint audit {" ".join(DAY)}'
    for hook in hooks:
        text = (HOOKS / hook).read_text(encoding="utf-8").replace("riglint audit", ours)
        write(repository / ".git/hooks" / hook, text).chmod(0o755)


def tried(repository: Path, *call: str) -> tuple[int, str]:
    """Run git with riglint to be found by its hooks; return its status and what was said."""
    person = ("-c", "user.name=Rigger", "-c", "user.email=rigger@example.org")
    done = subprocess.run(
        ["git", "-C", str(repository), *person, *call],
        capture_output=True,
        text=True,
        check=False,
        env=os.environ | {"PYTHONPATH": str(CHECKOUT)},
    )
    return done.returncode, done.stdout + done.stderr


def test_a_commit_is_stopped_for_what_it_holds_and_passes_when_that_is_mended(repository: Path) -> None:
    hooked(repository, "pre-commit")
    bad = write(repository / "rigs/b c.yaml", DANGEROUS)
    git(repository, "add", "-A")
    bad.write_text(SOUND, encoding="utf-8")
    status, said = tried(repository, "commit", "-m", "Mended on the disk alone")
    assert (status, "rigs/b c.yaml" in said) == (1, True), said
    git(repository, "add", "-A")
    assert tried(repository, "commit", "-m", "Mended")[0] == 0
    git(repository, "rm", "-q", "--cached", "shelf/one.yaml")
    status, said = tried(
        repository, "commit", "-m", "The gear list is gone from the commit, not from the disk"
    )
    assert (status, "rigs/a.yaml" in said) == (1, True), said


def test_two_branches_that_are_sound_apart_are_stopped_where_they_meet(repository: Path) -> None:
    hooked(repository, "pre-commit", "pre-merge-commit")
    git(repository, "checkout", "-q", "-b", "tidy")
    git(repository, "mv", "shelf/one.yaml", "shelf/club.yaml")
    refers(repository / "rigs/a.yaml", "../shelf/club.yaml")
    git(repository, "add", "-A")
    assert tried(repository, "commit", "-m", "The gear list has a better name")[0] == 0
    git(repository, "checkout", "-q", "main")
    refers(repository / "rigs/second.yaml", "../shelf/one.yaml")
    git(repository, "add", "-A")
    assert tried(repository, "commit", "-m", "A second line")[0] == 0
    status, said = tried(repository, "merge", "--no-edit", "tidy")
    assert (status, "rigs/second.yaml" in said) == (1, True), said


def test_a_push_is_judged_as_the_others_will_get_it(repository: Path, tmp_path: Path) -> None:
    elsewhere = tmp_path / "elsewhere.git"
    git(tmp_path, "init", "-q", "--bare", str(elsewhere))
    git(repository, "remote", "add", "origin", str(elsewhere))
    hooked(repository, "pre-push")
    assert tried(repository, "push", "-q", "origin", "main")[0] == 0
    write(repository / "rigs/b.yaml", DANGEROUS)
    commit(repository, "Two on a line for one")
    write(repository / "rigs/b.yaml", SOUND)
    status, said = tried(repository, "push", "-q", "origin", "main")
    assert (status, "rigs/b.yaml" in said) == (1, True), said
    git(repository, "push", "-q", "--no-verify", "origin", "HEAD~1:refs/heads/old")
    status, said = tried(repository, "push", "-q", "origin", "--delete", "old")
    assert status == 0, said  # of a branch that is taken away nothing is left to judge
