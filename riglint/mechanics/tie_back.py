"""The catch of a slack tie-back when the part that it bypasses fails."""

import math

from riglint.mechanics.valid_range import require_force, require_within


def catch_bound_n(tension_n: float, stiffness_n_per_m: float, slack_m: float) -> float:
    """Upper bound (N) of the force in the tie-back: T + √(T² + 2·k·T·s).

    The line's tension T is taken as constant while its end runs through the slack s and stretches the
    tie-back, a linear spring k; as the line gives, its tension falls, so the true force is lower. `tension_n`
    0 to 1 MN, `stiffness_n_per_m` 1 kN/m to 1 GN/m, `slack_m` 0 to 10 m. ValueError outside. Source: energy
    balance, T·(s + δ) = ½·k·δ².

    >>> round(catch_bound_n(6000.0, 130e3, 0.2) / 1000, 1)
    24.7
    """
    require_force("tension", tension_n)
    require_within("stiffness in N/m", stiffness_n_per_m, 1e3, 1e9)
    require_within("slack in m", slack_m, 0.0, 10.0)
    return tension_n + math.sqrt(tension_n**2 + 2 * stiffness_n_per_m * tension_n * slack_m)
