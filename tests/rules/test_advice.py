"""Above jump-off height nothing is advised but a lower line or a leash: no mat, no pad, nobody who stands by."""

import re
from datetime import date
from typing import Any

import pytest

from riglint.findings import Finding, judge
from riglint.rulebook import load_rulebook
from riglint.rulekit import sound
from riglint.testing import edited, loads_of, rig_of

BOOK, ON = load_rulebook(), date(2026, 5, 2)
SOFTENS = re.compile(
    r"\b(mats?|pads?|padded|spotters?|beside the walker|grass or sand|step off)\b", re.IGNORECASE
)
BENCH = {
    "spot.surroundings.obstacles": [{"what": "bench", "along": "8 m", "aside": "1 m", "height": "0.5 m"}]
}
BEGINNER = {"plan.users[0].level": "beginner", "plan.spotters": 0}


def found(height: str, edits: dict[str, Any]) -> list[Finding]:
    """Everything that is said of the low line at a height."""
    heights = {"chain[0].height": height, "chain[12].height": height}
    text = edited(sound("low", {**heights, **edits}))
    return judge(rig_of(text), BOOK, ON, loads=loads_of(text, ON)).findings


FAULTS = [
    pytest.param({"spot.ground.surface": "rock"}, id="hard ground"),
    pytest.param({"spot.ground.surface": "rock", "plan.users[0].mass": "30 kg"}, id="children over rock"),
    pytest.param(BENCH, id="a bench beside the line"),
    pytest.param(BEGINNER, id="a beginner alone"),
    pytest.param({"plan.walk_zone": ["0.5 m", "0.5 m"]}, id="metal at the ends"),
]


@pytest.mark.parametrize("edits", FAULTS)
@pytest.mark.parametrize("height", ["3.6 m", "5 m", "28 m"])
def test_nothing_that_softens_a_fall_is_advised_above_jumping_off(height: str, edits: dict[str, Any]) -> None:
    said = found(height, edits)
    assert [(one.rule, one.do) for one in said if SOFTENS.search(one.do)] == []
    assert [one for one in said if "highline" in one.do and "leash" in one.do]


@pytest.mark.parametrize("edits", FAULTS)
def test_near_the_ground_it_is(edits: dict[str, Any]) -> None:
    assert [one for one in found("1.35 m", edits) if SOFTENS.search(one.do)]


@pytest.mark.parametrize("use", ["lowline", "waterline"])
def test_nobody_is_told_to_take_a_leash_off_high_up(use: str) -> None:
    worn = {"use": use, "shelf[0].items.LE-1": {"kind": "leash"}, "leash": {"gear": "LE-1", "hang": "2.2 m"}}
    (high,) = [one for one in found("9 m", worn) if one.rule == "leash/presence"]
    assert "Take the leash off" not in high.do
    (low,) = [one for one in found("1.35 m", worn) if one.rule == "leash/presence"]
    assert "Take the leash off" in low.do


def test_falls_without_a_leash_are_not_put_right_by_planning_none() -> None:
    (high,) = [one for one in found("9 m", {"plan.moves": ["fall_on_leash"]}) if one.rule == "leash/presence"]
    assert "plan no such falls" not in high.do
