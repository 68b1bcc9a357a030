"""The solver over its whole range, judged by formulas of its own: none of the solver's is used to judge it.

Straight stretch law: the textbook elastic catenary with inverse hyperbolic sines. Curved law: shooting (scipy).
"""

import random
import sys
from collections import Counter
from math import asinh, cos, hypot, sin

import pytest

from riglint.mechanics.span.line import Equilibrium, Line, NoResult, Reach, Webbing, hang
from riglint.mechanics.span.standing import length_for_tension
from riglint.mechanics.span.stretch import StretchLaw
from tests.published.shooting import Curve, Rig, shot_forces

CLOSED = 1e-8
"""Allowed residual, as a share of the span for lengths and of the greatest tension for forces."""
LEAST_SOLVED = 0.70
G = 9.80665


def between(draw: random.Random, low: float, high: float) -> float:
    """Every power of ten alike."""
    return low * float((high / low) ** draw.random())


def curve_of(draw: random.Random, stiffness_n: float, tension_n: float, points: int) -> Curve:
    """A measured curve round the standing tension; with one point a straight law that ends there."""
    tension = strain = 0.0
    found = []
    for _ in range(points):
        step = tension_n * draw.uniform(0.2, 1.0) if points > 1 else between(draw, 5e3, 100e3)
        bend = draw.uniform(0.4, 2.5) if points > 1 else 1.0
        tension, strain = tension + step, strain + bend * step / stiffness_n
        found.append((tension, strain))
    return tuple(found)


def drawn(seed: int, *, curved: bool) -> tuple[Line, float, float, float, Curve]:
    """A line of any length, its standing tension, a user's weight and place, and the stretch curve."""
    draw = random.Random(seed)  # noqa: S311  (a reproducible case, no secret)
    span = between(draw, 3.0, 2000.0)
    stiffness, tension = between(draw, 5e3, 5e6), between(draw, 50.0, 60e3)
    curve = curve_of(draw, stiffness, tension, draw.randint(2, 4) if curved else 1)
    webbing = Webbing(span, between(draw, 0.01, 0.5) * G, StretchLaw.through(curve))
    reach_a, reach_b = (Reach(draw.uniform(0.0, min(3.0, 0.1 * span))) for _ in range(2))
    line = Line(span, span * draw.uniform(-0.4, 0.4), reach_a, (webbing,), reach_b)
    return line, tension, draw.uniform(20.0, 250.0) * G, draw.random(), curve


def straight(h: float, v: float, length: float) -> tuple[float, float]:
    return length * h / hypot(h, v), length * v / hypot(h, v)


def catenary(h: float, v: float, length: float, webbing: Webbing) -> tuple[float, float]:
    """Elastic catenary from its near end: x = H·L/EA + (H/w)·(asinh(V₁/H) − asinh(V₀/H)), y alike."""
    weight, stiffness = webbing.weight_n_per_m, 1.0 / webbing.law.slope(0.0)
    end_v = v + weight * length
    x = h * length / stiffness + h / weight * (asinh(end_v / h) - asinh(v / h))
    y = length / stiffness * (v + 0.5 * weight * length) + (hypot(h, end_v) - hypot(h, v)) / weight
    return x, y


def length_residual(line: Line, found: Equilibrium) -> float:
    """How far end and load lie from where the forces put them, over the span."""
    (webbing,) = line.webbings
    h, v = found.horizontal_n, found.vertical_a_n
    ahead = found.fraction * webbing.length_m
    x, y = straight(h, v, line.reach_a.length_m)
    left = catenary(h, v, ahead, webbing)
    at_load = x + left[0], y + left[1]
    v += webbing.weight_n_per_m * ahead + found.load_n
    right = catenary(h, v, webbing.length_m - ahead, webbing)
    v += webbing.weight_n_per_m * (webbing.length_m - ahead)
    end = straight(h, v, line.reach_b.length_m)
    misses = (
        at_load[0] - found.load_x_m,
        at_load[1] - found.load_y_m,
        at_load[0] + right[0] + end[0] - line.span_m,
        at_load[1] + right[1] + end[1] - line.rise_m,
    )
    return max(abs(miss) for miss in misses) / line.span_m


def force_residual(line: Line, found: Equilibrium) -> float:
    """What is left of the forces on the whole line and on the loaded point, over the greatest tension."""
    weights = [webbing.weight_n_per_m * webbing.length_m for webbing in line.webbings]
    up_a, up_b = (
        tension * sin(slope)
        for tension, slope in (
            (found.tension_a_n, found.slope_a_rad),
            (found.tension_b_n, found.slope_b_rad),
        )
    )
    along_a, along_b = (
        found.tension_a_n * cos(found.slope_a_rad),
        found.tension_b_n * cos(found.slope_b_rad),
    )
    v_left = -up_a + found.fraction * sum(weights)  # below the webbing ahead of the load
    misses = (
        up_a + up_b - found.load_n - sum(weights),
        along_a - along_b,
        hypot(along_a, v_left) - found.tension_left_n,
        hypot(along_a, v_left + found.load_n) - found.tension_right_n,
    )
    return max(abs(miss) for miss in misses) / found.tension_n


def say(text: str) -> None:
    sys.stdout.write(f"\n{text}\n")  # shown with pytest -s


@pytest.mark.parametrize("cases", [1_000, pytest.param(10_000, marks=pytest.mark.slow)])
def test_straight_law_over_the_whole_range(cases: int) -> None:
    counts: Counter[str] = Counter()
    worst = dict.fromkeys(("length", "force", "standing tension"), 0.0)
    for seed in range(cases):
        line, tension_n, load_n, fraction, _ = drawn(seed, curved=False)
        standing = length_for_tension(line, tension_n)
        if isinstance(standing, NoResult):
            counts[standing.why] += 1
            continue
        bare, loaded = hang(standing), hang(standing, load_n, fraction)
        assert isinstance(bare, Equilibrium)
        assert isinstance(loaded, Equilibrium)
        counts["past the curve" if loaded.past_curve else "within the curve"] += 1
        found = {
            "length": max(length_residual(standing, rest) for rest in (bare, loaded)),
            "force": max(force_residual(standing, rest) for rest in (bare, loaded)),
            "standing tension": abs(bare.tension_a_n / tension_n - 1.0),
        }
        assert max(found.values()) < CLOSED, (seed, found)
        worst = {name: max(worst[name], found[name]) for name in found}
    say(f"straight law, {cases} cases: {dict(counts)}, worst residuals {worst}")
    assert set(counts) <= {"within the curve", "past the curve", "too_slack", "no_room"}
    assert counts["within the curve"] + counts["past the curve"] >= LEAST_SOLVED * cases


@pytest.mark.parametrize("cases", [20, pytest.param(400, marks=pytest.mark.slow)])
def test_curved_law_over_the_whole_range(cases: int) -> None:
    counts: Counter[str] = Counter()
    worst = 0.0
    for seed in range(cases):
        line, tension_n, load_n, fraction, curve = drawn(seed, curved=True)
        standing = length_for_tension(line, tension_n)
        if isinstance(standing, NoResult):
            counts[standing.why] += 1
            continue
        own = hang(standing, load_n, fraction)
        assert isinstance(own, Equilibrium)
        counts["past the curve" if own.past_curve else "within the curve"] += 1
        webbing, reaches = standing.webbings[0], (line.reach_a.length_m, line.reach_b.length_m)
        rig = Rig(
            line.span_m,
            line.rise_m,
            webbing.length_m,
            webbing.weight_n_per_m,
            load_n,
            fraction,
            curve,
            *reaches,
        )
        h, v = shot_forces(rig, (1.1 * own.horizontal_n, 0.9 * own.vertical_a_n))
        v_b = v + load_n + webbing.weight_n_per_m * webbing.length_m
        errors = [
            abs(ours / hypot(h, theirs) - 1.0)
            for ours, theirs in ((own.tension_a_n, v), (own.tension_b_n, v_b))
        ]
        assert max(errors) < 1e-6, (seed, errors)  # the shooting leaves about 1e-7 at kinks
        worst = max(worst, *errors)
    say(f"curved law, {cases} cases: {dict(counts)}, worst tension error {worst:.1e}")
    assert counts["within the curve"] + counts["past the curve"] >= LEAST_SOLVED * cases
