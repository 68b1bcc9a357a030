"""Figures that were worked out for this project, apart from the program, on the sound highline and by hand."""

from math import hypot

import pytest

from riglint.mechanics.falls.tie_back import catch_bound_n
from riglint.mechanics.rope.friction import hold_force_n
from riglint.mechanics.rope.tackle import hauled, strand_sum
from riglint.mechanics.span.line import Equilibrium
from tests.published.sources import Case, read_source
from tests.rigs import loads_of, rig_data


def mid(positions: tuple[Equilibrium, ...]) -> Equilibrium:
    return min(positions, key=lambda rest: abs(rest.fraction - 0.5))


@pytest.mark.parametrize("case", read_source("highline_figures").cases)
def test_highline_of_52_m(case: Case) -> None:
    source, loads = read_source("highline_figures"), loads_of(rig_data("highline"))
    assert loads.geometry.span_m == 52.0
    assert loads.standing.tension_n == pytest.approx(3e3, rel=1e-9)
    fall = mid(loads.leash_fall.soft_positions)
    assert fall.fraction == 0.5
    assert source.agrees(fall.tension_n / 1e3, case["leash_fall_kn"])
    assert source.agrees(fall.sag_m, case["ring_sag_m"])
    hang_m, body_m = 2.2, loads.values["body_below_harness"]
    assert source.agrees(fall.sag_m + hang_m + body_m, case["lowest_m"])


@pytest.mark.parametrize("case", read_source("backup_figures").cases)
def test_backup_of_the_highline(case: Case) -> None:
    source, loads = read_source("backup_figures"), loads_of(rig_data("highline"))
    (backup,) = loads.backups
    catch = loads.catch(backup)
    assert source.agrees(catch.state.tension_n / 1e3, case["standing_kn"])
    assert source.agrees(catch.hanging.tension_n / 1e3, case["hanging_kn"])


@pytest.mark.parametrize("case", read_source("haul_figures").cases)
def test_haul_by_hand(case: Case) -> None:
    source = read_source("haul_figures")
    assert source.agrees(hold_force_n(6000.0 / 5, 0.5, 0.25, 0.5) / 1e3, case["hold_kn"])
    assert source.agrees(catch_bound_n(6000.0, 130e3, 0.2) / 1e3, case["tie_back_kn"])
    assert source.agrees(strand_sum(5, 0.9), case["five"])
    pulled = hauled(1.0, 5, 3, efficiency=0.9, multiplier_efficiency=0.9, brake_efficiency=0.5)
    assert source.agrees(pulled.lead_n, case["multiplier"])
    assert source.agrees(pulled.actual_ratio, case["all"])


@pytest.mark.parametrize("case", read_source("taut_line_limits").cases)
def test_taut_rig(case: Case) -> None:
    source = read_source("taut_line_limits")
    alone: dict[str, object] = (
        {"backups": []} if case["baseline"] == "highline" else {}
    )  # a taped backup would hang along the line
    tension, mass_kg = {"plan.standing_tension": case["tension"], **alone}, float(case["mass"].split()[0])
    heavy = loads_of(rig_data(case["baseline"], {**tension, "plan.users[0].mass": "250 kg"}))
    walker = mid(heavy.state("walker").soft_positions)
    assert walker.fraction == 0.5
    chord_m = hypot(heavy.geometry.span_m, heavy.geometry.rise_m)
    assert source.agrees(walker.load_n * chord_m / (4.0 * walker.sag_m), walker.horizontal_n)
    light = loads_of(rig_data(case["baseline"], tension))
    (landed,) = light.sweep.landing(mass_kg, 0.0, 0.0, [0.5])
    assert source.agrees(landed.load_n, 2.0 * mass_kg * 9.80665)
