"""Rope round a post or trunk: the capstan equation, and what the hand must hold while lowering.

The equation knows no rope stiffness: small radii and stiff rope break it. Holding is judged with a low
friction coefficient, pulling with a high one.
"""

import math

from riglint.mechanics.valid_range import require_force, require_within

# Our model takes 0.25 to 0.45 for rope on bark; more than 1.5 is a slip of the pen.
MOST_FRICTION = 1.5
# At 0.25 ten turns hold millions of times the hand: nobody lays more.
MOST_TURNS = 10.0


def capstan_ratio(mu: float, turns: float) -> float:
    """Tight side over slack side, e^(2π·μ·N).

    Args:
        mu: friction coefficient μ, 0 to 1.5.
        turns: full turns of contact N, 0 to 10.

    Returns:
        The ratio, 1 or more.

    Raises:
        ValueError: an argument outside its range.

    Valid: limp rope round a radius that is large beside it.

    Source: Euler-Eytelwein capstan equation.

    >>> round(capstan_ratio(0.25, 1.0), 2)
    4.81
    """
    require_within("friction coefficient", mu, 0.0, MOST_FRICTION)
    require_within("number of turns", turns, 0.0, MOST_TURNS)
    return math.exp(2 * math.pi * mu * turns)


def hold_force_n(lead_n: float, brake_efficiency: float, mu: float, turns: float) -> float:
    """Force that the hand must hold: lead·η_b·e^(−2π·μ·N).

    Args:
        lead_n: force in the lead strand, 0 to 1 MN.
        brake_efficiency: share η_b that an open brake passes on, 0.1 to 1.
        mu: friction coefficient of rope on bark, the low value, 0 to 1.5.
        turns: turns N round the trunk, 0 to 10.

    Returns:
        The force in N.

    Raises:
        ValueError: an argument outside its range.

    Valid: as `capstan_ratio`.

    Source: capstan equation.

    >>> round(hold_force_n(1200.0, 0.5, 0.25, 0.5))
    274
    """
    require_force("lead force", lead_n)
    require_within("brake efficiency", brake_efficiency, 0.1, 1.0)
    return lead_n * brake_efficiency / capstan_ratio(mu, turns)


def turns_to_hold(lead_n: float, hand_n: float, brake_efficiency: float, mu: float) -> float:
    """Turns of contact with which a hand holds the lead: ln(lead·η_b/hand)/(2π·μ).

    Args:
        lead_n: force in the lead strand, 0 to 1 MN.
        hand_n: force of the hand, 1 N to 1 MN.
        brake_efficiency: share η_b that an open brake passes on, 0.1 to 1.
        mu: friction coefficient μ, 0.01 to 1.5.

    Returns:
        The turns N; 0 when the hand holds it without any.

    Raises:
        ValueError: an argument outside its range.

    Valid: as `capstan_ratio`.

    Source: capstan equation, solved for the angle.

    >>> round(turns_to_hold(1200.0, 300.0, 0.5, 0.25), 2)
    0.44
    """
    require_force("lead force", lead_n)
    require_within("hand force", hand_n, 1.0, 1e6)
    require_within("brake efficiency", brake_efficiency, 0.1, 1.0)
    require_within("friction coefficient", mu, 0.01, MOST_FRICTION)
    # A lead that the hand holds anyway needs no turn; the formula would ask for less than none.
    times_the_hand = max(lead_n * brake_efficiency / hand_n, 1.0)
    return math.log(times_the_hand) / (2 * math.pi * mu)
