"""Strength of accessory cord."""

from riglint.mechanics.valid_range import require_within

STRENGTH_PER_DIAMETER_SQUARED_PA = 200e6  # 0.2 kN/mm²; often quoted as 20·d², which is in daN


def cord_strength_n(diameter_m: float) -> float:
    """Least strength (N) of accessory cord to EN 564, new, straight, no knot: 0.2·d² kN with d in mm.

    `diameter_m` 4 to 8 mm, the range of the standard. ValueError outside. Source: EN 564, read in a maker's
    table.

    >>> round(cord_strength_n(0.007))
    9800
    """
    require_within("cord diameter in mm", round(diameter_m * 1e3, 6), 4.0, 8.0)
    return STRENGTH_PER_DIAMETER_SQUARED_PA * diameter_m**2
