"""Lengths for a tension at the ends of what exists: hardly any room, hardly any webbing, hardly any tension."""

from itertools import pairwise

import pytest

from riglint.mechanics.span import standing
from riglint.mechanics.span.cut import Line, Reach, Webbing
from riglint.mechanics.span.line import Equilibrium, NoResult, hang
from riglint.mechanics.span.standing import End, length_for_tension, reach_for_tension
from riglint.mechanics.span.stretch import StretchLaw

SOFT = StretchLaw.linear(90e3)
SIDES: tuple[End, End] = ("a", "b")


def line(length_m: float, weight: float = 0.6) -> Line:
    return Line(100.0, -2.0, Reach(0.6, 1e-5, 3e3), (Webbing(length_m, weight, SOFT),), Reach(0.4, 2e-5, 2e3))


def tension_n(of: Line, at: End) -> float:
    rest = hang(of)
    assert isinstance(rest, Equilibrium)
    return rest.tension_a_n if at == "a" else rest.tension_b_n


@pytest.mark.parametrize("at", SIDES)
@pytest.mark.parametrize("side", SIDES)
def test_there_is_a_reach_until_there_is_no_room_for_one(at: End, side: End) -> None:
    """Each webbing is 2 mm longer than the one before."""
    found = [reach_for_tension(line(96.9 + 0.002 * n), 2e3, at, side) for n in range(300)]
    fits = [isinstance(one, Line) for one in found]
    assert {True, False} == {*fits}
    assert fits == sorted(fits, reverse=True)
    for one in found:
        if isinstance(one, Line):
            assert tension_n(one, at) == pytest.approx(2e3, rel=1e-9)
        else:
            assert one == NoResult("no_room")
    reaches = [one.reach_a if side == "a" else one.reach_b for one in found if isinstance(one, Line)]
    assert all(reach.length_m > next_reach.length_m for reach, next_reach in pairwise(reaches))
    assert 0.0 <= reaches[-1].slack_length_m <= 0.002


def test_half_a_millimetre_of_webbing_is_still_found() -> None:
    chord_m = (100.0**2 + 2.0**2) ** 0.5
    tight = Line(100.0, -2.0, Reach(chord_m - 5e-4), (Webbing(1.0, 0.0, SOFT),), Reach(0.0))
    found = length_for_tension(tight, 2e3)
    assert isinstance(found, Line)
    assert found.webbings[0].length_m == pytest.approx(5e-4 / (1.0 + 2e3 / 90e3), rel=1e-6)
    full = Line(100.0, -2.0, Reach(chord_m - 5e-5), (Webbing(1.0, 0.0, SOFT),), Reach(0.0))
    assert length_for_tension(full, 2e3) == NoResult("no_room")


def test_a_slack_line_without_weight_pulls_nothing() -> None:
    assert standing._tension(line(105.0, weight=0.0), "a") == 0.0


def test_line_that_would_hang_straight_down_from_its_end_is_no_start() -> None:
    """Half its weight is all of the tension that is asked for."""

    def as_long(length_m: float) -> Line:
        return Line(100.0, 0.0, Reach(0.0), (Webbing(length_m, 1.0, SOFT),), Reach(0.0))

    assert standing._refined(as_long, 1, "a", 100.0, guess=200.0, floor=1.0) == 200.0


@pytest.mark.parametrize("at", SIDES)
@pytest.mark.parametrize("more", [1.0, 1.001, 1.02, 1.1, 1.3, 2.0])
def test_down_to_the_least_tension_that_tells_a_length(more: float, at: End) -> None:
    found = length_for_tension(line(97.0), more * 0.6 * 100.0, at)
    assert isinstance(found, Line)
    assert tension_n(found, at) == pytest.approx(more * 0.6 * 100.0, rel=1e-9)
