"""A second solution of the line with a curved stretch law: shooting along its differential equation (scipy).

Nothing of the solver is used. On unstressed arc length s the line obeys dx/ds = (1 + ε(T))·H/T and
dy/ds = (1 + ε(T))·V/T, with V growing by the weight and jumping by the load. For a guess of the two forces at A
both are integrated to B; a general root finder moves the guess until B is met.
"""

from dataclasses import dataclass
from math import exp, hypot, log

import numpy as np
import numpy.typing as npt
from scipy import integrate, optimize

Array = npt.NDArray[np.float64]
Curve = tuple[tuple[float, float], ...]
STEPS = 4000  # even, for Simpson's rule; the kinks of the stretch curve leave about 1e-7


@dataclass(frozen=True)
class Rig:
    """A line between two anchor points, tied to both by rigid lengths without weight. N and m."""

    span: float
    rise: float
    length: float
    weight: float
    load: float
    fraction: float
    curve: Curve
    reach_a: float = 0.0
    reach_b: float = 0.0


def strain_on(curve: Curve, tension: Array) -> Array:
    """Straight lines from the origin through the points, the last one going on."""
    tensions, strains = (np.array([0.0, *column]) for column in zip(*sorted(curve), strict=True))
    slopes = np.diff(strains) / np.diff(tensions)
    piece = np.clip(np.searchsorted(tensions, tension, side="right") - 1, 0, len(slopes) - 1)
    found: Array = strains[piece] + slopes[piece] * (tension - tensions[piece])
    return found


def end_of(rig: Rig, h: float, v: float) -> tuple[float, float]:
    """Where the line ends when it leaves A with these forces."""
    ahead = rig.fraction * rig.length
    x, y = rig.reach_a * h / hypot(h, v), rig.reach_a * v / hypot(h, v)
    for length, load in ((ahead, rig.load), (rig.length - ahead, 0.0)):
        s = np.linspace(0.0, length, STEPS + 1)
        vertical = v + rig.weight * s
        tension = np.hypot(h, vertical)
        grown = (1.0 + strain_on(rig.curve, tension)) / tension
        x += float(integrate.simpson(h * grown, x=s))
        y += float(integrate.simpson(vertical * grown, x=s))
        v += rig.weight * length + load
    return x + rig.reach_b * h / hypot(h, v), y + rig.reach_b * v / hypot(h, v)


def shot_forces(rig: Rig, guess: tuple[float, float]) -> tuple[float, float]:
    """H and V at A that bring the line to B."""

    def miss(unknowns: Array) -> tuple[float, float]:
        h = exp(float(unknowns[0]))  # keeps H above 0
        x, y = end_of(rig, h, h * float(unknowns[1]))
        return (x - rig.span) / rig.span, (y - rig.rise) / rig.span

    found = optimize.root(miss, [log(guess[0]), guess[1] / guess[0]], tol=1e-12)
    if hypot(*miss(found.x)) > 1e-8:
        raise ArithmeticError(f"shooting did not reach B: {found.message}")
    h = exp(float(found.x[0]))
    return h, h * float(found.x[1])
