"""Peak forces against the closed limits of the energy balance."""

from typing import Any

import pytest

from riglint.mechanics.span.line import Equilibrium, Line, Reach, Webbing, hang
from riglint.mechanics.span.peak import drop
from riglint.mechanics.span.standing import length_for_tension
from riglint.mechanics.span.stretch import StretchLaw
from riglint.mechanics.valid_range import STANDARD_GRAVITY_M_S2 as G
from riglint.model.values.defaults import DEFAULTS
from tests.published.sources import PublishedSource, read_source

NO_REACH = Reach(0.0)


def cases(name: str) -> list[tuple[PublishedSource, dict[str, Any]]]:
    source = read_source(name)
    assert source.cases
    return [(source, case) for case in source.cases]


def weightless(case: dict[str, Any]) -> Line:
    webbing = Webbing(case.get("length", case["span"]), 0.0, StretchLaw.linear(case["stiffness"]))
    return Line(case["span"], 0.0, NO_REACH, (webbing,), NO_REACH)


def rest(line: Line, load_n: float) -> Equilibrium:
    equilibrium = hang(line, load_n)
    assert isinstance(equilibrium, Equilibrium)
    return equilibrium


def caught(line: Line, case: dict[str, Any], reference: Equilibrium) -> Equilibrium:
    peak = drop(line, 0.5, case["mass"], case.get("drop", 0.0), reference=reference)
    assert isinstance(peak, Equilibrium)
    return peak


@pytest.mark.parametrize(("source", "case"), cases("peak_constant_tension"))
def test_constant_tension_is_a_linear_spring(source: PublishedSource, case: dict[str, Any]) -> None:
    webbing = Webbing(100.0, 0.0, StretchLaw.linear(1e9))
    spring_m = 0.5 * (case["span"] - 100.0)
    spring = Reach(spring_m, give_m_per_n=spring_m / case["tension"], reference_tension_n=case["tension"])
    line = Line(case["span"], 0.0, spring, (webbing,), spring)
    reference = rest(line, 0.0)
    assert reference.tension_a_n == pytest.approx(case["tension"], rel=1e-4)
    assert source.agrees(caught(line, case, reference).load_n, case["force"])


@pytest.mark.parametrize(("source", "case"), cases("peak_cubic"))
def test_line_without_standing_tension(source: PublishedSource, case: dict[str, Any]) -> None:
    line = weightless(case)
    static = rest(line, case["mass"] * G)
    straight = static._replace(load_y_m=0.0, energy_j=0.0)  # a weightless bare line lies on the chord
    peak = caught(line, case, straight)
    assert source.agrees(peak.load_n / static.load_n, case["force"])
    assert source.agrees(peak.load_y_m / static.load_y_m, case["sag"])
    assert source.agrees(peak.tension_n / static.tension_n, case["tension"])


@pytest.mark.parametrize(("source", "case"), cases("peak_weightless_v"))
def test_weightless_v(source: PublishedSource, case: dict[str, Any]) -> None:
    line = weightless(case)
    stretch = max(case["span"] / case["length"] - 1.0, 0.0)
    stored = 0.5 * case["stiffness"] * case["length"] * stretch**2
    straight = rest(line, case["mass"] * G)._replace(load_y_m=0.0, energy_j=stored)
    peak = caught(line, case, straight)
    assert source.agrees(-peak.load_y_m, case["sag"])
    assert source.agrees(peak.load_n, case["force"])
    assert source.agrees(peak.tension_n, case["tension"])


WALKER_KG = 57.0
WEBBING_KG_PER_M = 0.065


def field_line(case: dict[str, Any]) -> Line:
    law = StretchLaw.through([(10e3, case["strain_at_10_kn"])])
    webbing = Webbing(case["span"], WEBBING_KG_PER_M * G, law)
    cut = length_for_tension(Line(case["span"], 0.0, NO_REACH, (webbing,), NO_REACH), 1e3 * case["standing"])
    assert isinstance(cut, Line)
    return cut


@pytest.mark.parametrize(("source", "case"), cases("field_test_walker"))
def test_field_walker(source: PublishedSource, case: dict[str, Any]) -> None:
    assert source.agrees(rest(field_line(case), WALKER_KG * G).tension_n / 1e3, case["walker"])


@pytest.mark.parametrize(("source", "case"), cases("field_test_peaks"))
@pytest.mark.parametrize(("event", "height_m"), [("bounce", 0.5), ("fall", 3.0)])
def test_field_peaks(source: PublishedSource, case: dict[str, Any], event: str, height_m: float) -> None:
    line = field_line(case)
    peak = caught(line, {"mass": WALKER_KG, "drop": height_m}, rest(line, 0.0))
    assert source.agrees(peak.tension_n / 1e3, case[event])
    assert peak.tension_n / 1e3 > 0.85 * case[event]


IN_USE = {0.18: "in_use.polyamide", 0.04: "in_use.polyester"}  # by the strain that the test printed for 10 kN


@pytest.mark.parametrize(("source", "case"), cases("field_test_peaks"))
def test_field_test_from_the_stiff_edge(source: PublishedSource, case: dict[str, Any]) -> None:
    """With webbing as stiff as in use nothing comes out below what was measured, to the 0.05 kN of its last digit."""
    (walker,) = [
        one["walker"] for one in read_source("field_test_walker").cases if one["span"] == case["span"]
    ]
    times = float(DEFAULTS[IN_USE[case["strain_at_10_kn"]]].text)
    line = field_line({**case, "strain_at_10_kn": case["strain_at_10_kn"] / times})
    assert rest(line, WALKER_KG * G).tension_n / 1e3 >= walker - 0.05
    for event, height_m in (("bounce", 0.5), ("fall", 3.0)):
        peak = caught(line, {"mass": WALKER_KG, "drop": height_m}, rest(line, 0.0))
        assert peak.tension_n / 1e3 >= case[event] - 0.05
    assert source.cases
