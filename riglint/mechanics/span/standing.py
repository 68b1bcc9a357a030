"""What the line must be cut or pulled to, so that it stands with a given tension or sags by a given depth."""

from __future__ import annotations

from collections.abc import Callable
from math import hypot, sqrt
from typing import Literal

from riglint.mechanics.roots import falling_root
from riglint.mechanics.span.chain import march
from riglint.mechanics.span.line import Line, NoResult, Reach, Webbing, hang
from riglint.mechanics.valid_range import OutOfRange, plain

End = Literal["a", "b"]

_SHORTEST = 1e-6
"""Least webbing length that is looked at, as a share of the chord."""
_CLOSE = 1e-10
"""Tension or sag reached, as a share of what is asked for."""

_REFINEMENTS = 10
_SETTLED = 1e-8
"""Step of a length, as a share of the chord, after which the next is lost in rounding."""


def length_for_tension(line: Line, tension_n: float, at: End = "a", floating: int = 0) -> Line | NoResult:
    """The line whose webbing number `floating` is as long as makes the end tension, nobody on it.

    T(length) = `tension_n`, by the equilibrium of `hang`.

    Args:
        line: all but that webbing's length is kept.
        tension_n: wanted at that anchor point [N], above 0.
        at: which anchor point.
        floating: number of the webbing, from A.

    Returns:
        The line; NoResult("too_slack") below weight per metre × span, where the tension no longer tells the
        length (an end tension cannot be under 0.7544 × that, calculated from the catenary);
        NoResult("no_room") when the rest of the line is longer than the distance.

    Raises:
        ValueError: the tension is not above 0.

    Valid: of the two lengths that may give a tension the shorter, taut one is meant.

    Source: the equilibrium of `hang`, solved for the length. A line that hardly sags comes out as
    span/(1 + T/EA): 50/(1 + 3/90) = 48.387 m.

    >>> from riglint.mechanics.span.cut import Reach, Webbing
    >>> from riglint.mechanics.span.stretch import StretchLaw
    >>> webbing = Webbing(50.0, 0.6, StretchLaw.linear(90e3))
    >>> standing = length_for_tension(Line(50.0, 0.0, Reach(0.0), (webbing,), Reach(0.0)), 3000.0)
    >>> round(standing.webbings[0].length_m, 3)
    48.387
    """
    _must_be_positive("tension", tension_n)
    if _is_slack(line, tension_n):
        return NoResult("too_slack")

    def with_length(length_m: float) -> Line:
        return _with_length(line, floating, length_m)

    strain = line.webbings[floating].law.strain(tension_n)
    missing = _geometric_length(line, tension_n) - _length_of_rest(line, tension_n, floating)
    guess = missing / (1.0 + strain)
    return _fit(with_length, floating + 1, at, tension_n, guess=guess, floor=_SHORTEST * line.chord_m)


def reach_for_tension(line: Line, tension_n: float, at: End, side: End) -> Line | NoResult:
    """The line whose reach on one side is as long as makes the end tension, webbings kept, nobody on it.

    T(reach) = `tension_n`, by the equilibrium of `hang`.

    Args:
        line: all but that reach's length is kept.
        tension_n: wanted at anchor point `at` [N], above 0.
        at: where the tension is wanted.
        side: whose reach changes.

    Returns:
        The line; NoResult("too_slack") as in `length_for_tension`; NoResult("no_room") when the reach would
        have to be shorter than nothing.

    Raises:
        ValueError: the tension is not above 0.

    Valid: as a haul pulls a line tight, where the distance between its blocks is part of the reach.

    Source: the equilibrium of `hang`, solved for the reach. A line that hardly sags leaves it
    span − length·(1 + T/EA): 50 − 45·(1 + 3/90) = 3.5 m.

    >>> from riglint.mechanics.span.cut import Reach, Webbing
    >>> from riglint.mechanics.span.stretch import StretchLaw
    >>> webbing = Webbing(45.0, 0.6, StretchLaw.linear(90e3))
    >>> pulled = reach_for_tension(Line(50.0, 0.0, Reach(0.0), (webbing,), Reach(1.0)), 3000.0, "a", "b")
    >>> round(pulled.reach_b.length_m, 3)
    3.5
    """
    _must_be_positive("tension", tension_n)
    if _is_slack(line, tension_n):
        return NoResult("too_slack")
    old = line.reach_a if side == "a" else line.reach_b
    floor = old.give_m_per_n * old.reference_tension_n

    def with_reach(length_m: float) -> Line:
        reach = Reach(length_m, old.give_m_per_n, old.reference_tension_n)
        a, b = (reach, line.reach_b) if side == "a" else (line.reach_a, reach)
        return Line(line.span_m, line.rise_m, a, line.webbings, b)

    taken = _length_of_rest(with_reach(floor), tension_n, None)
    guess = floor + _geometric_length(line, tension_n) - taken
    number = 0 if side == "a" else len(line.webbings) + 1
    return _fit(with_reach, number, at, tension_n, guess=guess, floor=floor)


def length_for_sag(
    line: Line, load_n: float, fraction: float, depth_m: float, floating: int = 0
) -> Line | NoResult:
    """The line whose webbing number `floating` is as long as makes the loaded point sag by a depth.

    sag(length) = `depth_m`, by the equilibrium of `hang`.

    Args:
        line: all but that webbing's length is kept.
        load_n: point load [N], 0 or more.
        fraction: where it acts, share of the unstressed webbing from A's end, between 0 and 1.
        depth_m: wanted sag below the straight chord, at the load [m], above 0.
        floating: number of the webbing, from A.

    Returns:
        The line; NoResult("no_room") when the rest of the line is too long for so little sag.

    Raises:
        ValueError: the depth is not above 0.

    Valid: as `hang`.

    Source: the equilibrium of `hang`, solved for the length. Without weight, statics gives the tension by
    hand: 785/2·√(2² + 25²)/2 = 4922 N.

    >>> from riglint.mechanics.span.cut import Reach, Webbing
    >>> from riglint.mechanics.span.stretch import StretchLaw
    >>> webbing = Webbing(50.0, 0.0, StretchLaw.linear(90e3))
    >>> line = length_for_sag(Line(50.0, 0.0, Reach(0.0), (webbing,), Reach(0.0)), 785.0, 0.5, 2.0)
    >>> rest = hang(line, 785.0)
    >>> round(rest.sag_m, 3), round(rest.tension_n)
    (2.0, 4922)
    """
    _must_be_positive("depth", depth_m)

    def with_length(length_m: float) -> Line:
        return _with_length(line, floating, length_m)

    def missing_depth(length_m: float) -> float:
        rest = hang(with_length(length_m), load_n, fraction)
        return -depth_m if isinstance(rest, NoResult) else depth_m - rest.sag_m

    length = falling_root(
        missing_depth,
        guess=_length_guess(line, load_n, fraction, depth_m, floating),
        step=1e-4 * line.chord_m,
        floor=_SHORTEST * line.chord_m,
        close_enough=_CLOSE * depth_m,
    )
    return NoResult("no_room") if length is None else with_length(length)


def _fit(
    line_of: Callable[[float], Line], varied: int, at: End, tension_n: float, *, guess: float, floor: float
) -> Line | NoResult:
    """The line of the length that makes the end tension; `varied` is the number of its segment in the chain."""
    length_m = falling_root(
        lambda length_m: _tension(line_of(length_m), at) - tension_n,
        guess=_refined(line_of, varied, at, tension_n, guess=max(guess, floor), floor=floor),
        step=1e-4 * line_of(floor).chord_m,
        floor=floor,
        close_enough=_CLOSE * tension_n,
    )
    if length_m is None:
        too_long_already = _tension(line_of(floor), at) < tension_n
        return NoResult("no_room" if too_long_already else "too_slack")
    return line_of(length_m)


def _refined(
    line_of: Callable[[float], Line], varied: int, at: End, tension_n: float, *, guess: float, floor: float
) -> float:
    """A better guess of a length: Newton's method on it and the vertical force at the end whose tension is given.

    Saves the root search nearly all its equilibria. Gives the guess back where it leads to no taut line.
    """
    length_m, line = guess, line_of(guess)
    span_m, rise_m = line.span_m, line.rise_m if at == "a" else -line.rise_m
    v = tension_n * rise_m / line.chord_m - 0.5 * line.weight_n
    for _ in range(_REFINEMENTS):
        if abs(v) >= tension_n:
            return guess
        # the chain as seen from the end with that tension
        chain, number = (
            (line.chain, varied) if at == "a" else (line.chain[::-1], len(line.chain) - 1 - varied)
        )
        h = sqrt(tension_n * tension_n - v * v)
        x, y, x_h, x_v, y_v, _, far_v = march(h, v, chain[: number + 1])
        dx, dy, dx_h, dx_v, dy_v, *_ = march(h, far_v, chain[number + 1 :])
        miss_x, miss_y = x + dx - span_m, y + dy - rise_m
        turn = -v / h  # dH/dV at that tension
        x_by_v = (x_h + dx_h) * turn + x_v + dx_v
        y_by_v = (x_v + dx_v) * turn + y_v + dy_v
        # one metre more goes on at the segment's far end, and its weight pulls on what follows
        far_n = hypot(h, far_v)
        weight, *_ = chain[number]
        stretched = 1.0 if weight == 0.0 else 1.0 + line.webbings[varied - 1].law.strain(far_n)
        x_by_length = stretched * h / far_n + weight * dx_v
        y_by_length = stretched * far_v / far_n + weight * dy_v
        determinant = x_by_v * y_by_length - x_by_length * y_by_v
        if determinant >= 0.0:  # so long that the tension grows with the length
            return guess
        v += (x_by_length * miss_y - y_by_length * miss_x) / determinant
        step = (y_by_v * miss_x - x_by_v * miss_y) / determinant
        if length_m + step < floor:
            return guess
        length_m += step
        if abs(step) < _SETTLED * line.chord_m:
            return length_m
        line = line_of(length_m)
    return guess


def _must_be_positive(name: str, number: float) -> None:
    if not number > 0.0:
        raise OutOfRange(f"{name} is {plain(number)}; more than 0 is needed")


def _with_length(line: Line, floating: int, length_m: float) -> Line:
    webbings = list(line.webbings)
    webbings[floating] = Webbing(length_m, webbings[floating].weight_n_per_m, webbings[floating].law)
    return Line(line.span_m, line.rise_m, line.reach_a, tuple(webbings), line.reach_b)


def _tension(line: Line, at: End) -> float:
    rest = hang(line)
    if isinstance(rest, NoResult):
        return 0.0  # slack and without weight
    return rest.tension_a_n if at == "a" else rest.tension_b_n


def _mean_weight(line: Line) -> float:
    """Per unstressed metre [N/m]."""
    return sum(webbing.weight_n_per_m * webbing.length_m for webbing in line.webbings) / line.unstressed_m


def _is_slack(line: Line, tension_n: float) -> bool:
    return tension_n < _mean_weight(line) * line.span_m


def _geometric_length(line: Line, tension_n: float) -> float:
    """About the length along the line from A to B at a tension: parabola with the webbing's weight [m]."""
    turn = _mean_weight(line) * line.span_m / tension_n
    return line.chord_m * (1.0 + turn * turn / 24.0)


def _length_of_rest(line: Line, tension_n: float, without: int | None) -> float:
    """Length of everything but one webbing at a tension [m]."""
    webbings = sum(
        webbing.length_m * (1.0 + webbing.law.strain(tension_n))
        for number, webbing in enumerate(line.webbings)
        if number != without
    )
    return webbings + _reach_length(line.reach_a, tension_n) + _reach_length(line.reach_b, tension_n)


def _reach_length(reach: Reach, tension_n: float) -> float:
    return reach.slack_length_m + reach.give_m_per_n * tension_n


def _length_guess(line: Line, load_n: float, fraction: float, depth_m: float, floating: int) -> float:
    """From two straight legs that hang down to the depth, and the tension that holds them there."""
    ahead, behind = fraction * line.chord_m, (1.0 - fraction) * line.chord_m
    sideways = ahead * behind / line.chord_m
    moment = load_n * sideways + 0.5 * _mean_weight(line) * line.chord_m * sideways
    tension_n = moment / depth_m
    legs = hypot(ahead, depth_m) + hypot(behind, depth_m)
    missing = legs - _length_of_rest(line, tension_n, floating)
    return missing / (1.0 + line.webbings[floating].law.strain(tension_n))
