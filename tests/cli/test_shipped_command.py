"""`riglint examples` and `riglint schema`: what came with the installation, within reach."""

import json
from pathlib import Path

import pytest

from riglint.cli import main
from tests.cli.calling import CHECKOUT

KINDS = ("known", "library", "policy", "rig", "shelf", "spot")


def files(folder: Path) -> dict[str, bytes]:
    return {
        file.relative_to(folder).as_posix(): file.read_bytes()
        for file in folder.rglob("*")
        if file.is_file() and "__pycache__" not in file.parts
    }


def test_the_examples_are_copied_whole_and_audit_there(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = tmp_path / "try out"
    assert main(["examples", str(folder)]) == 0
    held = files(folder)
    assert held == files(CHECKOUT / "examples")
    assert f"Copied {len(held)} files to {folder.as_posix()}." in capsys.readouterr().out
    assert main(["audit", str(folder / "rigs/low-line.yaml"), "--on", "2026-05-02", "--brief"]) == 0


def test_a_folder_that_is_there_stays_as_it_is(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "mine.yaml").write_text("riglint: rig/1\n", encoding="utf-8")
    assert main(["examples", str(tmp_path)]) == 2
    assert "is there already and stays unchanged" in capsys.readouterr().err
    assert files(tmp_path) == {"mine.yaml": b"riglint: rig/1\n"}


def test_a_folder_that_cannot_be_made_is_told_of(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "file").touch()
    assert main(["examples", str(tmp_path / "file/below")]) == 3
    assert "The examples cannot be copied to" in capsys.readouterr().err


def test_each_schema_is_printed_as_it_came_and_all_are_listed(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["schema"]) == 0
    listed = dict(row.split(maxsplit=1) for row in capsys.readouterr().out.splitlines())
    assert set(listed) > {*KINDS, "audit", "sheet"}
    assert len(listed) == len(list((CHECKOUT / "schemas").rglob("*.schema.json")))
    for kind, file in listed.items():
        assert main(["schema", kind]) == 0
        printed = capsys.readouterr().out
        assert printed == Path(file).read_text(encoding="utf-8")
        assert json.loads(printed)["type"] == "object"


def test_a_schema_is_written_to_a_new_file_only(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "rig.json"
    assert main(["schema", "rig", "--output", str(file)]) == 0
    assert file.read_bytes() == (CHECKOUT / "schemas/rig-1.schema.json").read_bytes()
    assert main(["schema", "spot", "--output", str(file)]) == 2
    assert "stays unchanged" in capsys.readouterr().err


def test_a_kind_that_there_is_none_of_is_answered_with_the_nearest(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main(["schema", "rigg"]) == 2
    assert "Did you mean 'rig'?" in capsys.readouterr().err
