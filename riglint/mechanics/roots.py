"""Where a function of one number crosses zero."""

from __future__ import annotations

from collections.abc import Callable
from math import copysign

Point = tuple[float, float]
"""An argument and the value of the function there."""

_ITERATIONS = 100  # halved 53 times a bracket is down to rounding


def crossing(function: Callable[[float], float], low: Point, high: Point, close_enough: float) -> float:
    """The argument between two points of opposite sign where the function is within `close_enough` of zero.

    Chords with the stale end's value halved (the Illinois rule), so both ends move; needs no derivative.
    Stops as well when the bracket is as narrow as rounding allows.
    """
    (a, at_a), (b, at_b) = low, high
    for _ in range(_ITERATIONS):
        middle = b - at_b * (b - a) / (at_b - at_a)
        if not min(a, b) < middle < max(a, b):
            middle = 0.5 * (a + b)
        if middle in {a, b}:  # neighbours
            return b
        at_middle = function(middle)
        if abs(at_middle) <= close_enough:
            return middle
        if copysign(1.0, at_middle) == copysign(1.0, at_b):
            at_a *= 0.5
        else:
            a, at_a = b, at_b
        b, at_b = middle, at_middle
    return b


def falling_root(
    function: Callable[[float], float], guess: float, step: float, floor: float, close_enough: float
) -> float | None:
    """The root of a function that falls from `floor` up to its root and somewhat beyond.

    Args:
        function: what shall become zero.
        guess: a start near the root.
        step: first step away from the guess; doubled until the sign changes.
        floor: least argument allowed.
        close_enough: how near to zero counts.

    Returns:
        The root; None when the value at the floor is below zero already, or rises again before zero.
    """
    here = (max(guess, floor), function(max(guess, floor)))
    while abs(here[1]) > close_enough:
        above = here[1] > 0.0
        if not above and here[0] <= floor:
            return None
        argument = here[0] + step if above else max(here[0] - step, floor)
        there = (argument, function(argument))
        # It turned before it came to zero, as end tension does in webbing so long that it just hangs.
        if above and there[1] >= here[1]:
            return None
        if here[1] * there[1] < 0.0:
            return crossing(function, here, there, close_enough)
        here, step = there, 2.0 * step
    return here[0]
