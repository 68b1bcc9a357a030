"""A line looked at in many places: its equilibria as one point load moves along it, or its places without one."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import comb, sqrt
from operator import mul

from riglint.mechanics.span.chain import march
from riglint.mechanics.span.cut import Line, cut
from riglint.mechanics.span.line import Equilibrium, NoResult, hang

_EVEN = 1e-6
_ROUNDING = 1e-9
_ONWARD = [[(-1) ** (n - 1 - k) * comb(n, k) for k in range(n)] for n in range(9)]
"""What the values at n even steps weigh in the polynomial through them, one step on."""
_MOST_PASSED = len(_ONWARD) - 1


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

    >>> from riglint.mechanics.span.line import Reach, Webbing
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
    x, y, *_, v = march(h, bare.vertical_a_n, cut(line, 0.0, fraction).chain.ahead)
    tension_n = sqrt(h * h + v * v)
    return bare._replace(
        tension_left_n=tension_n,
        tension_right_n=tension_n,
        fraction=fraction,
        load_x_m=x,
        load_y_m=y,
        sag_m=line.rise_m * x / line.span_m - y,
    )


def most_stretched_m(places: Iterable[Equilibrium]) -> float:
    """The greatest stretched length of the webbings in some equilibria of a line [m]; there must be one.

    None is longer than if its greatest tension were everywhere, so most need not be followed from end to end.
    """
    tightest, *others = sorted(places, key=_tension_n, reverse=True)
    found = tightest.stretched_m
    for rest in others:
        at_most = sum(one.length_m * (1.0 + one.law.strain(rest.tension_n)) for one in rest.line.webbings)
        if at_most > (1.0 - _ROUNDING) * found:
            found = max(found, rest.stretched_m)
    return found


def _tension_n(rest: Equilibrium) -> float:
    return rest.tension_n


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
