"""Outside its range a mechanics function raises; it neither clamps nor returns a number."""

import math
from collections.abc import Callable

import pytest

from riglint.mechanics.anchors import bolts, sling, trunk
from riglint.mechanics.anchors.connector_class import connector_class
from riglint.mechanics.falls import impact, tie_back
from riglint.mechanics.falls.arrest import arrested_n
from riglint.mechanics.rope import friction, tackle
from riglint.mechanics.span import pulse, wind
from riglint.mechanics.span.stretch import StretchLaw
from tests.unit.test_mechanics_limits import BARE, LINE


def haul(
    multiplier: int = 3, multiplier_efficiency: float = 0.9, brake_efficiency: float = 0.5
) -> tackle.HaulForces:
    return tackle.hauled(
        300.0,
        5,
        multiplier,
        efficiency=0.9,
        multiplier_efficiency=multiplier_efficiency,
        brake_efficiency=brake_efficiency,
    )


OUTSIDE: dict[str, Callable[[], object]] = {
    "efficiency in per cent": lambda: tackle.strand_forces(
        1e3, 5, 92.0, lowering=False, dead_end_on="moving"
    ),
    "efficiency above 1": lambda: tackle.strand_forces(1e3, 5, 1.01, lowering=False, dead_end_on="moving"),
    "efficiency not a number": lambda: tackle.strand_sum(5, math.nan),
    "no strand": lambda: tackle.strand_sum(0, 0.9),
    "dead end on the wrong block, odd": lambda: tackle.strand_forces(
        1e3, 5, 0.9, lowering=True, dead_end_on="fixed"
    ),
    "dead end on the wrong block, even": lambda: tackle.strand_forces(
        1e3, 4, 0.9, lowering=True, dead_end_on="moving"
    ),
    "negative tension": lambda: tackle.strand_forces(-1.0, 5, 0.9, lowering=True, dead_end_on="moving"),
    "no multiplier": lambda: haul(multiplier=0),
    "compound multiplier": lambda: haul(multiplier=9),
    "brake that pushes": lambda: haul(brake_efficiency=1.2),
    "multiplier pulley that pushes": lambda: haul(multiplier_efficiency=1.2),
    "negative line": lambda: tackle.hand_needed(
        -1.0, 5, 3, efficiency=0.9, multiplier_efficiency=0.9, brake_efficiency=0.5
    ),
    "negative lead": lambda: tackle.line_tension_bounds_n(-1.0, 5, 0.9),
    "negative friction": lambda: friction.capstan_ratio(-0.1, 1.0),
    "turns in degrees": lambda: friction.capstan_ratio(0.25, 180.0),
    "hold without a brake": lambda: friction.hold_force_n(1e3, 0.0, 0.25, 1.0),
    "turns without friction": lambda: friction.turns_to_hold(1e3, 300.0, 0.5, 0.0),
    "angle in degrees": lambda: sling.leg_force_n(1e3, 60.0),
    "legs in line": lambda: sling.leg_force_n(1e3, math.pi),
    "length at no angle": lambda: sling.length_for_angle(1.0, 0.0),
    "endless sling": lambda: sling.included_angle_rad(50.0, 1.0),
    "girth 0": lambda: sling.reach_from_face_m(0.0, 1.0),
    "basket without an angle": lambda: sling.mode_factor("basket"),
    "unknown hitch": lambda: sling.mode_factor("granny", 1.0),  # type: ignore[arg-type]
    "stem that is all bark": lambda: trunk.inner_diameter_m(0.2, "rough", {"smooth": 0.01, "rough": 0.04}),
    "cavity as wide as the stem": lambda: trunk.section_modulus_m3(0.3, 0.3),
    "negative pull on a stem": lambda: trunk.bending_stress_pa(-1.0, 1.0, 0.3),
    "pull below ground": lambda: trunk.bending_stress_pa(1e3, -1.0, 0.3),
    "strength in MPa": lambda: trunk.allowable_stress_pa(25.0, 2.0),
    "quality below 1": lambda: trunk.allowable_stress_pa(25e6, 0.5),
    "bolt angle past axial": lambda: bolts.bolt_pull(1e3, 2.0),
    "bolt strength in kN": lambda: bolts.bolt_use(bolts.BoltPull(1e3, 1e3), radial_strength_n=25.0),
    "no legs": lambda: bolts.leg_forces_n(1e3, 0, "fixed", 1.0),
    "boulder of gravel": lambda: bolts.boulder_resistance_n(1.0, 0.5),
    "downward pull credited": lambda: bolts.boulder_resistance_n(1e3, 0.5, -1.0),
    "negative drop": lambda: impact.spring_impact_n(800.0, 1e3, -0.1),
    "fall factor above 2": lambda: impact.fall_impact_n(80.0, 3e4, 2.1),
    "no time": lambda: pulse.tension_from_pulse(0.06, 100.0, 0.0),
    "no return": lambda: pulse.sag_from_pulse_m(1.0, 0),
    "negative timing error": lambda: pulse.tension_from_pulse(0.06, 100.0, 1.0, time_error_s=-0.1),
    "wind in km/h": lambda: wind.drag_n_per_m(100.0, 0.025),
    "width in mm": lambda: wind.drag_n_per_m(10.0, 25.0),
    "negative weight": lambda: wind.resultant_n_per_m(-1.0, 1.0),
    "tie-back as stiff as wool": lambda: tie_back.catch_bound_n(6e3, 130.0, 0.2),
    "line that pushes": lambda: tie_back.catch_n(6e3, 130e3, 0.2, -1.0),
    "body of a barn": lambda: wind.drag_n(10.0, 84.0),
    "webbing without stiffness": lambda: StretchLaw.linear(90e3).stiffer(0.0),
    "endless stiffness": lambda: StretchLaw.linear(90e3).stiffer(math.inf),
    "leash in kN/m": lambda: arrested_n(LINE, 80.0, 2.0, 8.0, reference=BARE),
    "fall upwards": lambda: arrested_n(LINE, 80.0, -1.0, 8e3, reference=BARE),
    "negative slack": lambda: tie_back.catch_bound_n(6e3, 130e3, -0.1),
    "small letter": lambda: connector_class("b"),
}


@pytest.mark.parametrize("call", OUTSIDE.values(), ids=OUTSIDE.keys())
def test_outside_its_range_it_raises(call: Callable[[], object]) -> None:
    with pytest.raises(ValueError):
        call()
