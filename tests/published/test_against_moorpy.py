"""The cable solver against moorpy's elastic catenary (BSD-3-Clause), a general mooring library."""

import os
import random

import pytest

from riglint.mechanics.span.line import Equilibrium, Line, Reach, Webbing, hang
from riglint.mechanics.span.stretch import StretchLaw
from tests.published.sources import read_source

os.environ["PYTHONBREAKPOINT"] = "0"  # the library stops in a debugger on input it does not like
moorpy_catenary = pytest.importorskip("moorpy.Catenary")

ABOVE_THE_SEA_BED_M = 1e5
FULLY_SUSPENDED = 1


def end_forces(
    span: float, rise: float, length: float, stiffness: float, weight: float
) -> tuple[float, float, float, float]:
    """Horizontal and vertical force on A and on B by the library's own signs: H, V at A, -H, -V at B."""
    fx_a, fz_a, fx_b, fz_b, info = moorpy_catenary.catenary(
        span, rise, length, stiffness, weight, CB=-ABOVE_THE_SEA_BED_M, Tol=1e-9, MaxIter=200
    )
    assert info["ProfileType"] == FULLY_SUSPENDED
    return fx_a, fz_a, fx_b, fz_b


def random_rig(seed: int) -> tuple[float, float, float, float, float]:
    draw = random.Random(seed)  # noqa: S311  (a reproducible case, no secret)
    span = 5.0 * 300.0 ** draw.random()
    rise = span * draw.uniform(-0.2, 0.2)
    length = (span**2 + rise**2) ** 0.5 * draw.uniform(0.95, 1.15)
    return span, rise, length, 20e3 * 150.0 ** draw.random(), draw.uniform(0.2, 3.0)


BARE, LOADED = read_source("moorpy_segments").cases


@pytest.mark.parametrize("seed", range(*BARE["seeds"]))
def test_bare_line(seed: int) -> None:
    span, rise, length, stiffness, weight = random_rig(seed)
    h_a, v_a, h_b, v_b = end_forces(span, rise, length, stiffness, weight)
    webbing = Webbing(length, weight, StretchLaw.linear(stiffness))
    own = hang(Line(span, rise, Reach(0.0), (webbing,), Reach(0.0)))
    assert isinstance(own, Equilibrium)
    source = read_source("moorpy_segments")
    assert source.agrees(own.horizontal_n, abs(h_a))
    assert source.agrees(own.tension_a_n, (h_a**2 + v_a**2) ** 0.5)
    assert source.agrees(own.tension_b_n, (h_b**2 + v_b**2) ** 0.5)


@pytest.mark.parametrize("seed", range(*LOADED["seeds"]))
def test_forces_balance_at_the_load(seed: int) -> None:
    """At the node found here, the library's two cables must pull as hard as the load and alike sideways."""
    span, rise, length, stiffness, weight = random_rig(seed)
    load, fraction = 800.0, 0.2 + 0.03 * (seed - LOADED["seeds"][0])
    webbing = Webbing(length, weight, StretchLaw.linear(stiffness))
    own = hang(Line(span, rise, Reach(0.0), (webbing,), Reach(0.0)), load, fraction)
    assert isinstance(own, Equilibrium)
    x, y = own.load_x_m, own.load_y_m
    left = end_forces(x, y, fraction * length, stiffness, weight)
    right = end_forces(span - x, rise - y, (1.0 - fraction) * length, stiffness, weight)
    assert left[2] + right[0] == pytest.approx(0.0, abs=1e-6 * own.horizontal_n)
    source = read_source("moorpy_segments")
    assert source.agrees(left[3] + right[1], load)
    assert source.agrees(own.tension_a_n, (left[0] ** 2 + left[1] ** 2) ** 0.5)
    assert source.agrees(own.tension_b_n, (right[2] ** 2 + right[3] ** 2) ** 0.5)
