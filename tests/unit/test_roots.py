"""The root search: where it looks, how often, and when it says that there is none."""

from collections.abc import Callable
from math import inf, nextafter

import pytest

from riglint.mechanics.roots import crossing, falling_root


class Watched:
    """A function that remembers what it was asked."""

    def __init__(self, function: Callable[[float], float]) -> None:
        self.function = function
        self.asked: list[float] = []

    def __call__(self, argument: float) -> float:
        self.asked.append(argument)
        return self.function(argument)


def step_at(place: float, low: float = -1.0, high: float = 1.0) -> Callable[[float], float]:
    return lambda x: low if x < place else high


def test_roots() -> None:
    assert crossing(lambda x: x**3 - 2.0, (0.0, -2.0), (4.0, 62.0), 1e-12) == pytest.approx(2.0 ** (1 / 3))
    assert falling_root(lambda x: 1.0 / x - 0.01, 3.0, 0.1, 1e-3, 1e-12) == pytest.approx(100.0)
    assert falling_root(lambda x: 1.0 / x - 0.01, 300.0, 0.1, 1e-3, 1e-12) == pytest.approx(100.0)
    assert falling_root(lambda x: -1.0 - x, 3.0, 1.0, 0.0, 1e-12) is None
    assert falling_root(lambda x: 1.0 + (x - 5.0) ** 2, 3.0, 1.0, 0.0, 1e-12) is None


def test_a_value_just_close_enough_ends_the_search() -> None:
    bent = Watched(lambda x: 2.0 * x - 0.5)
    assert crossing(bent, (0.0, -1.0), (1.0, 1.0), 0.5) == 0.5
    assert bent.asked == [0.5]


@pytest.mark.parametrize(("low", "high"), [(-1e30, 1.0), (-1.0, 1e30)])
def test_where_a_chord_ends_at_an_end_the_middle_is_tried(low: float, high: float) -> None:
    step = Watched(step_at(0.3, low, high))
    crossing(step, (0.0, low), (1.0, high), 0.5)
    assert step.asked[0] == 0.5


def test_a_leap_is_narrowed_down_to_neighbours() -> None:
    leap = Watched(step_at(0.7))
    found = crossing(leap, (0.5, -1.0), (1.0, 1.0), 0.0)
    assert found in {0.7, nextafter(0.7, -inf)}
    assert len(leap.asked) < 64  # a number has 53 binary digits


def test_a_leap_next_to_nothing_is_left_after_a_hundred_looks() -> None:
    leap = Watched(step_at(1e-300))
    assert abs(crossing(leap, (-1.0, -1.0), (2.0, 1.0), 0.0)) < 1e-25
    assert len(leap.asked) == 100


def test_a_step_that_lands_on_the_root_is_the_last() -> None:
    straight = Watched(lambda x: 3.0 - x)
    assert falling_root(straight, 1.0, 2.0, 0.0, 0.0) == 3.0
    assert straight.asked == [1.0, 3.0]


def test_a_guess_that_is_close_enough_is_kept() -> None:
    straight = Watched(lambda x: 3.0 - x)
    assert falling_root(straight, 2.5, 2.0, 0.0, 0.5) == 2.5
    assert straight.asked == [2.5]


def test_a_function_that_stays_level_has_no_root() -> None:
    level = Watched(lambda _: 1.0)
    assert falling_root(level, 1.0, 1.0, 0.0, 1e-9) is None
    assert level.asked == [1.0, 2.0]


def test_below_zero_at_the_floor_there_is_no_root() -> None:
    below = Watched(lambda x: -1.0 - x)
    assert falling_root(below, 2.0, 2.0, 0.0, 1e-9) is None
    assert below.asked == [2.0, 0.0]
    assert falling_root(below, -5.0, 2.0, 0.0, 1e-9) is None  # the guess is raised to the floor
