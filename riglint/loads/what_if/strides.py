"""How a range is searched for its end: outwards in growing strides, then inwards by halving the gap."""

from __future__ import annotations

from collections.abc import Callable, Iterator

GROWING = 4  # the first stride, and how many times the last each is


def outwards(
    passes: Callable[[int], bool], start: int, bound: int, *, first: int = GROWING
) -> tuple[int, int | None]:
    """Return the last number that passes and the first that fails in growing strides; None where none fails.

    Args:
        passes: whether a number does; the one that it starts from is taken to.
        start: where it starts from.
        bound: the last that is tried.
        first: the first stride.
    """
    held = start
    for tried in strides(start, bound, GROWING, first=first):
        if not passes(tried):
            return held, tried
        held = tried
    return held, None


def strides(start: int, bound: int, growing: int, *, first: int = 1) -> Iterator[int]:
    """Yield numbers from beside one to another, each stride so many times the last."""
    direction, stride, tried = (1 if bound > start else -1), first, start
    while tried != bound:
        tried += direction * min(stride, abs(bound - tried))
        yield tried
        stride *= growing


def inwards(holds: Callable[[int], bool], before: int, holding: int) -> tuple[int, int]:
    """Return two neighbours of which only the second holds, by halving the gap between two of which only that does."""
    while abs(holding - before) > 1:
        middle = (before + holding) // 2
        if holds(middle):
            holding = middle
        else:
            before = middle
    return before, holding
