"""Rope round a post against printed tables and worked examples."""

import math

import pytest

from riglint.mechanics.rope.friction import capstan_ratio, hold_force_n, turns_to_hold
from tests.published.sources import Case, read_source


@pytest.mark.parametrize("case", read_source("roping_technicians_capstan").cases)
def test_rope_round_a_bar(case: Case) -> None:
    source = read_source("roping_technicians_capstan")
    assert source.agrees(capstan_ratio(case["mu"], case["turns"]), case["ratio"])
    assert source.agrees(hold_force_n(100.0, 1.0, case["mu"], case["turns"]), case["hold_kg"])


@pytest.mark.parametrize("case", read_source("statics_capstan").cases)
def test_statics_textbook(case: Case) -> None:
    source = read_source("statics_capstan")
    allowance = source.allowance(case["mu"])
    printed_mu = float(case["mu"])
    wanted = case["tight"] / case["slack"]
    assert capstan_ratio(printed_mu - allowance, case["turns"]) <= wanted
    assert capstan_ratio(printed_mu + allowance, case["turns"]) >= wanted
    from_ratio = math.log(wanted) / math.log(capstan_ratio(1.0, case["turns"]))
    assert source.agrees(from_ratio, case["mu"])
    turns = turns_to_hold(case["then_tight"], case["slack"], 1.0, printed_mu)
    assert source.agrees(turns, case["then_turns"])


@pytest.mark.parametrize("case", read_source("capstan_table").cases)
def test_table_of_ratios(case: Case) -> None:
    source = read_source("capstan_table")
    for turns, ratio in case["ratios"].items():
        assert source.agrees(capstan_ratio(case["mu"], turns), ratio)


def test_turns_hold_what_they_should() -> None:
    turns = turns_to_hold(1400.0, 300.0, 0.5, 0.25)
    assert hold_force_n(1400.0, 0.5, 0.25, turns) == pytest.approx(300.0)
    assert turns_to_hold(500.0, 300.0, 0.5, 0.25) == 0.0


def test_half_a_turn_on_a_trunk() -> None:
    # Worked by hand: line 6 kN, five strands, brake 0.5, coefficient 0.25: 0.27 kN in the hand.
    assert hold_force_n(1200.0, 0.5, 0.25, 0.5) == pytest.approx(270.0, abs=5.0)
