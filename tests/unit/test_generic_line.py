"""A line without a file: its bands hold every webbing of the fibre, and the weightless line by hand."""

from math import hypot

import pytest

from riglint.cli import main
from riglint.loads.measure.generic_line import GenericBand, generic_line
from riglint.model.values.policy import Values

G = 9.80665  # m/s², standard acceleration of gravity
SPAN_M, TENSION_N, PERSON_KG = 20.0, 3000.0, 80.0


def by_hand(stiffness_n: float) -> tuple[float, float]:
    """Return tension and sag of a weightless line under a load in its middle.

    Statics of two straight halves, 2·T·sin α = m·g, and Hooke, L = L₀·(1 + T/EA): worked out here, by halving.
    """
    unstressed = SPAN_M / (1.0 + TENSION_N / stiffness_n)
    low, high, sag = 0.0, SPAN_M, 0.0
    for _ in range(200):
        sag = (low + high) / 2.0
        half = hypot(SPAN_M / 2.0, sag)
        held = stiffness_n * (2.0 * half / unstressed - 1.0) * 2.0 * sag / half
        low, high = (sag, high) if held < PERSON_KG * G else (low, sag)
    return stiffness_n * (2.0 * hypot(SPAN_M / 2.0, sag) / unstressed - 1.0), sag


@pytest.mark.parametrize("fibre", ["polyester", "polyamide", "uhmwpe"])
def test_the_ends_of_the_band_are_those_worked_out_by_hand(fibre: str) -> None:
    person = GenericBand(PERSON_KG, PERSON_KG)
    found = generic_line(SPAN_M, TENSION_N, person, fibre=fibre, width_m=0.025, values=Values())
    soft, stiff = by_hand(found.stiffness_n.least), by_hand(found.stiffness_n.most)
    # The weight of the webbing, at most half a kilogram a metre, is the difference.
    assert found.tension_n.least == pytest.approx(soft[0], rel=0.02)
    assert found.tension_n.most == pytest.approx(stiff[0], rel=0.06)
    assert found.sag_m.most == pytest.approx(soft[1], rel=0.06)
    assert found.sag_m.least == pytest.approx(stiff[1], rel=0.02)


def test_more_doubt_makes_a_wider_band() -> None:
    bands = [
        generic_line(SPAN_M, TENSION_N, person, fibre="polyester", width_m=0.025, values=Values())
        for person in (GenericBand(80.0, 80.0), GenericBand(75.0, 85.0))
    ]
    sure, unsure = (one.tension_n for one in bands)
    assert unsure.least < sure.least
    assert unsure.most > sure.most


LINE = (
    "--tension",
    "3 kN",
    "--span",
    "20 m",
    "--under",
    "80 kg",
    "--webbing",
    "polyester",
    "--width",
    "25 mm",
)


def test_the_command_tells_the_band_and_no_strength(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["gauge", *LINE]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "Tension under 80 kg at rest in the middle of 20 m of 25 mm polyester webbing" in said
    assert "between" in said
    assert "nothing here says that it holds" in said
    assert "A calculation is no inspection" in said


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (LINE[:4], "also needs --under and --webbing and --width"),
        ((*LINE, "--time", "3 s"), "Give one reading"),
        (("--time", "3 s", "--width", "25 mm"), "--width belongs to a line"),
        (("examples/rigs/low-line.yaml", *LINE), "own tension and span"),
    ],
)
def test_what_is_missing_or_too_much_is_said(
    capsys: pytest.CaptureFixture[str], call: tuple[str, ...], says: str
) -> None:
    assert main(["gauge", *call]) == 2
    assert says in " ".join(capsys.readouterr().err.split())
