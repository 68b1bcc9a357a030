"""A mass stopped by a spring or by a rope. Undamped, so upper estimates."""

import math

from riglint.mechanics.valid_range import STANDARD_GRAVITY_M_S2, require_force, require_within


def spring_impact_n(weight_n: float, stiffness_n_per_m: float, drop_m: float) -> float:
    """Peak force when a weight W falls h and a linear spring k stops it: W + √(W² + 2·W·k·h).

    Args:
        weight_n: W, 0 to 1 MN.
        stiffness_n_per_m: k, 1 to 1e9 N/m.
        drop_m: free fall h, 0 to 500 m; with 0 the peak is 2·W.

    Returns:
        The peak in N.

    Raises:
        ValueError: an argument outside its range.

    Valid: no damping, so an upper estimate.

    Source: Gere & Timoshenko, Mechanics of Materials, section 2.8 (energy balance).

    >>> round(spring_impact_n(5.0, 90.0, 0.2) / 90.0, 3)
    0.215
    """
    require_force("weight", weight_n)
    require_within("stiffness in N/m", stiffness_n_per_m, 1.0, 1e9)
    require_within("drop in m", drop_m, 0.0, 500.0)
    return weight_n + math.sqrt(weight_n**2 + 2 * weight_n * stiffness_n_per_m * drop_m)


def fall_impact_n(mass_kg: float, modulus_n: float, fall_factor: float) -> float:
    """Peak force of a fall into a rope: W + √(W² + 2·W·κ·f), W = m·g, f = drop over rope length.

    Args:
        mass_kg: m, 1 to 1000 kg.
        modulus_n: κ, the force for a stretch of 1, 100 N to 1e8 N.
        fall_factor: the ratio f of drop to rope length, 0 to 2.

    Returns:
        The peak in N.

    Raises:
        ValueError: an argument outside its range.

    Valid: no damping, so an upper estimate.

    Source: spring impact with k = κ/L and h = f·L (Wexler 1950, from memory).

    >>> round(fall_impact_n(80.0, 24_081.0, 0.3))
    4242
    """
    require_within("mass in kg", mass_kg, 1.0, 1000.0)
    require_within("rope modulus in N", modulus_n, 100.0, 1e8)
    require_within("fall factor", fall_factor, 0.0, 2.0)
    return spring_impact_n(mass_kg * STANDARD_GRAVITY_M_S2, modulus_n, fall_factor)
