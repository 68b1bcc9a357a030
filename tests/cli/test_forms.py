"""Every form of the audit as a caller gets it: the right thing in the right file, and the same exit status."""

import json
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from riglint.cli import main
from tests.cli.calling import BROKEN, DAY, SHORT_TAIL, run, write

ACCEPTED = SHORT_TAIL.replace(
    "accepted: []",
    "accepted: [{rule: tail/webbing, reason: lowered tonight, role: gear keeper, until: 2026-06-01}]",
)


@pytest.mark.usefixtures("by_one_rule")
def test_one_run_gives_every_form_and_the_status_does_not_depend_on_it(
    library: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    write(library / "low.yaml", SHORT_TAIL)
    monkeypatch.chdir(library)
    forms = [f"--write={form}=report.{form}" for form in ("json", "sarif", "junit", "markdown")]
    assert main(["audit", ".", *DAY, "--stop-at", "CAUTION", *forms]) == 1
    assert "Only 0.1 m of webbing is left behind" in " ".join(capsys.readouterr().out.split())
    (run_,) = json.loads(Path("report.sarif").read_text("utf-8"))["runs"]
    assert run_["invocations"][0]["exitCode"] == 1
    assert [one["ruleId"] for one in run_["results"] if one["kind"] == "fail"] == ["tail/webbing"]
    assert ET.parse("report.junit").getroot().get("failures") == "1"  # noqa: S314 - our own report
    assert "Only 0.1 m of webbing is left behind" in Path("report.markdown").read_text("utf-8")


@pytest.mark.usefixtures("by_one_rule")
@pytest.mark.parametrize("form", ["text", "json", "sarif", "junit", "markdown"])
def test_accepted_findings_are_left_out_of_every_form(
    library: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], form: str
) -> None:
    write(library / "low.yaml", ACCEPTED)
    monkeypatch.chdir(library)
    call = ["audit", ".", *DAY, "--stop-at", "CAUTION", "--format", form]
    assert main(call) == 0
    assert "lowered tonight" in " ".join(capsys.readouterr().out.split())
    assert main([*call, "--leave-out", "accepted"]) == 0
    shorter = " ".join(capsys.readouterr().out.split())
    assert "lowered tonight" not in shorter
    assert "Only 0.1 m of webbing" not in shorter


@pytest.mark.usefixtures("by_one_rule")
def test_what_is_left_out_is_counted(
    library: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    write(library / "low.yaml", ACCEPTED)
    monkeypatch.chdir(library)
    main(["audit", ".", *DAY, "--leave-out", "accepted"])
    assert "1 accepted finding left out here." in capsys.readouterr().out
    main(["audit", ".", *DAY, "--leave-out", "accepted", "--format", "json"])
    assert json.loads(capsys.readouterr().out)["accepted_left_out"] == 1


@pytest.mark.parametrize("form", ["sarif", "junit", "markdown"])
def test_an_unread_file_gives_2_and_is_told_in_every_form(library: Path, form: str) -> None:
    write(library / "broken.yaml", BROKEN)
    status, out, err = run(library, "audit", ".", *DAY, "--format", form)
    assert (status, err) == (2, "")
    assert "hich" in out
