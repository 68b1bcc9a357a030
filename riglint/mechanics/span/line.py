"""A rigged line between two anchor points: what holds it, and its equilibrium under one point load."""

from __future__ import annotations

from collections.abc import Iterator
from math import atan2, sqrt
from typing import Literal, NamedTuple

from riglint.mechanics.span.chain import Solution, made, solve, start_guess
from riglint.mechanics.span.cut import Cut, Line, Reach, Webbing, cut
from riglint.mechanics.span.shape import PlacedPiece, place, stretched_between
from riglint.records import dataclass

__all__ = ["Equilibrium", "Line", "NoResult", "Reach", "Webbing", "hang", "profile"]


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
    line: Line

    @property
    def parts(self) -> Cut:
        """The line as it is cut at the load; not kept, since hardly any place of a sweep is asked for it."""
        return cut(self.line, self.load_n, self.fraction)

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
        parts = self.parts
        placed = place(parts.chain, self.horizontal_n, self.vertical_a_n)
        for webbing, piece in zip(parts.webbings, placed[1:-1], strict=True):
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
    chain = cut(line, load_n, fraction).chain
    guess = start or start_guess(chain, line.span_m, line.rise_m)
    found = solve(chain, line.span_m, line.rise_m, guess)
    if found is None:
        return NoResult("too_slack")
    return describe(line, load_n, found, fraction)


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


def describe(line: Line, load_n: float, found: Solution, fraction: float) -> Equilibrium:
    """What every user of an equilibrium asks for; the rest is worked out when it is asked for."""
    h, v, x, y, left_v, complementary_j = found
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
        line,
    )
    return made(Equilibrium, items)  # in the order in which they stand above
