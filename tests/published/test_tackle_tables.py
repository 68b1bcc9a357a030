"""Tackles against printed reeving tables and handbook examples."""

from itertools import pairwise
from typing import Literal

import pytest

from riglint.mechanics.rope.tackle import (
    hand_needed,
    hauled,
    line_tension_bounds_n,
    strand_forces,
    strand_sum,
)
from tests.published.sources import Case, read_source


def ratio_over_a_fixed_lead(friction_factor: float, parts: int) -> float:
    """Return load over lead force as the tables count it: the lead leaves over one more fixed sheave."""
    return strand_sum(parts, 1 / friction_factor) / friction_factor


def lead_line_factor(friction_factor: float, parts: int, extra_sheaves: int = 0) -> float:
    """Return lead force over load, with lead sheaves beyond that one."""
    return friction_factor**extra_sheaves / ratio_over_a_fixed_lead(friction_factor, parts)


@pytest.mark.parametrize("case", read_source("riggers_handbook_tackle").cases)
def test_ratio_of_a_multi_part_tackle(case: Case) -> None:
    source = read_source("riggers_handbook_tackle")
    for parts, printed in enumerate(case["ratios"], start=1):
        assert source.agrees(ratio_over_a_fixed_lead(case["friction_factor"], parts), printed)


@pytest.mark.parametrize("case", read_source("wire_rope_users_manual").cases)
def test_lead_line_factor(case: Case) -> None:
    factor = lead_line_factor(case["friction_factor"], case["parts"], case["extra_sheaves"])
    assert read_source("wire_rope_users_manual").agrees(factor, case["factor"])


@pytest.mark.parametrize("case", read_source("drilling_line_fast_line").cases)
def test_fast_line_factor(case: Case) -> None:
    factor = lead_line_factor(case["friction_factor"], case["parts"])
    assert read_source("drilling_line_fast_line").agrees(factor, case["factor"])


@pytest.mark.parametrize("case", read_source("block_efficiency").cases)
def test_block_efficiency(case: Case) -> None:
    source = read_source("block_efficiency")
    for parts, printed in enumerate(case["efficiencies"], start=case["first_parts"]):
        assert source.agrees(ratio_over_a_fixed_lead(case["friction_factor"], parts) / parts, printed)


@pytest.mark.parametrize("case", read_source("pipeline_rules_tackle").cases)
def test_handbook_example(case: Case) -> None:
    ratio = ratio_over_a_fixed_lead(1 / case["efficiency"], case["parts"])
    assert read_source("pipeline_rules_tackle").agrees(ratio, case["ratio"])


@pytest.mark.parametrize("case", read_source("compound_tackle").cases)
def test_compound_of_three_on_five(case: Case) -> None:
    source = read_source("compound_tackle")
    efficiency = case["efficiency"]
    three, five = strand_sum(3, efficiency), strand_sum(5, efficiency)
    assert source.agrees(three, case["three"])
    assert source.agrees(five, case["five"])
    assert source.agrees(strand_sum(3, 1 / efficiency) * strand_sum(5, 1 / efficiency), case["lowering"])
    # A brake that turned the rope like one more sheave would make the haul the printed compound.
    pulled = hauled(
        100.0, 5, 3, efficiency=efficiency, multiplier_efficiency=efficiency, brake_efficiency=efficiency
    )
    assert source.agrees(pulled.actual_ratio, case["hauling"])


@pytest.mark.parametrize("case", read_source("brake_share").cases)
def test_share_left_on_the_brake(case: Case) -> None:
    forces = strand_forces(1.0, case["strands"], case["efficiency"], lowering=True, dead_end_on="moving")
    assert read_source("brake_share").agrees(forces.lead_n, case["share"])


@pytest.mark.parametrize("strands", range(1, 11))
@pytest.mark.parametrize("lowering", [False, True])
def test_blocks_are_in_equilibrium(strands: int, *, lowering: bool) -> None:
    end: Literal["moving", "fixed"] = "moving" if strands % 2 else "fixed"
    forces = strand_forces(6000.0, strands, 0.9, lowering=lowering, dead_end_on=end)
    assert sum(forces.strands_n) == pytest.approx(6000.0)
    assert forces.moving_block_n == 6000.0
    assert forces.fixed_block_n == pytest.approx(6000.0 - forces.lead_n)
    assert forces.dead_end_n == forces.strands_n[-1]
    for nearer, farther in pairwise(forces.strands_n):
        assert farther / nearer == pytest.approx(1 / 0.9 if lowering else 0.9)


@pytest.mark.parametrize("on", ["lead", "tail"])
@pytest.mark.parametrize("multiplier", [1, 2, 3, 4, 5])
@pytest.mark.parametrize("strands", [1, 2, 5])
def test_without_friction_the_ratio_is_a_whole_number(
    strands: int, multiplier: int, on: Literal["lead", "tail"]
) -> None:
    forces = hauled(
        100.0,
        strands,
        multiplier,
        efficiency=1.0,
        multiplier_efficiency=1.0,
        brake_efficiency=1.0,
        multiplier_on=on,
    )
    assert forces.actual_ratio == strands * multiplier
    assert forces.line_n == 100.0 * strands * multiplier


def walk_the_multiplier(multiplier: int, efficiency: float, brake: float) -> tuple[float, float]:
    """The rope of an odd multiplier on the lead, followed from the hand (pull 1) to the lead."""
    strand, grip = 1.0, 0.0
    for _ in range((multiplier - 1) // 2):
        before_grip_pulley, after_grip_pulley = strand, strand * efficiency
        grip += before_grip_pulley + after_grip_pulley
        strand = after_grip_pulley * efficiency  # over a fixed pulley, or for the last strand the brake
    return grip, grip + strand / efficiency * brake


@pytest.mark.parametrize("multiplier", [3, 5])
def test_odd_multiplier_followed_along_the_rope(multiplier: int) -> None:
    grip, lead = walk_the_multiplier(multiplier, 0.9, 0.5)
    forces = hauled(1.0, 5, multiplier, efficiency=0.9, multiplier_efficiency=0.9, brake_efficiency=0.5)
    assert forces.grip_n == pytest.approx(grip)
    assert forces.multiplier_pulley_n == pytest.approx(grip)
    assert forces.lead_n == pytest.approx(lead)


def test_fifteen_to_one_with_a_dragging_brake() -> None:
    # Worked by hand: 4.095 · 2.35 = 9.62.
    forces = hauled(1.0, 5, 3, efficiency=0.9, multiplier_efficiency=0.9, brake_efficiency=0.5)
    assert forces.actual_ratio == pytest.approx(4.0951 * 2.35)
    assert forces.grip_n == pytest.approx(1.9)


def test_even_multiplier_leaves_the_brake_out() -> None:
    two = hauled(1.0, 5, 2, efficiency=0.9, multiplier_efficiency=0.8, brake_efficiency=0.5)
    assert two.lead_n == two.grip_n == pytest.approx(1.8)


def test_multiplier_on_the_tail_is_drawn_through_the_brake() -> None:
    on_tail = hauled(
        1.0, 5, 3, efficiency=0.9, multiplier_efficiency=0.9, brake_efficiency=0.5, multiplier_on="tail"
    )
    assert on_tail.lead_n == pytest.approx(0.5 * 2.71)
    assert on_tail.grip_n == pytest.approx(1.9)


@pytest.mark.parametrize("multiplier", [1, 2, 3, 4, 5])
def test_hand_needed_undoes_hauled(multiplier: int) -> None:
    needed = hand_needed(
        6000.0, 5, multiplier, efficiency=0.9, multiplier_efficiency=0.9, brake_efficiency=0.5
    )
    again = hauled(
        needed.hand_n, 5, multiplier, efficiency=0.9, multiplier_efficiency=0.9, brake_efficiency=0.5
    )
    assert again.line_n == pytest.approx(6000.0)


def test_a_lead_force_bounds_the_line() -> None:
    low_n, high_n = line_tension_bounds_n(1000.0, 5, 0.9)
    hauling = strand_forces(low_n, 5, 0.9, lowering=False, dead_end_on="moving")
    lowering = strand_forces(high_n, 5, 0.9, lowering=True, dead_end_on="moving")
    assert hauling.lead_n == pytest.approx(1000.0)
    assert lowering.lead_n == pytest.approx(1000.0)
    assert low_n < 5000.0 < high_n
