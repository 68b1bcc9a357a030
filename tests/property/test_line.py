"""What holds for every line, whatever its numbers."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from riglint.mechanics.span.line import Equilibrium, Line, NoResult, Reach, Webbing, hang
from riglint.mechanics.span.peak import drop
from riglint.mechanics.span.standing import length_for_tension
from riglint.mechanics.span.stretch import StretchLaw

FEW = settings(max_examples=40, deadline=None)


@st.composite
def laws(draw: st.DrawFn) -> StretchLaw:
    stiffness = draw(st.floats(5e3, 5e6))
    if draw(st.booleans()):
        return StretchLaw.linear(stiffness)
    tension = strain = 0.0
    points = []
    for _ in range(draw(st.integers(1, 4))):
        step = draw(st.floats(500.0, 8e3))
        tension, strain = tension + step, strain + draw(st.floats(0.4, 2.5)) * step / stiffness
        points.append((tension, strain))
    return StretchLaw.through(points)


@st.composite
def lines(draw: st.DrawFn) -> Line:
    """Over the whole range that the solver is meant for: standing at a tension, or slack by up to a half."""
    span = draw(st.floats(3.0, 2000.0))
    reaches = [
        Reach(length, give_m_per_n=length * 1e-6 * draw(st.integers(0, 1)))
        for length in (draw(st.floats(0.0, min(3.0, 0.3 * span))) for _ in range(2))
    ]
    webbing = Webbing(span * draw(st.floats(0.6, 1.5)), draw(st.floats(0.1, 5.0)), draw(laws()))
    line = Line(span, span * draw(st.floats(-0.4, 0.4)), reaches[0], (webbing,), reaches[1])
    standing = length_for_tension(line, draw(st.floats(50.0, 60e3)))
    return line if isinstance(standing, NoResult) else standing


loads = st.floats(0.0, 3e3)
fractions = st.floats(0.0, 1.0)


def rest(line: Line, load_n: float, fraction: float) -> Equilibrium:
    equilibrium = hang(line, load_n, fraction)
    assert isinstance(equilibrium, Equilibrium)
    return equilibrium


@FEW
@given(lines(), loads, fractions)
def test_mirror(line: Line, load_n: float, fraction: float) -> None:
    mirrored = Line(line.span_m, -line.rise_m, line.reach_b, line.webbings[::-1], line.reach_a)
    one, other = rest(line, load_n, fraction), rest(mirrored, load_n, 1.0 - fraction)
    assert one.tension_a_n == pytest.approx(other.tension_b_n, rel=1e-6)
    assert one.tension_b_n == pytest.approx(other.tension_a_n, rel=1e-6)
    assert one.slope_a_rad == pytest.approx(other.slope_b_rad, abs=1e-6)
    assert one.load_x_m + other.load_x_m == pytest.approx(line.span_m, rel=1e-6)


@FEW
@given(lines(), loads, fractions)
def test_the_anchors_carry_load_and_weight(line: Line, load_n: float, fraction: float) -> None:
    equilibrium = rest(line, load_n, fraction)
    vertical_b_n = (equilibrium.tension_b_n**2 - equilibrium.horizontal_n**2) ** 0.5
    if equilibrium.slope_b_rad < 0.0:
        vertical_b_n = -vertical_b_n
    carried = load_n + sum(webbing.weight_n_per_m * webbing.length_m for webbing in line.webbings)
    tolerance = 1e-6 * (carried + equilibrium.tension_n)
    assert vertical_b_n - equilibrium.vertical_a_n == pytest.approx(carried, abs=tolerance)


@FEW
@given(lines(), loads, st.floats(1.0, 500.0), st.floats(0.05, 0.95))
def test_more_load_hangs_lower(line: Line, load_n: float, more_n: float, fraction: float) -> None:
    less, more = rest(line, load_n, fraction), rest(line, load_n + more_n, fraction)
    assert more.load_y_m < less.load_y_m
    if line.reach_a.length_m + line.unstressed_m + line.reach_b.length_m < line.chord_m:
        # Taut when bare. Only the greatest tension: on a slope the horizontal force may fall a little.
        assert more.tension_n > less.tension_n


@FEW
@given(lines(), loads, st.floats(0.05, 0.95))
def test_a_longer_line_pulls_less_sideways(line: Line, load_n: float, fraction: float) -> None:
    webbing = line.webbings[0]
    longer = replace(line, webbings=(replace(webbing, length_m=1.001 * webbing.length_m),))
    shorter_rest, longer_rest = rest(line, load_n, fraction), rest(longer, load_n, fraction)
    assert longer_rest.horizontal_n < shorter_rest.horizontal_n


@FEW
@given(lines(), st.floats(50.0, 3e3), st.floats(0.05, 0.95))
def test_energy_grows_by_the_work_of_the_load(line: Line, load_n: float, fraction: float) -> None:
    """Central difference of energy by the way down; the quotient is the load."""
    change = 1e-3 * load_n
    less, more = rest(line, load_n - change, fraction), rest(line, load_n + change, fraction)
    way = less.load_y_m - more.load_y_m
    # Energies near 1e6 J are known to about 1e-9 of themselves, which limits a short way.
    noise = 1e-11 * line.span_m * more.tension_n / way
    assert (more.energy_j - less.energy_j) / way == pytest.approx(load_n, rel=1e-5, abs=noise)


@FEW
@given(lines(), loads, fractions, st.floats(0.1, 0.9))
def test_webbing_in_two_parts_is_the_same_webbing(
    line: Line, load_n: float, fraction: float, share: float
) -> None:
    webbing = line.webbings[0]
    straight = replace(webbing, law=StretchLaw.linear(1.0 / webbing.law.slope(0.0)))
    parts = tuple(replace(straight, length_m=part * webbing.length_m) for part in (share, 1.0 - share))
    one = rest(replace(line, webbings=(straight,)), load_n, fraction)
    two = rest(replace(line, webbings=parts), load_n, fraction)
    assert two.horizontal_n == pytest.approx(one.horizontal_n, rel=1e-6)
    assert two.load_y_m == pytest.approx(one.load_y_m, abs=1e-6 * line.span_m)
    scale = one.horizontal_n * line.span_m
    assert two.energy_j == pytest.approx(one.energy_j, rel=1e-6, abs=1e-9 * scale)
    assert two.stretched_m == pytest.approx(one.stretched_m, rel=1e-9)
    assert two.strain == pytest.approx(one.strain, rel=1e-6)


@FEW
@given(lines(), st.floats(0.5, 20.0), loads, fractions)
def test_forces_scale_with_stiffness_and_weight(
    line: Line, factor: float, load_n: float, fraction: float
) -> None:
    webbing = line.webbings[0]
    law = StretchLaw.linear(1.0 / webbing.law.slope(0.0))
    scaled_law = StretchLaw.linear(factor / webbing.law.slope(0.0))
    rigid = replace(line, reach_a=Reach(line.reach_a.length_m), reach_b=Reach(line.reach_b.length_m))
    heavy = replace(webbing, weight_n_per_m=factor * webbing.weight_n_per_m, law=scaled_law)
    one = rest(replace(rigid, webbings=(replace(webbing, law=law),)), load_n, fraction)
    many = rest(replace(rigid, webbings=(heavy,)), factor * load_n, fraction)
    assert many.tension_n == pytest.approx(factor * one.tension_n, rel=1e-6)
    assert many.sag_m == pytest.approx(one.sag_m, abs=1e-6 * line.span_m)


@FEW
@given(lines(), st.floats(20.0, 250.0), st.floats(0.0, 4.0), st.floats(0.02, 0.98))
def test_a_deeper_fall_pulls_harder(line: Line, mass_kg: float, height_m: float, fraction: float) -> None:
    bare = rest(line, 0.0, fraction)
    less = drop(line, fraction, mass_kg, height_m, reference=bare)
    more = drop(line, fraction, mass_kg, height_m + 0.5, reference=bare)
    assert isinstance(less, Equilibrium)
    assert isinstance(more, Equilibrium)
    assert mass_kg * 9.8 < less.load_n < more.load_n
