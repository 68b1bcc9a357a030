"""The mechanics turned round: the search itself, and values that a formula gives as well."""

from datetime import date
from functools import cache
from math import ceil, floor, log, pi
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from riglint.findings import Finding, judge
from riglint.loadpath import build
from riglint.loads import Loads
from riglint.loads.what_if.adjustable import (
    fewer_haulers,
    higher_anchors,
    lighter_user,
    lower_anchors,
    lower_tension,
    more_tension,
    more_turns,
    one_value,
    set_to,
)
from riglint.loads.what_if.solved_for import MOST_STEPS, Adjustment, Found, Nowhere, Search, nearest_step
from riglint.loads.what_if.strides import inwards, outwards, strides
from riglint.policy import DEFAULT, InForce
from riglint.rulebook import Rulebook, load_rulebook
from riglint.rulekit import REMOVE, Signal, either, sound
from riglint.testing import edited, rig_of

ON = date(2026, 5, 2)
SEWN = "shelf[0].items.SE-1.mbs"


@cache
def book() -> Rulebook:
    return load_rulebook()


def loads(baseline: str = "low", edits: dict[str, Any] | None = None) -> Loads:
    return Loads(build(rig_of(edited(sound(baseline, edits or {})))), DEFAULT.values, ON)


def found(result: Found | Nowhere) -> Found:
    assert isinstance(result, Found), result
    return result


def fault(rule: str, baseline: str, edits: dict[str, Any], force: InForce = DEFAULT) -> Finding:
    of = loads(baseline, edits)
    return next(one for one in judge(of.path.rig, book(), ON, force, of).findings if one.rule == rule)


def new_values(finding: Finding) -> list[str]:
    return [remedy.edits[0].new for remedy in finding.remedies]


# The search


@given(st.integers(-500, 500), st.integers(0, 400), st.sampled_from([1, -1]))
def test_nearest_step_is_the_first_that_holds(start: int, away: int, way: int) -> None:
    edge, asked = start + way * (away + 1), []

    def holds(n: int) -> bool:
        asked.append(n)
        return (n - edge) * way >= 0

    assert nearest_step(holds, start, start + way * 500) == edge
    assert len(asked) <= 20


@given(st.integers(1, 300), st.sampled_from([1, -1]))
def test_nothing_is_found_beyond_the_bound(away: int, way: int) -> None:
    assert nearest_step(lambda _n: False, 0, way * away) is None
    assert nearest_step(lambda n: abs(n) > away, 0, way * away) is None
    assert nearest_step(lambda n: abs(n) >= away, 0, way * away) == way * away


@given(st.sets(st.integers(1, 60), max_size=60))
def test_what_is_found_holds_and_the_one_before_it_does_not(good: set[int]) -> None:
    n = nearest_step(lambda n: n in good, 0, 60)
    if n is not None:
        assert n in good
        assert n - 1 not in good


@given(st.integers(-500, 500), st.integers(1, 400), st.sampled_from([1, -1]))
def test_the_end_of_a_range_is_found_outwards_and_back_in(start: int, away: int, way: int) -> None:
    first, bound = start + way * away, start + way * 500
    asked = []

    def passes(n: int) -> bool:
        asked.append(n)
        return (first - n) * way > 0

    held, fails = outwards(passes, start, bound)
    assert fails is not None
    assert inwards(lambda n: not passes(n), held, fails) == (first - way, first)
    assert len(set(asked)) == len(asked) <= 16
    assert outwards(lambda _n: True, start, bound) == (bound, None)


def test_strides_grow_up_to_the_bound() -> None:
    assert list(strides(3, 60, 4)) == [4, 8, 24, 60]
    assert list(strides(3, -5, 2)) == [2, 0, -4, -5]
    assert list(strides(3, 3, 4)) == []


def test_a_search_without_an_end_says_how_far_it_went() -> None:
    result = Search(loads()).nearest(more_tension, lambda _: False)
    assert result == Nowhere("no value up to 9 kN does")  # three times what is planned
    result = Search(loads()).nearest(one_value(("plan", "days_up"), "{}", "up", "", 1), lambda _: False)
    assert result == Nowhere(f"no value up to {1 + MOST_STEPS} does")
    assert Search(loads("highline")).nearest(more_turns, lambda _: True) == Nowhere(
        "the rig has no such value"
    )
    at_one = Search(loads(edits={"plan.crew.haulers": 1})).nearest(fewer_haulers, lambda _: True)
    assert at_one == Nowhere("nothing is tried down of 1")


def test_what_cannot_be_computed_does_not_hold() -> None:
    """Blocks 20 m apart and more do not fit into a span of 16 m."""
    further = one_value(("chain", 8, "open"), "open {}", "up", "m", 20.0)
    assert isinstance(
        Search(loads()).nearest(further, lambda of: of.standing.equilibrium.tension_n > 0.0), Nowhere
    )
    assert isinstance(Search(loads()).nearest(further, lambda _: True), Found)


def test_a_turn_is_written_as_a_rigger_would() -> None:
    remedy = found(Search(loads()).nearest(higher_anchors, lambda _: True)).remedy
    assert remedy.words == "raise both anchors to 1.4 m"
    assert [(one.at.key_text, one.old, one.new) for one in remedy.edits] == [
        ("chain[0].height", "1.35 m", "1.4 m"),
        ("chain[12].height", "1.35 m", "1.4 m"),
    ]


def test_anchors_move_by_the_same_and_the_backup_with_them() -> None:
    remedy = found(
        Search(loads("highline", {"chain[8].height": "0.62 m"})).nearest(higher_anchors, lambda _: True)
    ).remedy
    assert [(one.old, one.new) for one in remedy.edits] == [
        ("0.5 m", "0.55 m"),
        ("0.62 m", "0.67 m"),
        ("0.3 m", "0.35 m"),
        ("0.3 m", "0.35 m"),
    ]
    assert remedy.words == "raise both anchors to 0.55 m and 0.67 m, those of the backup with them"


def test_only_users_above_the_mass_are_named() -> None:
    users = [{"mass": "62 kg"}, {"mass": "95 kg"}, {"mass": "81 kg"}]
    search = Search(loads(edits={"plan.users": users}))
    remedy = found(search.nearest(lighter_user, lambda of: _heaviest(of) <= 70.0)).remedy
    assert {one.at.key_text: one.new for one in remedy.edits} == {
        "plan.users[1].mass": "70 kg",
        "plan.users[2].mass": "70 kg",
    }
    assert remedy.words == "let nobody above 70 kg on the line"
    assert not remedy.offered  # writing another mass makes nobody lighter


def _heaviest(of: Loads) -> float:
    plan = of.path.rig.rig.plan
    assert plan is not None
    return max(user.mass.si for user in plan.users or [] if user.mass)


def test_an_editor_may_write_a_plan_but_not_a_line_that_stands() -> None:
    assert found(Search(loads()).nearest(lower_tension, lambda _: True)).remedy.offered
    built = loads(edits={"stage": "built"})
    assert not found(Search(built).nearest(lower_tension, lambda _: True)).remedy.offered
    read = set_to(("plan", "standing_tension"), "put {} into the plan", "kN", 3456.0)
    remedy = found(Search(built).nearest(read, lambda _: True)).remedy
    assert (remedy.edits[0].new, remedy.offered) == ("3.46 kN", True)


def test_a_second_condition_is_looked_for_further_on() -> None:
    of, asked = loads(), []

    def dear(one: Loads) -> bool:
        asked.append(one)
        return one.standing_tension_n < 2350.0

    remedy = found(
        Search(of).nearest(lower_tension, lambda one: one.standing_tension_n < 2650.0, dear)
    ).remedy
    assert remedy.edits[0].new == "2.3 kN"
    assert isinstance(Search(of).nearest(lower_tension, lambda _: True, lambda _: False), Nowhere)
    assert isinstance(Search(of).nearest(lower_anchors, lambda _: False, dear), Nowhere)


def test_a_rig_is_computed_once_for_several_questions() -> None:
    search = Search(loads())
    first = found(search.nearest(lower_tension, lambda one: one.standing_tension_n < 2650.0))
    second = found(search.nearest(lower_tension, lambda one: one.standing_tension_n < 2650.0))
    assert first.loads is second.loads


def test_turned_values_reach_the_loads() -> None:
    turn = Adjustment("{}", (("plan", "standing_tension"),), "down", "kN", 0.1)
    of = Search(loads()).with_texts(turn, ("2.5 kN",))
    written = loads(edits={"plan.standing_tension": "2.5 kN"})
    assert [state.tension_n for state in of.peaks()] == [state.tension_n for state in written.peaks()]


# Values that a formula gives as well: own formulas of statics, each worked here by hand


def test_tension_for_a_ratio_is_a_quotient() -> None:
    """An end that breaks at 18.1 kN keeps 5 times a force of 3.62 kN; so high up the slacker line can be walked on."""
    higher = {"chain[0].height": "3 m", "chain[12].height": "3 m"}
    finding = fault("ratio/standing", "long_haul", {SEWN: "18.1 kN", **higher})
    assert new_values(finding) == [f"{floor(18.1 / 5.0 * 10) / 10:g} kN"] == ["3.6 kN"]


def test_turns_round_the_trunk_follow_the_capstan() -> None:
    """6 kN over five strands, half of it held by the brake's bend: ln(0.60/0.30)/(2π·0.25) turns, in quarters."""
    turns = ceil(log(0.60 / 0.30) / (2 * pi * 0.25) * 4) / 4
    assert (
        new_values(fault("lowering/hold", "long_haul", {"plan.tail_wraps": 0.2})) == [f"{turns:g}"] == ["0.5"]
    )


def test_height_for_clearance_rises_as_much_as_is_missing() -> None:
    finding = fault("ground/clearance", "low", {"chain[0].height": "0.8 m", "chain[12].height": "0.8 m"})
    assert isinstance(finding.value, float)
    raised = ceil((0.8 + 0.3 - finding.value) * 20) / 20
    assert new_values(finding)[0] == f"{raised:g} m"


def test_sling_on_a_stem_goes_down_with_the_moment() -> None:
    """The bending moment at the ground is the pull times its height."""
    edits = {"spot.anchors.north.species": "western larch", "spot.anchors.north.girth": "0.98 m"}
    finding = fault("anchor/tree_stem", "long_haul", edits)
    assert isinstance(finding.value, float)
    assert new_values(finding)[0] == f"{floor(1.8 * finding.value * 20) / 20:g} m"


def test_haulers_share_the_heave() -> None:
    """Three heave an end of 17 kN to a ratio of 1.0; what each adds is the same, so one is left at 2.0 or more."""
    finding = fault("ratio/haul_overshoot", "low", {SEWN: "34 kN", "plan.crew.haulers": 4})
    assert isinstance(finding.value, float)
    assert new_values(finding) == [f"{floor(4 * finding.value / 2.0)}"]


# What a rule makes of it


def test_a_tighter_limit_moves_the_remedy() -> None:
    force = InForce(limits={"tail/webbing.least_tail": 0.8})
    assert new_values(fault("tail/webbing", "long_haul", {"chain[4].tail": "0.49 m"}, force)) == ["0.8 m"]


def test_a_remedy_that_makes_another_rule_worse_goes_further_or_is_left_out() -> None:
    """A rope of 36.5 m would do for laying the line out, but lets nobody down again: 37 m does both."""
    rope = fault("haul/rope", "long_haul", {"chain[8].rope.length": "35.9 m"})
    assert new_values(rope)[0] == "37 m"
    heights = {"chain[0].height": "0.5 m", "chain[12].height": "0.5 m"}
    tight = {SEWN: "20.5 kN", **heights, "plan.consequence": "fall"}
    assert all(
        "standing tension" not in one.words for one in fault("ground/clearance", "low", tight).remedies
    )


def test_rules_asked_without_turning_say_the_same_without_remedies() -> None:
    of = loads("long_haul", {SEWN: "18.1 kN"})
    plain = [
        one
        for one in judge(of.path.rig, book(), ON, loads=of, with_remedies=False).findings
        if one.kind == "fail"
    ]
    turned = [one for one in judge(of.path.rig, book(), ON, loads=of).findings if one.kind == "fail"]
    assert [(one.rule, one.message, one.signal) for one in plain] == [
        (one.rule, one.message, one.signal) for one in turned
    ]
    assert not any(one.remedies for one in plain)
    assert any(one.remedies for one in turned)
    assert all(one.do.endswith(".") for one in [*plain, *turned])
    assert all(one.signal >= Signal.CAUTION for one in turned if one.remedies)


@pytest.mark.parametrize(
    ("rule", "baseline", "edits"),
    [
        ("leash/build", "highline", {"leash.hang": "1.9 m", "leash.ring_knot": REMOVE}),
        ("haul/tie_back", "long_haul", {"chain[8].tie_back.slack": "0.4 m", "chain[8].tie_back.to": REMOVE}),
        ("ratio/haul_overshoot", "low", {SEWN: "20 kN", "chain[2].hitch": REMOVE}),
    ],
)
def test_a_fault_is_told_beside_what_is_missing(rule: str, baseline: str, edits: dict[str, Any]) -> None:
    of = loads(baseline, edits)
    found = [
        one for one in judge(of.path.rig, book(), ON, loads=of).findings if rule in {one.rule, *one.rules}
    ]
    assert {one.kind for one in found} == {"fail", "open"}
    assert any(one.remedies for one in found)


def test_ways_make_one_sentence() -> None:
    assert either("use a rope of 40 m") == "Use a rope of 40 m."
    assert either("a", "b") == "A, or b."
    assert either("a", "b", "c") == "A, b, or c."
