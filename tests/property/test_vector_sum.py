"""Sums of pulls: a line more never makes the worst smaller, and no part of the lines is worse than what is found."""

from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st

from riglint.mechanics.anchors.vector_sum import sum_of, worst_of_any

PULLS = st.floats(-20e3, 20e3, allow_nan=False).map(lambda one: 0.0 if abs(one) < 1e-3 else one)
VECTORS = st.lists(st.tuples(PULLS, PULLS), min_size=1, max_size=6)


@given(VECTORS)
def test_every_part_of_the_lines_was_tried(vectors: list[tuple[float, float]]) -> None:
    parts = [part for size in range(1, len(vectors) + 1) for part in combinations(vectors, size)]
    worst = max(sum_of(part) for part in parts)
    found = worst_of_any(vectors)
    assert abs(found.size - worst) <= 1e-6 * max(worst, 1.0)
    assert abs(sum_of([vectors[n] for n in found.members]) - found.size) <= 1e-6 * max(worst, 1.0)


@given(VECTORS, st.tuples(PULLS, PULLS))
def test_one_line_more_never_makes_it_smaller(
    vectors: list[tuple[float, float]], more: tuple[float, float]
) -> None:
    before = worst_of_any(vectors).size
    assert worst_of_any([*vectors, more]).size >= before * (1.0 - 1e-6)


@given(VECTORS)
def test_sizes_alone_are_never_less_than_vectors(vectors: list[tuple[float, float]]) -> None:
    assert worst_of_any(vectors).size <= sum(sum_of([one]) for one in vectors) * (1.0 + 1e-9)
