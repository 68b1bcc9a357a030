"""Every hazard is caught somewhere, and every rule says what it prevents and shows it by an example."""

import re

import pytest

from riglint.hazards import HAZARDS, PHASES, for_the_eyes, places
from riglint.model.values.sources import MARKS
from riglint.reports.rules.rule_words import shown
from riglint.rulebook import load_rulebook
from riglint.rulekit import PRACTICE, REMOVE, Case, Example, Fault, Signal, faulty, rule, sound, the_rig
from riglint.testing import edited, rig_of, run_example

RULES = load_rulebook().rules
PREVENTED = [(rule_id, hazard) for rule_id, one in RULES.items() for hazard in one.prevents]


@pytest.mark.parametrize("hazard", HAZARDS)
def test_hazard_is_caught_by_a_rule_or_left_to_the_eyes(hazard: str) -> None:
    assert HAZARDS[hazard].eyes or any(hazard in one.prevents for one in RULES.values())


@pytest.mark.parametrize("rule_id", RULES)
def test_rule_prevents_a_hazard(rule_id: str) -> None:
    prevents = RULES[rule_id].prevents
    assert prevents
    assert len(set(prevents)) == len(prevents)
    assert set(prevents) <= set(HAZARDS)


@pytest.mark.parametrize(("rule_id", "hazard"), PREVENTED)
def test_hazard_is_shown_by_an_example_that_the_rule_speaks_of(rule_id: str, hazard: str) -> None:
    example = shown(RULES[rule_id], hazard)
    assert example is not None
    assert example.verdict in {"faulty", "review", "open"}
    outcome = run_example(rule_id, RULES[rule_id], example)
    assert outcome.wrong == ""
    assert outcome.findings


@pytest.mark.parametrize("rule_id", RULES)
def test_rule_that_prevents_several_hazards_says_which_example_is_for_which(rule_id: str) -> None:
    one = RULES[rule_id]
    named = {hazard for example in one.examples if example.verdict != "sound" for hazard in example.shows}
    assert len(one.prevents) == 1 or set(one.prevents) == named


@pytest.mark.parametrize("hazard", HAZARDS)
def test_hazard_is_one_plain_sentence_with_a_source(hazard: str) -> None:
    one = HAZARDS[hazard]
    assert one.id == hazard
    assert re.fullmatch(r"[a-z][a-z_]*[a-z]", hazard)
    assert one.phase in PHASES
    assert re.fullmatch(r"[A-Z][^!?]+\.", one.what)
    assert one.eyes == "" or re.fullmatch(r"[A-Z][^!?]+\.", one.eyes)
    assert one.source.text
    assert one.source.mark in MARKS


TIGHTENED = {"any", "tightened"}
PULLEY = TIGHTENED | {"haul", "plate", "grip"}


def test_hazards_stand_in_the_order_of_the_work() -> None:
    order = list(PHASES)
    places = [order.index(one.phase) for one in HAZARDS.values()]
    assert places == sorted(places)
    assert set(places) == set(range(len(order)))


def test_eyes_see_what_the_rig_has() -> None:
    every = [one for found in for_the_eyes().values() for one in found]
    low = [one for found in for_the_eyes("tree", "haul").values() for one in found]
    assert every == [one for one in HAZARDS.values() if one.eyes]
    assert {one.where for one in low} == {"any", "tree", "haul"}


@pytest.mark.parametrize(
    ("example", "there"),
    [
        (sound("low"), PULLEY | {"tree"}),
        (
            sound("low", {"chain[8].multiplier": REMOVE, "chain[8].plate": REMOVE}),
            TIGHTENED | {"haul", "tree"},
        ),
        (sound("low", {"chain[8].brake": REMOVE}), PULLEY | {"tree"}),
        # A puller has neither brake nor plate nor grip to look at.
        (sound("low", {"chain[8]": {"part": "puller"}}), TIGHTENED | {"tree"}),
        (sound("low", {"use": "waterline"}), PULLEY | {"tree", "waterline"}),
        (
            sound("low", {"use": "slackrope", "spot.span": "51 m"}),
            PULLEY | {"tree", "slackrope", "long"},
        ),
        (sound("low", {"spot": REMOVE}), PULLEY | {"long"}),
        (sound("highline"), {"any", "highline", "long", "bolts", "legs", "edge"}),
        (sound("highline", {"edges": []}), {"any", "highline", "long", "bolts", "legs"}),
        (sound("highline", {"edges": REMOVE}), {"any", "highline", "long", "bolts", "legs", "edge"}),
    ],
)
def test_rig_has_the_places_to_look_at(example: Example, there: set[str]) -> None:
    assert places(rig_of(edited(example))) == there


def test_misspelt_hazard_is_told_with_the_nearest() -> None:
    with pytest.raises(
        ValueError, match=r"^'brake_sliped' is no known hazard; 'brake_slips' is the nearest\.$"
    ):
        _rule(prevents=("brake_sliped",))


def test_hazard_far_from_all_points_to_the_list() -> None:
    with pytest.raises(ValueError, match="riglint/hazards/ has the list"):
        _rule(prevents=("volcano",))


def test_example_may_show_only_what_its_rule_prevents() -> None:
    with pytest.raises(ValueError, match="'brake_slips', which the rule does not name"):
        _rule(prevents=("tension_drifts",), shows="brake_slips")


def test_rule_of_a_club_may_prevent_what_is_on_no_list() -> None:
    _rule()


def _rule(prevents: tuple[str, ...] = (), shows: str | tuple[str, ...] = ()) -> None:
    @rule(
        title="Nothing",
        each=the_rig,
        signal=Signal.NOTICE,
        why="Nothing.",
        formula="nothing",
        examples=(sound("low"), faulty("low", shows=shows)),
        prevents=prevents,
        sources=(PRACTICE,),
    )
    def nothing(_case: Case, _subject: None) -> list[Fault]:
        return []
