"""The force on somebody whom a leash stops, and the catch of a tie-back, against textbook limits and simulations."""

from math import hypot

import pytest
from scipy import integrate, optimize

from riglint.mechanics.falls.arrest import arrested_n
from riglint.mechanics.falls.impact import spring_impact_n
from riglint.mechanics.falls.tie_back import catch_bound_n, catch_n
from riglint.mechanics.span.line import Equilibrium, Line, Reach, Webbing, hang
from riglint.mechanics.span.stretch import StretchLaw
from riglint.mechanics.span.wind import drag_n
from riglint.mechanics.valid_range import STANDARD_GRAVITY_M_S2 as G
from tests.published.sources import Case, read_source

NO_REACH = Reach(0.0)
STIFF = Line(50.0, 0.0, NO_REACH, (Webbing(49.0, 0.5, StretchLaw.linear(1e9)),), NO_REACH)


def arrested(line: Line, mass_kg: float, height_m: float, leash: float, before: Equilibrium) -> float:
    found = arrested_n(line, mass_kg, height_m, leash, reference=before)
    assert isinstance(found, float)
    return found


def at_rest(line: Line) -> Equilibrium:
    found = hang(line)
    assert isinstance(found, Equilibrium)
    return found


@pytest.mark.parametrize("case", read_source("gere_impact").cases)
def test_on_a_line_that_gives_nothing_the_leash_is_a_spring(case: Case) -> None:
    """The impact factor depends on k·h/W alone, so the book's answer holds for a person as well."""
    source = read_source("gere_impact")
    stiff_for_its_weight = case["stiffness"] * case["drop"] / case["weight"]
    mass_kg, height_m = 80.0, 2.0
    leash = stiff_for_its_weight * mass_kg * G / height_m
    found_n = arrested(STIFF, mass_kg, height_m, leash, at_rest(STIFF))
    assert source.agrees(found_n / (mass_kg * G), case["factor"])


@pytest.mark.parametrize("leash", [2e3, 10e3, 50e3])
@pytest.mark.parametrize("tension_n", [3e3, 8e3])
def test_leash_and_line_are_two_springs_in_a_row(leash: float, tension_n: float) -> None:
    """A line of constant tension sinks W·D/(4·T): a spring of 4·T/D; springs in a row, 1/k = 1/k₁ + 1/k₂."""
    span_m, constant_m = 500.0, 200.0
    webbing = Webbing(100.0, 0.0, StretchLaw.linear(1e9))
    held = Reach(constant_m, give_m_per_n=constant_m / tension_n, reference_tension_n=tension_n)
    line = Line(span_m, 0.0, held, (webbing,), held)
    one = 1.0 / (1.0 / leash + span_m / (4.0 * tension_n))
    expected_n = spring_impact_n(50.0 * G, one, 0.5)
    before = at_rest(line)
    assert arrested(line, 50.0, 0.5, leash, before) == pytest.approx(expected_n, rel=0.01)


@pytest.mark.parametrize(
    ("span_m", "length_m", "stiffness_n", "leash", "body"),
    [
        (40.0, 39.2, 90e3, 8e3, (80.0, 1.5)),
        (100.0, 98.0, 150e3, 15e3, (70.0, 2.5)),
        (25.0, 24.8, 40e3, 30e3, (95.0, 1.0)),
    ],
)
def test_a_fall_stepped_through_time(
    span_m: float, length_m: float, stiffness_n: float, leash: float, body: tuple[float, float]
) -> None:
    """A point mass on a massless ring, m·a = m·g − F(y), integrated until it stops (scipy); V of a weightless line."""
    mass_kg, height_m = body  # and how far it falls until the leash is taut
    webbing = Webbing(length_m, 0.0, StretchLaw.linear(stiffness_n))
    line = Line(span_m, 0.0, NO_REACH, (webbing,), NO_REACH)

    def pull_n(sag_m: float) -> float:
        half = hypot(span_m / 2.0, sag_m)
        return 2.0 * stiffness_n * max(2.0 * half / length_m - 1.0, 0.0) * sag_m / half

    def force_n(down_m: float) -> float:
        """Force in the leash once its upper end and the body are so far below the line's rest, ring in balance."""
        if down_m <= 0.0:
            return 0.0
        sag_m = optimize.brentq(lambda sag: pull_n(sag) - leash * (down_m - sag), 0.0, down_m, xtol=1e-13)
        return pull_n(sag_m)

    def falling(_: float, state: list[float]) -> tuple[float, float]:
        return state[1], G - force_n(state[0]) / mass_kg

    def stopped(_: float, state: list[float]) -> float:
        return state[1]

    stopped.terminal = True  # type: ignore[attr-defined]
    start = [0.0, (2.0 * G * height_m) ** 0.5]
    run = integrate.solve_ivp(falling, (0.0, 20.0), start, events=stopped, rtol=1e-9, atol=1e-9)
    slack = hang(line, 1e-3)
    assert isinstance(slack, Equilibrium)
    stored_j = 0.5 * stiffness_n * length_m * (span_m / length_m - 1.0) ** 2
    before = slack._replace(load_y_m=0.0, load_n=0.0, energy_j=stored_j)
    assert arrested(line, mass_kg, height_m, leash, before) == pytest.approx(force_n(run.y[0][-1]), rel=1e-4)


def test_a_fall_of_nothing_still_doubles_the_weight() -> None:
    """Textbook limit: a load applied at once to a linear spring, factor 2."""
    assert arrested(STIFF, 80.0, 0.0, 5e3, at_rest(STIFF)) == pytest.approx(2 * 80.0 * G, rel=1e-3)


@pytest.mark.parametrize("line_n_per_m", [500.0, 8e3, 25e3])
@pytest.mark.parametrize("slack_m", [0.0, 0.2, 1.5])
def test_tie_back_while_the_line_gives(line_n_per_m: float, slack_m: float) -> None:
    """Work of a tension that falls evenly to nothing against the spring's energy, by a general root finder (scipy)."""
    tension_n, stiffness = 6e3, 130e3

    def given_j(run_m: float) -> float:
        run_m = min(run_m, tension_n / line_n_per_m)
        return tension_n * run_m - 0.5 * line_n_per_m * run_m**2

    stretch_m = optimize.brentq(lambda d: given_j(slack_m + d) - 0.5 * stiffness * d**2, 1e-9, 10.0)
    found_n = catch_n(tension_n, stiffness, slack_m, line_n_per_m)
    assert found_n == pytest.approx(stiffness * stretch_m, rel=1e-6)
    assert found_n <= catch_bound_n(tension_n, stiffness, slack_m)


def test_a_line_that_gives_nothing_leaves_the_bound() -> None:
    assert catch_n(6e3, 130e3, 0.2, 0.0) == catch_bound_n(6e3, 130e3, 0.2)
    assert catch_n(6e3, 130e3, 0.2, 1e-3) == pytest.approx(catch_bound_n(6e3, 130e3, 0.2), rel=1e-6)


@pytest.mark.parametrize("case", read_source("eurocode_wind_pressure").cases)
def test_wind_on_a_body(case: Case) -> None:
    drag = drag_n(case["speed"], case["drag_coefficient"] * max(case["width_m"], 0.01) * 1.0)
    assert read_source("eurocode_wind_pressure").agrees(drag, case["drag"])
