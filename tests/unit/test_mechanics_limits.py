"""A range is as wide as its docstring says: at its ends a mechanics function answers, a twentieth beyond it raises.

The ends are copied from the docstrings, so that number and sentence cannot drift apart.
"""

import math
from collections.abc import Callable
from typing import cast

import pytest

from riglint.mechanics.anchors import bolts, sling, trunk
from riglint.mechanics.falls import impact, tie_back
from riglint.mechanics.falls.arrest import arrested_n
from riglint.mechanics.rope import friction, tackle
from riglint.mechanics.span import pulse, wind
from riglint.mechanics.span.line import Equilibrium, Line, Reach, Webbing, hang
from riglint.mechanics.span.stretch import StretchLaw
from riglint.mechanics.valid_range import require_force, require_within

BEYOND = 0.05  # of the end, or of 1 where the end is 0

Range = tuple[Callable[[float], object], float, float]
BARK: dict[trunk.Bark, float] = {"smooth": 0.01}
PULL = bolts.BoltPull(1e3, 1e3)
LINE = Line(50.0, 0.0, Reach(0.0), (Webbing(49.0, 0.5, StretchLaw.linear(90e3)),), Reach(0.0))
BARE = cast("Equilibrium", hang(LINE))

RANGES: dict[str, Range] = {
    "any force": (lambda x: require_force("force", x), 0.0, 1e6),
    "bolt, angle from radial": (lambda x: bolts.bolt_pull(1e3, x), 0.0, math.pi / 2),
    "bolt, pull": (lambda x: bolts.bolt_pull(x, 0.1), 0.0, 1e6),
    "bolt, radial pull": (lambda x: bolts.bolt_use(bolts.BoltPull(x, 0.0)), 0.0, 1e6),
    "bolt, axial pull": (lambda x: bolts.bolt_use(bolts.BoltPull(0.0, x)), 0.0, 1e6),
    "bolt, radial strength": (lambda x: bolts.bolt_use(PULL, radial_strength_n=x), 1e3, 1e6),
    "bolt, axial strength": (lambda x: bolts.bolt_use(PULL, axial_strength_n=x), 1e3, 1e6),
    "legs, angle": (lambda x: bolts.leg_forces_n(1e3, 2, "fixed", x), 0.0, 3.1),
    "boulder, mass": (lambda x: bolts.boulder_resistance_n(x, 0.5), 10.0, 1e7),
    "boulder, friction": (lambda x: bolts.boulder_resistance_n(1e3, x), 0.0, 1.0),
    "boulder, uplift": (lambda x: bolts.boulder_resistance_n(1e3, 0.5, x), 0.0, 1e6),
    "capstan, friction": (lambda x: friction.capstan_ratio(x, 1.0), 0.0, 1.5),
    "capstan, turns": (lambda x: friction.capstan_ratio(0.2, x), 0.0, 10.0),
    "hold, lead": (lambda x: friction.hold_force_n(x, 0.5, 0.2, 1.0), 0.0, 1e6),
    "hold, brake": (lambda x: friction.hold_force_n(1e3, x, 0.2, 1.0), 0.1, 1.0),
    "turns, lead": (lambda x: friction.turns_to_hold(x, 100.0, 0.5, 0.2), 0.0, 1e6),
    "turns, hand": (lambda x: friction.turns_to_hold(1e3, x, 0.5, 0.2), 1.0, 1e6),
    "turns, brake": (lambda x: friction.turns_to_hold(1e3, 100.0, x, 0.2), 0.1, 1.0),
    "turns, friction": (lambda x: friction.turns_to_hold(1e3, 100.0, 0.5, x), 0.01, 1.5),
    "spring, weight": (lambda x: impact.spring_impact_n(x, 1e3, 1.0), 0.0, 1e6),
    "spring, stiffness": (lambda x: impact.spring_impact_n(1e3, x, 1.0), 1.0, 1e9),
    "spring, drop": (lambda x: impact.spring_impact_n(1e3, 1e3, x), 0.0, 500.0),
    "fall, mass": (lambda x: impact.fall_impact_n(x, 3e4, 1.0), 1.0, 1000.0),
    "fall, modulus": (lambda x: impact.fall_impact_n(80.0, x, 1.0), 100.0, 1e8),
    "fall, fall factor": (lambda x: impact.fall_impact_n(80.0, 3e4, x), 0.0, 2.0),
    "pulse, mass": (lambda x: pulse.tension_from_pulse(x, 100.0, 1.0), 1e-5, 10.0),
    "pulse, length": (lambda x: pulse.tension_from_pulse(0.06, x, 1.0), 1.0, 5000.0),
    "pulse, time": (lambda x: pulse.tension_from_pulse(1e-4, 10.0, x), 0.01, 3600.0),
    "pulse, error of the mass": (
        lambda x: pulse.tension_from_pulse(0.06, 100.0, 1.0, mass_per_m_error=x),
        0.0,
        0.06,
    ),
    "pulse, error of the length": (
        lambda x: pulse.tension_from_pulse(0.06, 100.0, 1.0, length_error_m=x),
        0.0,
        100.0,
    ),
    "sag, time": (pulse.sag_from_pulse_m, 0.01, 3600.0),
    "sling, girth": (lambda x: sling.length_for_angle(x, 1.0), 0.05, 30.0),
    "sling, angle": (lambda x: sling.length_for_angle(1.0, x), 1e-3, math.pi),
    "sling, girth of an angle": (lambda x: sling.included_angle_rad(1.5 * x, x), 0.05, 30.0),
    "sling, length over girth": (lambda x: sling.included_angle_rad(x, 1.0), 1.0001, 20.0),
    "reach, girth": (lambda x: sling.reach_from_face_m(x, 1.0), 0.05, 30.0),
    "reach, angle": (lambda x: sling.reach_from_face_m(1.0, x), 1e-3, math.pi),
    "leg, angle": (lambda x: sling.leg_force_n(1e3, x), 0.0, 3.1),
    "basket, angle": (lambda x: sling.mode_factor("basket", x), 0.0, math.pi),
    "block, efficiency": (
        lambda x: tackle.strand_forces(1e3, 5, x, lowering=False, dead_end_on="moving"),
        0.1,
        1.0,
    ),
    "strands, efficiency": (lambda x: tackle.strand_sum(5, x), 0.1, 10.0),
    "stem, girth": (lambda x: trunk.inner_diameter_m(x, "smooth", BARK), 0.2, 30.0),
    "stem, diameter": (trunk.section_modulus_m3, 0.01, 10.0),
    "stem, cavity": (lambda x: trunk.section_modulus_m3(1.0, x), 0.0, 0.99),
    "stem, height": (lambda x: trunk.bending_stress_pa(1e3, x, 0.3), 0.0, 50.0),
    "stem, strength": (lambda x: trunk.allowable_stress_pa(x, 2.0), 1e6, 1e8),
    "stem, quality": (lambda x: trunk.allowable_stress_pa(25e6, x), 1.0, 10.0),
    "wind, speed": (lambda x: wind.drag_n_per_m(x, 0.025), 0.0, 60.0),
    "wind, width": (lambda x: wind.drag_n_per_m(10.0, x), 0.001, 2.0),
    "wind, drag coefficient": (lambda x: wind.drag_n_per_m(10.0, 0.025, drag_coefficient=x), 0.5, 3.0),
    "wind, air": (lambda x: wind.drag_n_per_m(10.0, 0.025, air_density_kg_per_m3=x), 0.5, 1.6),
    "wind, weight": (lambda x: wind.resultant_n_per_m(x, 1.0), 0.0, 1000.0),
    "wind, drag": (lambda x: wind.resultant_n_per_m(1.0, x), 0.0, 1000.0),
    "tie-back, stiffness": (lambda x: tie_back.catch_bound_n(6e3, x, 0.2), 1e3, 1e9),
    "tie-back, slack": (lambda x: tie_back.catch_bound_n(6e3, 130e3, x), 0.0, 10.0),
    "tie-back, line": (lambda x: tie_back.catch_n(6e3, 130e3, 0.2, x), 0.0, 1e6),
    "body, wind": (lambda x: wind.drag_n(x, 1.0), 0.0, 60.0),
    "body, drag area": (lambda x: wind.drag_n(10.0, x), 0.01, 10.0),
    "body, air": (lambda x: wind.drag_n(10.0, 1.0, air_density_kg_per_m3=x), 0.5, 1.6),
    "arrest, mass": (lambda x: arrested_n(LINE, x, 2.0, 1e4, reference=BARE), 1.0, 1000.0),
    "arrest, fall": (lambda x: arrested_n(LINE, 80.0, x, 1e4, reference=BARE), 0.0, 500.0),
    "arrest, leash": (lambda x: arrested_n(LINE, 80.0, 2.0, x, reference=BARE), 10.0, 1e9),
}


def _hauled(multiplier: int) -> object:
    return tackle.hauled(
        300.0, 5, multiplier, efficiency=0.9, multiplier_efficiency=0.9, brake_efficiency=0.5
    )


Count = tuple[Callable[[int], object], int, int]
COUNTS: dict[str, Count] = {
    "legs": (lambda n: bolts.leg_forces_n(1e3, n, "fixed", 1.0), 1, 10),
    "returns, tension": (lambda n: pulse.tension_from_pulse(0.06, 100.0, 5.0, n), 1, 1000),
    "returns, sag": (lambda n: pulse.sag_from_pulse_m(1.0, n), 1, 1000),
    "strands": (lambda n: tackle.strand_sum(n, 0.9), 1, 20),
    "multiplier": (_hauled, 1, 5),
}


@pytest.mark.parametrize("name", RANGES)
def test_at_both_ends_of_its_range_it_answers(name: str) -> None:
    call, low, high = RANGES[name]
    call(low)
    call(high)


@pytest.mark.parametrize("name", RANGES)
def test_just_beyond_its_range_it_raises(name: str) -> None:
    call, low, high = RANGES[name]
    for beyond in (low - BEYOND * (abs(low) or 1.0), high + BEYOND * high):
        with pytest.raises(ValueError):
            call(beyond)


@pytest.mark.parametrize("name", COUNTS)
def test_counts_end_where_they_should(name: str) -> None:
    call, low, high = COUNTS[name]
    call(low)
    call(high)
    for beyond in (low - 1, high + 1):
        with pytest.raises(ValueError):
            call(beyond)


def test_range_includes_its_ends() -> None:
    require_within("x", 1.0, 1.0, 1.0)


@pytest.mark.parametrize(("degrees", "factor"), [(90.0, 1.4), (120.0, 1.0)])
def test_a_band_of_angles_ends_where_rounding_does(degrees: float, factor: float) -> None:
    end = math.radians(degrees)
    assert sling.mode_factor("basket", end + sling.ROUNDING_RAD) == factor
    assert sling.mode_factor("basket", end + 2e-9) != factor


def test_stem_that_is_bark_to_its_middle_has_no_wood() -> None:
    with pytest.raises(ValueError, match="no wood left"):
        trunk.inner_diameter_m(0.5 * math.pi, "smooth", {"smooth": 0.25})


def test_rope_pulled_through_the_brake_needs_no_grip() -> None:
    forces = tackle.hauled(300.0, 5, 1, efficiency=0.9, multiplier_efficiency=0.9, brake_efficiency=0.5)
    assert forces.grip_n == 0.0


def test_softest_webbing_is_any_above_nothing() -> None:
    assert StretchLaw.linear(0.5).slope(0.0) == 2.0
