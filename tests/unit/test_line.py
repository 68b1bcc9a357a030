"""The line and its parts: what they refuse, what they name, and identities between their results."""

from dataclasses import replace
from itertools import pairwise
from math import atan2, hypot, isinf, sin

import pytest

from riglint.mechanics.span.along import hang_along, places
from riglint.mechanics.span.chain import march
from riglint.mechanics.span.line import (
    Equilibrium,
    Line,
    NoResult,
    Reach,
    Webbing,
    hang,
    profile,
)
from riglint.mechanics.span.peak import drop
from riglint.mechanics.span.standing import length_for_sag, length_for_tension, reach_for_tension
from riglint.mechanics.span.stretch import StretchLaw
from riglint.mechanics.valid_range import STANDARD_GRAVITY_M_S2 as G

CURVE = StretchLaw.through([(10e3, 0.06), (2e3, 0.02), (5e3, 0.04)])
STRAIGHT = StretchLaw.linear(90e3)


def line(length_m: float = 97.0, law: StretchLaw = STRAIGHT, weight: float = 0.6, **change: object) -> Line:
    plain = Line(100.0, -2.0, Reach(0.6), (Webbing(length_m, weight, law),), Reach(1.9, 2e-6, 3e3))
    return replace(plain, **change)  # type: ignore[arg-type]


def rest(of: Line | NoResult, load_n: float = 0.0, fraction: float = 0.5) -> Equilibrium:
    assert isinstance(of, Line)
    equilibrium = hang(of, load_n, fraction)
    assert isinstance(equilibrium, Equilibrium)
    return equilibrium


def test_stretch_runs_through_the_points_and_on_with_the_last_slope() -> None:
    assert [CURVE.strain(t) for t in (0.0, 2e3, 5e3, 10e3)] == pytest.approx([0.0, 0.02, 0.04, 0.06])
    assert CURVE.strain(12e3) == pytest.approx(0.068)
    assert CURVE.slope(7e3) == pytest.approx(0.02 / 5e3)
    assert CURVE.slope(2e3) == pytest.approx(0.02 / 3e3)  # at a knot, that of the piece above
    assert CURVE.last_tension_n == 10e3
    assert isinf(STRAIGHT.last_tension_n)


def test_stretch_energies_are_the_areas_beside_the_curve() -> None:
    # Trapezia by hand: under strain(T) up to 7 kN, and what is left of the rectangle T · strain.
    below = 0.5 * 0.02 * 2e3 + 0.5 * (0.02 + 0.04) * 3e3 + 0.5 * (0.04 + 0.048) * 2e3
    assert CURVE.complementary(7e3) == pytest.approx(below)
    assert CURVE.energy(7e3) == pytest.approx(7e3 * 0.048 - below)
    assert STRAIGHT.energy(3e3) == pytest.approx(0.5 * 3e3**2 / 90e3)


@pytest.mark.parametrize(
    "points", [[], [(0.0, 0.0)], [(1e3, 0.02), (2e3, 0.02)], [(1e3, 0.02), (1e3, 0.03)], [(-1e3, 0.01)]]
)
def test_stretch_must_rise(points: list[tuple[float, float]]) -> None:
    with pytest.raises(ValueError, match=r"stretch curve|must rise"):
        StretchLaw.through(points)


def test_what_cannot_be_built() -> None:
    with pytest.raises(ValueError, match="stiffness"):
        StretchLaw.linear(0.0)
    with pytest.raises(ValueError, match="webbing"):
        Webbing(0.0, 0.6, STRAIGHT)
    with pytest.raises(ValueError, match="reach"):
        Reach(0.1, give_m_per_n=1e-3, reference_tension_n=1e3)
    with pytest.raises(ValueError, match="span"):
        line(span_m=0.0)
    with pytest.raises(ValueError, match="load"):
        hang(line(), load_n=-1.0)
    with pytest.raises(ValueError, match="fraction"):
        hang(line(), 800.0, 1.1)
    with pytest.raises(ValueError, match="tension"):
        length_for_tension(line(), 0.0)
    with pytest.raises(ValueError, match="depth"):
        length_for_sag(line(), 800.0, 0.5, 0.0)
    with pytest.raises(ValueError, match="mass"):
        drop(line(), 0.5, 0.0, 1.0, reference=rest(line()))


def test_what_is_small_but_there_can_be_built() -> None:
    short = Line(0.5, 0.0, Reach(0.0), (Webbing(0.495, 0.0, STRAIGHT),), Reach(0.0))
    assert rest(short).tension_a_n == pytest.approx(90e3 * 0.005 / 0.495)
    light = drop(line(), 0.5, 0.2, 1.0, reference=rest(line()))
    assert isinstance(light, Equilibrium)
    assert light.load_n > 0.2 * G


def test_a_reach_lies_along_the_line_and_stretches_from_its_reference() -> None:
    equilibrium = rest(line(), 800.0)
    positions = profile(line(), equilibrium, 50)
    (x0, y0), (x1, y1) = positions[:2]
    assert hypot(x1 - x0, y1 - y0) == pytest.approx(0.6)
    assert atan2(y0 - y1, x1 - x0) == pytest.approx(equilibrium.slope_a_rad)
    (x2, y2), (x3, y3) = positions[-2:]
    assert hypot(x3 - x2, y3 - y2) == pytest.approx(1.9 + 2e-6 * (equilibrium.tension_b_n - 3e3))
    assert atan2(y3 - y2, x3 - x2) == pytest.approx(equilibrium.slope_b_rad)


@pytest.mark.parametrize("law", [STRAIGHT, CURVE])
def test_profile_joins_anchor_points_and_load(law: StretchLaw) -> None:
    rig = line(law=law)
    equilibrium = rest(rig, 800.0, 0.35)
    positions = profile(rig, equilibrium, 200)
    assert positions[0] == (0.0, 0.0)
    assert positions[-1] == pytest.approx((100.0, -2.0))
    assert (equilibrium.load_x_m, equilibrium.load_y_m) in positions
    assert all(x < next_x for (x, _), (next_x, _) in pairwise(positions))


def test_taut_line_with_a_mid_load() -> None:
    """T ≈ W·L/(4·sag) for a small sag: taught in the trade, here the moment of a string about its middle."""
    rig = line(weight=0.0, rise_m=0.0, reach_b=Reach(0.6))
    equilibrium = rest(rig, 300.0)
    assert equilibrium.horizontal_n * equilibrium.sag_m == pytest.approx(300.0 * 100.0 / 4.0, rel=1e-9)
    assert 2.0 * equilibrium.tension_a_n * sin(equilibrium.slope_a_rad) == pytest.approx(300.0)


def test_bare_parabola() -> None:
    """Sag w·L²/(8·H), from memory; the catenary differs by the sag ratio squared."""
    rig = line(
        law=StretchLaw.linear(1e9), length_m=100.01, rise_m=0.0, reach_a=Reach(0.0), reach_b=Reach(0.0)
    )
    equilibrium = rest(rig)
    assert equilibrium.sag_m == pytest.approx(0.6 * 100.0**2 / (8.0 * equilibrium.horizontal_n), rel=1e-3)


@pytest.mark.parametrize(("law", "tolerance"), [(STRAIGHT, 1e-6), (CURVE, 1e-4)])
def test_energy_is_stretch_plus_height_of_the_weight(law: StretchLaw, tolerance: float) -> None:
    """The weight's part summed up over many points of the line, by the trapezium rule."""
    rig = line(law=law, reach_b=Reach(1.9))
    equilibrium = rest(rig, 800.0)
    heights = [y for _, y in profile(rig, equilibrium, 20_000)[1:-1]]
    mean_height = (sum(heights) - 0.5 * (heights[0] + heights[-1])) / (len(heights) - 1)
    by_parts = equilibrium.stretch_energy_j + 0.6 * 97.0 * mean_height
    assert equilibrium.energy_j == pytest.approx(by_parts, rel=tolerance)


def test_past_the_curve_is_said() -> None:
    assert not rest(line(law=CURVE), 500.0).past_curve
    beyond = rest(line(length_m=90.0, law=CURVE), 800.0)
    assert beyond.past_curve
    assert beyond.tension_n > CURVE.last_tension_n
    assert beyond.strain == pytest.approx(
        CURVE.strain(max(beyond.tension_a_n, beyond.tension_b_n)), rel=1e-12
    )
    one_point = StretchLaw.through([(2e3, 2e3 / 90e3)])
    assert rest(line(law=one_point), 800.0).past_curve


def test_a_slack_line_without_weight_has_no_shape() -> None:
    assert hang(line(length_m=110.0, weight=0.0)) == NoResult("too_slack")


@pytest.mark.parametrize("load_n", [0.0, 100.0, 686.0, 2000.0])
@pytest.mark.parametrize("fraction", [0.3, 0.5, 0.7])
def test_rigid_reaches_longer_than_the_span_leave_no_line(load_n: float, fraction: float) -> None:
    """They hang straight down, whatever hangs on them: 44 m of them over 9 m need no horizontal force at all."""
    hung = Line(9.0, 0.0, Reach(0.5), (Webbing(9e-6, 0.47, CURVE),), Reach(43.5))
    assert hang(hung, load_n, fraction) == NoResult("too_slack")


def test_a_near_start_changes_nothing() -> None:
    cold = rest(line(), 800.0)
    warm = hang(line(), 800.0, start=(1.2 * cold.horizontal_n, 0.7 * cold.vertical_a_n))
    assert isinstance(warm, Equilibrium)
    assert warm.horizontal_n == pytest.approx(cold.horizontal_n, rel=1e-9)


def in_pieces(of: Line, count: int) -> Line:
    """The same line, its webbing made of equal pieces in a row."""
    piece = replace(of.webbings[0], length_m=of.webbings[0].length_m / count)
    return replace(of, webbings=(piece,) * count)


@pytest.mark.parametrize(
    ("weight", "tension_n", "passes_a_knot"),
    [(0.6, 3e3, False), (6.0, 3e3, False), (6.0, 8e3, False), (0.6, 5000.04, True), (6.0, 5004.0, True)],
)
def test_a_curved_law_is_followed_exactly(weight: float, tension_n: float, passes_a_knot: bool) -> None:
    whole = length_for_tension(line(law=CURVE, weight=weight), tension_n)
    assert isinstance(whole, Line)
    many = in_pieces(whole, 200)
    tensions = [hypot(piece.h, piece.v) for piece in rest(many).placed]
    assert (min(tensions) < 5e3 < max(tensions)) == passes_a_knot
    for load_n in (0.0, 800.0):
        one, other = rest(whole, load_n, 0.3), rest(many, load_n, 0.3)
        assert one[:-1] == pytest.approx(other[:-1], rel=1e-9, abs=1e-8)
        assert one.stretch_energy_j == pytest.approx(other.stretch_energy_j, rel=1e-9)
        assert one.stretched_m == pytest.approx(other.stretched_m, rel=1e-12)


@pytest.mark.parametrize("load_n", [0.0, 800.0])
@pytest.mark.parametrize("law", [STRAIGHT, CURVE])
def test_a_sweep_finds_what_each_place_alone_has(law: StretchLaw, load_n: float) -> None:
    rig = line(law=law)
    even = [0.04 + 0.023 * step for step in range(41)]
    for fractions in (even, sorted([*even, 0.5]), [0.02, 0.1, 0.3, 0.4, 0.5, 0.97], [0.9, 0.5, 0.1]):
        for fraction, swept in zip(fractions, hang_along(rig, load_n, fractions), strict=True):
            alone = rest(rig, load_n, fraction)
            assert isinstance(swept, Equilibrium)
            assert swept[:-1] == pytest.approx(alone[:-1], rel=1e-9, abs=1e-8)
            assert swept.parts == alone.parts


def test_places_of_a_bare_line() -> None:
    bare, fractions = rest(line(law=CURVE)), (0.0, 0.2, 0.9, 1.0)
    for fraction, (x, y) in zip(fractions, places(line(law=CURVE), bare, fractions), strict=True):
        there = rest(line(law=CURVE), 0.0, fraction)
        assert (x, y) == pytest.approx((there.load_x_m, there.load_y_m), rel=1e-12)


@pytest.mark.parametrize("at", ["a", "b"])
@pytest.mark.parametrize("floating", [0, 1])
@pytest.mark.parametrize("law", [STRAIGHT, CURVE])
def test_length_for_tension(at: str, floating: int, law: StretchLaw) -> None:
    rig = line(webbings=(Webbing(40.0, 0.6, law), Webbing(55.0, 0.5, STRAIGHT)))
    cut = length_for_tension(rig, 3e3, at, floating)  # type: ignore[arg-type]
    equilibrium = rest(cut)
    assert isinstance(cut, Line)
    assert cut.webbings[1 - floating] == rig.webbings[1 - floating]
    assert (equilibrium.tension_a_n if at == "a" else equilibrium.tension_b_n) == pytest.approx(3e3, rel=1e-8)


@pytest.mark.parametrize("side", ["a", "b"])
def test_reach_for_tension(side: str) -> None:
    pulled = reach_for_tension(line(length_m=93.0), 4e3, "b", side)  # type: ignore[arg-type]
    assert isinstance(pulled, Line)
    assert pulled.webbings == line(length_m=93.0).webbings
    assert rest(pulled).tension_b_n == pytest.approx(4e3, rel=1e-8)
    hand_tight = reach_for_tension(pulled, 200.0, "b", side)  # type: ignore[arg-type]
    assert isinstance(hand_tight, Line)
    changed = (hand_tight.reach_a, pulled.reach_a) if side == "a" else (hand_tight.reach_b, pulled.reach_b)
    assert changed[0].length_m > changed[1].length_m


def test_lengths_that_do_not_exist() -> None:
    assert length_for_tension(line(), 0.99 * 0.6 * 100.0) == NoResult("too_slack")
    assert isinstance(length_for_tension(line(), 1.01 * 0.6 * 100.0), Line)
    assert reach_for_tension(line(), 50.0, "a", "a") == NoResult("too_slack")
    assert reach_for_tension(line(length_m=99.0), 10e3, "a", "a") == NoResult("no_room")
    two = line(webbings=(Webbing(105.0, 0.6, STRAIGHT), Webbing(1.0, 0.6, STRAIGHT)))
    assert length_for_tension(two, 3e3, floating=1) == NoResult("no_room")
    assert length_for_sag(two, 800.0, 0.5, 2.0, floating=1) == NoResult("no_room")


@pytest.mark.parametrize("load_n", [0.0, 800.0])
def test_length_for_sag(load_n: float) -> None:
    cut = length_for_sag(line(law=CURVE), load_n, 0.4, 5.0)
    assert rest(cut, load_n, 0.4).sag_m == pytest.approx(5.0, rel=1e-8)


def test_a_drop_keeps_the_energy() -> None:
    rig, resting_n = line(law=CURVE), 700.0
    before = rest(rig, resting_n, 0.3)
    peak = drop(rig, 0.3, 80.0, 0.5, reference=before, resting_n=resting_n)
    assert isinstance(peak, Equilibrium)
    way = before.load_y_m - peak.load_y_m
    released = 80.0 * G * (0.5 + way) + resting_n * way
    assert peak.energy_j - before.energy_j == pytest.approx(released, rel=1e-6)
    assert peak.load_n > 2.0 * 80.0 * G + resting_n


def test_a_mass_that_hangs_already_is_at_rest() -> None:
    static = rest(line(), 80.0 * G)
    assert drop(line(), 0.5, 80.0, 0.0, reference=static) == static


@pytest.mark.parametrize("law", [STRAIGHT, CURVE])
@pytest.mark.parametrize("length_m", [94.0, 97.0, 104.0])  # the last is slack until it catches
def test_a_near_peak_changes_nothing(length_m: float, law: StretchLaw) -> None:
    rig, near = line(length_m, law), None
    for fraction in (0.05, 0.1, 0.4, 0.9):
        bare = rest(rig, 0.0, fraction)
        alone = drop(rig, fraction, 80.0, 1.5, reference=bare)
        beside = drop(rig, fraction, 80.0, 1.5, reference=bare, near=near)
        assert isinstance(alone, Equilibrium)
        assert isinstance(beside, Equilibrium)
        assert beside.load_n == pytest.approx(alone.load_n, rel=1e-6)
        stored, lost = alone.energy_j - bare.energy_j, 80.0 * G * (1.5 + bare.load_y_m - alone.load_y_m)
        assert stored == pytest.approx(lost, rel=1e-6)
        near = beside


@pytest.mark.parametrize("law", [STRAIGHT, CURVE])
@pytest.mark.parametrize("length_m", [94.0, 97.0, 104.0])
def test_newton_and_the_bracket_find_the_same_peak(
    length_m: float, law: StretchLaw, monkeypatch: pytest.MonkeyPatch
) -> None:
    rig = line(length_m, law)
    peaks = [drop(rig, where, 80.0, 1.5, reference=rest(rig, 0.0, where)) for where in (0.05, 0.4)]
    monkeypatch.setattr("riglint.mechanics.span.peak._towards_peak", lambda *_: None)
    bracketed = [drop(rig, where, 80.0, 1.5, reference=rest(rig, 0.0, where)) for where in (0.05, 0.4)]
    for one, other in zip(peaks, bracketed, strict=True):
        assert isinstance(one, Equilibrium)
        assert isinstance(other, Equilibrium)
        assert one.load_n == pytest.approx(other.load_n, rel=1e-6)


@pytest.mark.parametrize("bend_n", [1003.0, 1020.0, 1040.0, 1044.03, 1090.0])
@pytest.mark.parametrize("v", [-300.0, -250.0, -590.0, 10.0, -600.0, 0.0])
def test_segment_that_bends_its_stretch_curve_is_the_sum_of_its_parts(v: float, bend_n: float) -> None:
    """Strain leaps in slope at the bend: taken for one piece, the segment would be another."""
    law = StretchLaw.through([(bend_n, 0.02), (2.0 * bend_n, 0.2)])
    webbing = Webbing(600.0, 1.0, law)
    whole = march(1e3, v, (webbing.segment(600.0),))
    parts = march(1e3, v, (webbing.segment(0.5),) * 1200)
    assert whole == pytest.approx(parts, rel=1e-9, abs=1e-9)


def test_line_that_stands_at_the_last_point_of_its_curve_is_not_past_it() -> None:
    standing = rest(line())
    greatest_n = max(piece.near_tension for piece in standing.placed[1:-1])
    greatest_n = max(greatest_n, *(piece.far_tension for piece in standing.placed[1:-1]))

    def past(last_n: float) -> bool:
        (webbing,) = {*standing.parts.webbings}
        law = replace(webbing.law, last_tension_n=last_n)
        of = replace(standing.line, webbings=(replace(webbing, law=law),))
        return standing._replace(line=of).past_curve

    assert not past(greatest_n)
    assert past(greatest_n - 1e-6)


def test_least_tension_that_tells_a_length_is_weight_times_span() -> None:
    assert isinstance(length_for_tension(line(weight=0.5), 50.0), Line)
    assert length_for_tension(line(weight=0.5), 49.9) == NoResult("too_slack")


def test_curve_of_two_points_is_not_straight() -> None:
    assert StretchLaw.through([(1e3, 0.01)]).is_straight
    assert not StretchLaw.through([(1e3, 0.01), (2e3, 0.05)]).is_straight
