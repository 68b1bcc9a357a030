"""Wind across a flat line: drag per metre, and its sum with the weight. No flutter, no galloping."""

import math

from riglint.mechanics.valid_range import require_within

ROUND_ROPE_DRAG = 1.2  # long cylinder, the same page
FLAT_BAND_DRAG = 2.0  # long flat plate across the flow, rounded up from 1.98
AIR_DENSITY_KG_PER_M3 = 1.25  # EN 1991-1-4


def drag_n_per_m(
    speed_m_per_s: float,
    width_m: float,
    *,
    drag_coefficient: float = FLAT_BAND_DRAG,
    air_density_kg_per_m3: float = AIR_DENSITY_KG_PER_M3,
) -> float:
    """Drag on one metre of line: ½·ρ·v²·Cd·b.

    Args:
        speed_m_per_s: wind v across the line, 0 to 60 m/s.
        width_m: b facing the wind, 1 mm to 2 m.
        drag_coefficient: the coefficient Cd, 0.5 to 3.
        air_density_kg_per_m3: ρ, 0.5 to 1.6 kg/m³.

    Returns:
        The drag in N/m.

    Raises:
        ValueError: an argument outside its range.

    Valid: steady wind; no flutter, no galloping.

    Source: drag equation; Cd 1.98 of a long flat plate, Aeronautical Engineer's Data Book, p. 95.

    >>> drag_n_per_m(20.0, 0.025)
    12.5
    """
    require_within("wind speed in m/s", speed_m_per_s, 0.0, 60.0)
    require_within("width in m", width_m, 0.001, 2.0)
    require_within("drag coefficient", drag_coefficient, 0.5, 3.0)
    require_within("air density in kg/m³", air_density_kg_per_m3, 0.5, 1.6)
    return 0.5 * air_density_kg_per_m3 * speed_m_per_s**2 * drag_coefficient * width_m


def resultant_n_per_m(weight_n_per_m: float, drag_per_m_n: float) -> float:
    """Weight and drag on one metre as one force across the line: √(w² + f²).

    Args:
        weight_n_per_m: w, 0 to 1000 N/m.
        drag_per_m_n: f, 0 to 1000 N/m.

    Returns:
        The force in N/m. The line hangs in its plane, tilted by atan(f/w).

    Raises:
        ValueError: an argument outside its range.

    Valid: wind square to the line.

    Source: vector sum.

    >>> round(resultant_n_per_m(0.6, 12.5), 3)
    12.514
    """
    require_within("weight per metre", weight_n_per_m, 0.0, 1000.0)
    require_within("drag per metre", drag_per_m_n, 0.0, 1000.0)
    return math.hypot(weight_n_per_m, drag_per_m_n)


def drag_n(
    speed_m_per_s: float, drag_area_m2: float, *, air_density_kg_per_m3: float = AIR_DENSITY_KG_PER_M3
) -> float:
    """Drag on a body: ½·ρ·v²·(Cd·A).

    Args:
        speed_m_per_s: wind v, 0 to 60 m/s.
        drag_area_m2: Cd·A, 0.01 to 10 m².
        air_density_kg_per_m3: ρ, 0.5 to 1.6 kg/m³.

    Returns:
        The drag in N.

    Raises:
        ValueError: an argument outside its range.

    Valid: steady wind.

    Source: drag equation.

    >>> drag_n(10.0, 0.84)
    52.5
    """
    require_within("wind speed in m/s", speed_m_per_s, 0.0, 60.0)
    require_within("drag area in m²", drag_area_m2, 0.01, 10.0)
    require_within("air density in kg/m³", air_density_kg_per_m3, 0.5, 1.6)
    return 0.5 * air_density_kg_per_m3 * speed_m_per_s**2 * drag_area_m2
