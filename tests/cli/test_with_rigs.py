"""`audit --with-rigs`: what a changed or deleted spot or shelf does to the rigs that refer to it, and to no other."""

import os
from pathlib import Path
from typing import Any

import pytest
import yaml

from riglint.findings.library.referring import with_referring_rigs
from tests.cli.calling import BROKEN, QUIET, SOUND, by_path, run, run_here, write

IF_ANY = ("--if-any", "--with-rigs")


def refers(file: Path, shelf: str | None, spot: str | None = None) -> Path:
    """Write a rig that refers to a shelf and a spot instead of holding its own."""
    data = yaml.safe_load(SOUND)
    data |= {"shelf": [shelf]} if shelf else {}
    data |= {"spot": spot} if spot else {}
    return write(file, yaml.safe_dump(data, sort_keys=False, width=1000, allow_unicode=True))


def put(file: Path, kind: str) -> Path:
    held: Any = yaml.safe_load(SOUND)["spot" if kind == "spot" else "shelf"]
    data = held if kind == "spot" else {"items": held[0]["items"]}
    return write(file, yaml.safe_dump({"riglint": f"{kind}/1"} | data, sort_keys=False, width=1000))


@pytest.fixture
def club(library: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    put(library / "shelf/one.yaml", "shelf")
    put(library / "shelf/two.yaml", "shelf")
    put(library / "spots/grove.yaml", "spot")
    refers(library / "rigs/a.yaml", "../shelf/one.yaml", "../spots/grove.yaml")
    refers(library / "rigs/b.yaml", "../shelf/two.yaml")
    write(library / "rigs/own.yaml", SOUND)
    monkeypatch.chdir(library)
    return library


def names(*paths: str) -> set[str]:
    return {path.as_posix() for path in with_referring_rigs([Path(path) for path in paths], None)}


def test_a_named_shelf_or_spot_brings_the_rigs_that_refer_to_it(club: Path) -> None:
    assert club.is_dir()
    assert names("shelf/one.yaml") == {"shelf/one.yaml", "rigs/a.yaml"}
    assert names("shelf/two.yaml") == {"shelf/two.yaml", "rigs/b.yaml"}
    assert names("spots/grove.yaml") == {"spots/grove.yaml", "rigs/a.yaml"}
    assert names("rigs/own.yaml") == {"rigs/own.yaml"}
    assert names("shelf/one.yaml", "rigs/a.yaml") == {"shelf/one.yaml", "rigs/a.yaml"}


def test_a_deleted_file_brings_the_rigs_that_still_refer_to_it_named_or_not(club: Path) -> None:
    (club / "shelf/two.yaml").unlink()
    assert names("shelf/two.yaml") == names() == {"rigs/b.yaml"}
    assert names("rigs/own.yaml") == {"rigs/own.yaml", "rigs/b.yaml"}


def test_a_broken_shelf_stops_the_rig_that_was_not_named(
    club: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    write(club / "shelf/one.yaml", "riglint: shelf/1\nitems: {W-1: {kind: webing}}\n")
    status, report = run_here(capsys, "shelf/one.yaml", *IF_ANY)
    assert status == 2
    assert set(by_path(report)) == {"shelf/one.yaml", "rigs/a.yaml"}
    assert by_path(report)["rigs/a.yaml"]["judged"] is False


def test_a_deleted_shelf_stops_the_call(club: Path) -> None:
    (club / "shelf/two.yaml").unlink()
    status, out, err = run(club, "audit", *IF_ANY, *QUIET)
    assert (status, err) == (2, "")
    assert "There is no file '../shelf/two.yaml'" in " ".join(out.split())
    assert "rigs/a.yaml" not in out


def test_nothing_touched_says_nothing(club: Path) -> None:
    assert run(club, "audit", *IF_ANY, *QUIET) == (0, "", "")
    write(club / "foreign.yaml", "name: x\n")
    assert run(club, "audit", *IF_ANY, "foreign.yaml", *QUIET) == (0, "", "")


@pytest.mark.parametrize("name", ["my shelf.yaml", "Gerät №2.yaml", "-x.yaml", "🧗.yml", "a'b\"c.yaml"])
def test_odd_file_names_are_followed(club: Path, name: str) -> None:
    put(club / "shelf" / name, "shelf")
    refers(club / "rigs" / f"for {name}", f"../shelf/{name}")
    assert names(f"shelf/{name}") == {f"shelf/{name}", f"rigs/for {name}"}


def test_what_resists_is_left_for_the_audit_to_tell(club: Path) -> None:
    write(club / "rigs/broken.yaml", BROKEN)
    write(club / "rigs/no.yaml", "riglint: rig/1\nspot: [\n")
    write(club / "rigs/odd.yaml", "riglint: rig/1\nspot: {a: b}\nshelf: 3\n")
    (club / "rigs/circle.yaml").symlink_to("circle.yaml")
    os.mkfifo(club / "rigs/pipe.yaml")
    assert names("shelf/one.yaml", "a\0b") >= {"shelf/one.yaml", "rigs/a.yaml"}
