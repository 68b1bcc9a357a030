"""The catch of a slack tie-back when the part that it bypasses fails."""

import math

from riglint.mechanics.valid_range import require_force, require_within


def catch_bound_n(tension_n: float, stiffness_n_per_m: float, slack_m: float) -> float:
    """Upper bound of the force in a slack tie-back: T + √(T² + 2·k·T·s).

    Args:
        tension_n: the line's tension T, 0 to 1 MN.
        stiffness_n_per_m: k of the tie-back, 1 kN/m to 1 GN/m.
        slack_m: s, 0 to 10 m.

    Returns:
        The force in N.

    Raises:
        ValueError: an argument outside its range.

    Valid: T is taken as constant while the line's end runs through the slack and stretches the tie-back, a linear
    spring; as the line gives, its tension falls, so the true force is lower.

    Source: energy balance, T·(s + δ) = ½·k·δ².

    >>> round(catch_bound_n(6000.0, 130e3, 0.2) / 1000, 1)
    24.7
    """
    require_force("tension", tension_n)
    require_within("stiffness in N/m", stiffness_n_per_m, 1e3, 1e9)
    require_within("slack in m", slack_m, 0.0, 10.0)
    return tension_n + math.sqrt(tension_n**2 + 2 * stiffness_n_per_m * tension_n * slack_m)


def catch_n(tension_n: float, stiffness_n_per_m: float, slack_m: float, line_n_per_m: float) -> float:
    """Force in the tie-back: k·δ with T·(s + δ) − ½·k_L·(s + δ)² = ½·k·δ², solved for δ.

    Args:
        tension_n: the line's tension T, 0 to 1 MN.
        stiffness_n_per_m: k of the tie-back, 1 kN/m to 1 GN/m.
        slack_m: s, 0 to 10 m.
        line_n_per_m: tension k_L that the line's end gives up for each metre that it runs, 0 to 1 MN/m; with 0 this
            is `catch_bound_n`.

    Returns:
        The force in N. Where no tension is left before the catch is over, all that the line held arrives: ½·T²/k_L
        = ½·k·δ².

    Raises:
        ValueError: an argument outside its range.

    Valid: tension that falls evenly; no mass, no damping.

    Source: energy balance.

    >>> round(catch_n(6000.0, 130e3, 0.2, 0.0) / 1000, 1)
    24.7
    >>> round(catch_n(6000.0, 130e3, 0.2, 8000.0) / 1000, 1)
    20.6
    """
    bound_n = catch_bound_n(tension_n, stiffness_n_per_m, slack_m)
    require_within("the line's stiffness in N/m", line_n_per_m, 0.0, 1e6)
    if line_n_per_m == 0.0:
        return bound_n
    runs_m = tension_n / line_n_per_m  # until nothing is left of the tension
    left_n = tension_n - line_n_per_m * slack_m
    released_j = (tension_n - 0.5 * line_n_per_m * slack_m) * slack_m
    both = stiffness_n_per_m + line_n_per_m
    if left_n > 0.0:
        stretch_m = (left_n + math.sqrt(left_n**2 + 2 * both * released_j)) / both
        if slack_m + stretch_m <= runs_m:
            return stiffness_n_per_m * stretch_m
    # Slack before the catch is over: the line has given all that it stored, ½·T²/k_L.
    return min(bound_n, math.sqrt(stiffness_n_per_m / line_n_per_m) * tension_n)
