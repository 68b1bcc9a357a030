"""The cable solver against reference calculations, textbook cables and a published benchmark."""

from math import hypot
from typing import Any

import pytest

from riglint.mechanics.span.line import Equilibrium, Line, NoResult, Reach, Webbing, hang, profile
from riglint.mechanics.span.standing import length_for_sag, length_for_tension
from riglint.mechanics.span.stretch import StretchLaw
from tests.published.sources import PublishedSource, read_source

NO_REACH = Reach(0.0)
RIGID_N = 1e12
"""Stiffness of what a textbook calls inextensible."""


def cases(name: str) -> list[tuple[PublishedSource, dict[str, Any]]]:
    source = read_source(name)
    assert source.cases
    return [(source, case) for case in source.cases]


def line_of(case: dict[str, Any]) -> Line:
    law = StretchLaw.linear(case.get("stiffness", RIGID_N))
    webbing = Webbing(case.get("length", case["span"]), case["weight"], law)
    ends = [Reach(0.0, 1.0 / case[name]) if name in case else NO_REACH for name in ("spring_a", "spring_b")]
    return Line(case["span"], case.get("rise", 0.0), ends[0], (webbing,), ends[1])


def at_rest(line: Line | NoResult, load_n: float = 0.0, fraction: float = 0.5) -> Equilibrium:
    assert isinstance(line, Line)
    equilibrium = hang(line, load_n, fraction)
    assert isinstance(equilibrium, Equilibrium)
    return equilibrium


@pytest.mark.parametrize(("source", "case"), cases("loaded_line_reference") + cases("rounded_line_reference"))
def test_reference_lines(source: PublishedSource, case: dict[str, Any]) -> None:
    line = line_of(case)
    equilibrium = at_rest(line, case["load"], case["fraction"])
    for name, printed in case["expected"].items():
        found = lowest_y_m(line, equilibrium) if name == "lowest_y_m" else getattr(equilibrium, name)
        assert source.agrees(found, printed), name


def lowest_y_m(line: Line, equilibrium: Equilibrium) -> float:
    """How high a line is at its lowest; between 20,000 places of its profile it bends by less than 1 µm."""
    return min(y for _, y in profile(line, equilibrium, 20_000))


@pytest.mark.parametrize(("source", "case"), cases("standing_length_reference"))
def test_length_for_a_standing_tension(source: PublishedSource, case: dict[str, Any]) -> None:
    cut = length_for_tension(line_of({**case, "length": case["span"]}), case["tension"])
    equilibrium = at_rest(cut)
    assert isinstance(cut, Line)
    assert source.agrees(cut.unstressed_m, case["length"])
    assert source.agrees(equilibrium.tension_a_n, case["tension"])
    for name, printed in case["expected"].items():
        assert source.agrees(getattr(equilibrium, name), printed), name


@pytest.mark.parametrize(
    ("source", "case"),
    cases("cable_point_load_as_printed")
    + cases("cable_point_load_sag_matched")
    + cases("cable_point_load_exact"),
)
def test_published_cable_with_a_point_load(source: PublishedSource, case: dict[str, Any]) -> None:
    law = StretchLaw.linear(case["area_mm2"] * case["modulus_n_per_mm2"])
    webbings = tuple(Webbing(case[part], case["weight"], law) for part in ("length_a", "length_b"))
    line = Line(case["span"], 0.0, NO_REACH, webbings, NO_REACH)
    fraction = case["length_a"] / line.unstressed_m
    bare, loaded = at_rest(line, 0.0, fraction), at_rest(line, case["load"], fraction)
    assert source.agrees(bare.load_y_m - loaded.load_y_m, case["down"])
    assert source.agrees(bare.load_x_m - loaded.load_x_m, case["sideways"])
    if "bare_sag" in case:
        assert bare.load_x_m == pytest.approx(case["bare_x"], abs=0.0005)
        assert bare.sag_m == pytest.approx(case["bare_sag"], abs=0.0005)


@pytest.mark.parametrize(("source", "case"), cases("statics_cables"))
def test_textbook_chain_from_its_sag(source: PublishedSource, case: dict[str, Any]) -> None:
    cut = length_for_sag(line_of(case), 0.0, 0.5, case["sag"])
    assert source.agrees(at_rest(cut).tension_n, case["tension"])
    assert isinstance(cut, Line)
    assert source.agrees(cut.unstressed_m, case["length"])


@pytest.mark.parametrize(("source", "case"), cases("catenary_power_line"))
def test_power_line_from_its_length(source: PublishedSource, case: dict[str, Any]) -> None:
    equilibrium = at_rest(line_of(case))
    assert source.agrees(equilibrium.horizontal_n / case["weight"], case["parameter"])
    assert source.agrees(equilibrium.sag_m, case["sag"])
    assert source.agrees(equilibrium.tension_n / 1e3, case["tension_kn"])


@pytest.mark.parametrize(("source", "case"), cases("parabola_statics"))
def test_side_span_of_a_suspension_bridge(source: PublishedSource, case: dict[str, Any]) -> None:
    """The weight along the cable is so large that it is, in sum, the book's weight along the horizontal."""
    along = case["weight_per_run"] * case["span"] / hypot(case["span"], case["rise"])
    cut = length_for_sag(line_of({**case, "weight": along}), 0.0, 0.5, case["sag"])
    assert source.agrees(at_rest(cut).horizontal_n, case["horizontal"])
    assert source.agrees(at_rest(cut).tension_n, case["tension"])


@pytest.mark.parametrize(("source", "case"), cases("statics_tape"))
def test_textbook_tape_from_its_tension(source: PublishedSource, case: dict[str, Any]) -> None:
    cut = length_for_tension(line_of(case), case["tension"])
    equilibrium = at_rest(cut)
    assert isinstance(cut, Line)
    assert source.agrees(cut.unstressed_m, case["length"])
    assert source.agrees(equilibrium.horizontal_n, case["horizontal"])
    assert source.agrees(equilibrium.sag_m, case["sag"])


@pytest.mark.parametrize(("source", "case"), cases("tape_sag_correction"))
def test_surveyors_tape(source: PublishedSource, case: dict[str, Any]) -> None:
    """The correction takes the pull as the horizontal force; the end tension adds half the tape's weight."""
    end_tension = hypot(case["tension"], 0.5 * case["weight"] * case["length"])
    span = case["length"] - float(case["correction"])
    cut = length_for_tension(line_of({"span": span, "weight": case["weight"]}), end_tension)
    assert isinstance(cut, Line)
    assert source.agrees(cut.unstressed_m - span, case["correction"])


@pytest.mark.parametrize(("source", "case"), cases("catenary_least_tension"))
def test_no_length_gives_less_than_the_least_end_tension(
    source: PublishedSource, case: dict[str, Any]
) -> None:
    span, weight = 100.0, 1.0
    lengths = [span * (1.0 + 0.002 * step) for step in range(1, 500)]
    tensions = [at_rest(line_of({"span": span, "weight": weight, "length": m})).tension_a_n for m in lengths]
    assert source.agrees(min(tensions) / (weight * span), case["ratio"])
    assert tensions[0] > min(tensions) < tensions[-1]
