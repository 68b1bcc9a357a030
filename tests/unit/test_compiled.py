"""Copies of compiled rule files: taken for the very same bytes, and never else."""

import builtins
import os
import sys
from pathlib import Path
from typing import Any

import pytest

from riglint.read import compiled as module
from riglint.read.compiled import compiled

SOURCE = b"answer = 7\n"


def answer(file: Path, source: bytes) -> object:
    names: dict[str, object] = {}
    exec(compiled(file, source), names)  # noqa: S102
    return names["answer"]


@pytest.fixture
def rule(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A file whose copy is kept."""
    monkeypatch.setattr(module, "dont_write_bytecode", False)
    monkeypatch.setattr(sys, "pycache_prefix", None)
    file = tmp_path / "rule.py"
    file.write_bytes(SOURCE)
    assert answer(file, SOURCE) == 7
    return file


@pytest.fixture
def compiles(monkeypatch: pytest.MonkeyPatch) -> list[object]:
    """What is compiled from here on."""
    seen: list[object] = []
    real = builtins.compile

    def counted(*given: Any, **more: Any) -> Any:
        seen.append(given[1])
        return real(*given, **more)

    monkeypatch.setattr(module, "compile", counted, raising=False)
    return seen


def copy_of(file: Path) -> Path:
    (copy,) = (file.parent / "__pycache__").iterdir()
    return copy


def test_the_same_bytes_are_compiled_once(rule: Path, compiles: list[object]) -> None:
    assert answer(rule, SOURCE) == 7
    assert not compiles


def test_other_bytes_of_the_same_length_and_time_are_compiled_again(
    rule: Path, compiles: list[object]
) -> None:
    before = rule.stat()
    other = SOURCE.replace(b"7", b"8")
    rule.write_bytes(other)
    os.utime(rule, ns=(before.st_atime_ns, before.st_mtime_ns))
    assert answer(rule, other) == 8
    assert compiles


@pytest.mark.parametrize("left", [0, 10, 20, -1])
def test_a_torn_copy_is_not_taken(rule: Path, compiles: list[object], left: int) -> None:
    copy = copy_of(rule)
    copy.write_bytes(copy.read_bytes()[:left])
    assert answer(rule, SOURCE) == 7
    assert compiles


def test_where_nothing_can_be_written_nothing_is_kept(tmp_path: Path) -> None:
    file = tmp_path / "not_there" / "rule.py"
    assert answer(file, SOURCE) == 7


def test_a_copy_in_a_moved_folder_names_the_new_place(rule: Path, tmp_path: Path) -> None:
    moved = rule.parent.rename(tmp_path.parent / f"{tmp_path.name}-moved") / "rule.py"
    assert compiled(moved, SOURCE).co_filename == str(moved)
