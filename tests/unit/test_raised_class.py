"""What is a fault only because something is not known is an open question that names it; what is one anyhow stays."""

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from riglint.findings import Finding, judge
from riglint.findings.raised_class import report_raised_class
from riglint.loads.states.consequence import _feet
from riglint.rulebook import load_rulebook
from riglint.rulekit import REMOVE, Signal, sound
from riglint.testing import edited, loads_of, rig_of

ON, BOOK = date(2026, 5, 2), load_rulebook()
MORE = "can cost a life. Nobody can tell: 'chain[0].height' is not filled in."
UNKNOWN = {"plan.consequence": "fall", "chain[0].height": REMOVE}


def told(edits: dict[str, Any]) -> list[Finding]:
    text = edited(sound("low", edits))
    return judge(rig_of(text), BOOK, ON, loads=loads_of(text, ON), with_remedies=False).findings


def faults(edits: dict[str, Any]) -> list[Finding]:
    return [one for one in told(edits) if one.kind == "fail"]


def test_fault_of_the_class_one_up_is_an_open_question() -> None:
    asked = [one for one in told(UNKNOWN) if one.rule == "anchor/single_point"]
    assert [(one.kind, one.signal) for one in asked] == [("open", Signal.DANGER)] * 2
    assert all(one.message.endswith(MORE) and one.rules == ("anchor/single_point",) for one in asked)


def test_same_fault_of_a_class_that_is_known_stays_one() -> None:
    found = [one for one in faults({"plan.consequence": "life"}) if one.rule == "anchor/single_point"]
    assert len(found) == 2
    assert not any("Nobody can tell" in one.message for one in found)


def test_fault_that_the_known_class_gives_too_stays_as_it_is() -> None:
    steep = {**UNKNOWN, "chain[1]": REMOVE, "shelf[0].items.SH-1.jaw": "5 mm"}
    here = {(one.rule, one.at.key, one.signal) for one in faults(steep)}
    known = {(one.rule, one.at.key, one.signal) for one in faults({**steep, "chain[0].height": "0.9 m"})}
    assert here
    assert here <= known


def test_no_blank_alone_makes_a_danger_that_is_a_fault() -> None:
    for key in (
        "shelf[0].items.W-1.stretch",
        "chain[0].height",
        "spot.ground.profile",
        "plan.standing_tension",
    ):
        assert [one.rule for one in faults({key: REMOVE}) if one.signal == Signal.DANGER] == [], key


def test_fault_with_a_graver_word_keeps_the_one_that_is_known() -> None:
    loads = loads_of(edited(sound("low", UNKNOWN)), ON)
    (one, *_) = [one for one in faults({"plan.consequence": "life"}) if one.rule == "anchor/single_point"]
    milder = replace(one, signal=Signal.WARNING)
    (kept,) = report_raised_class([one], loads, lambda _of: [milder])
    assert (kept.kind, kept.signal) == ("fail", Signal.WARNING)
    assert kept.message.startswith(
        f"{one.message} It may be DANGER. Nobody can tell how far a fall goes: 'chain[0].height' is not filled in"
    )
    assert report_raised_class([one], loads, lambda _of: [one]) == [one]
    assert report_raised_class([one], loads, lambda _of: [milder], frozenset({one.rule})) == [one]


def test_at_the_class_that_is_known_nothing_else_differs() -> None:
    loads = loads_of(edited(sound("low", UNKNOWN)), ON)
    same = loads.at_the_class_that_is_known()
    assert (loads.consequence.word, same.consequence.word) == ("life", "fall")
    assert same.consequence.unknown is None
    assert same.standing.tension_n == loads.standing.tension_n


@pytest.mark.parametrize(
    ("height", "above", "said"),
    [(1.9, 1.5, "1.9 m"), (1.5049, 1.5, "1.505 m"), (1.53, 1.5, "1.53 m"), (3.04, 3.0, "3.04 m")],
)
def test_height_above_a_bound_reads_as_above_it(height: float, above: float, said: str) -> None:
    assert _feet(height, above) == f"feet are up to {said} above the ground"


def test_height_a_hair_above_a_bound_is_no_number_at_the_bound() -> None:
    assert _feet(1.50001, 1.5) == "feet are just over 1.5 m above the ground"


@pytest.mark.parametrize("key", ["mass_per_metre", "stretch"])
@pytest.mark.parametrize(("height", "word"), [("2.9 m", "fall"), ("3.5 m", "life")])
def test_what_the_webbing_is_like_never_lifts_feet_over_the_straight_line(
    key: str, height: str, word: str
) -> None:
    heights = {f"chain[{n}].height": height for n in (0, 12)}
    flat = {"spot.ground.profile": [["0 m", "0 m"], ["16 m", "0 m"]], "plan.consequence": "fall"}
    loads = loads_of(edited(sound("low", {**heights, **flat, f"shelf[0].items.W-1.{key}": REMOVE})), ON)
    assert loads.consequence.word == word
    assert (loads.consequence.unknown is None) == (word == "fall")


def test_no_webbing_that_there_is_lies_in_a_higher_class_than_one_that_is_not_known() -> None:
    heights = {f"chain[{n}].height": "2.9 m" for n in (0, 12)}
    flat = {**heights, "spot.ground.profile": [["0 m", "0 m"], ["16 m", "0 m"]], "plan.consequence": "fall"}
    for mass in ("10 g/m", "60 g/m", "400 g/m"):
        known = loads_of(
            edited(sound("low", {**flat, "shelf[0].items.W-1.mass_per_metre": mass})), ON
        ).consequence
        assert known.word == "fall"
