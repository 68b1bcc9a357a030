"""Bending of a round stem. It judges the stem only: roots, decay, forks and lean are not in it."""

import math
from collections.abc import Mapping
from types import MappingProxyType
from typing import Literal

from riglint.mechanics.valid_range import OutOfRange, require_force, require_within

Bark = Literal["smooth", "rough"]

# Common practice, no source. Policy: the caller may pass its own table.
BARK_THICKNESS_M: Mapping[Bark, float] = MappingProxyType({"smooth": 0.010, "rough": 0.030})
BASIC_SAFETY = 1.5  # capacity over load asked for in tree statics


def inner_diameter_m(
    girth_m: float, bark: Bark | None, thickness_m: Mapping[Bark, float] = BARK_THICKNESS_M
) -> float:
    """Diameter of the wood inside the bark: C/π − 2·bark.

    Args:
        girth_m: girth C over the bark, 0.2 to 30 m.
        bark: smooth or rough; None, not known, counts as rough, the thicker.
        thickness_m: thickness of each kind of bark, m.

    Returns:
        The diameter in m.

    Raises:
        ValueError: an argument outside its range, or no wood left.

    Valid: a round stem.

    Source: geometry; the bark thickness is common practice, no source.

    >>> round(inner_diameter_m(1.5, "smooth"), 3)
    0.457
    """
    require_within("girth in m", girth_m, 0.2, 30.0)
    diameter_m = girth_m / math.pi - 2 * thickness_m[bark or "rough"]
    if diameter_m <= 0:
        raise OutOfRange(f"no wood left inside the bark of a stem {girth_m:g} m round")
    return diameter_m


def section_modulus_m3(diameter_m: float, cavity_m: float = 0.0) -> float:
    """Section modulus W of a round stem, hollow or not: π·(D⁴ − d⁴)/(32·D).

    Args:
        diameter_m: D, 0.01 to 10 m.
        cavity_m: d of a central cavity, 0 to 0.99·D, m.

    Returns:
        W in m³.

    Raises:
        ValueError: an argument outside its range.

    Valid: a cavity in the middle, with no opening to the side.

    Source: beam theory, circular and annular section.

    >>> round(section_modulus_m3(0.40), 8)
    0.00628319
    """
    require_within("diameter in m", diameter_m, 0.01, 10.0)
    require_within("cavity over diameter", cavity_m / diameter_m, 0.0, 0.99)
    return math.pi * (diameter_m**4 - cavity_m**4) / (32 * diameter_m)


def bending_stress_pa(force_n: float, height_m: float, diameter_m: float) -> float:
    """Bending stress of a solid stem under a level pull: 32·T·h/(π·d³).

    Args:
        force_n: the pull T, 0 to 1 MN.
        height_m: height h of the pull above the section judged, 0 to 50 m.
        diameter_m: d inside the bark, 0.01 to 10 m.

    Returns:
        The stress in Pa.

    Raises:
        ValueError: an argument outside its range.

    Valid: the pull alone: the stem's own weight and wind are not in it.

    Source: beam theory.

    >>> round(bending_stress_pa(8000.0, 1.0, 0.40) / 1e6, 3)
    1.273
    """
    require_force("pull on the stem", force_n)
    require_within("height of the pull in m", height_m, 0.0, 50.0)
    return force_n * height_m / section_modulus_m3(diameter_m)


def allowable_stress_pa(compression_pa: float, quality: float, safety: float = BASIC_SAFETY) -> float:
    """Stress that a green stem is credited with: compression strength/(safety·quality).

    Args:
        compression_pa: strength parallel to grain, 1 to 100 MPa.
        quality: a factor, 1 to 10, for the step from small clear specimens to a standing tree (2.0 for a stem that
            looks sound: own choice).
        safety: a factor, 1 to 10.

    Returns:
        The stress in Pa.

    Raises:
        ValueError: an argument outside its range.

    Valid: green wood in bending: it fails first on the compressed side, hence compression strength, not modulus of
    rupture.

    Source: SAG Baumstatik, pulling test (compression first) and load analysis (1.5).

    >>> round(allowable_stress_pa(25.9e6, 2.0) / 1e6, 2)
    8.63
    """
    require_within("compression strength in Pa", compression_pa, 1e6, 1e8)
    require_within("quality factor", quality, 1.0, 10.0)
    require_within("safety", safety, 1.0, 10.0)
    return compression_pa / (safety * quality)
