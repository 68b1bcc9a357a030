"""Which files are taken, which left out, and what lies inside the library."""

import os
from pathlib import Path

import pytest

from riglint.read.library import find_documents, inside, library_root, read_bytes
from riglint.read.looks import is_ours
from riglint.read.spelling import nearest


def write(path: Path, text: str = "riglint: rig/1\n") -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
    return path


@pytest.mark.parametrize(
    "head",
    [
        b"riglint: rig/1\n",
        b"\xef\xbb\xbfriglint: rig/1\n",
        b"# comment\r\n\r\n---\r\nriglint: rig/1\r\n",
        b"# comment\r\rriglint: rig/1\r",
        b"--- # x\n'riglint': rig/1\n",
        b'"$schema": x.json\nriglint: rig/1\n',
        b"$schema: https://a.b/c.json\nriglint: rig/1\n",
        b"{riglint: rig/1, title: x}\n",
        b"riglint:\n",
        "riglint: rig/1\n".encode("utf-16"),
    ],
)
def test_ours(head: bytes) -> None:
    assert is_ours(head) == "yes"


@pytest.mark.parametrize(
    "head",
    [
        b"",
        b"name: x\nsteps:\n  chain: y\n",
        b"name: x\nsteps:\n  riglint: y\n",
        b"# riglint: rig/1\nname: x\n",
        b"rigging: x\n",
        b"lint: x\n",
        b"title: |\n  riglint: rig/1\n",
        b"\x00\xff\xfe\x80",
    ],
)
def test_not_ours(head: bytes) -> None:
    assert is_ours(head) == "no"


@pytest.mark.parametrize(
    ("head", "line", "part"),
    [
        (b"riglnt: rig/1\n", 1, "The first key is 'riglnt'"),
        (b"# x\nRiglint: rig/1\n", 2, "'Riglint'"),
        (b"rig-lint: rig/1\n", 1, "'rig-lint'"),
        (b"title: x\nriglint: rig/1\n", 2, "below other keys"),
        (b"title: x\nchain:\n  - {part: anchor}\n", 2, "does not begin with the key riglint"),
    ],
)
def test_near_miss(tmp_path: Path, head: bytes, line: int, part: str) -> None:
    assert is_ours(head) == "near miss"
    file = write(tmp_path / "a.yaml", head.decode())
    found = find_documents([tmp_path])
    problem = found.refused[file]
    assert (problem.rule, problem.place.line) == ("file/kind", line)
    assert part in problem.message
    assert found.files == []


def test_a_folder_gives_its_own_files_sorted(tmp_path: Path) -> None:
    last = write(tmp_path / "z.yaml")
    first = write(tmp_path / "a" / "b.yml")
    write(tmp_path / "a" / "foreign.yaml", "name: x\n")
    write(tmp_path / "a" / "notes.txt")
    write(tmp_path / ".hidden" / "c.yaml")
    found = find_documents([tmp_path])
    foreign = tmp_path / "a" / "foreign.yaml"
    assert (found.files, found.refused) == ([first, last], {})
    assert found.left_out == {foreign: "it does not begin with the key riglint"}


def test_a_hidden_folder_named_directly_is_taken(tmp_path: Path) -> None:
    file = write(tmp_path / ".hidden" / "c.yaml")
    assert find_documents([tmp_path / ".hidden"]).files == [file]


def test_files_named_directly_are_taken_as_they_are(tmp_path: Path) -> None:
    foreign = write(tmp_path / "x.txt", "name: x\n")
    absent = tmp_path / "absent.yaml"
    assert find_documents([foreign, absent]).files == [foreign, absent]


def test_files_named_directly_can_be_sifted(tmp_path: Path) -> None:
    foreign, ours = write(tmp_path / "x.yaml", "name: x\n"), write(tmp_path / "y.yaml")
    found = find_documents([foreign, ours], sift_named=True)
    assert (found.files, list(found.left_out)) == ([ours], [foreign])


def test_no_file_is_taken_twice(tmp_path: Path) -> None:
    file = write(tmp_path / "a.yaml")
    (tmp_path / "b.yaml").symlink_to(file)
    assert find_documents([file, tmp_path, tmp_path]).files == [file]


def test_what_cannot_be_looked_into_is_taken_and_a_pipe_is_not(tmp_path: Path) -> None:
    broken = tmp_path / "broken.yaml"
    broken.symlink_to(tmp_path / "nowhere.yaml")
    os.mkfifo(tmp_path / "pipe.yaml")
    found = find_documents([tmp_path])
    assert found.files == [broken]
    assert found.left_out == {tmp_path / "pipe.yaml": "it is a pipe or a device"}


def test_read_bytes(tmp_path: Path) -> None:
    assert read_bytes(write(tmp_path / "a.yaml", "a: 1\n")) == (b"a: 1\n", [])
    big = tmp_path / "big.yaml"
    big.write_bytes(b"x" * 5_000_000)
    raw, _ = read_bytes(big)
    assert raw is not None
    assert len(raw) == 2_000_001
    for path, part in (
        (tmp_path, "folder"),
        (tmp_path / "no.yaml", "no such file"),
        (Path("a\0b"), "cannot be read"),
    ):
        raw, (problem,) = read_bytes(path)
        assert raw is None
        assert problem.rule == "file/readable"
        assert part in problem.message


@pytest.mark.parametrize("mark", [".git", "rig-library"])
def test_the_library_begins_at_the_nearest_mark(tmp_path: Path, mark: str) -> None:
    write(tmp_path / "rig-library", "")
    write(tmp_path / "club" / mark, "")
    file = write(tmp_path / "club" / "rigs" / "a.yaml")
    assert library_root(file, None) == tmp_path / "club"
    assert library_root(file, tmp_path) == tmp_path / "club"


def test_without_a_mark_the_named_folder_or_the_own_one(tmp_path: Path) -> None:
    file = write(tmp_path / "club" / "rigs" / "a.yaml")
    assert library_root(file, tmp_path / "club") == tmp_path / "club"
    assert library_root(file, tmp_path / "elsewhere") == file.parent
    assert library_root(file, None) == file.parent


def test_links_are_resolved_before_looking_upward(tmp_path: Path) -> None:
    write(tmp_path / "real" / "rig-library", "")
    file = write(tmp_path / "real" / "a.yaml")
    write(tmp_path / "other" / "rig-library", "")
    link = tmp_path / "other" / "b.yaml"
    link.symlink_to(file)
    assert library_root(link, None) == tmp_path / "real"


def test_inside(tmp_path: Path) -> None:
    root = tmp_path / "club"
    file = write(root / "a.yaml")
    outside = write(tmp_path / "secret.yaml")
    (root / "link.yaml").symlink_to(outside)
    (root / "circle.yaml").symlink_to(root / "circle.yaml")
    assert inside(root, file)
    assert inside(root, root / "rigs" / ".." / "a.yaml")
    assert not inside(root, root / ".." / "secret.yaml")
    assert not inside(root, root / "link.yaml")
    assert not inside(root, tmp_path / "club-2" / "a.yaml")
    assert not inside(root, root / "a\0b")
    assert inside(root, root / ("x" * 5000))  # reading it says what is wrong with it


def test_nearest_word() -> None:
    known = ["webbing", "webbing_anchor", "sling", "shackle", "span", "soft_shackle"]
    assert nearest("webing", known) == "webbing"
    assert nearest("Soft-Shackle", known) == "soft_shackle"
    assert nearest("spna", known) == "span"
    assert nearest("zebra", known) is None
    assert nearest("x" * 100_000, known) is None
    assert nearest("webing", []) is None
    assert nearest("ab", ["ax", "xb"], likeness=0.5) == nearest("ab", ["xb", "ax"], likeness=0.5) == "ax"
