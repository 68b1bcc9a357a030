"""A record that is torn, altered or somebody else's is none; where nothing can be kept, only time is lost."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from riglint.remembered import store
from riglint.remembered.records import Answer, packed, unpacked
from tests.cli.calling import environment
from tests.remembered.asking import Memory
from tests.remembered.conftest import RIG

KEY, LOOKS = b"k" * 64, {(b"content", b"/a\n b"): b"what", (b"there", b"/c"): b"refused 2"}


def test_an_answer_comes_back_as_it_was() -> None:
    answer = Answer(1, [(1, b"a\0b\n"), (2, b""), (1, b"\xff")], LOOKS)
    back = unpacked(KEY, packed(KEY, answer))
    assert back is not None
    assert (back.status, back.chunks, back.looks) == (answer.status, answer.chunks, answer.looks)


def test_every_torn_or_altered_record_is_none() -> None:
    raw = packed(KEY, Answer(0, [(1, b"No problems found.\n")], LOOKS))
    assert unpacked(b"l" * 64, raw) is None  # of another call
    assert unpacked(KEY, raw + b"\n") is None
    for n in range(len(raw)):
        assert unpacked(KEY, raw[:n]) is None
        assert unpacked(KEY, raw[:n] + bytes([raw[n] ^ 1]) + raw[n + 1 :]) is None


@pytest.mark.parametrize("status", [2, 3, 130])
def test_what_did_not_come_to_its_end_is_never_given(status: int) -> None:
    assert unpacked(KEY, packed(KEY, Answer(status, [], LOOKS))) is None


def test_an_answer_that_rests_on_nothing_is_never_given() -> None:
    assert unpacked(KEY, packed(KEY, Answer(0, [], {}))) is None


def test_a_torn_and_an_altered_record(memory: Memory) -> None:
    before = memory.fill()
    (record,) = memory.records()
    raw = record.read_bytes()
    record.write_bytes(raw[:-10])
    assert memory.ask() == before
    assert not memory.remembered
    assert record.read_bytes() == raw  # and is whole again
    altered = raw.replace(b"WARNING", b"CAUTION").replace(b"DANGER", b"NOTICE")
    if altered == raw:
        altered = raw.replace(b"riglint", b"riglinT")
    record.write_bytes(altered)
    assert memory.ask() == before
    assert not memory.remembered


def test_a_record_under_the_name_of_another_call(memory: Memory) -> None:
    memory.fill()
    (mine,) = memory.records()
    memory.call += ["--set", "plan.standing_tension=9 kN"]
    before = memory.fill()
    (other,) = set(memory.records()) - {mine}
    other.write_bytes(mine.read_bytes())
    memory.is_not_deceived(before, changes=False)


def test_errors_are_not_kept(memory: Memory, club: Path) -> None:
    (club / RIG).write_text("riglint: rig/1\nnonsense: [", "utf-8")
    assert memory.ask()[0] == 2
    assert not memory.ask_again()
    memory.call.append("--no-such-option")
    memory.ask()
    assert not memory.ask_again()
    assert not (memory.cache / "riglint").exists() or memory.records() == []


@pytest.mark.parametrize("turned_off", [{"RIGLINT_AFRESH": "1"}, {}])
def test_it_is_turned_off_by_a_variable_or_an_option(memory: Memory, turned_off: dict[str, str]) -> None:
    before = memory.fill()
    if not turned_off:
        memory.call.append("--afresh")
    assert memory.ask(**turned_off) == before
    assert not memory.remembered


def test_a_folder_that_is_a_file(memory: Memory) -> None:
    memory.cache.mkdir()
    (memory.cache / "riglint").write_text("mine", "utf-8")
    memory.is_not_deceived(memory.ask(), changes=False)
    assert (memory.cache / "riglint").read_text("utf-8") == "mine"


def test_no_home_at_all(memory: Memory) -> None:
    before = memory.ask(XDG_CACHE_HOME="", HOME="")
    memory.is_not_deceived(before, changes=False, XDG_CACHE_HOME="", HOME="")
    memory.is_not_deceived(before, changes=False, XDG_CACHE_HOME="not/whole", HOME="")


@pytest.mark.skipif(os.geteuid() != 0, reason="only root may give a file away")
def test_a_folder_or_a_record_of_another_user(memory: Memory) -> None:
    before = memory.fill()
    (record,) = memory.records()
    os.chown(record, 65534, 65534)
    assert memory.ask() == before
    assert not memory.remembered
    os.chown(memory.cache / "riglint", 65534, 65534)
    assert memory.ask() == before
    assert not memory.remembered


def test_a_folder_that_others_may_write_to(memory: Memory) -> None:
    before = memory.fill()
    (memory.cache / "riglint").chmod(0o777)
    assert memory.ask() == before
    assert not memory.remembered


def test_a_record_that_is_a_link(memory: Memory, tmp_path: Path) -> None:
    before = memory.fill()
    (record,) = memory.records()
    record.rename(tmp_path / "moved")
    record.symlink_to(tmp_path / "moved")
    assert memory.ask() == before
    assert not memory.remembered


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="a full disk is that of Linux")
@pytest.mark.parametrize("stream", ["/dev/full", "closed"])
def test_a_remembered_answer_that_cannot_be_printed(memory: Memory, stream: str) -> None:
    memory.fill()
    call = [sys.executable, "-m", "riglint", *memory.call]
    into = ">/dev/full" if stream == "/dev/full" else ">&-"
    kept = environment(XDG_CACHE_HOME=str(memory.cache), RIGLINT_AFRESH="")
    done = [
        subprocess.run(
            ["sh", "-c", f'"$@" {into}', "sh", *call],
            cwd=memory.where,
            env=kept | more,
            capture_output=True,
            check=False,
        )
        for more in ({}, {"RIGLINT_AFRESH": "1"})
    ]
    assert [one.returncode for one in done] == [3, 3]
    assert done[0].stderr == done[1].stderr


# The folder itself


@pytest.fixture
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    monkeypatch.setattr(store, "OFTEN", 1)
    return tmp_path / "riglint"


def test_what_is_kept_is_found_and_only_ours(place: Path) -> None:
    assert store.fetch(b"a") is None
    assert store.keep(b"a", b"text")
    assert store.fetch(b"a") == b"text"
    assert place.stat().st_mode & 0o777 == 0o700
    assert (place / "a").stat().st_mode & 0o777 == 0o600


def test_a_full_disk_leaves_nothing_half_written(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert store.keep(b"a", b"old")

    def full(*_: object) -> int:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "write", full)
    assert not store.keep(b"a", b"new")
    monkeypatch.undo()
    monkeypatch.setenv("XDG_CACHE_HOME", str(place.parent))
    assert store.fetch(b"a") == b"old"
    assert [file.name for file in place.iterdir()] == ["a"]


def test_a_folder_that_takes_nothing(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(*_: object) -> int:
        raise OSError(30, "Read-only file system")

    assert store.keep(b"a", b"old")
    monkeypatch.setattr(os, "replace", refused)
    assert not store.keep(b"b", b"new")
    assert store.fetch(b"a") == b"old"
    assert [file.name for file in place.iterdir()] == ["a"]


def test_the_oldest_goes_first(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(store, "MOST_BYTES", 30)
    for n in range(3):
        assert store.keep(b"%d" % n, b"x" * 10)
        os.utime(place / str(n), (1_000 + n, 1_000 + n))
    store.used(b"0")
    assert store.keep(b"3", b"x" * 10)
    assert sorted(file.name for file in place.iterdir()) == ["0", "2", "3"]
    monkeypatch.setattr(store, "MOST_FILES", 2)
    assert store.keep(b"4", b"")
    assert len(list(place.iterdir())) == 2


def test_what_a_process_left_half_written_goes_after_a_while(place: Path) -> None:
    assert store.keep(b"a", b"text")
    left = place / f"b.1{store.BEGUN.decode()}"
    left.write_bytes(b"half")
    assert store.keep(b"c", b"text")
    assert left.exists()
    os.utime(left, (1_000, 1_000))
    assert store.keep(b"d", b"text")
    assert not left.exists()


def test_too_much_is_not_kept(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(store, "MOST_OF_ONE", 3)
    assert not store.keep(b"a", b"text")
    assert not place.exists()
