"""How a range is searched for its end: outwards in growing strides, then inwards by halving the gap."""

from __future__ import annotations

from collections.abc import Callable, Iterator

GROWING = 4  # times the last stride; each value that passes on the way is judged by all rules


def outwards(passes: Callable[[int], bool], start: int, bound: int) -> tuple[int, int] | None:
    """Return the last number that passes and the first that fails in growing strides; None where none fails.

    Args:
        passes: whether a number does; the first is taken to.
        start: the first.
        bound: the last that is tried.
    """
    held = start
    for tried in strides(start, bound, GROWING):
        if not passes(tried):
            return held, tried
        held = tried
    return None


def strides(start: int, bound: int, growing: int) -> Iterator[int]:
    """Yield numbers from beside one to another, each stride so many times the last."""
    direction, stride, tried = (1 if bound > start else -1), 1, start
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
