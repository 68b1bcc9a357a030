"""Bending of a stem against beam theory, strength of green wood against the Wood Handbook."""

import math

import pytest
from scipy import integrate

from riglint.mechanics.anchors.green_wood import UNKNOWN_COMPRESSION_PA, green_wood, names, rows
from riglint.mechanics.anchors.trunk import (
    allowable_stress_pa,
    bending_stress_pa,
    inner_diameter_m,
    section_modulus_m3,
)
from riglint.model.values.defaults import DEFAULTS
from tests.published.sources import Case, PublishedSource, read_source

HANDBOOKS = [read_source(name) for name in ("wood_handbook", "wood_handbook_pines")]
REMEMBERED = [read_source(name) for name in ("wood_handbook_remembered", "european_green_wood")]
TABLES = [(source, case) for source in (*HANDBOOKS, *REMEMBERED) for case in source.cases]
D2555 = read_source("astm_d2555_green")
PSI = 6894.757


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


@pytest.mark.parametrize(("source", "case"), TABLES)
def test_row_of_a_table(source: PublishedSource, case: Case) -> None:
    wood = green_wood(case["species"])
    assert wood.how == "row"
    assert wood.read == (source.mark == "read")
    assert source.agrees(wood.compression_pa / 1e6, case["compression_mpa"])
    if "rupture_mpa" in case:
        assert wood.rupture_pa is not None
        assert source.agrees(wood.rupture_pa / 1e6, case["rupture_mpa"])


@pytest.mark.parametrize("case", D2555.cases)
def test_row_of_astm_d2555(case: Case) -> None:
    wood = green_wood(case["species"])
    assert wood.read
    assert wood.rupture_pa is not None
    assert D2555.agrees(wood.compression_pa, case["compression_psi"] * PSI)
    assert D2555.agrees(wood.rupture_pa, case["rupture_psi"] * PSI)


def test_every_row_stands_in_a_source() -> None:
    printed = {case["species"].casefold() for _, case in TABLES}
    printed |= {case["species"].casefold() for case in D2555.cases}
    assert set(rows()) == printed


@pytest.mark.parametrize("genus", sorted({name.split(",")[0] for name in rows() if "," in name}))
def test_a_genus_takes_its_weakest_row(genus: str) -> None:
    kinds = [green_wood(name) for name in rows() if name.split(",")[0] == genus]
    wood = green_wood(genus)
    assert wood.compression_pa <= min(kind.compression_pa for kind in kinds)
    assert wood.how == "genus"


@pytest.mark.parametrize("word", names())
def test_every_name_finds_a_wood_no_weaker_than_the_unknown_one(word: str) -> None:
    wood = green_wood(word)
    assert wood.how != "unknown"
    assert wood.source
    assert wood.compression_pa >= UNKNOWN_COMPRESSION_PA


def test_names_as_spoken_in_latin_and_unknown() -> None:
    assert green_wood("Western  Larch") == green_wood("larch, western")
    assert green_wood("Quercus robur") == green_wood("English oak") == green_wood("oak, european")
    assert green_wood("black locust") == green_wood("robinia")
    assert green_wood("chestnut").name == "horse chestnut"
    for word in (None, "", "monkey puzzle", "fir douglas"):
        wood = green_wood(word)
        assert (wood.how, wood.read, wood.rupture_pa) == ("unknown", False, None)
        assert wood.compression_pa == UNKNOWN_COMPRESSION_PA == 11.7e6


def test_spread_within_a_genus_is_that_of_the_tables() -> None:
    spreads = []
    for genus in ("ash", "birch", "maple", "pine"):
        kinds = [green_wood(name).compression_pa for name in rows() if name.startswith(f"{genus}, ")]
        spreads.append(min(kinds) / max(kinds))
    assert min(spreads) == pytest.approx(DEFAULTS["genus_spread"].si, abs=0.005)


def test_green_wood_in_bending_carries_more_than_in_compression() -> None:
    """Small clear specimens: modulus of rupture is 1.8 to 3 times the compression strength, whatever the species."""
    for name in rows():
        wood = green_wood(name)
        if wood.rupture_pa is not None:
            assert 1.6 < wood.rupture_pa / wood.compression_pa < 3.1, name


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
