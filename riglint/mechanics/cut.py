"""A rigged line between two anchor points, and the chain of segments that it is cut into at a load."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import ceil, hypot, inf
from typing import NamedTuple

from riglint.mechanics.chain import Chain, Segment, start_guess
from riglint.mechanics.stretch import StretchLaw

_WEIGHTS = 40.0
"""Least tension of the bare line over the weight of one piece of webbing with a curved stretch law."""
_MOST_PIECES = 32


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
            raise ValueError(f"a webbing needs a length and a weight of 0 or more, got {self}")

    def segment(self, length_m: float) -> Segment:
        """A length of it, without a load."""
        give = length_m * self.law.first_slope
        return Segment(self.weight_n_per_m, length_m, give, None if self.law.is_straight else self.law, 0.0)


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
            raise ValueError(f"a reach needs a length of 0 or more at no tension, got {self}")

    @property
    def slack_length_m(self) -> float:
        """Length at no tension [m]."""
        return self.length_m - self.give_m_per_n * self.reference_tension_n

    @property
    def segment(self) -> Segment:
        """It, without a load."""
        return Segment(0.0, self.slack_length_m, self.give_m_per_n, None, 0.0)


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
            raise ValueError(f"a line needs a span above 0 and a webbing, got span {self.span_m}")

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
    def reaches(self) -> tuple[Segment, Segment]:
        """Those at A and B as segments."""
        return self.reach_a.segment, self.reach_b.segment

    @cached_property
    def longest_piece_m(self) -> float:
        """How long a piece may be whose stretch is taken at its mean tension [m]; no limit for straight laws.

        A piece may weigh up to a fortieth of the bare line's tension: then tensions are within 1e-4 of those
        with the stretch taken point by point. The load plays no part, so that energies under two loads compare.
        """
        if all(webbing.law.is_straight for webbing in self.webbings):
            return inf
        reach_a, reach_b = self.reaches
        whole = [webbing.segment(webbing.length_m) for webbing in self.webbings]
        tension_n, _ = start_guess((reach_a, *whole, reach_b), self.span_m, self.rise_m)
        heaviest = max(webbing.weight_n_per_m for webbing in self.webbings)
        if heaviest == 0.0:
            return inf
        return max(tension_n / heaviest / _WEIGHTS, self.unstressed_m / _MOST_PIECES)


class Cut(NamedTuple):
    """A line as a chain of segments: reach, webbings with the loaded one cut in two, reach."""

    chain: Chain
    webbings: tuple[Webbing, ...]
    """Which webbing each segment between the two reaches belongs to."""
    loaded: int
    """Number of the segment that bears the load at its far end."""

    @property
    def spread_j(self) -> float:
        """Stretch energy that comes from the tension not being the mean one everywhere [J]; see `shape`."""
        return sum(give * (weight * length) ** 2 for weight, length, give, _, _ in self.chain) / 24.0


def cut(line: Line, load_n: float, fraction: float) -> Cut:
    """The line with its webbing cut at the load, and a webbing with a curved stretch law into pieces."""
    ahead = fraction * line.unstressed_m
    reach_a, reach_b = line.reaches
    segments = [reach_a]
    owners: list[Webbing] = []
    loaded = 0
    for webbing in line.webbings:
        length_m = webbing.length_m
        for piece_m in (ahead, length_m - ahead) if 0.0 < ahead < length_m else (length_m,):
            pieces = _pieces(webbing, piece_m, line.longest_piece_m)
            segments += pieces
            owners += [webbing] * len(pieces)
            if ahead > 0.0:  # the load lies at the end of this, or farther on
                loaded = len(segments) - 1
            ahead -= piece_m
    segments.append(reach_b)
    segments[loaded] = segments[loaded]._replace(load=load_n)
    return Cut(tuple(segments), tuple(owners), loaded)


def _pieces(webbing: Webbing, length_m: float, longest_m: float) -> list[Segment]:
    """A length of webbing in equal pieces; in one where its stretch law is straight."""
    count = 1 if webbing.law.is_straight else max(1, ceil(length_m / longest_m))
    return [webbing.segment(length_m / count)] * count
