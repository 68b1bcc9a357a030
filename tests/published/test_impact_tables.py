"""Impacts against textbook answers; anchor points and the tie-back against their energy and strength sums."""

import math

import pytest
from scipy import optimize

from riglint.mechanics.anchors.bolts import BoltPull, bolt_pull, bolt_use, boulder_resistance_n, leg_forces_n
from riglint.mechanics.falls.impact import fall_impact_n, spring_impact_n
from riglint.mechanics.falls.tie_back import catch_bound_n
from tests.published.sources import Case, read_source


@pytest.mark.parametrize("case", read_source("gere_impact").cases)
def test_weight_on_a_spring(case: Case) -> None:
    source = read_source("gere_impact")
    weight_n = case["weight"] * case["force_unit_n"]
    stiffness = case["stiffness"] * case["force_unit_n"] / case["length_unit_m"]
    peak_n = spring_impact_n(weight_n, stiffness, case["drop"] * case["length_unit_m"])
    assert source.agrees(peak_n / stiffness / case["length_unit_m"], case["deflection"])
    assert source.agrees(peak_n / weight_n, case["factor"])


def test_a_load_set_down_at_once_doubles() -> None:
    # Textbook limit: suddenly applied load, factor 2.
    assert spring_impact_n(785.0, 5000.0, 0.0) == pytest.approx(2 * 785.0)


@pytest.mark.parametrize("case", read_source("rope_modulus").cases)
def test_rope_modulus(case: Case) -> None:
    source = read_source("rope_modulus")
    rated_n = case["rated_kn"] * 1e3
    # The modulus with which 80 kg at fall factor 1.77 (EN 892) give the rated impact, by a general root finder.
    modulus_n = optimize.brentq(lambda n: fall_impact_n(80.0, n, 1.77) - rated_n, 1e3, 1e6, xtol=1e-9)
    assert source.agrees(modulus_n / 1e3, case["modulus_kn"])
    assert source.agrees(fall_impact_n(80.0, modulus_n, 0.3) / 1e3, case["at_factor_0_3_kn"])
    assert source.agrees(fall_impact_n(80.0, modulus_n, 1.0) / 1e3, case["at_factor_1_kn"])


def test_tie_back_energy() -> None:
    """Work of the line over slack and stretch against the spring's energy, by a general root finder."""
    tension_n, stiffness, slack_m = 6000.0, 130e3, 0.2

    def surplus_j(stretch_m: float) -> float:
        return tension_n * (slack_m + stretch_m) - stiffness * stretch_m**2 / 2

    stretch_m = optimize.brentq(surplus_j, 1e-6, 10.0)
    assert catch_bound_n(tension_n, stiffness, slack_m) == pytest.approx(stiffness * stretch_m, rel=1e-9)
    assert catch_bound_n(tension_n, stiffness, slack_m) == pytest.approx(25e3, abs=500.0)


@pytest.mark.parametrize("name", ["en_959_strengths", "bolt_shares"])
def test_bolt_interaction(name: str) -> None:
    source = read_source(name)
    for case in source.cases:
        use = bolt_use(BoltPull(radial_n=case["radial_kn"] * 1e3, axial_n=case["axial_kn"] * 1e3))
        assert source.agrees(use, case["use"])


def test_bolt_pull_keeps_its_size() -> None:
    pull = bolt_pull(5000.0, 0.4)
    assert math.hypot(pull.radial_n, pull.axial_n) == pytest.approx(5000.0)
    assert pull.axial_n / pull.radial_n == pytest.approx(math.tan(0.4))


def test_legs_hold_the_line() -> None:
    angle_rad = math.radians(50)
    two = leg_forces_n(6000.0, 2, "fixed", angle_rad)
    assert sum(force_n * math.cos(angle_rad / 2) for force_n in two) == pytest.approx(6000.0)
    assert leg_forces_n(6000.0, 4, "sliding", angle_rad) == two * 2
    assert leg_forces_n(6000.0, 1, "fixed", angle_rad) == (6000.0,)
    assert leg_forces_n(6000.0, 3, "slack_spare", angle_rad) == (6000.0, 0.0, 0.0)


def test_boulder() -> None:
    assert boulder_resistance_n(1000.0, 0.5) == pytest.approx(0.5 * 9806.65)
    assert boulder_resistance_n(1000.0, 0.5, 4806.65) == pytest.approx(2500.0)
    assert boulder_resistance_n(1000.0, 0.5, 20e3) == 0.0
