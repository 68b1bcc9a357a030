"""Pulls on one anchor added in plan: the worked examples of statics textbooks."""

from math import cos, radians, sin

import pytest

from riglint.mechanics.anchors.vector_sum import sum_of, worst_of_any
from tests.published.sources import Case, read_source

SOURCE = read_source("plane_forces")


def vectors(case: Case) -> list[tuple[float, float]]:
    return [(size * cos(radians(turn)), size * sin(radians(turn))) for size, turn in case["forces"]]


@pytest.mark.parametrize("case", SOURCE.cases, ids=lambda case: case["name"])
def test_the_resultant_is_the_printed_one(case: Case) -> None:
    assert SOURCE.agrees(sum_of(vectors(case)), case["resultant"])


def test_with_any_of_the_four_gone_the_one_that_pulls_back_is_left_out() -> None:
    """Without the 110 N straight down the other three pull 234.7 N: 199.13 N along and 124.29 N up, by hand."""
    worst = worst_of_any(vectors(SOURCE.cases[1]))
    assert worst.members == (0, 1, 3)
    assert worst.size == pytest.approx(234.75, abs=0.05)
