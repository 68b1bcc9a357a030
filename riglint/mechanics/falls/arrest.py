"""The force on somebody whom a leash stops: leash and line as two springs in a row, without damping."""

from __future__ import annotations

from math import sqrt

from riglint.mechanics.roots import crossing
from riglint.mechanics.span.line import Equilibrium, Line, NoResult, hang
from riglint.mechanics.valid_range import STANDARD_GRAVITY_M_S2, require_within

_CLOSE = 1e-6
"""Of the energy released: how near the two sides of the balance come."""


def arrested_n(
    line: Line, mass_kg: float, height_m: float, leash_n_per_m: float, *, reference: Equilibrium
) -> float | NoResult:
    """Force (N) in a leash that stops a fall: E_line(P) − E_ref + P²/(2·k) = m·g·(h + y_ref − y(P) + P/k).

    Args:
        line: what the ring runs on.
        mass_kg: of who falls, 1 to 1000 kg.
        height_m: fall to where the leash is taut, 0 m or more.
        leash_n_per_m: stiffness k of the leash, 10 N/m to 1 GN/m.
        reference: the line before, at the place of the ring (its energy_j, load_y_m and load_n count).

    Returns:
        The force, or NoResult("too_slack") for a slack line without weight.

    Raises:
        ValueError: an argument outside its range.

    Valid: quasi-static: the line's own mass and the ring's, and so the snatch as both swing back, are left out. Time
    simulations gave 0.9 to 2.3 times this (own calculation), so it is a low edge; what a fixed ring would give, see
    `riglint.mechanics.falls.impact.fall_impact_n`, bounds it from above.

    Source: conservation of energy; own calculation.

    >>> from riglint.mechanics.span.cut import Reach, Webbing
    >>> from riglint.mechanics.span.stretch import StretchLaw
    >>> stiff = Line(50.0, 0.0, Reach(0.0), (Webbing(49.0, 0.5, StretchLaw.linear(1e9)),), Reach(0.0))
    >>> round(arrested_n(stiff, 80.0, 3.0, 10_000.0, reference=hang(stiff)))
    7669
    """
    require_within("mass in kg", mass_kg, 1.0, 1000.0)
    require_within("fall in m", height_m, 0.0, 500.0)
    require_within("stiffness of the leash in N/m", leash_n_per_m, 10.0, 1e9)
    weight_n, fraction, resting_n = mass_kg * STANDARD_GRAVITY_M_S2, reference.fraction, reference.load_n
    released_j = weight_n * height_m
    found: NoResult | None = None
    near = reference

    def surplus_j(force_n: float) -> float:
        """What line and leash store beyond what the fall gives; grows with the force above the weight."""
        nonlocal found, near
        load_n = resting_n + force_n
        rest = hang(
            line, load_n, fraction, near.forces_under(load_n, fraction) if near is not reference else None
        )
        if isinstance(rest, NoResult):
            found = rest
            return 0.0
        near = rest
        sunk_m, give_m = reference.load_y_m - rest.load_y_m, force_n / leash_n_per_m
        line_j = rest.energy_j - reference.energy_j - resting_n * sunk_m
        return line_j + 0.5 * force_n * give_m - released_j - weight_n * (sunk_m + give_m)

    low_n = weight_n  # whoever hangs at rest pulls by the weight, so no catch is softer
    low_j = surplus_j(low_n)
    if low_j >= 0.0 and found is None:
        return low_n
    high_n = weight_n + sqrt(
        weight_n * weight_n + 2.0 * weight_n * leash_n_per_m * height_m
    )  # a ring held fast
    high_j = 0.0 if found is not None else surplus_j(high_n)
    if high_j <= 0.0:
        return found or high_n
    return crossing(surplus_j, (low_n, low_j), (high_n, high_j), _CLOSE * max(released_j, weight_n))
