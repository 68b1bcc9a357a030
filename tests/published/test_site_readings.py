"""Pulse timing and wind against textbook strings, a utility's sag tables and drag figures."""

import pytest

from riglint.mechanics.span.pulse import sag_from_pulse_m, tension_from_pulse
from riglint.mechanics.span.wind import FLAT_BAND_DRAG, drag_n_per_m, resultant_n_per_m
from tests.published.sources import Case, read_source

INCH_M = 0.0254


def test_guitar_strings() -> None:
    source = read_source("openstax_string")
    high, low = source.cases
    there_and_back = tension_from_pulse(high["mass_per_m"], 100.0, 200.0 / float(high["speed"]))
    assert there_and_back.tension_n == pytest.approx(
        high["tension_n"], rel=2 * 0.05 / float(high["speed"]) + 1e-4
    )
    reading = tension_from_pulse(low["mass_per_m"], 1.0, 2.0 / low["speed_m_per_s"] * 100, returns=100)
    assert source.agrees(reading.tension_n, low["tension_n_printed"])


@pytest.mark.parametrize("case", read_source("return_wave_sag").cases)
def test_sag_by_return_wave(case: Case) -> None:
    printed_m = case["constant_in"] * (case["time_s"] / (2 * case["returns"])) ** 2 * INCH_M
    assert read_source("return_wave_sag").agrees(sag_from_pulse_m(case["time_s"], case["returns"]), printed_m)


@pytest.mark.parametrize("case", read_source("pulse_example").cases)
def test_tension_from_a_pulse(case: Case) -> None:
    source = read_source("pulse_example")
    per_m = case["mass_kg"] / case["length_m"]
    reading = tension_from_pulse(per_m, case["length_m"], case["round_trip_s"])
    assert source.agrees(reading.tension_n, case["tension_n"])
    assert reading.uncertainty_n == 0.0


def test_sag_and_tension_from_one_timing_agree() -> None:
    """Parabola: sag w·l²/(8·T) with w = μ·g; small sag."""
    reading = tension_from_pulse(0.06, 100.0, 0.7)
    parabola_m = 0.06 * 9.80665 * 100.0**2 / (8 * reading.tension_n)
    assert sag_from_pulse_m(0.7) == pytest.approx(parabola_m)


@pytest.mark.parametrize(
    "errors", [{"time_error_s": 0.001}, {"length_error_m": 0.1}, {"mass_per_m_error": 0.0001}]
)
def test_first_order_uncertainty(errors: Case) -> None:
    """Against the spread of the formula itself: half of what input plus and minus its error gives."""
    base: Case = {"mass_per_m": 0.06, "length_m": 100.0, "time_s": 0.7}
    ((name, error),) = errors.items()
    key = name.replace("_error", "")
    up = tension_from_pulse(**{**base, key: base[key] + error}).tension_n
    down = tension_from_pulse(**{**base, key: base[key] - error}).tension_n
    reading = tension_from_pulse(**base, **errors)
    assert reading.uncertainty_n == pytest.approx(abs(up - down) / 2, rel=1e-4)


def test_more_returns_make_a_hand_timing_better() -> None:
    # dT/T = 2·dt/t: 0.1 s on one return of 0.69 s is 29 %, on ten returns 2.9 %.
    one = tension_from_pulse(0.06, 100.0, 0.69282, returns=1, time_error_s=0.1)
    ten = tension_from_pulse(0.06, 100.0, 6.9282, returns=10, time_error_s=0.1)
    assert one.uncertainty_n / one.tension_n == pytest.approx(0.29, abs=0.005)
    assert ten.uncertainty_n / ten.tension_n == pytest.approx(0.029, abs=0.0005)


def test_drag_coefficient_of_a_flat_band() -> None:
    source = read_source("flat_plate_drag")
    (case,) = source.cases
    assert source.agrees(FLAT_BAND_DRAG, case["drag_coefficient"])
    assert case["drag_coefficient"] <= FLAT_BAND_DRAG


@pytest.mark.parametrize("case", read_source("eurocode_wind_pressure").cases)
def test_drag_per_metre(case: Case) -> None:
    drag = drag_n_per_m(case["speed"], case["width_m"], drag_coefficient=case["drag_coefficient"])
    assert read_source("eurocode_wind_pressure").agrees(drag, case["drag"])


def test_weight_and_drag_together() -> None:
    # Worked by hand: 100 m, 0.6 N/m, 20 m/s on 25 mm: 12.514 N/m; side sag at 3 kN f·l²/(8·H) = 5.21 m.
    drag = drag_n_per_m(20.0, 0.025)
    assert resultant_n_per_m(0.6, drag) == pytest.approx(12.514, abs=5e-4)
    assert drag * 100.0**2 / (8 * 3000.0) == pytest.approx(5.21, abs=5e-3)
    assert resultant_n_per_m(3.0, 4.0) == 5.0
