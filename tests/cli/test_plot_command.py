"""`riglint plot`: each row is what the audit and the sheet say of the rig with that value."""

import json
import re
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from riglint.cli import main
from riglint.cli.call.options import SIGNALS
from tests.cli.calling import CHECKOUT, DAY

LONG = CHECKOUT / "examples/rigs/long-line.yaml"
OVER = ("--over", "plan.standing_tension")


def plotted(capsys: pytest.CaptureFixture[str], *more: str) -> dict[str, Any]:
    assert main(["plot", str(LONG), *OVER, *DAY, "--format", "json", *more]) == 0
    found: dict[str, Any] = json.loads(capsys.readouterr().out)
    return found


def said(capsys: pytest.CaptureFixture[str], command: str, value: str) -> dict[str, Any]:
    main([command, str(LONG), *DAY, "--set", f"plan.standing_tension={value}", "--format", "json"])
    found: dict[str, Any] = json.loads(capsys.readouterr().out)
    return found


def test_each_point_is_what_audit_and_sheet_say_of_it(capsys: pytest.CaptureFixture[str]) -> None:
    for point in plotted(capsys, "--from", "4 kN", "--to", "12 kN", "--points", "4")["points"]:
        audit = said(capsys, "audit", point["value"])
        words = [
            one["signal"]
            for file in audit["files"]
            for one in file["findings"]
            if one["kind"] != "review" and one["signal"] != "NOTICE"
        ]
        assert point["signal"] == max(words, key=SIGNALS.index, default=None)
        sheet = said(capsys, "sheet", point["value"])
        walker = next(one for one in sheet["states"] if one["name"] == "walker")
        assert point["clearance_m"] == pytest.approx(walker["least_clearance_m"], rel=1e-4)
        assert point["sag_m"] == pytest.approx(walker["sag_m"], rel=1e-4)
        assert point["hand_force_kN"] == pytest.approx(sheet["haul"]["hand_force_kN"], rel=1e-4)
        shares = [
            one["ratio"] / one["required"] for one in sheet["parts"] if one["ratio"] and one["required"]
        ]
        assert point["strength_to_asked"] == pytest.approx(min(shares), rel=1e-3)


def test_more_tension_means_less_sag_and_more_pull(capsys: pytest.CaptureFixture[str]) -> None:
    points = plotted(capsys)["points"]
    assert len(points) == 13
    for less, more in pairwise(points):
        assert more["sag_m"] < less["sag_m"]
        assert more["clearance_m"] > less["clearance_m"]
        assert more["hand_force_kN"] > less["hand_force_kN"]
    assert (points[0]["value"], points[-1]["value"]) == ("3 kN", "9 kN")


def test_the_file_is_not_touched_and_its_own_value_is_marked(capsys: pytest.CaptureFixture[str]) -> None:
    before = LONG.read_bytes()
    assert main(["plot", str(LONG), *OVER, *DAY]) == 0
    out = capsys.readouterr().out
    assert LONG.read_bytes() == before
    assert re.search(r"^ +6\*  –", out, re.MULTILINE)
    assert "A calculation is no inspection" in " ".join(out.split())
    assert max(map(len, out.splitlines())) <= 80


def test_the_page_draws_each_figure_with_its_bands_and_runs_nothing(tmp_path: Path) -> None:
    page = tmp_path / "plot.html"
    assert main(["plot", str(LONG), *OVER, *DAY, "--format", "html", "--output", str(page)]) == 0
    text = page.read_text(encoding="utf-8")
    assert text.count("<svg") == 5
    assert "<script" not in text
    assert ">WARNING</text>" in text
    assert ">CAUTION</text>" in text
    assert "A calculation is no inspection" in text


@pytest.mark.parametrize(
    ("more", "says"),
    [
        (("--over", "plan.lowering"), "gives no number for plan.lowering"),
        ((*OVER, "--from", "some"), "'some' is no number"),
        ((*OVER, "--from", "3 kN", "--to", "500 kg"), "are two units"),
        ((*OVER, "--from", "9 kN", "--to", "3 kN"), "isn't below"),
        (("--over", "plan..x", "--from", "1", "--to", "2"), "names no key"),
        ((*OVER, "--from", "3 kg", "--to", "5 kg"), "kg"),
    ],
)
def test_what_cannot_be_plotted_is_said(
    capsys: pytest.CaptureFixture[str], more: tuple[str, ...], says: str
) -> None:
    assert main(["plot", str(LONG), *DAY, *more]) == 2
    assert says in " ".join(capsys.readouterr().err.split())


@pytest.mark.parametrize("form", ["text", "json", "html"])
def test_a_policy_that_loosens_is_told_with_what_it_lets_pass(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, form: str
) -> None:
    policy = tmp_path / "club.yaml"
    off = "off: [{rule: ground/clearance, because: the meadow was mown}]\n"
    policy.write_text(f"riglint: policy/1\ntitle: Meadow club\n{off}", encoding="utf-8")
    main(["plot", str(LONG), *OVER, *DAY, "--points", "2", "--policy", str(policy), "--format", form])
    said = " ".join(capsys.readouterr().out.split())
    assert "Meadow club" in said
    assert "ground/clearance" in said if form == "json" else "loosens" in said
