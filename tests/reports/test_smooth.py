"""The walker's curve: no kinks, every computed place on it, nothing lower than computed."""

from itertools import pairwise

import pytest

from riglint.views.drawing.smooth import PIECES, smooth

PLACES = [(0.0, 1.3), (2.0, 0.9), (5.0, 0.55), (8.0, 0.5), (11.0, 0.55), (14.0, 0.9), (16.0, 1.3)]


def test_every_computed_place_stays_and_none_lies_beyond_its_neighbours() -> None:
    found = smooth(PLACES)
    assert found[::PIECES] == PLACES
    for n, (left, right) in enumerate(pairwise(PLACES)):
        heights = [y for _, y in found[n * PIECES : (n + 1) * PIECES + 1]]
        assert min(left[1], right[1]) - 1e-12 <= min(heights)
        assert max(heights) <= max(left[1], right[1]) + 1e-12


def test_the_slope_turns_little_by_little() -> None:
    def most(points: list[tuple[float, float]]) -> float:
        rises = [(q[1] - p[1]) / (q[0] - p[0]) for p, q in pairwise(points)]
        return max(abs(b - a) for a, b in pairwise(rises))

    assert most(smooth(PLACES)) < most(PLACES) / 2.0


def test_a_straight_line_stays_straight() -> None:
    assert [y for _, y in smooth([(0.0, 0.0), (1.0, 2.0), (3.0, 6.0)])] == pytest.approx(
        [2.0 * x for x, _ in smooth([(0.0, 0.0), (1.0, 2.0), (3.0, 6.0)])]
    )


def test_two_points_over_each_other_are_left_as_they_are() -> None:
    assert smooth([(0.0, 1.0), (0.0, 2.0), (1.0, 3.0)]) == [(0.0, 1.0), (0.0, 2.0), (1.0, 3.0)]
