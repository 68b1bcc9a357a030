"""Equilibrium of a chain of elastic catenary segments between two points: the numbers behind `line`.

Two unknowns, the horizontal force H and the vertical force V0 at the first end (both along the chain, x
towards the second end, y up). What a guess of them misses at the second end is the gradient of
Φ(H, V0) = Σφ - H·span - V0·rise, φ the complementary energy of a segment. Φ is strictly convex, so there is
one solution and Newton's method with a line search on Φ finds it from any start.

Formulas: elastic catenary (H. M. Irvine, Cable Structures, 1981, chapter 2; cited from memory), written so
that nothing cancels for short, taut or weightless segments. Stretch of a curved law is taken at the segment's
mean tension: exact for a straight law, otherwise an error of the order of (weight/tension)².
"""

from __future__ import annotations

from math import cbrt, hypot, log1p, sqrt
from typing import NamedTuple

from riglint.mechanics.stretch import StretchLaw

_ITERATIONS = 80
_HALVINGS = 40
_CLOSED = 1e-11
"""Gap at the second end, as a share of the chord, at which the chain counts as closed."""
_NEARLY_CLOSED = 1e-9
"""Accepted when rounding allows no better: 0.1 µm in 100 m."""


class Segment(NamedTuple):
    """A piece of the chain and the point load at its far end."""

    weight: float
    """[N per unstressed metre]"""
    length: float
    """Unstressed [m]."""
    give: float
    """Stretch of the whole segment per tension, at no tension [m/N]."""
    law: StretchLaw | None
    """Curved stretch law; None where `give` holds at every tension."""
    load: float
    """Point load at the far end [N], downwards."""


Chain = tuple[Segment, ...]


class March(NamedTuple):
    """Where a march along a segment or a whole chain ends, and how that depends on H and V0."""

    x: float
    y: float
    x_h: float
    """dx/dH [m/N]"""
    x_v: float
    """dx/dV0 = dy/dH"""
    y_v: float
    """dy/dV0"""
    energy: float
    """Complementary energy φ; its derivatives are x and y [J]."""


class Solution(NamedTuple):
    """The forces that close a chain, and its complementary energy under them."""

    h: float
    v0: float
    energy: float
    """Σφ [J]"""


def march_segment(
    h: float, v0: float, segment: Segment
) -> tuple[float, float, float, float, float, float, float]:
    """One segment from its near end: x, y, dx/dH, dx/dV, dy/dV, φ, and V at its far end before the load."""
    weight, length, give, law, _ = segment
    if weight == 0.0 and law is None:  # straight
        t0_squared = h * h + v0 * v0
        t0 = sqrt(t0_squared)
        per_force = length / t0 + give
        turn = length / (t0_squared * t0)
        x_h, x_v, y_v = turn * v0 * v0 + give, -turn * h * v0, turn * h * h + give
        return h * per_force, v0 * per_force, x_h, x_v, y_v, length * t0 + 0.5 * give * t0_squared, v0
    v1 = v0 + weight * length
    t0 = sqrt(h * h + v0 * v0)
    t1 = sqrt(h * h + v1 * v1)
    r = (v0 + v1) / (t0 + t1)
    u = (1.0 + r) / (t0 + v0) if r >= 0.0 else (1.0 - r) / (t1 - v1)
    q = weight * length * u
    per_h = length * u * (log1p(q) / q if q > 1e-12 else 1.0 - 0.5 * q)  # noqa: PLR2004  (the limit for small q)
    t0_t1 = t0 * t1
    s = length * (t0 - v0 * r) / t0_t1
    x, y = h * per_h, length * r
    phi = 0.5 * (length * t0 + v1 * y + h * x)  # = ∫ T ds of the unstretched shape
    mean_v = 0.5 * (v0 + v1)
    if law is None:
        phi += 0.5 * give * (h * h + mean_v * mean_v)
        x_h, x_v, y_v = per_h - s + give, -h * length * r / t0_t1, s + give
        return x + give * h, y + give * mean_v, x_h, x_v, y_v, phi, v1
    mean_t = sqrt(h * h + mean_v * mean_v)
    strain, slope, complementary = law.at(mean_t)
    along, across = length * slope, length * strain / mean_t
    cos, sin = h / mean_t, mean_v / mean_t
    x_h = per_h - s + along * cos * cos + across * sin * sin
    x_v = (along - across) * cos * sin - h * length * r / t0_t1
    y_v = s + along * sin * sin + across * cos * cos
    return x + across * h, y + across * mean_v, x_h, x_v, y_v, phi + length * complementary, v1


def march(h: float, v0: float, chain: Chain) -> March:
    """The whole chain from its first end."""
    x = y = x_h = x_v = y_v = energy = 0.0
    v = v0
    for segment in chain:
        dx, dy, dx_h, dx_v, dy_v, phi, v = march_segment(h, v, segment)
        x += dx
        y += dy
        x_h += dx_h
        x_v += dx_v
        y_v += dy_v
        energy += phi
        v += segment[4]
    return March(x, y, x_h, x_v, y_v, energy)


def march_to(h: float, v0: float, chain: Chain) -> tuple[float, float, float]:
    """Position at the far end of some first segments of a chain, and V there before the load."""
    x = y = 0.0
    v = end_v = v0
    for segment in chain:
        dx, dy, _, _, _, _, end_v = march_segment(h, v, segment)
        x += dx
        y += dy
        v = end_v + segment[4]
    return x, y, end_v


def solve(chain: Chain, span: float, rise: float, start: tuple[float, float]) -> Solution | None:
    """H and V0 that bring the end of the chain to (span, rise); None when there is no such pair with H > 0.

    That happens only to a slack chain without weight.
    """
    h, v0 = start
    chord = hypot(span, rise)
    here = march(h, v0, chain)
    gap = abs(here.x - span) + abs(here.y - rise)
    for _ in range(_ITERATIONS):
        if gap < _CLOSED * chord:
            break
        step = _newton_step(here, h, span, rise)
        if step is None:
            return None
        moved = _line_search(chain, span, rise, at=(h, v0), here=here, step=step)
        if moved is None:
            break
        h, v0, here = moved
        gap = abs(here.x - span) + abs(here.y - rise)
    return Solution(h, v0, here.energy) if gap < _NEARLY_CLOSED * chord else None


def _newton_step(here: March, h: float, span: float, rise: float) -> tuple[float, float] | None:
    """Change of (H, V0), cut so that H keeps at least a tenth of itself."""
    miss_x, miss_y = here.x - span, here.y - rise
    determinant = here.x_h * here.y_v - here.x_v * here.x_v
    if determinant <= 0.0:
        return None
    dh = (here.x_v * miss_y - here.y_v * miss_x) / determinant
    dv = (here.x_v * miss_x - here.x_h * miss_y) / determinant
    if dh < -0.9 * h:
        share = -0.9 * h / dh
        return share * dh, share * dv
    return dh, dv


def _line_search(
    chain: Chain, span: float, rise: float, *, at: tuple[float, float], here: March, step: tuple[float, float]
) -> tuple[float, float, March] | None:
    """Halve the step until Φ falls or the gap halves; None when neither happens: only rounding is left."""
    h, v0 = at
    dh, dv = step
    miss_x, miss_y = here.x - span, here.y - rise
    gap = abs(miss_x) + abs(miss_y)
    phi = here.energy - h * span - v0 * rise
    fall = miss_x * dh + miss_y * dv  # dΦ along the step, below 0
    share = 1.0
    for _ in range(_HALVINGS):
        new_h, new_v = h + share * dh, v0 + share * dv
        there = march(new_h, new_v, chain)
        if abs(there.x - span) + abs(there.y - rise) <= 0.5 * gap:
            return new_h, new_v, there
        if there.energy - new_h * span - new_v * rise <= phi + 1e-4 * share * fall:
            return new_h, new_v, there
        share *= 0.5
    return None


def start_guess(chain: Chain, span: float, rise: float) -> tuple[float, float]:
    """H and V0 of a shallow cable with the same loads, the stretch law straightened at the tension found.

    Irvine's cubic T³ + b·T² = a (Cable Structures, 1981, section 2.3; cited from memory) with the transverse
    loads as their mean square shear; within 0.2 % of the solution for half of all rigs (own calculation).
    """
    chord = hypot(span, rise)
    cos = span / chord
    weight, load, load_at = _transverse_loads(chain)
    share = load_at * (1.0 - load_at)
    shear = chord * (weight * weight / 12.0 + load * share * (weight + load)) * cos * cos
    tension = 0.0
    for _ in range(6):
        length, compliance = _stretched(chain, tension)
        linear = (length - compliance * tension - chord) / compliance
        better = _cubic_root(linear, 0.5 * shear / compliance)
        settled = abs(better - tension) < 0.01 * better  # a guess needs no more
        tension = better
        if settled:
            break
    h = tension * cos
    return h, h * rise / span - 0.5 * weight - load * (1.0 - load_at)


def _transverse_loads(chain: Chain) -> tuple[float, float, float]:
    """Weight of the chain [N], sum of its point loads [N] and where they act, as a share of its length."""
    weight = load = moment = passed = 0.0
    for segment in chain:
        passed += segment.length
        weight += segment.weight * segment.length
        load += segment.load
        moment += segment.load * passed
    return weight, load, moment / (load * passed) if load > 0.0 else 0.0


def _stretched(chain: Chain, tension: float) -> tuple[float, float]:
    """Length of the chain under one tension everywhere [m] and its growth with tension [m/N]."""
    length, compliance = 0.0, 1e-12
    for segment in chain:
        if segment.law is None:
            length += segment.length + segment.give * tension
            compliance += segment.give
        else:
            strain, slope, _ = segment.law.at(tension)
            length += segment.length * (1.0 + strain)
            compliance += segment.length * slope
    return length, compliance


def _cubic_root(b: float, a: float) -> float:
    """The one positive root of T³ + b·T² = a, to about a thousandth: Newton from above."""
    t = min(cbrt(a), sqrt(a / b)) if b > 0.0 else cbrt(a) - b
    t = max(t, 1e-6)
    for _ in range(50):
        step = (t * t * (t + b) - a) / (t * (3.0 * t + 2.0 * b))
        t -= step
        if step < 1e-3 * t:  # a guess needs no more
            break
    return t
