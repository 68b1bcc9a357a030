"""One run puts its report into several files, each in its form, whole or not at all."""

import json
from pathlib import Path

import pytest

from tests.cli.calling import QUIET, SOUND, run, write


def test_one_run_writes_several_forms_and_still_prints(library: Path) -> None:
    write(library / "low.yaml", SOUND)
    status, out, err = run(library, "audit", ".", *QUIET, "--write", "json=a.json", "--write", "text=b.txt")
    assert (status, err) == (0, "")
    assert json.loads((library / "a.json").read_text("utf-8"))["riglint"] == "audit/1"
    assert (library / "b.txt").read_text("utf-8") == out


def test_two_reports_never_share_a_file(library: Path) -> None:
    write(library / "low.yaml", SOUND)
    write(library / "kept.json", "mine")
    call = ("audit", ".", *QUIET, "--write", "json=kept.json", "--output", "./kept.json")
    status, out, err = run(library, *call)
    assert (status, out, err) == (2, "", "Two reports would go into one file. Give each its own.\n")
    assert (library / "kept.json").read_text("utf-8") == "mine"


def test_a_form_that_a_command_does_not_have_is_named_with_those_that_it_has(library: Path) -> None:
    status, _, err = run(library, "rulebook", "--write", "html=book.html")
    assert status == 2
    assert "'html=book.html' is not a form and a file; write one of text, json, markdown" in err
    assert not (library / "book.html").exists()


def test_a_folder_that_is_not_there_gives_3_and_leaves_nothing_half_written(library: Path) -> None:
    status, _, err = run(library, "rulebook", "--write", "json=nowhere/book.json")
    assert (status, err) == (
        3,
        "The report cannot be written to nowhere/book.json: No such file or directory.\n",
    )
    assert [path.name for path in library.iterdir() if path.suffix == ".part"] == []


@pytest.mark.parametrize("name", ["/", "."])
def test_a_folder_is_no_file_to_write_to(library: Path, name: str) -> None:
    status, _, err = run(library, "rulebook", "--write", f"json={name}")
    assert (status, err) == (
        2,
        f"The report cannot be written to {name}: it is a folder; name a file in it.\n",
    )


def test_a_file_of_yours_beside_the_report_stays(library: Path) -> None:
    write(library / "book.json.part", "mine")
    assert run(library, "rulebook", "--write", "json=book.json")[0] == 0
    assert (library / "book.json.part").read_text("utf-8") == "mine"
    assert [path.name for path in library.iterdir() if path.name.startswith(".")] == []
