"""Which remedies an audit searches for: all for named rigs, the grave ones for folders, or as it is asked."""

import json
from pathlib import Path
from typing import Any

import pytest

from riglint.loads.what_if import solved_for
from tests.cli.calling import DAY, club_of, run, run_here

RIG = "rigs/15-surf.yaml"


@pytest.fixture
def club(tmp_path: Path) -> Path:
    """A club whose one rig has a CAUTION that a value of it would end, and one that nothing is searched for."""
    ordinary = Path(__file__).parents[2] / "examples/ordinary"
    files = [
        RIG,
        *(f"{at}/{one.name}" for at in ("spots", "shelf") for one in (ordinary / at).glob("*.yaml")),
    ]
    return club_of(tmp_path, *files)


def audited(
    capsys: pytest.CaptureFixture[str], *call: str | Path
) -> tuple[dict[str, list[Any]], dict[str, Any], int]:
    """The remedies of each rule of the rig, what the report says of the search, and the status."""
    status, report = run_here(capsys, *call)
    (rig,) = [one for one in report["files"] if one["path"].endswith(RIG)]
    found: dict[str, list[Any]] = {}
    for one in rig["findings"]:
        found.setdefault(one["rule"], []).extend(one["remedies"])
    return found, report["remedies"], status


def test_a_folder_is_searched_from_warning_up_and_says_so(
    club: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder, told, status = audited(capsys, club)
    whole, told_whole, same = audited(capsys, club / RIG)
    assert told["from"] == "WARNING"
    assert told["not_searched"]
    assert told_whole == {"from": "NOTICE", "not_searched": []}
    assert (folder.keys(), status) == (whole.keys(), same)  # what is found is the same
    assert not any(folder[rule] for rule in told["not_searched"])
    assert any(whole[rule] for rule in told["not_searched"])


def test_whoever_asks_gets_them_for_a_folder(club: Path, capsys: pytest.CaptureFixture[str]) -> None:
    whole, _, _ = audited(capsys, club / RIG)
    asked, told, _ = audited(capsys, club, "--remedies-from", "notice")
    assert (asked, told) == (whole, {"from": "NOTICE", "not_searched": []})


def test_a_grave_finding_of_a_folder_has_its_remedy(club: Path, capsys: pytest.CaptureFixture[str]) -> None:
    rig = club / RIG
    text = rig.read_text("utf-8")
    assert text.count("haulers: ") == 1
    line = next(one for one in text.splitlines() if "haulers: " in one)
    rig.write_text(text.replace(line, line.replace(line.split("haulers: ")[1][0], "9", 1)), "utf-8")
    folder, told, _ = audited(capsys, club)
    whole, _, _ = audited(capsys, rig)
    searched = {rule for rule, one in whole.items() if one} - set(told["not_searched"])
    assert searched
    assert all(folder[rule] == whole[rule] for rule in searched)


@pytest.mark.parametrize("form", ["text", "markdown", "html", "lines", "junit", "sarif"])
def test_each_form_says_what_was_not_searched(club: Path, form: str) -> None:
    _, out, _ = run(club, "audit", ".", *DAY, "--format", form)
    assert "No remedies were searched for below WARNING" in " ".join(out.split())
    assert "--remedies-from NOTICE" in " ".join(out.split())
    _, out, _ = run(club, "audit", ".", *DAY, "--format", form, "--remedies-from", "NOTICE")
    assert "remedies were searched" not in " ".join(out.split())


def test_a_search_has_an_end_and_says_that_nothing_was_shown(
    club: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    whole, _, _ = audited(capsys, club / RIG)
    assert any(whole.values())
    monkeypatch.setattr(solved_for, "MOST_RIGS", 0)
    ended, _, _ = audited(capsys, club / RIG)
    assert ended.keys() == whole.keys()
    assert not any(ended.values())
    _, report = run_here(capsys, club / RIG)
    advice = [one["do"] for file in report["files"] for one in file["findings"]]
    assert any("not shown to be enough: audit again" in one for one in advice)


def test_what_is_remembered_of_a_rig_in_a_folder_is_no_answer_for_the_rig_by_itself(club: Path) -> None:
    memory = {"XDG_CACHE_HOME": str(club / "memory")}
    for asked in (".", RIG, ".", RIG):
        _, out, _ = run(club, "audit", asked, *DAY, "--format", "json", **memory)
        report = json.loads(out)
        (rig,) = [one for one in report["files"] if one["path"].endswith(RIG)]
        assert any(one["remedies"] for one in rig["findings"]) == (asked == RIG)
        assert bool(report["remedies"]["not_searched"]) == (asked != RIG)
