"""Broken files, each with the report that a rigger gets for it.

Each `*.yaml` here is broken in one way (a few in several). Beside it stands its report, `*.txt`: what the
text report prints for it at a width of 80, its last two lines and the exit status. `expected.yaml` states
for each file, apart from any report, on which line and at which key the fault stands, a piece of that line,
and what the message has to say. What counts as a fault follows from the file formats: YAML 1.2.2 (anchors,
aliases, tags, documents, escapes, tabs), the Unicode Standard (UTF-8, line separators), and riglint's own.

To accept new reports, run with UPDATE_GOLDEN=1 and read the difference before keeping it.
"""

import json
import os
import re
from datetime import date
from pathlib import Path
from typing import Any

import pytest
import yaml

from riglint import rulebook
from riglint.cli import main
from riglint.rulebook import Rulebook, load_rulebook
from riglint.testing import BASELINES

HERE = Path(__file__).parent
TABLE: dict[str, list[dict[str, Any]]] = yaml.safe_load((HERE / "expected.yaml").read_text(encoding="utf-8"))
NAMES = sorted(path.stem for path in HERE.glob("*.yaml") if path.stem != "expected")
SOUND = BASELINES / "low.yaml"
SHOWN = "tests/broken/"  # what a path in a report begins with: it starts at the repository
FORMS_OF_A_LINTER = re.compile(r"\.ya?ml:\d+")  # a place is told in words: "a.yaml line 3"
UPDATE = os.environ.get("UPDATE_GOLDEN") == "1"


@pytest.fixture(scope="module")
def book() -> Rulebook:
    return Rulebook({"tail/webbing": load_rulebook().rules["tail/webbing"]})


@pytest.fixture(autouse=True)
def one_rule(monkeypatch: pytest.MonkeyPatch, book: Rulebook) -> None:
    """Judge by one rule, so that the reports kept here change with the reader and with nothing else."""
    monkeypatch.setattr(rulebook, "load_rulebook", lambda: book)
    monkeypatch.setenv("COLUMNS", "80")


def audited(capsys: pytest.CaptureFixture[str], *paths: Path, form: str = "text") -> tuple[int, str]:
    """Run the command, see that it complains of nothing itself, and return its status and its report."""
    status = main(["audit", *map(str, paths), "--on", "2026-05-02", "--format", form])
    said = capsys.readouterr()
    assert said.err == ""
    assert "Traceback" not in said.out
    return status, said.out


def file_findings(report: str) -> list[dict[str, Any]]:
    findings = [one for file in json.loads(report)["files"] for one in file["findings"]]
    return [one for one in findings if one["rule"].startswith("file/")]


def kept_part(report: str, status: int) -> str:
    """Return what a report says of its files, without heading and caution, and its last two lines."""
    _, rest = report.split("\n\n", 1)
    body, foot = rest.rsplit("\n\n", 1)
    assert "A calculation is no inspection." in foot
    closing, files = foot.splitlines()[-2:]
    return f"{body}\n\n{closing}\n{files}\nexit status {status}\n"


def test_every_broken_file_is_in_the_table() -> None:
    assert sorted(TABLE) == NAMES
    assert sorted(path.stem for path in HERE.glob("*.txt")) == NAMES


@pytest.mark.parametrize("name", NAMES)
def test_the_table_points_at_the_fault(name: str) -> None:
    for fault in TABLE[name]:
        if "holds" not in fault:  # an empty file, an empty item, or no text at all
            continue
        file = HERE / fault.get("file", f"{name}.yaml")
        lines = re.split(r"\r\n|\n|\r", file.read_text(encoding="utf-8"))
        assert fault["holds"] in lines[fault["line"] - 1]


@pytest.mark.parametrize("name", NAMES)
def test_each_fault_is_told_with_its_place_and_nothing_else_is(
    name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    status, report = audited(capsys, HERE / f"{name}.yaml", form="json")
    assert status == 2
    findings = file_findings(report)
    own = f"{name}.yaml"
    wanted = sorted((SHOWN + fault.get("file", own), fault["line"], fault["key"]) for fault in TABLE[name])
    assert sorted((one["at"]["path"], one["at"]["line"], one["at"]["key"]) for one in findings) == wanted
    for fault in TABLE[name]:
        place = (SHOWN + fault.get("file", own), fault["line"], fault["key"])
        at = [one for one in findings if (one["at"]["path"], one["at"]["line"], one["at"]["key"]) == place]
        told = " ".join(f"{one['message']} {one['do']}" for one in at)
        assert [part for part in fault["says"] if part not in told] == [], told


@pytest.mark.parametrize("name", NAMES)
def test_every_finding_keeps_the_form(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    _, report = audited(capsys, HERE / f"{name}.yaml", form="json")
    for one in file_findings(report):
        assert (one["kind"], one["signal"]) == ("open", "WARNING")
        for sentence in (one["message"], one["do"], one["why"]):
            assert re.match(r"[A-Z'<(\d]", sentence), sentence
            assert sentence.endswith("."), sentence
            assert "\n" not in sentence
        assert len(one["message"]) < 220, one["message"]


@pytest.mark.parametrize("name", NAMES)
def test_the_report_is_the_one_kept(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    status, report = audited(capsys, HERE / f"{name}.yaml")
    assert report.replace("\n", "").isprintable()
    assert not FORMS_OF_A_LINTER.search(report)
    flat = " ".join(report.split())
    for fault in TABLE[name]:
        assert f"{SHOWN}{fault.get('file', f'{name}.yaml')} line {fault['line']}" in flat
    golden = HERE / f"{name}.txt"
    kept = kept_part(report, status)
    if UPDATE:
        golden.write_text(kept, encoding="utf-8", newline="\n")
    assert kept == golden.read_text(encoding="utf-8")


@pytest.mark.parametrize("name", NAMES)
def test_a_sound_rig_beside_it_is_still_judged(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    status, report = audited(capsys, HERE / f"{name}.yaml", SOUND, form="json")
    assert status == 2
    files = {Path(file["path"]).name: file for file in json.loads(report)["files"]}
    sound = files[SOUND.name]
    assert (sound["judged"], sound["not_judged"], sound["consequence"]) == (True, [], "ground")
    assert not files[f"{name}.yaml"]["judged"]


@pytest.mark.parametrize("name", ["reference_shelf_broken", "reference_spot_broken"])
def test_a_fault_in_a_shared_file_names_its_rig_and_the_rig_is_not_judged(
    name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    _, report = audited(capsys, HERE / f"{name}.yaml", form="json")
    assert {tuple(one["rigs"]) for one in file_findings(report)} == {(f"{SHOWN}{name}.yaml",)}
    rig = next(file for file in json.loads(report)["files"] if file["path"] == f"{SHOWN}{name}.yaml")
    assert rig["findings"] == []
    assert [one["rules"] for one in rig["not_judged"]] == [1]
    assert TABLE[name][0]["file"] in rig["not_judged"][0]["because"]


def test_what_the_broken_files_lean_on_is_sound(capsys: pytest.CaptureFixture[str]) -> None:
    sound = [HERE / "beside" / f"{name}.yaml" for name in ("meadow", "shelf", "second_shelf")]
    assert audited(capsys, *sound)[0] == 0


def test_the_whole_folder_in_one_run(capsys: pytest.CaptureFixture[str]) -> None:
    status, report = audited(capsys, HERE, form="json")
    assert status == 2
    data = json.loads(report)
    assert data["on"] == date(2026, 5, 2).isoformat()
    by_path = {file["path"].removeprefix(SHOWN): file for file in data["files"]}
    # In a folder a file counts where it looks like one of ours; these no longer show what they are.
    foreign = {"yaml_empty", "yaml_only_comments"}
    assert {path.removesuffix(".yaml") for path in by_path if "/" not in path} == set(NAMES) - foreign
