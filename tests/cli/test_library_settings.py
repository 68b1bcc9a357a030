"""The mark file of a library: what it sets holds in every command without an option, and every report says so first."""

import contextlib
import io
import json
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest

from riglint.cli import main
from tests.cli.calling import DAY, SHORT_TAIL, SOUND, run, write

POLICY = """riglint: policy/1
title: Meadow club
values:
  tail/webbing.least_tail: 2 m
  peak/discipline.jump_off_height: {value: 4 m, because: soft sand below}
"""
MARK = """riglint: library/1
title: Meadow club
policy: club/policy.yaml
"""


def said(*call: str | Path) -> tuple[int, str]:
    """Run a command in this process; return its status and all that it says."""
    with contextlib.redirect_stdout(io.StringIO()) as out, contextlib.redirect_stderr(io.StringIO()) as err:
        status = main([str(one) for one in call])
    return status, out.getvalue() + err.getvalue()


def judged(*call: str | Path) -> tuple[int, dict[str, Any]]:
    status, text = said("audit", *call, *DAY, "--format", "json")
    return status, json.loads(text)


def rules(report: dict[str, Any], path: str) -> set[str]:
    (file,) = [one for one in report["files"] if one["path"] == path]
    return {one["rule"] for one in file["findings"] if one["kind"] == "fail"}


@pytest.fixture
def club(library: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    write(library / "rig-library", MARK)
    write(library / "club/policy.yaml", POLICY)
    write(library / "rigs/a.yaml", SOUND)
    monkeypatch.chdir(library)
    return library


def test_an_audit_judges_by_the_policy_that_the_library_names(club: Path) -> None:
    _, report = judged("rigs")
    assert "tail/webbing" in rules(report, "rigs/a.yaml")
    assert report["policy"]["path"] == "club/policy.yaml"
    assert report["settings"][0]["sha256"] == sha256((club / "rig-library").read_bytes()).hexdigest()
    write(club / "rig-library", "")
    _, report = judged("rigs")
    assert "tail/webbing" not in rules(report, "rigs/a.yaml")
    assert report["settings"][0]["sets"] == []


FORMS = [
    *(("audit", form) for form in ("text", "json", "sarif", "junit", "markdown", "html", "github", "lines")),
    *(("sheet", form) for form in ("text", "json", "markdown", "html")),
    *(("card", form) for form in ("text", "json", "html")),
    *(("limits", form) for form in ("text", "json")),
    *(("choose", form) for form in ("text", "json")),
]


@pytest.mark.parametrize(("command", "form"), FORMS)
def test_every_report_says_what_the_library_sets_with_its_hash_and_each_loosening(
    club: Path, command: str, form: str
) -> None:
    _, text = said(command, "rigs/a.yaml", *DAY, "--format", form)
    flat = " ".join(text.split())
    assert sha256((club / "rig-library").read_bytes()).hexdigest()[:12] in flat
    assert "peak/discipline.jump_off_height from 3 m to 4 m" in flat.replace("\\", "")
    assert "soft sand below" in flat


def test_plot_gear_and_gauge_say_it_too(club: Path) -> None:
    short = sha256((club / "rig-library").read_bytes()).hexdigest()[:12]
    for call in (
        ("plot", "rigs/a.yaml", "--over", "plan.standing_tension", "--from", "2 kN", "--to", "4 kN"),
        ("gear", "."),
        ("gauge", "rigs/a.yaml", "--sag", "0.4 m", "--under", "75 kg"),
        ("compare", "rigs/a.yaml", "rigs/a.yaml"),
    ):
        _, text = said(*call, *DAY)
        assert short in text, call
        assert "soft sand below" in " ".join(text.split()), call


def test_the_call_wins_over_the_library_and_the_report_says_so(club: Path) -> None:
    write(club / "other.yaml", "riglint: policy/1\ntitle: Guests\n")
    _, report = judged("rigs", "--policy", "other.yaml")
    assert "tail/webbing" not in rules(report, "rigs/a.yaml")
    assert report["policy"]["title"] == "Guests"
    assert "counts instead of the library's" in report["settings"][0]["sets"][0]


def test_units_of_the_library_hold_until_a_call_names_others(club: Path) -> None:
    write(club / "rig-library", f"{MARK}units: imperial\n")
    _, set_so = said("sheet", "rigs/a.yaml", *DAY)
    _, asked = said("sheet", "rigs/a.yaml", *DAY, "--units", "metric")
    assert "lbf" in set_so
    assert "lbf" not in asked.partition("consequence")[2]


def test_settings_are_never_looked_for_above_the_library(club: Path) -> None:
    write(club / "guests/rig-library", "")
    write(club / "guests/b.yaml", SOUND)
    _, report = judged("guests")
    assert report["policy"]["path"] is None
    (mark,) = report["settings"]
    assert mark["path"] == "guests/rig-library"
    assert "library of its own" in mark["sets"][0]


def test_a_repository_without_a_mark_file_works_as_before(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "rigs/.git").mkdir(parents=True)
    write(tmp_path / "rigs/a.yaml", SOUND)
    monkeypatch.chdir(tmp_path)
    status, report = judged("rigs")
    assert (status, report["settings"], report["policy"]["path"]) == (0, [], None)


def test_a_mark_file_of_comments_sets_nothing(club: Path) -> None:
    write(club / "rig-library", "# This is the top of our library.\n")
    status, report = judged("rigs")
    assert (status, report["policy"]["path"]) == (0, None)


def test_two_libraries_of_one_call_are_each_judged_by_their_own_settings(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name, mark in (("north", "riglint: library/1\npolicy: policy.yaml\n"), ("south", "")):
        write(tmp_path / name / "rig-library", mark)
        write(tmp_path / name / "policy.yaml", POLICY)
        write(tmp_path / name / "rigs/a.yaml", SOUND)
    monkeypatch.chdir(tmp_path)
    for jobs in ((), ("--jobs", "2")):
        _, report = judged(".", *jobs)
        assert "tail/webbing" in rules(report, "north/rigs/a.yaml")
        assert "tail/webbing" not in rules(report, "south/rigs/a.yaml")
        assert [one["path"] for one in report["settings"]] == ["north/rig-library", "south/rig-library"]


def test_what_is_left_out_is_counted_with_its_reason(club: Path) -> None:
    write(club / "rig-library", f"{MARK}leave_out:\n  - {{path: drafts/, because: trainees draw there}}\n")
    write(club / "drafts/one.yaml", SHORT_TAIL)
    write(club / "rigs/old.yaml", SHORT_TAIL)
    _, report = judged(".")
    assert [one["path"] for one in report["seen"]["folders_left_out"]] == ["drafts/"]
    assert "trainees draw there" in report["seen"]["folders_left_out"][0]["because"]
    write(club / "rig-library", f"{MARK}leave_out:\n  - {{path: rigs/o*.yaml, because: kept to show}}\n")
    _, report = judged(".")
    assert [one["path"] for one in report["seen"]["left_out"]] == ["rigs/old.yaml"]
    assert "tail/webbing" in rules(report, "drafts/one.yaml")


def test_a_file_or_folder_that_the_call_names_is_judged_all_the_same(club: Path) -> None:
    write(club / "rig-library", f"{MARK}leave_out:\n  - {{path: drafts, because: trainees draw there}}\n")
    write(club / "drafts/one.yaml", SHORT_TAIL)
    for named in ("drafts/one.yaml", "drafts"):
        _, report = judged(named)
        assert "tail/webbing" in rules(report, "drafts/one.yaml")
        (mark,) = [one for one in report["files"] if one["path"] == "rig-library"]
        assert "is judged, since the call names it" in mark["findings"][0]["message"]


@pytest.mark.parametrize("file", ["rig-library", "club/policy.yaml", "known.yaml"])
def test_an_answer_from_memory_is_never_older_than_the_settings(
    club: Path, tmp_path: Path, file: str
) -> None:
    write(club / "rig-library", f"{MARK}known: known.yaml\n")
    write(club / "known.yaml", "riglint: known/1\nknown: []\n")
    place = {"XDG_CACHE_HOME": str(tmp_path / "remembered")}
    answers = [run(club, "audit", "rigs", *DAY, **place) for _ in range(2)]
    assert answers[0] == answers[1]
    (club / file).write_text((club / file).read_text("utf-8") + "# seen again\n", encoding="utf-8")
    assert run(club, "audit", "rigs", *DAY, **place)[1] != answers[0][1]
