"""The cable solver with a curved stretch law against shooting along the differential equation (scipy)."""

import random
from itertools import pairwise
from math import hypot
from typing import Any

import pytest

from riglint.mechanics.span.line import Equilibrium, Line, Reach, Webbing, hang
from riglint.mechanics.span.stretch import StretchLaw
from tests.published.shooting import Rig, shot_forces
from tests.published.sources import Case, read_source

integrate = pytest.importorskip("scipy.integrate")
interpolate = pytest.importorskip("scipy.interpolate")
optimize = pytest.importorskip("scipy.optimize")

SOFT_THEN_STIFF = [(1e3, 0.020), (3e3, 0.042), (6e3, 0.060), (12e3, 0.085)]
STIFF_THEN_SOFT = [(2e3, 0.004), (5e3, 0.012), (10e3, 0.030)]

RIGS = [
    # span, rise, length, weight per metre, load, fraction, curve
    (40.0, 1.0, 38.5, 0.65, 700.0, 0.5, SOFT_THEN_STIFF),
    (100.0, -4.0, 96.0, 0.6, 850.0, 0.3, SOFT_THEN_STIFF),
    (100.0, 8.0, 103.0, 0.9, 1200.0, 0.6, STIFF_THEN_SOFT),
    (600.0, -20.0, 590.0, 0.45, 900.0, 0.8, SOFT_THEN_STIFF),
    (1200.0, 40.0, 1190.0, 0.4, 0.0, 0.5, STIFF_THEN_SOFT),
]


def stepped_forces(
    rig: tuple[float, float, float, float, float, float, Any], guess: tuple[float, float]
) -> tuple[float, float]:
    """H and V at A that lead dx/ds = (1 + strain)·H/T, dy/ds = (1 + strain)·V/T to B."""
    span, rise, length, weight, load, fraction, curve = rig
    tensions, strains = zip((0.0, 0.0), *curve, strict=True)
    strain = interpolate.interp1d(tensions, strains, fill_value="extrapolate")

    def miss(forces: tuple[float, float]) -> tuple[float, float]:
        h, v_start = forces
        x = y = 0.0
        passed = load_so_far = 0.0
        for start, end in pairwise((0.0, fraction * length, length)):
            arc = integrate.solve_ivp(
                lambda s, _, h=h, v=v_start + load_so_far: slopes(h, v + weight * s, strain),
                (start, end),
                (x, y),
                rtol=1e-9,
                atol=1e-9,
                max_step=(end - start) / 40,
            )
            x, y = arc.y[:, -1]
            passed, load_so_far = end, load
        assert passed == length
        return x - span, y - rise

    found = optimize.root(miss, guess, tol=1e-9)
    assert hypot(*miss(found.x)) < 1e-5
    return float(found.x[0]), float(found.x[1])


def slopes(h: float, v: float, strain: Any) -> tuple[float, float]:
    tension = hypot(h, v)
    grown = 1.0 + float(strain(tension))
    return grown * h / tension, grown * v / tension


@pytest.mark.parametrize("rig", RIGS)
def test_curved_stretch(rig: tuple[float, float, float, float, float, float, Any]) -> None:
    span, rise, length, weight, load, fraction, curve = rig
    webbing = Webbing(length, weight, StretchLaw.through(curve))
    own = hang(Line(span, rise, Reach(0.0), (webbing,), Reach(0.0)), load, fraction)
    assert isinstance(own, Equilibrium)
    # The guess is set off, so that agreement is found, not handed over.
    h, v = stepped_forces(rig, (1.1 * own.horizontal_n, 0.9 * own.vertical_a_n))
    source = read_source("scipy_differential_equation")
    assert source.agrees(own.horizontal_n, h)
    assert source.agrees(own.vertical_a_n, v)


def random_rig(case: Case, seed: int) -> Rig:
    draw = random.Random(seed)  # noqa: S311  (a reproducible case, no secret)
    low, high = case["span"]
    span = low * (high / low) ** draw.random()
    rise = span * draw.uniform(-0.4, 0.4)
    curve, strain, last = [], 0.0, 0.0
    for knot_kn in case["knots_kn"]:
        strain += draw.uniform(0.004, 0.02) * (knot_kn - last)
        last = knot_kn
        curve.append((1e3 * knot_kn, strain))
    length = hypot(span, rise) * draw.uniform(*case["slack"])
    weight, user_kg = draw.uniform(*case["weight"]), draw.uniform(*case["user_kg"])
    return Rig(span, rise, length, weight, 9.80665 * user_kg, draw.uniform(0.02, 0.98), tuple(curve))


CASES = [(case, seed) for case in read_source("scipy_shooting").cases for seed in range(*case["seeds"])]


@pytest.mark.parametrize(("case", "seed"), CASES)
def test_curved_stretch_in_three_regimes(case: Case, seed: int) -> None:
    source, rig = read_source("scipy_shooting"), random_rig(case, seed)
    webbing = Webbing(rig.length, rig.weight, StretchLaw.through(rig.curve))
    line = Line(rig.span, rig.rise, Reach(0.0), (webbing,), Reach(0.0))
    own = hang(line, rig.load, rig.fraction)
    assert isinstance(own, Equilibrium)
    h, v = shot_forces(rig, (1.2 * own.horizontal_n, 0.8 * own.vertical_a_n))
    assert source.agrees(own.horizontal_n, h)
    assert source.agrees(own.tension_a_n, hypot(h, v))
    v_b = v + rig.load + rig.weight * rig.length
    assert source.agrees(own.tension_b_n, hypot(h, v_b))
