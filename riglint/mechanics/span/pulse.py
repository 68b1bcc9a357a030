"""Tension and sag from the travel time of a pulse along the unloaded line, both ends fixed."""

import math

from riglint.mechanics.valid_range import STANDARD_GRAVITY_M_S2, Numbers, require_within
from riglint.records import dataclass


@dataclass(frozen=True, slots=True)
class PulseReading(Numbers):
    """Mean tension (N) of the line, and its first-order uncertainty (N)."""

    tension_n: float
    uncertainty_n: float


def tension_from_pulse(
    mass_per_m: float,
    length_m: float,
    time_s: float,
    returns: int = 1,
    *,
    mass_per_m_error: float = 0.0,
    length_error_m: float = 0.0,
    time_error_s: float = 0.0,
) -> PulseReading:
    """Mean tension of a line from round trips of a pulse: T = μ·(2·L/t)², t = time/returns.

    Args:
        mass_per_m: μ of the *stretched* line, all that swings along counted in, 1e-5 to 10 kg/m.
        length_m: L between the fittings, 1 to 5000 m.
        time_s: of all returns, 0.01 to 3600 s.
        returns: round trips, 1 to 1000.
        mass_per_m_error: standard uncertainty of μ, 0 to μ, kg/m.
        length_error_m: standard uncertainty of L, 0 to L, m.
        time_error_s: standard uncertainty of the time, 0 to the time, s.

    Returns:
        Tension and its uncertainty in N; errors combine as dT/T = √((dμ/μ)² + (2·dL/L)² + (2·dt/t)²).

    Raises:
        ValueError: an argument outside its range.

    Valid: an unloaded line with both ends held, small swings.

    Source: wave speed on a string √(T/μ), OpenStax University Physics 1, section 16.3.

    >>> reading = tension_from_pulse(0.06, 100.0, 6.9282, returns=10, time_error_s=0.1)
    >>> (round(reading.tension_n), round(reading.uncertainty_n))
    (5000, 144)
    """
    require_within("mass per metre", mass_per_m, 1e-5, 10.0)
    require_within("length in m", length_m, 1.0, 5000.0)
    require_within("time in s", time_s, 0.01, 3600.0)
    require_within("number of returns", returns, 1, 1000)
    require_within("error of the mass per metre", mass_per_m_error, 0.0, mass_per_m)
    require_within("error of the length in m", length_error_m, 0.0, length_m)
    require_within("error of the time in s", time_error_s, 0.0, time_s)
    tension_n = mass_per_m * (2 * length_m * returns / time_s) ** 2
    relative = math.hypot(
        mass_per_m_error / mass_per_m, 2 * length_error_m / length_m, 2 * time_error_s / time_s
    )
    return PulseReading(tension_n, tension_n * relative)


def sag_from_pulse_m(time_s: float, returns: int = 1) -> float:
    """Sag of the bare line below its chord from the same timing, without its mass: g·t²/32.

    Args:
        time_s: of all returns, 0.01 to 3600 s.
        returns: round trips, 1 to 1000; t is one of them.

    Returns:
        The sag in m.

    Raises:
        ValueError: an argument outside its range.

    Valid: small sag (parabola).

    Source: USDA RUS Bulletin 1726C-115 (1998), return wave method.

    >>> round(sag_from_pulse_m(10.0, returns=3), 3)
    3.405
    """
    require_within("time in s", time_s, 0.01, 3600.0)
    require_within("number of returns", returns, 1, 1000)
    return STANDARD_GRAVITY_M_S2 * (time_s / returns) ** 2 / 32
