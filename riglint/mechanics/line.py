"""A rigged line between two anchor points: what holds it, and its equilibrium under one point load."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, ceil, hypot, inf
from typing import Literal, NamedTuple

from riglint.mechanics.chain import Chain, Segment, solve, start_guess
from riglint.mechanics.shape import Placed, lowest, place
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


@dataclass(frozen=True, slots=True)
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

    @property
    def unstressed_m(self) -> float:
        """Unstressed length of all webbings [m]."""
        return sum(webbing.length_m for webbing in self.webbings)


@dataclass(frozen=True, slots=True)
class NoResult:
    """Why an equilibrium, a length or a peak does not exist.

    too_slack: too little tension to tell the length from it, or a slack line without weight.
    no_room: what is rigid, or the other webbings, already take more than the distance.
    beyond_limit: the force passes the limit that the caller set.
    """

    why: Literal["too_slack", "no_room", "beyond_limit"]


@dataclass(frozen=True, slots=True)
class Equilibrium:
    """The line at rest. Positions are from anchor point A, x towards B, y up."""

    horizontal_n: float
    vertical_a_n: float
    """Vertical force at A, positive when the line leaves A upwards [N]."""
    tension_a_n: float
    tension_b_n: float
    tension_left_n: float
    """Just before the load, on A's side [N]."""
    tension_right_n: float
    load_n: float
    fraction: float
    """Share of the unstressed webbing between A's end and the load."""
    load_x_m: float
    load_y_m: float
    sag_m: float
    """Of the loaded point below the straight chord A to B [m]."""
    lowest_x_m: float
    lowest_y_m: float
    slope_a_rad: float
    """Angle below horizontal of the line as it leaves A; positive when it goes down [rad]."""
    slope_b_rad: float
    """The same as seen from B [rad]."""
    strain: float
    """Largest strain in any webbing [-]."""
    past_curve: bool
    """Some webbing's tension is beyond the last point of its stretch curve."""
    energy_j: float
    """Stretch energy plus potential of the line's own weight [J]; grows by load · way down."""
    stretch_energy_j: float
    """Stretch energy of the webbings alone [J]."""
    stretched_m: float
    """Length of the webbings as stretched [m]."""

    @property
    def tension_n(self) -> float:
        """The greatest tension: at an anchor point or beside the load [N]."""
        return max(self.tension_a_n, self.tension_b_n, self.tension_left_n, self.tension_right_n)


def hang(
    line: Line, load_n: float = 0.0, fraction: float = 0.5, start: tuple[float, float] | None = None
) -> Equilibrium | NoResult:
    """Equilibrium of a line under its own weight and one point load: exact elastic catenary.

    Converges for span 3-2000 m, rise ±40 % of it, tension 0.05-60 kN, stiffness 5 kN-5 MN, 0.1-5 N/m.
    Formulas and their limits: module `chain`.

    Args:
        line: what hangs between the anchor points.
        load_n: downward point load [N], 0 or more.
        fraction: where it acts, as a share of the unstressed webbing from A's end, 0-1.
        start: (horizontal_n, vertical_a_n) of a near equilibrium, if known; saves time, changes nothing.

    Returns:
        The equilibrium, or NoResult("too_slack") for a slack line without weight, which has none.

    Raises:
        ValueError: load or fraction outside its range.

    >>> webbing = Webbing(97.2, 0.55, StretchLaw.linear(90e3))
    >>> rest = hang(Line(100.0, -2.0, Reach(0.0), (webbing,), Reach(0.0)), load_n=785.0)
    >>> round(rest.tension_a_n, 2), round(rest.sag_m, 4)
    (3323.75, 6.1718)
    """
    if not (load_n >= 0.0 and 0.0 <= fraction <= 1.0):
        raise ValueError(f"load must be 0 N or more and fraction within 0-1, got {load_n} and {fraction}")
    parts = cut(line, load_n, fraction)
    guess = start or start_guess(parts.chain, line.span_m, line.rise_m)
    found = solve(parts.chain, line.span_m, line.rise_m, guess)
    if found is None:
        return NoResult("too_slack")
    return _describe(line, parts, place(parts.chain, *found), load_n, fraction)


def profile(line: Line, equilibrium: Equilibrium, points: int) -> tuple[tuple[float, float], ...]:
    """Positions along the line from A to B, from the exact formulas: for clearance and for drawing.

    Args:
        line: the line that the equilibrium belongs to.
        equilibrium: as `hang` or another function here returned it for this line.
        points: about how many; anchor points, fittings, joints and the load are always among them.

    Returns:
        (x_m, y_m) from anchor point A, y up.
    """
    chain = cut(line, equilibrium.load_n, equilibrium.fraction).chain
    spacing = line.unstressed_m / max(points, 1)
    positions = [(0.0, 0.0)]
    placed = place(chain, equilibrium.horizontal_n, equilibrium.vertical_a_n)
    for number, piece in enumerate(placed):
        is_reach = number in {0, len(placed) - 1}
        steps = 1 if is_reach else max(1, round(piece.segment.length / spacing))
        positions.extend(piece.position(step / steps) for step in range(1, steps))
        positions.append((piece.end_x, piece.end_y))
    return tuple(positions)


class Cut(NamedTuple):
    """A line as a chain of segments: reach, webbings with the loaded one cut in two, reach."""

    chain: Chain
    webbings: tuple[Webbing, ...]
    """Which webbing each segment between the two reaches belongs to."""
    loaded: int
    """Number of the segment that bears the load at its far end."""


def cut(line: Line, load_n: float, fraction: float) -> Cut:
    """The line with its webbing cut at the load, and a webbing with a curved stretch law into pieces."""
    longest_m = _longest_piece_m(line)
    ahead = fraction * line.unstressed_m
    segments = [_reach_segment(line.reach_a)]
    owners: list[Webbing] = []
    loaded = 0
    for webbing in line.webbings:
        lengths = [webbing.length_m]
        if 0.0 < ahead < webbing.length_m:
            lengths = [ahead, webbing.length_m - ahead]
        for number, length_m in enumerate(lengths):
            pieces = _pieces(webbing, length_m, longest_m)
            segments += pieces
            owners += [webbing] * len(pieces)
            if number == 0 and ahead > 0.0:
                loaded = len(segments) - 1
        ahead -= webbing.length_m
    segments.append(_reach_segment(line.reach_b))
    segments[loaded] = segments[loaded]._replace(load=load_n)
    return Cut(tuple(segments), tuple(owners), loaded)


def _longest_piece_m(line: Line) -> float:
    """How long a piece may be whose stretch is taken at its mean tension [m]; no limit for straight laws.

    A piece may weigh up to a fortieth of the bare line's tension: then tensions are within 1e-4 of those with
    the stretch taken point by point. The load plays no part, so that energies under two loads compare.
    """
    if all(webbing.law.is_straight for webbing in line.webbings):
        return inf
    webbings = tuple(_webbing_segment(webbing, webbing.length_m) for webbing in line.webbings)
    chain = (_reach_segment(line.reach_a), *webbings, _reach_segment(line.reach_b))
    tension_n, _ = start_guess(chain, line.span_m, line.rise_m)
    heaviest = max(webbing.weight_n_per_m for webbing in line.webbings)
    if heaviest == 0.0:
        return inf
    return max(tension_n / heaviest / _WEIGHTS, line.unstressed_m / _MOST_PIECES)


def _pieces(webbing: Webbing, length_m: float, longest_m: float) -> list[Segment]:
    """A length of webbing in equal pieces; in one where its stretch law is straight."""
    count = 1 if webbing.law.is_straight else max(1, ceil(length_m / longest_m))
    return [_webbing_segment(webbing, length_m / count)] * count


def _reach_segment(reach: Reach) -> Segment:
    return Segment(0.0, reach.slack_length_m, reach.give_m_per_n, None, 0.0)


def _webbing_segment(webbing: Webbing, length_m: float) -> Segment:
    law = webbing.law
    curved = None if law.is_straight else law
    return Segment(webbing.weight_n_per_m, length_m, length_m * law.slope(0.0), curved, 0.0)


def _describe(
    line: Line, parts: Cut, placed: tuple[Placed, ...], load_n: float, fraction: float
) -> Equilibrium:
    """What a rigger asks for."""
    first, last, loaded = placed[0], placed[-1], placed[parts.loaded]
    webbings = placed[1:-1]
    greatest = [max(piece.near_tension, piece.far_tension) for piece in webbings]
    lowest_x, lowest_y = lowest(placed)
    return Equilibrium(
        horizontal_n=first.h,
        vertical_a_n=first.v,
        tension_a_n=first.near_tension,
        tension_b_n=last.far_tension,
        tension_left_n=loaded.far_tension,
        tension_right_n=placed[parts.loaded + 1].near_tension,
        load_n=load_n,
        fraction=fraction,
        load_x_m=loaded.end_x,
        load_y_m=loaded.end_y,
        sag_m=line.rise_m * loaded.end_x / line.span_m - loaded.end_y,
        lowest_x_m=lowest_x,
        lowest_y_m=lowest_y,
        slope_a_rad=atan2(-first.v, first.h),
        slope_b_rad=atan2(last.end_v, last.h),
        strain=max(owner.law.strain(t) for owner, t in zip(parts.webbings, greatest, strict=True)),
        past_curve=any(
            t > owner.law.last_tension_n for owner, t in zip(parts.webbings, greatest, strict=True)
        ),
        energy_j=sum(piece.potential for piece in placed),
        stretch_energy_j=sum(piece.stretch_energy for piece in webbings),
        stretched_m=sum(piece.stretched for piece in webbings),
    )
