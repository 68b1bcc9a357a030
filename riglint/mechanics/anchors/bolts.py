"""Anchors made of points: bolts under an oblique pull, how legs share, and a boulder that must not slide."""

import math
from typing import Literal

from riglint.mechanics.anchors.sling import leg_force_n
from riglint.mechanics.valid_range import STANDARD_GRAVITY_M_S2, Numbers, require_force, require_within
from riglint.records import dataclass

# EN 959:2018, clause 4.3, in the test block of the standard. The rock decides, not the bolt.
RADIAL_STRENGTH_N = 25_000.0
AXIAL_STRENGTH_N = 15_000.0

Share = Literal["fixed", "sliding", "sliding_limited", "slack_spare"]


@dataclass(frozen=True, slots=True)
class BoltPull(Numbers):
    """A pull on a bolt, N: `radial_n` across the bolt's axis, `axial_n` along it."""

    radial_n: float
    axial_n: float


def bolt_pull(force_n: float, from_radial_rad: float) -> BoltPull:
    """Split a pull by its angle from the radial plane: radial F·cos α, axial F·sin α.

    Args:
        force_n: the pull F, 0 to 1 MN.
        from_radial_rad: angle α from the radial plane, 0 to π/2 rad.

    Returns:
        Its two parts in N.

    Raises:
        ValueError: an argument outside its range.

    Valid: one pull in one plane through the bolt's axis.

    Source: statics.

    >>> pull = bolt_pull(10000.0, math.radians(30))
    >>> (round(pull.radial_n), round(pull.axial_n))
    (8660, 5000)
    """
    require_force("pull on the bolt", force_n)
    require_within("angle from radial in rad", from_radial_rad, 0.0, math.pi / 2)
    return BoltPull(force_n * math.cos(from_radial_rad), force_n * math.sin(from_radial_rad))


def bolt_use(
    pull: BoltPull,
    *,
    radial_strength_n: float = RADIAL_STRENGTH_N,
    axial_strength_n: float = AXIAL_STRENGTH_N,
) -> float:
    """Share of a bolt's strength in use: axial/axial strength + radial/radial strength; at most 1/ratio.

    Args:
        pull: both parts of the pull, each 0 to 1 MN.
        radial_strength_n: strength across the axis, 1 kN to 1 MN.
        axial_strength_n: strength along the axis, 1 kN to 1 MN.

    Returns:
        The share, 1 where the bolt is at its strength.

    Raises:
        ValueError: an argument outside its range.

    Valid: sound rock; a tested bolt brings its own strengths.

    Source: linear interaction, the cautious one; strengths EN 959:2018 unless the bolt was tested.

    >>> round(bolt_use(BoltPull(radial_n=5000.0, axial_n=3000.0)), 2)
    0.4
    """
    require_force("radial pull", pull.radial_n)
    require_force("axial pull", pull.axial_n)
    require_within("radial strength in N", radial_strength_n, 1e3, 1e6)
    require_within("axial strength in N", axial_strength_n, 1e3, 1e6)
    return pull.axial_n / axial_strength_n + pull.radial_n / radial_strength_n


def leg_forces_n(tension_n: float, legs: int, share: Share, included_angle_rad: float) -> tuple[float, ...]:
    """Force at which each leg of an anchor is to be judged: T for one, T/(2·cos(θ/2)) each for two or more.

    Args:
        tension_n: the tension T, 0 to 1 MN.
        legs: how many, 1 to 10.
        share: how they share; `slack_spare`: the first carries all, the spares nothing until it goes.
        included_angle_rad: θ between the outer legs, 0 to 3.1 rad.

    Returns:
        The force in N of each leg, in their order.

    Raises:
        ValueError: an argument outside its range.

    Valid: of three or more only two are credited, and which two is not known, so each is judged as one of two.
    Judge the loss of a `slack_spare` leg anew with fewer legs. `sliding` evens out two legs and is credited no more
    than `fixed`.

    Source: statics; the two-legs rule is common practice, no source.

    >>> [round(force_n) for force_n in leg_forces_n(6000.0, 3, "fixed", math.radians(60))]
    [3464, 3464, 3464]
    """
    require_force("tension", tension_n)
    require_within("number of legs", legs, 1, 10)
    if share == "slack_spare":
        return (tension_n,) + (0.0,) * (legs - 1)
    if legs == 1:
        return (tension_n,)
    return (leg_force_n(tension_n, included_angle_rad),) * legs


def boulder_resistance_n(mass_kg: float, mu: float, uplift_n: float = 0.0) -> float:
    """Force along level ground at which a boulder starts to slide: μ·(m·g − uplift), not below 0.

    Args:
        mass_kg: the boulder's mass m, 10 to 1e7 kg.
        mu: friction coefficient μ of rock on its bed, 0 to 1.
        uplift_n: upward part of the pull, 0 to 1 MN; a downward part is not credited.

    Returns:
        The force in N.

    Raises:
        ValueError: an argument outside its range.

    Valid: level ground and no tipping.

    Source: Coulomb friction.

    >>> round(boulder_resistance_n(5000.0, 0.4, uplift_n=2000.0))
    18813
    """
    require_within("boulder mass in kg", mass_kg, 10.0, 1e7)
    require_within("friction coefficient", mu, 0.0, 1.0)
    require_force("uplift", uplift_n)
    return mu * max(mass_kg * STANDARD_GRAVITY_M_S2 - uplift_n, 0.0)
