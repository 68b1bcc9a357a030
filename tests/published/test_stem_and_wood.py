"""Bending of a stem against beam theory, strength of green wood against the Wood Handbook."""

import math

import pytest
from scipy import integrate

from riglint.mechanics.green_wood import UNKNOWN_COMPRESSION_PA, green_wood, names
from riglint.mechanics.trunk import (
    allowable_stress_pa,
    bending_stress_pa,
    inner_diameter_m,
    section_modulus_m3,
)
from tests.published.sources import Case, PublishedSource, read_source

HANDBOOKS = [read_source(name) for name in ("wood_handbook", "wood_handbook_pines")]
HANDBOOK_ROWS = [(source, case) for source in HANDBOOKS for case in source.cases]
HANDBOOK = [case for _, case in HANDBOOK_ROWS]


@pytest.mark.parametrize("case", read_source("trunk_section").cases)
def test_section_modulus_and_stress(case: Case) -> None:
    source = read_source("trunk_section")
    modulus_m3 = section_modulus_m3(case["diameter_m"], case.get("cavity_m", 0.0))
    assert source.agrees(modulus_m3 * 1e3, case["modulus_e3"])
    if "stress_mpa" in case:
        stress_pa = bending_stress_pa(8000.0, 1.0, case["diameter_m"])
        assert source.agrees(stress_pa / 1e6, case["stress_mpa"])


def test_section_modulus_by_integration() -> None:
    """Second moment of area over the edge distance, integrated strip by strip."""
    radius = 0.2
    inertia, _ = integrate.quad(lambda y: y * y * 2 * math.sqrt(radius**2 - y * y), -radius, radius)
    assert section_modulus_m3(2 * radius) == pytest.approx(inertia / radius, rel=1e-6)


@pytest.mark.parametrize("case", read_source("white_oak_moment").cases)
def test_moment_of_a_white_oak(case: Case) -> None:
    source = read_source("white_oak_moment")
    wood = green_wood(case["species"])
    modulus_m3 = section_modulus_m3(case["diameter_m"])
    assert wood.rupture_pa is not None
    assert source.agrees(modulus_m3 * wood.rupture_pa / 1e3, case["rupture_moment_knm"])
    assert source.agrees(modulus_m3 * wood.compression_pa / 1e3, case["compression_moment_knm"])


@pytest.mark.parametrize(("source", "case"), HANDBOOK_ROWS)
def test_row_of_the_wood_handbook(source: PublishedSource, case: Case) -> None:
    wood = green_wood(case["species"])
    assert wood.how == "row"
    assert wood.read
    assert wood.rupture_pa is not None
    assert source.agrees(wood.rupture_pa / 1e6, case["rupture_mpa"])
    assert source.agrees(wood.compression_pa / 1e6, case["compression_mpa"])


def test_every_row_stands_in_a_source() -> None:
    printed = {case["species"].casefold() for case in HANDBOOK}
    rows = {name for name in names() if green_wood(name).how == "row"}
    assert rows == printed


@pytest.mark.parametrize("genus", sorted({case["species"].split(",")[0] for case in HANDBOOK}))
def test_a_genus_takes_its_lowest_row(genus: str) -> None:
    rows = [case for case in HANDBOOK if case["species"].split(",")[0] == genus]
    wood = green_wood(genus)
    assert wood.compression_pa == pytest.approx(min(case["compression_mpa"] for case in rows) * 1e6)
    if rows[0]["species"] != genus:
        assert wood.how == "genus"


def test_names_as_spoken_and_unknown_species() -> None:
    assert green_wood("Western  Larch") == green_wood("larch, western")
    for word in (None, "", "beech", "redwood", "fir douglas"):
        wood = green_wood(word)
        assert (wood.how, wood.read, wood.rupture_pa) == ("unknown", False, None)
        assert wood.compression_pa == UNKNOWN_COMPRESSION_PA == 15e6


def test_second_source_of_sugar_maple() -> None:
    source = read_source("maple_flooring_sheet")
    (case,) = source.cases
    wood = green_wood(case["species"])
    assert wood.rupture_pa is not None
    assert source.agrees(case["rupture_psi"] * 6894.757 / 1e6, case["rupture_mpa"])
    assert source.agrees(wood.rupture_pa / 1e6, case["rupture_mpa"])


def test_bark_and_allowable_stress() -> None:
    assert inner_diameter_m(1.0, "smooth") == pytest.approx(1.0 / math.pi - 0.02)
    assert (
        inner_diameter_m(1.0, None) == inner_diameter_m(1.0, "rough") == pytest.approx(1.0 / math.pi - 0.06)
    )
    assert inner_diameter_m(1.0, "rough", {"smooth": 0.0, "rough": 0.0}) == pytest.approx(1.0 / math.pi)
    assert allowable_stress_pa(15e6, 3.0) == pytest.approx(15e6 / 4.5)
