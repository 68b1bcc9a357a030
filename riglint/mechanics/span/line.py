"""A rigged line between two anchor points: what holds it, and its equilibrium under one point load."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import atan2, comb, sqrt
from operator import mul
from typing import Literal, NamedTuple

from riglint.mechanics.span.chain import Solution, made, march, solve, start_guess
from riglint.mechanics.span.cut import Cut, Line, Reach, Webbing, cut
from riglint.mechanics.span.shape import PlacedPiece, place, stretched_between
from riglint.records import dataclass

__all__ = ["Equilibrium", "Line", "NoResult", "Reach", "Webbing", "hang", "hang_along", "places", "profile"]

_EVEN = 1e-6
_ONWARD = [[(-1) ** (n - 1 - k) * comb(n, k) for k in range(n)] for n in range(9)]
"""What the values at n even steps weigh in the polynomial through them, one step on."""
_MOST_PASSED = len(_ONWARD) - 1


@dataclass(frozen=True, slots=True)
class NoResult:
    """Why an equilibrium or a length does not exist.

    too_slack: too little tension to tell the length from it, or a slack line without weight.
    no_room: what is rigid, or the other webbings, already take more than the distance.
    """

    why: Literal["too_slack", "no_room"]


class Equilibrium(NamedTuple):
    """The line at rest. Positions are from anchor point A, x towards B, y up."""

    horizontal_n: float
    vertical_a_n: float
    """Vertical force at A, positive when the line leaves A upwards [N]."""
    vertical_b_n: float
    """Vertical force at B, along the line, positive when the line still climbs there [N]."""
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
    energy_j: float
    """Stretch energy plus potential of the line's own weight [J]; grows by load · way down."""
    parts: Cut

    @property
    def tension_n(self) -> float:
        """The greatest tension: at an anchor point or beside the load [N]."""
        return max(self.tension_a_n, self.tension_b_n, self.tension_left_n, self.tension_right_n)

    @property
    def slope_a_rad(self) -> float:
        """Angle below horizontal of the line as it leaves A; positive when it goes down [rad]."""
        return atan2(-self.vertical_a_n, self.horizontal_n)

    @property
    def slope_b_rad(self) -> float:
        """The same as seen from B [rad]."""
        return atan2(self.vertical_b_n, self.horizontal_n)

    def forces_under(self, load_n: float, fraction: float) -> tuple[float, float]:
        """About the forces at A of the same line under another load, for `start` in `hang` [N]."""
        moved_n = self.load_n * (1.0 - self.fraction) - load_n * (1.0 - fraction)
        return self.horizontal_n, self.vertical_a_n + moved_n

    @property
    def placed(self) -> tuple[PlacedPiece, ...]:
        """Where each segment of the line lies."""
        return place(self.parts.chain, self.horizontal_n, self.vertical_a_n)

    @property
    def strain(self) -> float:
        """Largest strain in any webbing [-]."""
        return max(webbing.law.strain(greatest_n) for webbing, greatest_n in self._greatest())

    @property
    def past_curve(self) -> bool:
        """Some webbing's tension is beyond the last point of its stretch curve."""
        return self.past_curve_by > 1.0

    @property
    def past_curve_by(self) -> float:
        """Greatest tension in a webbing over the last point of its stretch curve [-]; above 1 is beyond it."""
        return max(greatest_n / webbing.law.last_tension_n for webbing, greatest_n in self._greatest())

    @property
    def stretch_energy_j(self) -> float:
        """Stretch energy of the webbings alone [J]."""
        return sum(piece.stretch_energy for piece in self.placed[1:-1])

    @property
    def stretched_m(self) -> float:
        """Length of the webbings as stretched [m]."""
        return stretched_between(self.parts.chain, self.horizontal_n, self.vertical_a_n)

    def _greatest(self) -> Iterator[tuple[Webbing, float]]:
        """Each piece of webbing with its greatest tension [N]."""
        for webbing, piece in zip(self.parts.webbings, self.placed[1:-1], strict=True):
            yield webbing, max(piece.near_tension, piece.far_tension)


def hang(
    line: Line, load_n: float = 0.0, fraction: float = 0.5, start: tuple[float, float] | None = None
) -> Equilibrium | NoResult:
    """Equilibrium of a line under its own weight and one point load: exact elastic catenary.

    x = Σ ∂φ/∂H and y = Σ ∂φ/∂V over its segments, φ the complementary energy of each: module `chain`.

    Args:
        line: what hangs between the anchor points.
        load_n: downward point load [N], 0 or more.
        fraction: where it acts, as a share of the unstressed webbing from A's end, 0-1.
        start: (horizontal_n, vertical_a_n) of a near equilibrium, if known; saves time, changes nothing.

    Returns:
        The equilibrium, or NoResult("too_slack") where no tension is left to find: a slack line without weight, or
        rigid reaches far longer than the span.

    Raises:
        ValueError: load or fraction outside its range.

    Valid: converges for span 3-2000 m, rise ±40 % of it, tension 0.05-60 kN, stiffness 5 kN-5 MN, 0.1-5 N/m.

    Source: H. M. Irvine, Cable Structures, 1981, chapter 2; cited from memory.

    >>> from riglint.mechanics.span.stretch import StretchLaw
    >>> webbing = Webbing(97.2, 0.55, StretchLaw.linear(90e3))
    >>> rest = hang(Line(100.0, -2.0, Reach(0.0), (webbing,), Reach(0.0)), load_n=785.0)
    >>> round(rest.tension_a_n, 2), round(rest.sag_m, 4)
    (3323.75, 6.1718)
    """
    parts = cut(line, load_n, fraction)
    guess = start or start_guess(parts.chain, line.span_m, line.rise_m)
    found = solve(parts.chain, line.span_m, line.rise_m, guess)
    if found is None:
        return NoResult("too_slack")
    return describe(line, parts, found, fraction)


def hang_along(line: Line, load_n: float, fractions: Iterable[float]) -> Iterator[Equilibrium | NoResult]:
    """Equilibria of a line as one point load moves along it, each started from those before it.

    Arguments and errors as for `hang`.
    """
    if load_n == 0.0:
        yield from _bare_along(line, fractions)
        return
    passed = _Passed()
    for fraction in fractions:
        step, usual = passed.steps_to(fraction)
        even = abs(step - usual) <= _EVEN * step
        rest = hang(line, load_n, fraction, passed.start(load_n, fraction, even=even))
        if isinstance(rest, NoResult):
            passed = _Passed()
        elif even:
            passed.add(rest)
        # A place squeezed in between even steps is left out of the sweep; a longer step begins a new one.
        elif step > usual:
            passed = _Passed()
            passed.add(rest)
        yield rest


def places(line: Line, bare: Equilibrium, fractions: Iterable[float]) -> list[tuple[float, float]]:
    """Where shares of the webbing of a line without a load lie: x = Σ ∂φ/∂H, y = Σ ∂φ/∂V up to each share.

    Args:
        line: the line that hangs so.
        bare: its equilibrium without a load, as `hang` returned it.
        fractions: shares of the unstressed webbing from A's end, each 0-1.

    Returns:
        (x_m, y_m) of each from anchor point A, y up.

    Raises:
        ValueError: a share outside its range.

    Valid: as `hang`.
    Source: the equilibrium of `hang`, followed to each place.

    >>> from riglint.mechanics.span.stretch import StretchLaw
    >>> line = Line(100.0, -2.0, Reach(0.0), (Webbing(97.2, 0.55, StretchLaw.linear(90e3)),), Reach(0.0))
    >>> [(round(x_m, 4), round(y_m, 4)) for x_m, y_m in places(line, hang(line), [0.5])]
    [(49.995, -1.2557)]
    """
    found = []
    for fraction in fractions:
        x, y, *_ = march(bare.horizontal_n, bare.vertical_a_n, cut(line, 0.0, fraction).chain.ahead)
        found.append((x, y))
    return found


def _bare_along(line: Line, fractions: Iterable[float]) -> Iterator[Equilibrium | NoResult]:
    """A line without a load has one shape, so it is solved once and then looked at in many places."""
    rest = hang(line)
    for fraction in fractions:
        yield rest if isinstance(rest, NoResult) else looked_at(line, rest, fraction)


def looked_at(line: Line, bare: Equilibrium, fraction: float) -> Equilibrium:
    """The equilibrium of a line without a load, as `hang` found it, looked at in another place."""
    h = bare.horizontal_n
    parts = cut(line, 0.0, fraction)
    x, y, *_, v = march(h, bare.vertical_a_n, parts.chain.ahead)
    tension_n = sqrt(h * h + v * v)
    return bare._replace(
        tension_left_n=tension_n,
        tension_right_n=tension_n,
        fraction=fraction,
        load_x_m=x,
        load_y_m=y,
        sag_m=line.rise_m * x / line.span_m - y,
        parts=parts,
    )


class _Passed:
    """The last places of a sweep, at even steps."""

    __slots__ = ("fractions", "horizontal_n", "last", "vertical_a_n")

    def __init__(self) -> None:
        self.fractions: list[float] = []
        self.horizontal_n: list[float] = []
        self.vertical_a_n: list[float] = []
        self.last: Equilibrium | None = None

    def add(self, rest: Equilibrium) -> None:
        """Go on to a place."""
        if len(self.fractions) == _MOST_PASSED:
            del self.fractions[0], self.horizontal_n[0], self.vertical_a_n[0]
        self.fractions.append(rest.fraction)
        self.horizontal_n.append(rest.horizontal_n)
        self.vertical_a_n.append(rest.vertical_a_n)
        self.last = rest

    def steps_to(self, fraction: float) -> tuple[float, float]:
        """The step to a place, and the one before it."""
        at = self.fractions
        step = fraction - at[-1] if at else fraction
        return step, at[-1] - at[-2] if len(at) > 1 else step

    def start(self, load_n: float, fraction: float, *, even: bool) -> tuple[float, float] | None:
        """About the forces at A at a place; None at the first.

        One even step on, the polynomial through the places passed: in a fine sweep so near the solution that only the
        last Newton step is left to take.
        """
        if not even or len(self.fractions) < 2:  # noqa: PLR2004 - no polynomial
            return self.last.forces_under(load_n, fraction) if self.last else None
        weights = _ONWARD[len(self.fractions)]
        return sum(map(mul, weights, self.horizontal_n)), sum(map(mul, weights, self.vertical_a_n))


def profile(line: Line, equilibrium: Equilibrium, points: int) -> tuple[tuple[float, float], ...]:
    """Positions along the line from A to B, for drawing: x = Σ ∂φ/∂H, y = Σ ∂φ/∂V up to each.

    Args:
        line: the line that the equilibrium belongs to.
        equilibrium: as `hang` or another function here returned it for this line.
        points: about how many; anchor points, fittings, joints and the load are always among them.

    Returns:
        (x_m, y_m) from anchor point A, y up.

    Valid: as `hang`.
    Source: the equilibrium of `hang`, followed from A to B.

    >>> from riglint.mechanics.span.stretch import StretchLaw
    >>> line = Line(100.0, -2.0, Reach(0.0), (Webbing(97.2, 0.55, StretchLaw.linear(90e3)),), Reach(0.0))
    >>> [(round(x_m, 4), round(y_m, 4)) for x_m, y_m in profile(line, hang(line, 785.0), 2)]
    [(0.0, 0.0), (0.0, 0.0), (49.8811, -7.1694), (100.0, -2.0), (100.0, -2.0)]
    """
    spacing = line.unstressed_m / max(points, 1)
    positions = [(0.0, 0.0)]
    placed, loaded = equilibrium.placed, len(equilibrium.parts.chain.ahead) - 1
    for number, piece in enumerate(placed):
        is_reach = number in {0, len(placed) - 1}
        steps = 1 if is_reach else max(1, round(piece.segment.length / spacing))
        positions.extend(piece.position(step / steps) for step in range(1, steps))
        at_load = number == loaded  # as the equilibrium has it, to the last digit
        end = (equilibrium.load_x_m, equilibrium.load_y_m) if at_load else (piece.end_x, piece.end_y)
        positions.append(end)
    return tuple(positions)


def describe(line: Line, parts: Cut, found: Solution, fraction: float) -> Equilibrium:
    """What every user of an equilibrium asks for; the rest is worked out when it is asked for."""
    h, v, x, y, left_v, complementary_j = found
    load_n = parts.chain.load
    right_v = left_v + load_n
    end_v = v + line.weight_n + load_n
    h_h = h * h
    items = (
        h,
        v,
        end_v,
        sqrt(h_h + v * v),
        sqrt(h_h + end_v * end_v),
        sqrt(h_h + left_v * left_v),
        sqrt(h_h + right_v * right_v),
        load_n,
        fraction,
        x,
        y,
        line.rise_m * x / line.span_m - y,
        # The Legendre transform of Σφ, so its derivative by the load's way down is the load itself, for any law.
        h * line.span_m + end_v * line.rise_m - load_n * y - complementary_j,
        parts,
    )
    return made(Equilibrium, items)  # in the order in which they stand above
