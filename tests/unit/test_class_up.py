"""A fault that is one only because something is not known says so; others do not."""

from datetime import date
from typing import Any

import pytest

from riglint.findings import Finding, judge
from riglint.findings.class_up import say_class_up
from riglint.loads.consequence import _feet
from riglint.rulebook import load_rulebook
from riglint.rulekit import REMOVE, Signal, sound
from riglint.testing import edited, loads_of, rig_of

ON, BOOK = date(2026, 5, 2), load_rulebook()
MORE = "Judged one class up, as life, since the height above the ground is not known."
UNKNOWN = {"plan.consequence": "fall", "chain[0].height": REMOVE}


def faults(edits: dict[str, Any]) -> list[Finding]:
    text = edited(sound("low", edits))
    found = judge(rig_of(text), BOOK, ON, loads=loads_of(text, ON), turned=False).findings
    return [one for one in found if one.kind == "fail"]


def test_fault_of_the_class_one_up_says_so() -> None:
    told = [one for one in faults(UNKNOWN) if one.rule == "anchor/single_point"]
    assert [one.signal for one in told] == [Signal.DANGER, Signal.DANGER]
    assert all(one.message.endswith(MORE) for one in told)


def test_same_fault_of_a_class_that_is_known_does_not() -> None:
    told = [one for one in faults({"plan.consequence": "life"}) if one.rule == "anchor/single_point"]
    assert len(told) == 2
    assert not any("one class up" in one.message for one in told)


def test_fault_that_the_known_class_gives_too_does_not() -> None:
    steep = {**UNKNOWN, "chain[1]": REMOVE, "shelf[0].items.SH-1.jaw": "5 mm"}
    plain = [
        one for one in faults(steep) if one.rule != "anchor/single_point" and "class up" not in one.message
    ]
    known = {(one.rule, one.at.key, one.signal) for one in faults({**steep, "chain[0].height": "0.9 m"})}
    assert plain
    assert {(one.rule, one.at.key, one.signal) for one in plain} <= known


def test_graver_word_alone_is_enough_to_say_so() -> None:
    text = edited(sound("low", UNKNOWN))
    loads = loads_of(text, ON)
    (one, *_) = [one for one in faults({"plan.consequence": "life"}) if one.rule == "anchor/single_point"]
    milder = [Finding(one.rule, Signal.WARNING, "fail", one.message, one.why, one.do, one.at, one.source)]
    assert say_class_up([one], loads, lambda _of: milder)[0].message == f"{one.message} {MORE}"
    assert say_class_up([one], loads, lambda _of: [one]) == [one]
    assert say_class_up([one], loads, lambda _of: milder, frozenset({one.rule})) == [one]


def test_at_the_class_that_is_known_nothing_else_differs() -> None:
    loads = loads_of(edited(sound("low", UNKNOWN)), ON)
    same = loads.at_the_class_that_is_known()
    assert (loads.consequence.word, same.consequence.word) == ("life", "fall")
    assert same.consequence.unknown is None
    assert same.standing_tension_n == loads.standing_tension_n


@pytest.mark.parametrize(
    ("height", "above", "said"),
    [(1.9, 1.5, "1.9 m"), (1.5049, 1.5, "1.505 m"), (1.53, 1.5, "1.53 m"), (3.04, 3.0, "3.04 m")],
)
def test_height_above_a_bound_reads_as_above_it(height: float, above: float, said: str) -> None:
    assert _feet(height, above) == f"feet are up to {said} above the ground"


def test_height_a_hair_above_a_bound_is_no_number_at_the_bound() -> None:
    assert _feet(1.50001, 1.5) == "feet are just over 1.5 m above the ground"
