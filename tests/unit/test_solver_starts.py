"""Solvers start near and so end soon: a wrong guess changes no result, only how long an audit takes.

The bounds are what these guesses reached when they were written (own calculation), with little to spare.
"""

from collections.abc import Callable
from unittest.mock import patch

import numpy as np
import pytest

from riglint.mechanics.span import chain, peak, standing
from riglint.mechanics.span.along import hang_along
from riglint.mechanics.span.cut import cut
from riglint.mechanics.span.line import Equilibrium, Line, Reach, Webbing, hang
from riglint.mechanics.span.standing import length_for_sag, length_for_tension, reach_for_tension
from riglint.mechanics.span.stretch import StretchLaw

STRAIGHT = StretchLaw.linear(90e3)
CURVE = StretchLaw.through([(2e3, 0.02), (6e3, 0.05), (20e3, 0.09)])


def line(span: float, rise: float, length: float, law: StretchLaw = STRAIGHT) -> Line:
    return Line(span, rise, Reach(0.5, 1e-5, 3e3), (Webbing(length, 0.55, law),), Reach(0.3))


LINES = {
    "long": line(100.0, -2.0, 97.2),
    "curve": line(100.0, -2.0, 96.0, CURVE),
    "short": line(15.0, 0.5, 13.9),
    "steep": line(80.0, 20.0, 80.0),
}
JOINED = {
    "joined": Line(
        60.0,
        1.0,
        Reach(0.5, 1e-5, 3e3),
        (Webbing(20.0, 0.4, STRAIGHT), Webbing(38.0, 0.9, CURVE)),
        Reach(0.3, 4e-5, 2e3),
    ),
}
SIDES: tuple[standing.End, standing.End] = ("a", "b")
of_one_piece = pytest.mark.parametrize("of", LINES.values(), ids=LINES.keys())
every_line = pytest.mark.parametrize("of", (LINES | JOINED).values(), ids=(LINES | JOINED).keys())


class Counted:
    def __init__(self, function: Callable[..., object]) -> None:
        self.function, self.calls = function, 0

    def __call__(self, *values: object, **more: object) -> object:
        self.calls += 1
        return self.function(*values, **more)


@of_one_piece
@pytest.mark.parametrize(
    ("load_n", "fraction", "near"), [(0.0, 0.5, 5e-5), (785.0, 0.5, 0.0085), (785.0, 0.2, 0.012)]
)
def test_shallow_cable_is_near(of: Line, load_n: float, fraction: float, near: float) -> None:
    h, v0 = chain.start_guess(cut(of, load_n, fraction).chain, of.span_m, of.rise_m)
    found = hang(of, load_n, fraction)
    assert isinstance(found, Equilibrium)
    assert h == pytest.approx(found.horizontal_n, rel=near)
    assert abs(v0 - found.vertical_a_n) <= near * found.tension_a_n


@pytest.mark.parametrize(("b", "a"), [(3e3, 1e10), (-3e3, 1e10), (0.0, 8e9), (5e4, 1e10), (-5e4, 1e9)])
def test_cubic_has_the_root_that_numpy_finds(b: float, a: float) -> None:
    (root,) = (one.real for one in np.roots([1.0, b, 0.0, -a]) if abs(one.imag) < 1e-6 and one.real > 0.0)
    assert chain._cubic_root(b, a) == pytest.approx(root, rel=2e-6)


def test_line_that_has_no_tension_is_guessed_next_to_none() -> None:
    """Slack and without weight, its cubic has no root above nothing; fifty halvings of a millionth are left."""
    assert 1e-22 < chain._cubic_root(3e3, 0.0) < 1e-21


@of_one_piece
def test_line_closes_within_a_few_looks(of: Line) -> None:
    for load_n, fraction in ((0.0, 0.5), (785.0, 0.5), (785.0, 0.2)):
        with patch.object(chain, "guessed", Counted(chain.guessed)) as looks:
            hang(of, load_n, fraction)
        assert looks.calls <= (3 if load_n == 0.0 else 4)


@of_one_piece
def test_fine_sweep_looks_little_more_than_once_at_each_place(of: Line) -> None:
    with patch.object(chain, "guessed", Counted(chain.guessed)) as looks:
        found = list(hang_along(of, 785.0, [0.1 + 0.008 * n for n in range(101)]))
    assert len(found) == 101
    assert looks.calls <= 113


@every_line
@pytest.mark.parametrize("at", ["a", "b"])
def test_length_and_reach_for_a_tension_are_found_with_one_equilibrium(of: Line, at: standing.End) -> None:
    with patch("riglint.mechanics.span.standing.hang", Counted(hang)) as looks:
        assert isinstance(length_for_tension(of, 2e3, at), Line)
        by_a, by_b = (reach_for_tension(of, 2e3, at, side) for side in SIDES)
    assert looks.calls == 3
    assert isinstance(by_a, Line)
    assert isinstance(by_b, Line)
    # Each keeps the other reach, and how its own gives.
    assert (by_a.reach_b, by_a.reach_a.give_m_per_n) == (of.reach_b, of.reach_a.give_m_per_n)
    assert (by_b.reach_a, by_b.reach_b.give_m_per_n) == (of.reach_a, of.reach_b.give_m_per_n)


@every_line
def test_length_for_a_sag_is_nearly_that_of_two_straight_legs(of: Line) -> None:
    depth_m = 0.04 * of.span_m
    with patch("riglint.mechanics.span.standing.hang", Counted(hang)) as looks:
        found = length_for_sag(of, 785.0, 0.4, depth_m)
    assert looks.calls <= 7
    assert isinstance(found, Line)
    off_m = standing._length_guess(of, 785.0, 0.4, depth_m, 0) - found.webbings[0].length_m
    assert abs(off_m) <= 8e-4 * found.unstressed_m


@every_line
def test_peak_of_a_drop_is_found_with_two_equilibria(of: Line) -> None:
    before = hang(of, 0.0, 0.4)
    assert isinstance(before, Equilibrium)
    with patch("riglint.mechanics.span.peak.hang", Counted(hang)) as looks:
        caught = peak.drop(of, 0.4, 80.0, 0.5, reference=before)
    assert isinstance(caught, Equilibrium)
    assert looks.calls == 2
