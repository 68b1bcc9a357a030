"""Equilibrium of a chain of elastic catenary segments between two points: the numbers behind `line`.

Two unknowns, the horizontal force H and the vertical force V0 at the first end (both along the chain, x
towards the second end, y up). What a guess of them misses at the second end is the gradient of
Φ(H, V0) = Σφ - H·span - V0·rise, φ the complementary energy of a segment. Φ is strictly convex, so there is
one solution and Newton's method with a line search on Φ finds it from any start.

Formulas: elastic catenary (H. M. Irvine, Cable Structures, 1981, chapter 2; cited from memory), written so
that nothing cancels for short, taut or weightless segments. With strain = a + b·T along a segment, ∫ strain
times direction is a times the unstretched catenary plus b·L times the mean force: so a stretch law of straight
pieces is followed exactly, a segment being cut where its tension passes from one piece to the next.
"""

from __future__ import annotations

from itertools import pairwise
from math import cbrt, hypot, log1p, sqrt
from typing import NamedTuple

from riglint.mechanics.span.stretch import StretchLaw

_ITERATIONS = 80  # a bound that keeps a line without solution from running on
_HALVINGS = 40  # 2⁻⁴⁰ of a step is lost in rounding
_LOST = 1e-6  # of V, H is there to the last digits that count
_NEARLY_CLOSED = 1e-9
"""Gap at the second end, as a share of the chord, from where one step closes the chain: 0.1 µm in 100 m."""

Forces = tuple[float, float]
"""H and V0 [N]."""

made = tuple.__new__
"""Makes a named tuple of its items, in their order. Naming them takes twice as long; thousands are made for a rig."""


class Segment(NamedTuple):
    """A piece of a chain: strain = growth - 1 + slope · tension, or a law made of several such pieces."""

    weight: float
    """[N per unstressed metre]"""
    length: float
    """Unstressed [m]."""
    give: float
    """Slope · length: stretch of the whole segment per tension [m/N]."""
    growth: float = 1.0
    """Stretched over unstressed length, its straight law extended to no tension [-]."""
    constant: float = 0.0
    """Complementary energy there [J per unstressed metre]."""
    law: StretchLaw | None = None
    """Law of several pieces, one of which takes the place of the three numbers above; None: they hold always."""

    def shortened(self, share: float) -> Segment:
        """A share of its length."""
        weight, length, give, growth, constant, law = self
        return made(Segment, (weight, share * length, share * give, growth, constant, law))


Chain = tuple[Segment, ...]


class LoadedChain(NamedTuple):
    """Two chains in a row and the point load where they meet."""

    ahead: Chain
    load: float
    """Downwards [N]."""
    behind: Chain


March = tuple[float, float, float, float, float, float, float]
"""Where a march along a chain ends and how that depends on the force at its start.

x and y [m]; dx/dH, dx/dV = dy/dH and dy/dV [m/N]; complementary energy φ, whose derivatives are x and y [J]; V at
the end [N]. A bare tuple: it is made some hundred times for each rig, and naming its items would double its cost.
"""


class Guess(NamedTuple):
    """What a guess of the forces makes of a loaded chain."""

    h: float
    v0: float
    miss_x: float
    miss_y: float
    """Of the end, beyond where it should be [m]."""
    gap: float
    """Both, regardless of sign [m]."""
    x_h: float
    x_v: float
    y_v: float
    """Of the end: dx/dH, dx/dV0 = dy/dH, dy/dV0 [m/N]."""
    ahead: March
    """Up to the load."""
    energy: float  # Σφ [J]
    phi: float  # Φ [J]


class Solution(NamedTuple):
    """The forces that close a loaded chain, and what comes with them."""

    h: float
    v0: float
    load_x: float
    load_y: float
    """Where the load is, from the first end [m]."""
    load_v: float
    """V just before the load [N]."""
    energy: float
    """Σφ [J]"""


def march(h: float, v: float, chain: Chain) -> March:
    """A chain from the force at its start. Nearly all the time of an audit goes here, so nothing is called."""
    x = y = x_h = x_v = y_v = energy = 0.0
    h_h = h * h
    t = sqrt(h_h + v * v)
    for weight, length, give, growth, constant, law in chain:
        own = weight * length
        v1 = v + own
        t1 = sqrt(h_h + v1 * v1) if own else t
        if law is not None:
            # Where the segment has its lowest point inside, the tension comes down to H there.
            least = h if v < 0.0 < v1 else min(t, t1)
            for until, growth, slope, constant in law.pieces:  # noqa: B007, PLW2901  (the piece found stays)
                if least < until:
                    break
            if t > until or t1 > until:
                parts = straightened(h, v, Segment(weight, length, give, law=law))
                dx, dy, dx_h, dx_v, dy_v, phi, _ = march(h, v, parts)
                x, y, x_h, x_v, y_v, energy = x + dx, y + dy, x_h + dx_h, x_v + dx_v, y_v + dy_v, energy + phi
                v, t = v1, t1
                continue
            give = slope * length  # noqa: PLW2901
        grown = growth * length
        if own:
            r = (v + v1) / (t + t1)
            # Two forms of one number: each loses its digits where the other keeps them.
            u = (1.0 + r) / (t + v) if r >= 0.0 else (1.0 - r) / (t1 - v1)
            q = own * u
            per_h = grown * u * (log1p(q) / q if q else 1.0)
            dx, dy, mean_v, t_t1 = h * per_h, grown * r, v + 0.5 * own, t * t1
            s = (grown * t - v * dy) / t_t1
            x += dx + give * h
            y += dy + give * mean_v
            x_h += per_h - s + give
            x_v -= h * dy / t_t1
            y_v += s + give
            # growth · ∫ T ds + ½ slope · ∫ T² ds
            t_t = h_h + mean_v * mean_v + own * own / 12.0
            energy += 0.5 * (grown * t + v1 * dy + h * dx + give * t_t) + constant * length
            v, t = v1, t1
        else:  # straight
            per_force, turn = grown / t + give, grown / (t * t * t)
            x += h * per_force
            y += v * per_force
            x_h += turn * v * v + give
            x_v -= turn * h * v
            y_v += turn * h_h + give
            energy += t * (grown + 0.5 * give * t) + constant * length
    return x, y, x_h, x_v, y_v, energy, v


def straightened(h: float, v: float, segment: Segment) -> Chain:
    """A segment cut where its tension passes from one piece of its stretch law to the next."""
    weight, length, *_, law = segment
    if law is None:
        return (segment,)
    v1 = v + weight * length
    # The vertical forces at which the tension, √(H² + V²), is that of a knot of the law.
    roots = [sqrt(piece.until**2 - h * h) for piece in law.pieces[:-1] if piece.until > h]
    turns = sorted({v, v1, *(min(max(turn, v), v1) for root in roots for turn in (-root, root))})
    cuts = [(near, far, (far - near) / (v1 - v)) for near, far in pairwise(turns)] or [(v, v1, 1.0)]
    parts = []
    for near, far, share in cuts:
        piece = law.piece(hypot(h, 0.5 * (near + far)))
        part = share * length
        parts.append(Segment(weight, part, piece.slope * part, piece.growth, piece.constant))
    return tuple(parts)


def solve(chain: LoadedChain, span: float, rise: float, start: Forces) -> Solution | None:
    """H and V0 that bring the end of the chain to (span, rise); None when there is no such pair with H > 0.

    That happens to a slack chain without weight, and to one of rigid parts far longer than the span.
    """
    enough = _NEARLY_CLOSED * hypot(span, rise)
    here = guessed(*start, chain, span, rise)
    for _ in range(_ITERATIONS):
        step = _newton_step(here)
        if step is None:
            return None
        if here.gap < enough:
            return _last_step(here, step, span, rise)
        try:
            there = _line_search(chain, span, rise, here, step)
        except ZeroDivisionError:
            weight = sum(segment.weight * segment.length for segment in chain.ahead + chain.behind)
            if here.h + min(step[0], 0.0) > _LOST * (abs(here.v0) + abs(step[1]) + weight + chain.load):
                raise  # for no reason that is known
            return None  # H is lost in rounding beside V: all of it hangs down
        if there is None:
            return None
        here = there
    return None


def guessed(h: float, v0: float, chain: LoadedChain, span: float, rise: float) -> Guess:
    """Both chains from the forces at the first end."""
    ahead, load, behind = chain
    first = load_x, load_y, x_h, x_v, y_v, energy, load_v = march(h, v0, ahead)
    dx, dy, dx_h, dx_v, dy_v, d_energy, _ = march(h, load_v + load, behind)
    miss_x, miss_y, energy = load_x + dx - span, load_y + dy - rise, energy + d_energy
    gap, phi = abs(miss_x) + abs(miss_y), energy - h * span - v0 * rise
    items = (h, v0, miss_x, miss_y, gap, x_h + dx_h, x_v + dx_v, y_v + dy_v, first, energy, phi)
    return made(Guess, items)


def _last_step(here: Guess, step: Forces, span: float, rise: float) -> Solution:
    """Newton's step from a chain nearly closed: what it leaves is the square of it, not worth another look."""
    dh, dv = step
    h, v0, miss_x, miss_y, _, _, _, _, (x, y, x_h, x_v, y_v, _, load_v), energy, _ = here
    energy = energy + (span + miss_x) * dh + (rise + miss_y) * dv
    load_x, load_y = x + x_h * dh + x_v * dv, y + x_v * dh + y_v * dv
    return made(Solution, (h + dh, v0 + dv, load_x, load_y, load_v + dv, energy))


def _newton_step(here: Guess) -> Forces | None:
    """Change of (H, V0), cut so that H keeps at least a tenth of itself."""
    h, _, miss_x, miss_y, _, x_h, x_v, y_v, _, _, _ = here
    determinant = x_h * y_v - x_v * x_v
    if determinant <= 0.0:
        return None
    dh = (x_v * miss_y - y_v * miss_x) / determinant
    dv = (x_v * miss_x - x_h * miss_y) / determinant
    # A line can only pull, so H must stay above 0.
    if dh < -0.9 * h:
        share = -0.9 * h / dh
        return share * dh, share * dv
    return dh, dv


def _line_search(chain: LoadedChain, span: float, rise: float, here: Guess, step: Forces) -> Guess | None:
    """Halve the step until the gap halves or Φ falls; None when neither happens."""
    dh, dv = step
    fall = here.miss_x * dh + here.miss_y * dv  # dΦ along the step, below 0
    share = 1.0
    for _ in range(_HALVINGS):
        there = guessed(here.h + share * dh, here.v0 + share * dv, chain, span, rise)
        # Φ must fall by a small share at least of what its slope promises (Armijo's rule).
        if there.gap <= 0.5 * here.gap or there.phi <= here.phi + 1e-4 * share * fall:
            return there
        share *= 0.5
    return None


def start_guess(chain: LoadedChain, span: float, rise: float) -> Forces:
    """H and V0 of a shallow cable with the same loads, the stretch law straightened at the tension found.

    Irvine's cubic T³ + b·T² = a (Cable Structures, 1981, section 2.3; cited from memory) with the transverse
    loads as their mean square shear; within 0.2 % of the solution for half of all rigs (own calculation).
    """
    chord = hypot(span, rise)
    cos = span / chord
    whole, load = chain.ahead + chain.behind, chain.load
    weight = sum(segment.weight * segment.length for segment in whole)
    load_at = sum(segment.length for segment in chain.ahead) / sum(segment.length for segment in whole)
    share = load_at * (1.0 - load_at)
    shear = chord * (weight * weight / 12.0 + load * share * (weight + load)) * cos * cos
    tension = 0.0
    for _ in range(2):  # a guess needs no more
        length, compliance = _stretched(whole, tension)
        linear = (length - compliance * tension - chord) / compliance
        tension = _cubic_root(linear, 0.5 * shear / compliance)
    h = tension * cos
    return h, h * rise / span - 0.5 * weight - load * (1.0 - load_at)


def _stretched(chain: Chain, tension: float) -> tuple[float, float]:
    """Length of a chain under one tension everywhere [m] and its growth with tension [m/N]."""
    length = compliance = 0.0
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
    # Above the root for either sign of b, where the cubic bends upwards: Newton comes down to it safely.
    t = max(cbrt(a), cbrt(a) - b, 1e-6)
    for _ in range(50):
        step = (t * t * (t + b) - a) / (t * (3.0 * t + 2.0 * b))
        t -= step
        if step < 1e-3 * t:  # a guess needs no more
            break
    return t
