"""`riglint compare` in a repository whose settings and tree were made to harm: nothing of it runs, nothing gets out.

The settings are those by which git's own documentation (git-config, gitattributes, githooks) lets a repository name a
program. Each plants a file when it is run; that they do run, git itself shows first.
"""

import os
import subprocess
from pathlib import Path

import pytest

from riglint.read.repository.git_objects import GitError, entries, put, rows
from tests.cli.calling import DAY, SHORT_TAIL, SOUND, commit, git, run, write


@pytest.fixture
def repository(library: Path) -> Path:
    (library / "rig-library").unlink()
    git(library, "init", "-q", "-b", "main")
    write(library / "rigs/low.yaml", SOUND)
    commit(library, "Low line")
    git(library, "tag", "before")
    write(library / "rigs/low.yaml", SHORT_TAIL)
    commit(library, "Shorter tail")
    return library


@pytest.fixture
def planted(repository: Path) -> Path:
    """Return the folder in which whatever runs leaves its name."""
    ran = repository.parent / "ran"
    ran.mkdir()

    def program(name: str) -> str:
        file = write(repository.parent / "programs" / name, f'#!/bin/sh\ntouch "{ran}/{name}"\ncat\n')
        file.chmod(0o755)
        return str(file)

    settings = {
        "core.fsmonitor": "fsmonitor",
        "core.sshCommand": "ssh",
        "core.gitProxy": "proxy",
        "core.askPass": "askpass",
        "core.pager": "pager",
        "core.editor": "editor",
        "core.alternateRefsCommand": "refs",
        "credential.helper": "credential",
        "filter.plant.smudge": "smudge",
        "filter.plant.clean": "clean",
        "filter.plant.process": "process",
        "filter.plant.required": "required",
        "diff.external": "external",
        "diff.plant.textconv": "textconv",
        "gpg.program": "gpg",
        "uploadpack.packObjectsHook": "pack",
    }
    for setting, name in settings.items():
        git(repository, "config", setting, program(name))
    for hook in ("post-checkout", "post-index-change", "pre-auto-gc", "reference-transaction"):
        Path(program(hook)).rename(repository / ".git/hooks" / hook)
    git(repository, "config", "core.hooksPath", ".git/hooks")
    git(repository, "config", "remote.far.url", f"ext::{program('transport')} %S x")
    git(repository, "config", "remote.far.promisor", "true")
    git(repository, "config", "protocol.ext.allow", "always")
    git(repository, "config", "extensions.partialClone", "far")
    git(repository, "config", "core.repositoryFormatVersion", "1")
    write(repository / ".git/info/attributes", "*.yaml filter=plant diff=plant\n")
    for left in ran.iterdir():  # of what git itself ran while the traps were set
        left.unlink()
    return ran


def test_git_itself_would_run_what_is_planted(repository: Path, planted: Path) -> None:
    subprocess.run(["git", "-C", str(repository), "status"], capture_output=True, check=False)
    (repository / "rigs/low.yaml").unlink()
    subprocess.run(["git", "-C", str(repository), "checkout", "--", "rigs"], capture_output=True, check=False)
    assert {"fsmonitor", "process"} & {one.name for one in planted.iterdir()}


@pytest.mark.parametrize("call", [("before..HEAD",), ("HEAD", "staged"), ("before", ".")])
def test_nothing_that_a_repository_names_is_run(
    repository: Path, planted: Path, call: tuple[str, ...]
) -> None:
    status, out, err = run(repository, "compare", *call, *DAY, "--stop-at", "CAUTION")
    assert err == ""
    assert status == (0 if "staged" in call else 1)
    assert "1 rig changed" in out
    assert [one.name for one in planted.iterdir()] == []


def test_an_object_that_is_not_here_is_not_fetched(repository: Path, planted: Path) -> None:
    name = git(repository, "-c", "core.fsmonitor=", "rev-parse", "before:rigs/low.yaml")
    (repository / ".git/objects" / name[:2] / name[2:]).unlink()
    status, out, err = run(repository, "compare", "before..HEAD", *DAY)
    assert (status, out) == (2, "")
    assert "does not hold the content of 'rigs/low.yaml'" in err
    assert [one.name for one in planted.iterdir()] == []


# Trees that no honest git writes


def tree(repository: Path, *rows: tuple[str, str, str, bytes]) -> str:
    """Store a tree as it is written here, and return a commit of it."""
    raw = b""
    for mode, kind, name, content in rows:
        stored = (
            content.decode()
            if kind == "tree"
            else git(repository, "hash-object", "-w", "--stdin", given=content)
        )
        raw += f"{mode} ".encode() + os.fsencode(name) + b"\0" + bytes.fromhex(stored)
    made = git(repository, "hash-object", "-w", "-t", "tree", "--literally", "--stdin", given=raw)
    return git(repository, "commit-tree", "-m", "hostile", made)


def inner(repository: Path, name: str, content: bytes) -> bytes:
    stored = git(repository, "hash-object", "-w", "--stdin", given=content)
    raw = b"100644 " + os.fsencode(name) + b"\0" + bytes.fromhex(stored)
    return git(repository, "hash-object", "-w", "-t", "tree", "--literally", "--stdin", given=raw).encode()


@pytest.mark.parametrize("name", ["..", ".git", ".GIT", "."])
def test_a_tree_reaches_nothing_beside_its_folder(repository: Path, name: str, tmp_path: Path) -> None:
    hostile = tree(repository, ("40000", "tree", name, inner(repository, "low.yaml", SOUND.encode())))
    folder = tmp_path / "beside" / "out"
    folder.mkdir(parents=True)
    with pytest.raises(GitError):
        put(repository, entries(rows(repository, hostile), in_index=False), folder)
    assert not list(folder.parent.rglob("low.yaml"))
    status, out, err = run(repository, "compare", hostile, "HEAD", *DAY)
    assert (status, out) == (2, "")
    assert "Traceback" not in err


def test_nothing_is_written_through_a_link_of_the_tree(repository: Path, tmp_path: Path) -> None:
    outside = tmp_path / "outside"
    outside.mkdir()
    hostile = tree(
        repository,
        ("120000", "blob", "rigs", str(outside).encode()),
        ("40000", "tree", "rigs", inner(repository, "low.yaml", SOUND.encode())),
    )
    status, _, _ = run(repository, "compare", hostile, "HEAD", *DAY)
    assert status == 2
    assert list(outside.iterdir()) == []


def test_a_large_object_is_not_taken_whole(repository: Path, tmp_path: Path) -> None:
    write(repository / "big.yaml", "riglint: rig/1\n" + "# nothing\n" * 1_000_000)
    git(repository, "add", "-A")
    git(repository, "commit", "-q", "-m", "Big")
    folder = tmp_path / "out"
    folder.mkdir()
    put(repository, entries(rows(repository, "HEAD"), in_index=False), folder)
    assert (folder / "big.yaml").stat().st_size == 2_000_001
    assert (folder / "rigs/low.yaml").read_text("utf-8") == SHORT_TAIL
    assert run(repository, "compare", "HEAD", ".", *DAY)[0] == 2


def test_a_file_in_conflict_is_told(repository: Path) -> None:
    name = git(repository, "rev-parse", "HEAD:rigs/low.yaml")
    rows = "".join(f"100644 {name} {stage}\trigs/low.yaml\n" for stage in (1, 2, 3))
    git(repository, "update-index", "--index-info", given=f"0 {'0' * 40}\trigs/low.yaml\n{rows}".encode())
    status, out, err = run(repository, "compare", "HEAD", "staged", *DAY)
    assert (status, out, err) == (2, "", "'rigs/low.yaml' is in conflict; settle that first.\n")
