"""The greatest force when a person drops onto the line: an energy balance between two equilibria."""

from __future__ import annotations

from collections.abc import Callable
from math import sqrt

from riglint.mechanics.roots import crossing
from riglint.mechanics.span.chain import LoadedChain, march
from riglint.mechanics.span.cut import cut
from riglint.mechanics.span.line import Equilibrium, Line, NoResult, hang
from riglint.mechanics.valid_range import STANDARD_GRAVITY_M_S2, OutOfRange, plain

_ITERATIONS = 12  # what has not settled by then is bracketed instead, which takes longer and always ends
_SETTLED = 1e-6
"""Step of the load, as a share of it, after which the next would be lost in rounding."""
_LEAST_SHARE = 1e-3
"""Least horizontal force, as a share of the load, at which the method may go on."""


def drop(
    line: Line,
    fraction: float,
    mass_kg: float,
    height_m: float,
    *,
    reference: Equilibrium,
    resting_n: float = 0.0,
    near: Equilibrium | None = None,
) -> Equilibrium | NoResult:
    """A mass falls and is caught by the line; its state at the lowest point.

    The line is conservative, so what the mass (and users at rest) lose in height is what the line stores:
    E(P) - E_ref = m·g·(height + y_ref - y(P)) + resting·(y_ref - y(P)).

    Args:
        line: the line that catches.
        fraction: where, as a share of the unstressed webbing from A's end; the same as in `reference`.
        mass_kg: falling mass [kg], above 0.
        height_m: how far the mass falls to be where the line takes it at the reference [m]; below 0 when it
            hangs lower than that from the beginning.
        reference: this line before the catch, loaded by `resting_n` (its energy_j and load_y_m count).
        resting_n: weight of users already at rest at the same place [N].
        near: the peak of such a fall at a place not far away, if known; saves time, changes nothing.

    Returns:
        The line at the lowest point; load_n there is the force on it, resting users included. A mass that
        arrives with no energy to spare gives the line at rest under everybody. NoResult("too_slack") for a
        slack line without weight that does not even hold them.

    Raises:
        ValueError: mass not above 0, or a negative resting weight.

    Valid: no damping, no mass of the line in motion, the line's shape that of rest under P. Against time
    simulations with a resting line (own calculation) the tension was within 5 %; the force on a leash is not
    this one, and bounces that build up can pass it by a third.

    Source: conservation of energy; own calculation. By hand on a flat weightless line: with EA 90 kN and
    50 m of span at 3 kN, 80 kg falling 0.5 m arrive where the line stores what they lost.

    >>> from riglint.mechanics.span.cut import Reach, Webbing
    >>> from riglint.mechanics.span.stretch import StretchLaw
    >>> webbing = Webbing(50 / (1 + 3 / 90), 0.0, StretchLaw.linear(90e3))
    >>> line = Line(50.0, 0.0, Reach(0.0), (webbing,), Reach(0.0))
    >>> peak = drop(line, 0.5, 80.0, 0.5, reference=hang(line))
    >>> lost_j = 80.0 * STANDARD_GRAVITY_M_S2 * (0.5 + peak.sag_m)
    >>> stretch = (2 * (25.0**2 + peak.sag_m**2) ** 0.5 - webbing.length_m) / webbing.length_m
    >>> stored_j = (90e3 * stretch**2 - 3000.0**2 / 90e3) / 2 * webbing.length_m
    >>> round(peak.load_n), round(lost_j), round(stored_j)
    (2138, 4590, 4590)
    """
    if not (mass_kg > 0.0 and resting_n >= 0.0):
        raise OutOfRange(
            f"a falling mass of {plain(mass_kg)} kg beside {plain(resting_n)} N at rest; "
            "a mass above 0 kg and 0 N or more are needed"
        )
    falling_n = mass_kg * STANDARD_GRAVITY_M_S2
    at_rest_n = falling_n + resting_n
    # All the energy there is at the start, heights counted from anchor point A.
    released = (
        falling_n * (height_m + reference.load_y_m) + resting_n * reference.load_y_m + reference.energy_j
    )

    def surplus(state: Equilibrium) -> float:
        """What the line stores beyond what was released down to here [J]; grows with a load above rest."""
        return state.energy_j + at_rest_n * state.load_y_m - released

    close_enough = 1e-9 * falling_n * line.chord_m

    def peak_from(guess: Equilibrium, load_n: float) -> Equilibrium | None:
        """The peak as Newton's method finds it from a state not far away; None where it does not."""
        start = guess.forces_under(load_n, fraction)
        arrived = _towards_peak(line, cut(line, load_n, fraction).chain, start, at_rest_n, released)
        if arrived is None:
            return None
        peak = hang(line, arrived[0], fraction, arrived[1])
        return peak if isinstance(peak, Equilibrium) and abs(surplus(peak)) <= close_enough else None

    peak = peak_from(near, near.load_n) if near else None
    if peak is not None:
        return peak
    at_rest = hang(line, at_rest_n, fraction)
    if isinstance(at_rest, NoResult) or surplus(at_rest) >= -close_enough:
        return at_rest
    # As if the line were a spring, as stiff as from the reference to rest.
    way_m = max(reference.load_y_m - at_rest.load_y_m, 1e-6 * line.chord_m)
    peak = peak_from(at_rest, at_rest_n + sqrt(-2.0 * surplus(at_rest) * falling_n / way_m))
    return peak or _bracketed(line, surplus, at_rest, close_enough)


def _bracketed(
    line: Line,
    surplus: Callable[[Equilibrium], float],
    at_rest: Equilibrium,
    close_enough: float,
) -> Equilibrium | NoResult:
    """The state without surplus, the load doubled until there is one: for slack lines, which stiffen suddenly."""
    low = high = at_rest
    while surplus(high) < 0.0:
        load_n = 2.0 * high.load_n
        stretched = hang(line, load_n, at_rest.fraction, high.forces_under(load_n, at_rest.fraction))
        if isinstance(stretched, NoResult):
            return stretched
        low, high = high, stretched
    return _between(line, surplus, at_rest, (low, high), close_enough)


def _towards_peak(
    line: Line, chain: LoadedChain, start: tuple[float, float], at_rest_n: float, released: float
) -> tuple[float, tuple[float, float]] | None:
    """About the greatest load, and the forces at A under it.

    Newton's method on three equations at once: the line ends at B, across and up, and stores what was released.
    So a peak costs hardly more than one equilibrium. None where it goes astray, as from a slack line.
    """
    (ahead, load, behind), (h, v) = chain, start
    for _ in range(_ITERATIONS):
        x, y, x_h, x_v, y_v, energy, load_v = march(h, v, ahead)
        dx, dy, dx_h, dx_v, dy_v, d_energy, end_v = march(h, load_v + load, behind)
        miss_x, miss_y = x + dx - line.span_m, y + dy - line.rise_m
        beyond = load - at_rest_n
        surplus = h * line.span_m + end_v * line.rise_m - energy - d_energy - beyond * y - released
        # the change of forces that closes the line again: for the miss, and for each newton more of load
        end_x_h, end_x_v, end_y_v = x_h + dx_h, x_v + dx_v, y_v + dy_v
        determinant = end_x_h * end_y_v - end_x_v * end_x_v
        if determinant <= 0.0:
            return None
        close_h = (end_x_v * miss_y - end_y_v * miss_x) / determinant
        close_v = (end_x_v * miss_x - end_x_h * miss_y) / determinant
        follow_h = (end_x_v * dy_v - end_y_v * dx_v) / determinant
        follow_v = (end_x_v * dx_v - end_x_h * dy_v) / determinant
        # and how the surplus changes with each
        by_h, by_v = -miss_x - beyond * x_v, -miss_y - beyond * y_v
        by_load = by_h * follow_h + by_v * follow_v - miss_y
        if by_load <= 0.0:
            return None
        step = -(surplus + by_h * close_h + by_v * close_v) / by_load
        step = max(step, -0.9 * beyond)  # stay above the load at rest
        h, v, load = h + close_h + follow_h * step, v + close_v + follow_v * step, load + step
        if h < _LEAST_SHARE * load:
            return None
        if abs(step) < _SETTLED * load:
            return load, (h, v)
    return None


def _between(
    line: Line,
    surplus: Callable[[Equilibrium], float],
    at_rest: Equilibrium,
    between: tuple[Equilibrium, Equilibrium],
    close_enough: float,
) -> Equilibrium:
    """The state between two of the same place whose surplus is zero.

    The surplus is least at rest and grows nearly with the square of the load beyond; its square root from there
    on is nearly straight, so that few chords find where it is zero.
    """
    low, high = between
    least = surplus(at_rest)
    root_least = sqrt(-least)
    found = high

    def straightened(state: Equilibrium) -> float:
        return sqrt(max(surplus(state) - least, 0.0)) - root_least

    def straightened_at(load_n: float) -> float:
        nonlocal found
        state = hang(line, load_n, low.fraction, found.forces_under(load_n, low.fraction))
        if isinstance(state, NoResult):  # slack, without weight: the line has not begun to catch
            return -root_least
        found = state
        return straightened(state)

    ends = (low.load_n, straightened(low)), (high.load_n, straightened(high))
    crossing(straightened_at, *ends, close_enough / (2.0 * root_least))
    return found
