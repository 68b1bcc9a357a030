"""Two libraries in one repository, with files of the same names: no report may mix them up.

That a code host takes paths from the top of the repository is in the documentation of each: SARIF 2.1.0, 3.14.14
(`SRCROOT` "the root of the source tree"), GitLab's Code Quality report (`location.path`: "relative to the root of the
repository"), GitHub's workflow commands.
"""

import json
import re
import subprocess
from pathlib import Path
from shutil import copy
from urllib.parse import unquote

import pytest

from riglint.cli import main
from tests.package.checkout import CHECKOUT

DAY = ("--on", "2026-05-02")
NAME = "faulty/low-line.yaml"
BOTH = [f"clubs/north/{NAME}", f"clubs/south/{NAME}"]


def _libraries(top: Path) -> Path:
    for club in ("north", "south"):
        library = top / "clubs" / club
        for name in (NAME, "spots/orchard.yaml", "shelf/club.yaml"):
            (library / name).parent.mkdir(parents=True, exist_ok=True)
            copy(CHECKOUT / "examples" / name, library / name)
        (library / "rig-library").touch()
    return top


@pytest.fixture
def repository(tmp_path: Path) -> Path:
    subprocess.run(["git", "init", "-q", str(tmp_path)], check=True)
    return _libraries(tmp_path)


def _report(capsys: pytest.CaptureFixture[str], form: str, *paths: str) -> str:
    main(["audit", *paths, *DAY, "--format", form])
    return capsys.readouterr().out


@pytest.mark.parametrize("below", [".", "clubs", "clubs/north/faulty"])
def test_paths_start_at_the_repository_wherever_the_call_is_made(
    repository: Path, below: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(repository / below)
    data = json.loads(_report(capsys, "json", str(repository)))
    assert [one["path"] for one in data["files"] if one["kind"] == "rig"] == BOTH
    assert {
        one["at"]["path"].rpartition("/faulty/")[0] for file in data["files"] for one in file["findings"]
    } >= {
        "clubs/north",
        "clubs/south",
    }


@pytest.mark.parametrize("form", ["text", "markdown", "html", "junit", "github", "gitlab"])
def test_every_form_tells_the_two_apart(
    repository: Path, form: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(repository / "clubs/south")
    said = _report(capsys, form, str(repository))
    for path in BOTH:
        assert path in said
    assert re.search(rf"(?<!clubs/north/)(?<!clubs/south/){NAME}", said) is None


def test_sarif_and_the_code_quality_report_resolve_from_the_top(
    repository: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(repository / "clubs/north")
    (run,) = json.loads(_report(capsys, "sarif", str(repository)))["runs"]
    places = [
        place["physicalLocation"]["artifactLocation"] for one in run["results"] for place in one["locations"]
    ]
    assert {place["uriBaseId"] for place in places} == {"SRCROOT"}
    assert all((repository / unquote(place["uri"])).is_file() for place in places)
    prints = [json.dumps(one["partialFingerprints"]) for one in run["results"]]
    assert len(prints) == len(set(prints)) > 2
    entries = json.loads(_report(capsys, "gitlab", str(repository)))
    assert {one["location"]["path"] for one in entries} >= set(BOTH)
    assert all((repository / one["location"]["path"]).is_file() for one in entries)
    assert len({one["fingerprint"] for one in entries}) == len(entries)


def test_without_a_repository_paths_start_at_the_working_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(_libraries(tmp_path))
    data = json.loads(_report(capsys, "json", "clubs"))
    assert [one["path"] for one in data["files"] if one["kind"] == "rig"] == BOTH


def test_libraries_with_nothing_around_them_are_called_by_their_whole_path(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    _libraries(tmp_path)
    (tmp_path / "elsewhere").mkdir()
    monkeypatch.chdir(tmp_path / "elsewhere")
    data = json.loads(_report(capsys, "json", str(tmp_path / "clubs/north"), str(tmp_path / "clubs/south")))
    paths = [one["path"] for one in data["files"] if one["kind"] == "rig"]
    assert paths == [(tmp_path / path).as_posix() for path in BOTH]
    data = json.loads(_report(capsys, "json", str(tmp_path / "clubs/north")))
    assert [one["path"] for one in data["files"] if one["kind"] == "rig"] == [NAME]


def test_the_finding_of_a_shelf_touches_the_rigs_of_its_own_library(
    repository: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(repository)
    data = json.loads(_report(capsys, "json", "."))
    touched = [
        (file["path"], rig) for file in data["files"] for one in file["findings"] for rig in one["rigs"]
    ]
    assert touched
    assert all(path.split("/")[1] == rig.split("/")[1] for path, rig in touched)
