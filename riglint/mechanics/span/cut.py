"""A rigged line between two anchor points, and the chain of segments that it is cut into at a load."""

from __future__ import annotations

from functools import cached_property
from math import hypot
from typing import NamedTuple

from riglint.mechanics.span.chain import Chain, LoadedChain, Segment, made
from riglint.mechanics.span.stretch import StretchLaw
from riglint.mechanics.valid_range import OutOfRange, plain
from riglint.records import dataclass

_DIGITS = 12
"""Of the share of a webbing ahead of the load."""
_AT_AN_END = 10.0**-_DIGITS


@dataclass(frozen=True, slots=True)
class Webbing:
    """One piece of webbing between its end fittings.

    Raises:
        ValueError: no length, or a negative weight.
    """

    length_m: float
    """Unstressed length [m]."""
    weight_n_per_m: float
    """Weight per unstressed metre [N/m]."""
    law: StretchLaw

    def __post_init__(self) -> None:
        if not (self.length_m > 0.0 and self.weight_n_per_m >= 0.0):
            raise OutOfRange(
                f"a webbing of {plain(self.length_m)} m that weighs {plain(self.weight_n_per_m)} N/m; "
                "a length above 0 m and a weight of 0 N/m or more are needed"
            )

    def segment(self, length_m: float) -> Segment:
        """A length of it, without a load."""
        law = self.law
        give = length_m * law.first_slope
        return Segment(self.weight_n_per_m, length_m, give, law=None if law.is_straight else law)


@dataclass(frozen=True, slots=True)
class Reach:
    """What ties a webbing end to its anchor point: weightless, straight, along the line's end direction.

    Its length at a tension T is length_m + give_m_per_n · (T - reference_tension_n).

    Raises:
        ValueError: the length at no tension would be below 0.
    """

    length_m: float
    give_m_per_n: float = 0.0
    reference_tension_n: float = 0.0

    def __post_init__(self) -> None:
        if not (self.give_m_per_n >= 0.0 and self.slack_length_m >= 0.0):
            raise OutOfRange(
                f"what lies between a webbing end and its anchor has a reach of {plain(self.slack_length_m)} m "
                "at no tension; 0 m or more is needed"
            )

    @property
    def slack_length_m(self) -> float:
        """Length at no tension [m]."""
        return self.length_m - self.give_m_per_n * self.reference_tension_n

    @property
    def segment(self) -> Segment:
        """It, without a load."""
        return Segment(0.0, self.slack_length_m, self.give_m_per_n)


@dataclass(frozen=True)  # no slots: what a sweep asks for at every place is worked out once
class Line:
    """Anchor point A, reach, one or more webbings in a row, reach, anchor point B.

    Raises:
        ValueError: the span is not above 0, or there is no webbing.
    """

    span_m: float
    """Horizontal distance A to B [m]."""
    rise_m: float
    """Height of B above A [m]; negative when B is lower."""
    reach_a: Reach
    webbings: tuple[Webbing, ...]
    reach_b: Reach

    def __post_init__(self) -> None:
        if not (self.span_m > 0.0 and self.webbings):
            raise OutOfRange(f"a span of {plain(self.span_m)} m; a span above 0 m and a webbing are needed")

    def __hash__(self) -> int:
        return self._hash

    @cached_property
    def _hash(self) -> int:
        return hash((self.span_m, self.rise_m, self.reach_a, self.webbings, self.reach_b))

    @property
    def chord_m(self) -> float:
        """Straight distance A to B [m]."""
        return hypot(self.span_m, self.rise_m)

    @cached_property
    def unstressed_m(self) -> float:
        """Unstressed length of all webbings [m]."""
        return sum(webbing.length_m for webbing in self.webbings)

    @cached_property
    def weight_n(self) -> float:
        """Of all webbings [N]."""
        return sum(webbing.weight_n_per_m * webbing.length_m for webbing in self.webbings)

    @cached_property
    def chain(self) -> Chain:
        """All of it, nothing cut."""
        webbings = (webbing.segment(webbing.length_m) for webbing in self.webbings)
        return (self.reach_a.segment, *webbings, self.reach_b.segment)


class Cut(NamedTuple):
    """A line as two chains of segments that meet at the load, the loaded webbing cut in two."""

    chain: LoadedChain
    webbings: tuple[Webbing, ...]
    """Which webbing each segment between the two reaches belongs to."""


def cut(line: Line, load_n: float, fraction: float) -> Cut:
    """The line with its webbing cut at the load, so that two chains meet there; no equation.

    Args:
        line: the whole line.
        load_n: downward point load [N], 0 or more.
        fraction: where it acts, as a share of the unstressed webbing from A's end, 0-1.

    Returns:
        Both chains, the load between them, and which webbing each segment is of.

    Raises:
        ValueError: a load below 0, or a fraction outside 0-1.

    Valid: a load at an end of a webbing cuts none.
    Source: none; it only sorts the segments.

    >>> webbing = Webbing(40.0, 0.55, StretchLaw.linear(90e3))
    >>> parts = cut(Line(50.0, 0.0, Reach(4.0), (webbing,), Reach(4.0)), 785.0, 0.25)
    >>> [segment.length for segment in parts.chain.ahead], [segment.length for segment in parts.chain.behind]
    ([4.0, 10.0], [30.0, 4.0])
    """
    if not (load_n >= 0.0 and 0.0 <= fraction <= 1.0):
        raise OutOfRange(
            f"a load of {plain(load_n)} N at the fraction {plain(fraction)} of the webbing; "
            "0 N or more and 0 to 1 are needed"
        )
    whole, webbings = line.chain, line.webbings
    if len(webbings) == 1 and _AT_AN_END < fraction < 1.0 - _AT_AN_END:
        near, (weight, length, give, growth, constant, law), far = whole
        left = 1.0 - fraction
        first = made(Segment, (weight, fraction * length, fraction * give, growth, constant, law))
        second = made(Segment, (weight, left * length, left * give, growth, constant, law))
        return made(Cut, (made(LoadedChain, ((near, first), load_n, (second, far))), webbings + webbings))
    ahead_m = fraction * line.unstressed_m
    number = 0
    while number < len(webbings) - 1 and ahead_m >= webbings[number].length_m:
        ahead_m -= webbings[number].length_m
        number += 1
    before, loaded, after = (
        whole[: number + 1],
        whole[number + 1],
        whole[number + 2 :],
    )  # the first is the reach
    share = round(
        ahead_m / loaded.length, _DIGITS
    )  # an end is an end, whatever rounding leaves of the webbing
    if share <= 0.0:
        return Cut(LoadedChain(before, load_n, whole[number + 1 :]), webbings)
    if share >= 1.0:
        return Cut(LoadedChain(whole[: number + 2], load_n, after), webbings)
    ahead, behind = (*before, loaded.shortened(share)), (loaded.shortened(1.0 - share), *after)
    return made(Cut, (made(LoadedChain, (ahead, load_n, behind)), webbings[: number + 1] + webbings[number:]))
