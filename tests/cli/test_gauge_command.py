"""`riglint gauge`: published strings through the command, readings on a rig, and what it says to a wrong call."""

import json
from typing import Any

import pytest

from riglint.cli import main
from riglint.loads.measure.expected import expected_pulse, expected_sags, lead_strand_n
from riglint.testing import BASELINES
from tests.cli.calling import DAY
from tests.published.sources import Case, read_source
from tests.rigs import loads_of, rig_data

LONG = str(BASELINES / "long_haul.yaml")


def gauge(capsys: pytest.CaptureFixture[str], *arguments: str) -> tuple[int, dict[str, Any]]:
    status = main(["gauge", *arguments, *DAY, "--format", "json"])
    said = capsys.readouterr()
    assert said.err == ""
    told: dict[str, Any] = json.loads(said.out)
    return status, told


def pulse(mass_per_m: float, over_m: float, time_s: float, returns: int = 1) -> tuple[str, ...]:
    return (
        *("--mass-per-metre", f"{mass_per_m * 1000.0:.9f} g/m", "--over", f"{over_m:.9f} m"),
        *("--time", f"{time_s:.9f} s", "--returns", str(returns)),
    )


# Without a rig: the string-wave formula


def test_guitar_string(capsys: pytest.CaptureFixture[str]) -> None:
    source = read_source("openstax_string")
    _, low = source.cases
    status, told = gauge(capsys, *pulse(low["mass_per_m"], 1.0, 2.0 / low["speed_m_per_s"] * 100, 100))
    assert status == 0
    assert source.agrees(told["tension_kN"] * 1000.0, low["tension_n_printed"])


@pytest.mark.parametrize("case", read_source("pulse_example").cases)
def test_tension_from_a_pulse(capsys: pytest.CaptureFixture[str], case: Case) -> None:
    call = pulse(case["mass_kg"] / case["length_m"], case["length_m"], case["round_trip_s"])
    _, told = gauge(capsys, *call)
    assert read_source("pulse_example").agrees(told["tension_kN"] * 1000.0, case["tension_n"])
    assert told["low_kN"] == told["high_kN"]


@pytest.mark.parametrize("case", read_source("return_wave_sag").cases)
def test_sag_by_return_wave(capsys: pytest.CaptureFixture[str], case: Case) -> None:
    printed_m = case["constant_in"] * (case["time_s"] / (2 * case["returns"])) ** 2 * 0.0254
    _, told = gauge(capsys, *pulse(0.06, 100.0, case["time_s"], case["returns"]))
    assert read_source("return_wave_sag").agrees(told["bare_sag_m"], printed_m)


def test_uncertainty_is_first_order(capsys: pytest.CaptureFixture[str]) -> None:
    # dT/T = 2·dt/t: 0.1 s on ten returns of 6.9282 s is 2.9 %.
    call = ("--mass-per-metre", "60 g/m", "--over", "100 m", "--time", "6.9282 s ± 0.1 s", "--returns", "10")
    _, told = gauge(capsys, *call)
    share = (told["high_kN"] - told["low_kN"]) / 2.0 / told["tension_kN"]
    assert share == pytest.approx(2 * 0.1 / 6.9282, rel=1e-4)


# On a rig: what the card says must show is read back as the plan


def test_what_the_card_expects_reads_back_as_the_plan(capsys: pytest.CaptureFixture[str]) -> None:
    loads = loads_of(rig_data("long_haul"))
    wave, sag = expected_pulse(loads), expected_sags(loads)[0]
    calls = (
        ("--time", f"{wave.time_s:.6f} s", "--returns", str(wave.returns)),
        (
            "--sag",
            f"{sag.below_bare_m:.6f} m",
            "--under",
            f"{sag.mass_kg:g} kg",
            "--at",
            f"{sag.from_a_m:.5f} m",
        ),
        ("--sag", f"{sag.below_chord_m:.6f} m", "--under", f"{sag.mass_kg:g} kg", "--sag-from", "chord"),
    )
    for call in calls:
        status, told = gauge(capsys, LONG, *call)
        assert status == 0
        assert told["plan"]["fits"] is True
        assert told["tension_kN"] == pytest.approx(6.0, rel=2e-3)


def test_the_lead_strand_bounds_the_plan(capsys: pytest.CaptureFixture[str]) -> None:
    least, most = lead_strand_n(loads_of(rig_data("long_haul")))
    assert least < 6000.0 / 5 < most
    _, low = gauge(capsys, LONG, "--pull", f"{least:.6f} N")
    _, high = gauge(capsys, LONG, "--pull", f"{most:.6f} N")
    assert low["high_kN"] == pytest.approx(6.0, rel=1e-5)
    assert high["low_kN"] == pytest.approx(6.0, rel=1e-5)


def test_a_reading_that_does_not_fit_ends_with_one(capsys: pytest.CaptureFixture[str]) -> None:
    status, told = gauge(capsys, LONG, "--time", "4.0 s", "--returns", "10")
    assert (status, told["plan"]["fits"]) == (1, False)
    status = main(["gauge", LONG, "--time", "4.0 s", "--returns", "10", *DAY])
    said = " ".join(capsys.readouterr().out.split())
    assert status == 1
    assert "does not fit: up to 15 % apart. Nobody walks; let the line down" in said
    assert "shelf[0].items" not in said
    assert "58 g/m unstretched" in said  # every input with where it came from
    assert "does not mean that a rig may be used" in said


def test_a_reading_that_fits_by_its_own_range_alone_says_so(capsys: pytest.CaptureFixture[str]) -> None:
    # Five strands: 5 · 1.5 kN is 25 % above the plan of 6 kN, and friction leaves it open from 5.9 kN on.
    status, told = gauge(capsys, LONG, "--pull", "1.5 kN")
    assert status == 1  # what is too unsure to tell must not pass
    assert told["tension_kN"] == pytest.approx(7.5)
    assert told["low_kN"] < 6.0 * 1.15 < told["tension_kN"]
    assert (told["plan"]["verdict"], told["plan"]["fits_by_range_alone"]) == ("may fit", True)
    assert main(["gauge", LONG, "--pull", "1.5 kN", *DAY]) == 1
    said = " ".join(capsys.readouterr().out.split())
    assert (
        "25 % above. It may fit: its range of 5.90 to 9.84 kN lies partly outside the 15 % allowed." in said
    )
    _, near = gauge(capsys, LONG, "--pull", "1.3 kN")  # 8 % above
    assert (near["plan"]["verdict"], near["plan"]["fits_by_range_alone"]) == ("may fit", False)


WRONG = {
    "no unit": (("--time", "7.9"), "'7.9' has no unit. Expected a duration."),
    "another unit": (("--sag", "2.4 kN"), "'2.4 kN' is a force. Expected a length."),
    "wrong letters": (("--pull", "1.3 KN"), "Write 1.3 kN."),
    "nothing was read": (("--pull", "0 kN"), "is not above 0"),
    "odd letters": (("--time", "\u0667 s"), "digits of another script"),
    "returns": (("--time", "1 s", "--returns", "-2"), "is not a number of round trips"),
}


@pytest.mark.parametrize(("call", "said"), WRONG.values(), ids=WRONG)
def test_a_wrong_value_is_told_with_what_to_write(
    capsys: pytest.CaptureFixture[str], call: tuple[str, ...], said: str
) -> None:
    assert main(["gauge", LONG, *call]) == 2
    assert said in " ".join(capsys.readouterr().err.split())


CALLS = {
    "no reading": ((LONG,), "Give one reading"),
    "two readings": ((LONG, "--time", "5 s", "--pull", "1 kN"), "Give one reading"),
    "of another kind": ((LONG, "--pull", "1 kN", "--under", "75 kg"), "--under belongs to a sag"),
    "a sag without its rig": (("--sag", "2 m", "--under", "75 kg"), "Name the rig file first"),
    "a sag under nobody": ((LONG, "--sag", "2 m"), "This reading also needs --under."),
    "a pulse without its line": (("--time", "5 s"), "This reading also needs --over and --mass-per-metre."),
    "a weight twice": ((LONG, "--time", "5 s", "--mass-per-metre", "58 g/m"), "Leave --mass-per-metre out"),
    "too quick": ((LONG, "--time", "0.001 s"), "is outside the range that we can calculate"),
    "no such file": (("nowhere.yaml", "--time", "5 s"), "There is no such file"),
}


@pytest.mark.parametrize(("call", "said"), CALLS.values(), ids=CALLS)
def test_a_wrong_call_is_told_in_a_sentence(
    capsys: pytest.CaptureFixture[str], call: tuple[str, ...], said: str
) -> None:
    assert main(["gauge", *call, *DAY]) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert said in told.err


def test_what_the_rig_lacks_is_named(capsys: pytest.CaptureFixture[str]) -> None:
    draft = str(BASELINES.parent / "drafts/longline.yaml")
    assert main(["gauge", draft, "--time", "5 s", *DAY]) == 2
    assert "We can't tell the tension without" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("call", "said"),
    [
        (("--sag", "60 m", "--under", "78 kg"), "no line of this span and webbing sags like that"),
        (("--sag", "30 m", "--under", "78 kg", "--sag-from", "chord"), "hangs slack with nobody on it"),
        (("--sag", "20 cm", "--under", "78 kg"), "more than the"),
        (("--time", "100 s"), "less than the line needs to hang"),
        (("--pull", "100 kN"), "at which the webbing breaks. Read again"),
        (("--sag", "2 m", "--under", "78 kg", "--at", "120 m"), "the anchors are 82 m apart"),
        (("--time", "7.9 s", "--returns", "10", "--over", "30 m"), "m of webbing between the fittings"),
        (("--time", "7.9 s", "--returns", "10", "--over", "90 m"), "m of webbing between the fittings"),
    ],
)
def test_what_no_line_can_have_is_refused(
    capsys: pytest.CaptureFixture[str], call: tuple[str, ...], said: str
) -> None:
    assert main(["gauge", LONG, *call, *DAY]) == 2
    assert said in " ".join(capsys.readouterr().err.split())


def test_a_slack_line_reads_back_the_sag_that_its_card_names(capsys: pytest.CaptureFixture[str]) -> None:
    """A taut line sags as deep below its own still line; the one that is planned is meant."""
    slack = "examples/rigs/slackrope.yaml"
    status, told = gauge(capsys, slack, "--sag", "0.42 m", "--under", "70 kg")
    assert (status, told["plan"]["verdict"]) == (1, "may fit")  # webbing in use would leave less tension
    assert told["tension_kN"] == pytest.approx(told["plan"]["tension_kN"], rel=0.15)
