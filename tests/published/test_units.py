"""The factors to SI against pint, a general-purpose units library that knows nothing of rigs.

Month and year are pint's own too: a Julian year of 365.25 days and its twelfth.
"""

import functools
import math
from typing import get_args

import pint
import pytest

from riglint.read.quantity import Dimension, parse_quantity, units_of

SI: dict[Dimension, str] = {
    "length": "m",
    "force": "N",
    "mass": "kg",
    "mass_per_length": "kg/m",
    "strain_or_ratio": "",
    "angle": "rad",
    "speed": "m/s",
    "temperature": "degC",
    "voltage": "V",
    "pressure": "Pa",
    "stiffness": "N/m",
    "duration": "s",
}
IN_PINT = {
    "kgf": "kilogram_force",
    "lbf": "pound_force",
    "t": "metric_ton",
    "ft": "foot",
    "in": "inch",
    "lb/100 ft": "pound / hectofoot",
    "%": "percent",
    "°": "degree",
    "deg": "degree",
    "°C": "degC",
    "°F": "degF",
    "km/h": "kilometer / hour",
    "mph": "mile / hour",
    "months": "month",
    "years": "year",
    "d": "day",
    "h": "hour",
    "min": "minute",
    "g": "gram",
}
CASES = [(dimension, unit) for dimension in SI for unit in units_of(dimension)]


@functools.cache
def registry() -> pint.UnitRegistry[float]:
    return pint.UnitRegistry()


@pytest.mark.parametrize("number", ["1", "3.25", "-40"])
@pytest.mark.parametrize(("dimension", "unit"), CASES)
def test_factor(dimension: Dimension, unit: str, number: str) -> None:
    theirs = registry().Quantity(float(number), IN_PINT.get(unit, unit)).to(SI[dimension]).magnitude
    ours = parse_quantity(f"{number} {unit}", dimension)
    assert ours.si == pytest.approx(theirs, rel=1e-12, abs=1e-12)


@pytest.mark.parametrize(("dimension", "unit"), CASES)
def test_uncertainty_is_a_difference(dimension: Dimension, unit: str) -> None:
    """Half of the way between two values, so the offset of °F drops out."""
    high, low = (parse_quantity(f"{number} {unit}", dimension).si for number in (12, 8))
    spread = parse_quantity(f"10 {unit} ± 2 {unit}", dimension).plus_minus
    assert spread == pytest.approx((high - low) / 2, rel=1e-12)


@pytest.mark.parametrize("unit", units_of("force_or_mass"))
def test_a_rated_mass_means_its_weight(unit: str) -> None:
    theirs = registry().Quantity(2.0, IN_PINT.get(unit, unit))
    if theirs.check("[mass]"):
        theirs *= registry().Quantity(1.0, "standard_gravity")
    assert parse_quantity(f"2 {unit}", "force_or_mass").si == pytest.approx(
        theirs.to("N").magnitude, rel=1e-12
    )


def test_every_dimension_is_checked_here() -> None:
    assert set(get_args(Dimension)) == {*SI, "force_or_mass"}
    assert math.isclose(registry().Quantity(1.0, "standard_gravity").to("m/s**2").magnitude, 9.80665)
