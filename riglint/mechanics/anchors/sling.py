"""A sling in basket round a trunk: length, included angle, reach, leg force, and the mode factor of EN 1492.

All angles are *included* angles at the shackle, between the two legs. Lifting tables give the angle of one
leg from the vertical, half of it. The trunk is taken as round; a protector under the sling makes the girth
larger.
"""

import math
from typing import Literal

from riglint.mechanics.roots import crossing
from riglint.mechanics.valid_range import OutOfRange, require_force, require_within

Hitch = Literal["straight", "basket", "choke", "larks_foot", "wrap"]

LEAST_ANGLE_RAD = 1e-3  # at 0 the legs are parallel and the length has no bound
LARGEST_LENGTH_TO_GIRTH = 20.0  # legs 2° apart, which to force and mode factor is parallel
ROUNDING_RAD = 1e-9  # 90° typed in degrees must not fall into the next band


def _require_girth(girth_m: float) -> None:
    require_within("girth in m", girth_m, 0.05, 30.0)


def length_for_angle(girth_m: float, angle_rad: float) -> float:
    """Working length ℓ, shackle to shackle round the trunk: ℓ/C = (2·cot(θ/2) + π + θ)/(2π).

    Args:
        girth_m: girth C that it goes round, 0.05 to 30 m.
        angle_rad: included angle θ, 0.001 to π rad.

    Returns:
        ℓ in m.

    Raises:
        ValueError: an argument outside its range.

    Valid: a round trunk, the sling in basket.

    Source: geometry, two tangents and the arc between them.

    >>> round(length_for_angle(1.0, math.radians(90)), 3)
    1.068
    """
    _require_girth(girth_m)
    require_within("included angle in rad", angle_rad, LEAST_ANGLE_RAD, math.pi)
    return girth_m * (2 / math.tan(angle_rad / 2) + math.pi + angle_rad) / (2 * math.pi)


def included_angle_rad(sling_length_m: float, girth_m: float) -> float:
    """Included angle θ at which a sling closes round a trunk: `length_for_angle` solved for θ.

    Args:
        sling_length_m: working length ℓ, above C and up to 20·C, m.
        girth_m: girth C, 0.05 to 30 m.

    Returns:
        θ in rad; ℓ falls steadily as θ grows.

    Raises:
        ValueError: "too short" for ℓ ≤ C, since the legs cannot meet; an argument outside its range.

    Valid: as `length_for_angle`.

    Source: geometry.

    >>> round(math.degrees(included_angle_rad(1.218, 1.0)), 1)
    60.0
    """
    _require_girth(girth_m)
    ratio = sling_length_m / girth_m
    if ratio <= 1:
        raise OutOfRange(f"too short: {sling_length_m:g} m of sling round {girth_m:g} m of trunk")
    require_within("sling length over girth", ratio, 1.0, LARGEST_LENGTH_TO_GIRTH)
    turned = 2 * math.pi * ratio - math.pi

    def too_long(angle_rad: float) -> float:
        return 2 / math.tan(angle_rad / 2) + angle_rad - turned  # the formula of `length_for_angle`

    narrow, wide = 4 / turned, math.pi  # 2·cot(θ/2) + θ is more than 4/θ
    return crossing(too_long, (narrow, too_long(narrow)), (wide, too_long(wide)), 0.0)


def reach_from_face_m(girth_m: float, angle_rad: float) -> float:
    """Distance from the trunk's face to where the legs meet: (D/2)·(1/sin(θ/2) − 1), D = C/π.

    Args:
        girth_m: girth C, 0.05 to 30 m.
        angle_rad: included angle θ, 0.001 to π rad.

    Returns:
        The distance in m.

    Raises:
        ValueError: an argument outside its range.

    Valid: as `length_for_angle`.

    Source: geometry.

    >>> round(reach_from_face_m(1.5, math.radians(60)), 3)
    0.239
    """
    _require_girth(girth_m)
    require_within("included angle in rad", angle_rad, LEAST_ANGLE_RAD, math.pi)
    return girth_m / (2 * math.pi) * (1 / math.sin(angle_rad / 2) - 1)


def leg_force_n(tension_n: float, angle_rad: float) -> float:
    """Force in each of two equal legs that hold a tension: T/(2·cos(θ/2)).

    Args:
        tension_n: the tension T, 0 to 1 MN.
        angle_rad: included angle θ, 0 to 3.1 rad (178°; beyond it the force has no bound).

    Returns:
        The force in N.

    Raises:
        ValueError: an argument outside its range.

    Valid: two legs of one length, the pull halfway between them.

    Source: statics.

    >>> round(leg_force_n(1000.0, math.radians(120)))
    1000
    """
    require_force("tension", tension_n)
    require_within("included angle in rad", angle_rad, 0.0, 3.1)
    return tension_n / (2 * math.cos(angle_rad / 2))


def mode_factor(hitch: Hitch, angle_rad: float | None = None) -> float | None:
    """Mode factor M of EN 1492, strength in the hitch over straight strength; looked up, no equation.

    Args:
        hitch: straight, choke, larks_foot, basket or wrap.
        angle_rad: included angle, 0 to π rad; needed for basket and wrap only.

    Returns:
        Straight 1.0; choke and lark's foot 0.8; basket 2.0 with parallel legs, 1.4 up to 90° included (45° from the
        vertical), 1.0 up to 120°, and None beyond, where the standard gives none.

    Raises:
        ValueError: an angle outside its range or missing, or another hitch.

    Valid: a wrap (once round, ends as in basket) has no row of its own: it counts as a basket, its grip on the bark
    is not credited.

    Source: EN 1492-1 and -2, table of mode factors, read in a sling user manual.

    >>> mode_factor("basket", math.radians(60))
    1.4
    """
    if hitch == "straight":
        return 1.0
    if hitch in ("choke", "larks_foot"):
        return 0.8
    if hitch not in ("basket", "wrap"):
        raise ValueError(f"no mode factor for the hitch {hitch!r}")
    if angle_rad is None:
        raise ValueError(f"the mode factor of a {hitch} needs the included angle")
    require_within("included angle in rad", angle_rad, 0.0, math.pi)
    bands = ((0.0, 2.0), (math.pi / 2, 1.4), (2 * math.pi / 3, 1.0))
    return next((factor for limit, factor in bands if angle_rad <= limit + ROUNDING_RAD), None)
