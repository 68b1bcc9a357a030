"""Feet, pounds and miles an hour beside the figures that rules judge.

Factors: NIST Special Publication 811 (2008), appendix B.8: 1 lbf = 4.448222 N, 1 lb = 0.45359237 kg, 1 ft = 0.3048 m,
1 in = 25.4 mm, 1 mi/h = 1.609344 km/h.
"""

from pathlib import Path

import pytest

from riglint.cli import main
from riglint.reports.layout.units_shown import in_units, showing

RIG = Path(__file__).parents[2] / "examples/faulty/highline-rope-backup.yaml"
DAY = ("--on", "2026-05-02")


@pytest.mark.parametrize(
    ("told", "both", "imperial"),
    [
        ("8.29 kN", "8.29 kN (1860 lbf)", "1860 lbf (8.29 kN)"),  # 8290 / 4.448222 = 1863.7
        ("150 N", "150 N (33.7 lbf)", "33.7 lbf (150 N)"),
        ("24.3 m", "24.3 m (79.7 ft)", "79.7 ft (24.3 m)"),  # 24.3 / 0.3048 = 79.72
        ("0.2 m", "0.2 m (7.87 in)", "7.87 in (0.2 m)"),
        ("50 mm", "50 mm (1.97 in)", "1.97 in (50 mm)"),
        ("84 kg", "84 kg (185 lb)", "185 lb (84 kg)"),  # 84 / 0.45359237 = 185.19
        ("30 km/h", "30 km/h (18.6 mph)", "18.6 mph (30 km/h)"),
        ("0.46 to 0.76 kN", "0.46 to 0.76 kN (103 to 171 lbf)", "103 to 171 lbf (0.46 to 0.76 kN)"),
        (
            "between 5 and 6 kN",
            "between 5 and 6 kN (1120 and 1350 lbf)",
            "between 1120 and 1350 lbf (5 and 6 kN)",
        ),
        (
            "standing 2, leash fall 8.29 kN",
            "standing 2, leash fall 8.29 kN (450, 1860 lbf)",
            "standing 450, leash fall 1860 lbf (2, 8.29 kN)",
        ),
        ("-1 m", "-1 m (-3.28 ft)", "-3.28 ft (-1 m)"),
    ],
)
def test_a_figure_stands_in_both(told: str, both: str, imperial: str) -> None:
    with showing("both"):
        assert in_units(told) == both
    with showing("imperial"):
        assert in_units(told) == imperial
    assert in_units(told) == told


@pytest.mark.parametrize(
    "told",
    [
        "at 'Gate, 40 m' and in `span: 40 m`",  # what a file says is not ours to change
        "0.5394 N/m, 9.81 m/s², 3 m², 20 kN·m",
        "line 66, chain[9].at, 2026-05-02, part 3 of 13, EN 12275",
        "12 months, 1.1 s, 98°, 5 %, 15:1, 40 ft",
    ],
)
def test_all_else_stays_as_it_is(told: str) -> None:
    with showing("both"):
        assert in_units(told) == told


@pytest.mark.parametrize("form", ["text", "markdown", "html"])
def test_a_report_shows_lbf_and_keeps_its_kilonewtons(capsys: pytest.CaptureFixture[str], form: str) -> None:
    call = ["audit", str(RIG), *DAY, "--format", form]
    assert main(call) == 1
    metric = capsys.readouterr().out
    assert main([*call, "--units", "imperial"]) == 1
    imperial = capsys.readouterr().out
    assert "4950 lbf" not in metric.replace("\u00a0", " ")
    assert "at least 4950 lbf (22 kN)" in " ".join(imperial.split())


def test_programs_get_the_same_in_any_units(capsys: pytest.CaptureFixture[str]) -> None:
    said = []
    for units in ("metric", "both"):
        assert main(["audit", str(RIG), *DAY, "--format", "json", "--units", units]) == 1
        said.append(capsys.readouterr().out)
    assert said[0] == said[1]


@pytest.mark.parametrize("call", [["card"], ["sheet"]])
def test_card_and_sheet_show_feet(capsys: pytest.CaptureFixture[str], call: list[str]) -> None:
    main([*call, str(RIG), *DAY, "--units", "both"])
    assert " ft)" in capsys.readouterr().out


def test_a_gauge_shows_lbf(capsys: pytest.CaptureFixture[str]) -> None:
    rig = RIG.parents[1] / "rigs/long-line.yaml"
    assert main(["gauge", str(rig), "--sag", "2.4 m", "--under", "78 kg", "--units", "both"]) == 0
    assert "5.96 kN (1340 lbf)" in capsys.readouterr().out
