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
        (b"title: x\n---\nriglint: rig/1\n", 3, "in a second document"),
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


def test_a_link_stays_within_the_library_that_the_call_names(tmp_path: Path) -> None:
    """No mark says where the library begins, so `--root` does: the link leads out of the folder, not out of it."""
    target = write(tmp_path / "club/shared/a.yaml", "riglint: rig/1\n")
    (tmp_path / "club/rigs").mkdir()
    link = tmp_path / "club/rigs/a.yaml"
    link.symlink_to(target)
    within = find_documents([tmp_path / "club/rigs"], root=tmp_path / "club")
    assert (within.files, within.refused) == ([link], {})
    alone = find_documents([tmp_path / "club/rigs"])
    assert (alone.files, list(alone.refused)) == ([], [link])


def test_a_folder_that_holds_a_link_to_itself_is_looked_into_once(tmp_path: Path) -> None:
    file = write(tmp_path / "rigs/a.yaml", "riglint: rig/1\n")
    (tmp_path / "rigs/more").mkdir()
    (tmp_path / "rigs/more/again").symlink_to("../more")
    found = find_documents([tmp_path])
    assert (found.files, found.left_out, found.refused) == ([file], {}, {})


@pytest.mark.parametrize("name", ["low.yaml.txt", "low.txt", "low.TXT", "low.json", "low", "low.yalm"])
def test_a_rig_of_another_name_is_refused_with_the_right_one(tmp_path: Path, name: str) -> None:
    file = tmp_path / name
    for head in (
        "riglint: rig/1\n",
        "# ours\n---\nriglint: spot/1\n",
        '{"riglint": "shelf/1",\n "items": {}}',
    ):
        file.write_text(head, encoding="utf-8")
        found = find_documents([tmp_path])
        assert list(found.refused) == [file]
        assert found.refused[file].do == "Call it 'low.yaml'."


def test_what_only_looks_like_it_under_another_name_is_none_of_ours(tmp_path: Path) -> None:
    for name, head in (
        ("report.json", '{"riglint": "audit/1"}'),  # a report of ours
        ("page.md", "riglint: rig/1\n"),
        ("low.yaml.bak", "riglint: rig/1\n"),  # copies that other programs leave
        ("low.yaml.orig", "riglint: rig/1\n"),
        ("low.yaml~", "riglint: rig/1\n"),
        ("notes.txt", "On riglint: rig/1 is how a rig begins.\n"),
        ("data.txt", "\0\1\2"),
    ):
        (tmp_path / name).write_text(head, encoding="utf-8")
    write(tmp_path / "own.yaml", "riglint: rig/1\n")
    (tmp_path / "own.txt").symlink_to("own.yaml")
    found = find_documents([tmp_path])
    assert (found.files, found.left_out, found.refused) == ([tmp_path / "own.yaml"], {}, {})


def test_what_stands_below_2_mb_of_comments_is_not_passed_over(tmp_path: Path) -> None:
    ours, foreign = tmp_path / "ours.yaml", tmp_path / "theirs.yaml"
    ours.write_text("# nothing\n\n" * 200_000 + "riglint: rig/1\n", encoding="utf-8")
    foreign.write_text("# nothing\n- 1\n" * 200_000, encoding="utf-8")
    found = find_documents([tmp_path])
    assert (
        found.refused[ours].message == "The first 2 MB hold comments alone, so nothing that follows is read."
    )
    assert list(found.left_out) == [foreign]


def test_a_folder_gives_its_own_files_sorted(tmp_path: Path) -> None:
    last = write(tmp_path / "z.yaml")
    first = write(tmp_path / "a" / "b.yml")
    write(tmp_path / "a" / "foreign.yaml", "name: x\n")
    write(tmp_path / "a" / "notes.txt", "name: x\n")
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
