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


def inwards(fails: Callable[[int], bool], held: int, failing: int) -> tuple[int, int]:
    """Return two neighbours of which the first passes and the second fails, by halving the gap between two."""
    while abs(failing - held) > 1:
        middle = (held + failing) // 2
        if fails(middle):
            failing = middle
        else:
            held = middle
    return held, failing
