"""How far values may move: ends checked by judging the rig as a file would hold it, and by what a formula gives."""

import json
from datetime import date
from functools import cache
from math import floor
from typing import Any

import pytest

from riglint.findings import Finding, judge
from riglint.findings.variation.ranges import Limits, Range, limits_of
from riglint.policy import DEFAULT, InForce
from riglint.read.problems import key_text
from riglint.read.quantity import parse_quantity
from riglint.reports.layout.spans import characters
from riglint.reports.limits.json_report import limits_json
from riglint.reports.limits.text import limits_text
from riglint.rulebook import Rulebook, load_rulebook
from riglint.rulekit import REMOVE, Signal, sound
from riglint.testing import edited, loads_of, rig_of

ON = date(2026, 5, 2)
SEWN = "shelf[0].items.SE-1.mbs"
WEAK = {SEWN: "17 kN"}  # of the long line: 6 kN standing is more than a third of it
# The key to edit for a value, its unit, and its step, for asking what the file says just beyond an end.
WRITTEN = {
    "standing tension": (("plan.standing_tension",), "kN", 0.1),
    "heaviest user": (("plan.users[0].mass",), "kg", 1.0),
    "people on the line at a time": (("plan.at_once",), "", 1.0),
    "height of both anchors": (("chain[0].height", "chain[12].height"), "m", 0.05),
    "haulers": (("plan.crew.haulers",), "", 1.0),
    "turns of the tail round the trunk": (("plan.tail_wraps",), "", 0.25),
    "rope of the pulley system": (("chain[8].rope.length",), "m", 0.5),
    "blocks laid out hand-tight": (("chain[8].open",), "m", 0.1),
}


@cache
def book() -> Rulebook:
    return load_rulebook()


def limits(
    baseline: str,
    edits: dict[str, Any] | None = None,
    stop_at: Signal = Signal.WARNING,
    force: InForce = DEFAULT,
) -> Limits:
    return limits_of(loads_of(edited(sound(baseline, edits or {})), ON), book(), ON, force, stop_at)


@cache
def of_long_line(stop_at: Signal = Signal.WARNING) -> Limits:
    return limits("long_haul", stop_at=stop_at)


@cache
def of_weak_line() -> Limits:
    return limits("long_haul", WEAK)


def named(found: Limits, name: str) -> Range:
    return next(one for one in found.ranges if one.name == name)


def objections(edits: dict[str, Any]) -> list[Finding]:
    rig = rig_of(edited(sound("long_haul", edits)))
    found = judge(rig, book(), ON, weighed=True, with_remedies=False).findings
    return [one for one in found if one.kind != "review" and one.signal >= Signal.WARNING]


def number(text: str) -> float:
    return float(text.partition(" ")[0])


def as_edit(text: str) -> Any:
    return text if " " in text else float(text) if "." in text else int(text)


@pytest.mark.parametrize("name", WRITTEN)
def test_ends_are_those_of_the_file_judged_afresh(name: str) -> None:
    each = named(of_long_line(), name)
    keys, unit, step = WRITTEN[name]
    for edge, way in ((each.lower, -1), (each.upper, 1)):
        assert edge is not None
        assert objections(dict.fromkeys(keys, as_edit(edge.last))) == []
        if edge.beyond is not None:
            beyond = as_edit(f"{number(edge.last) + way * step:.6g} {unit}".rstrip())
            # The rope tail is written anew with each value; beyond the end it is what the finding says.
            tails = {key_text(one.at.key): f"{edge.beyond.value} m" for one in edge.along}
            tails = tails if edge.beyond.rule == "tail/rope" else {}
            edits = dict.fromkeys(keys, beyond) | tails
            assert edge.beyond.rule in {one.rule for one in objections(edits)}


def test_every_value_that_the_file_gives_is_moved() -> None:
    assert [one.name for one in of_long_line().ranges] == list(WRITTEN)
    assert all(one.inside for one in of_long_line().ranges)
    backed = [one.name for one in limits("highline").ranges]
    assert backed == [*list(WRITTEN)[:4], "length of backups[0]"]
    bare = limits("low", {"plan": REMOVE, "chain[8].open": REMOVE, "chain[8].rope.length": REMOVE})
    assert [one.name for one in bare.ranges] == ["people on the line at a time", "height of both anchors"][1:]


def test_most_standing_tension_is_a_third_of_the_weakest_part() -> None:
    """The sewn end breaks at 32 kN and stands three times its tension; nothing else of the long line is weaker."""
    upper = named(of_long_line(), "standing tension").upper
    assert upper is not None
    assert upper.beyond is not None
    assert (upper.last, upper.beyond.rule) == (f"{floor(32.0 / 3.0 * 10) / 10:g} kN", "ratio/standing")


def test_value_that_does_not_pass_today_is_told_where_it_would() -> None:
    """An end of 17 kN stands three times 5.66 kN."""
    each = named(of_weak_line(), "standing tension")
    assert not each.inside
    assert {one.rule for one in each.against} == {"ratio/standing"}
    assert each.upper is not None
    assert each.upper.beyond is not None
    assert (each.now, each.upper.last, each.upper.beyond.rule) == ("6 kN", "5.6 kN", "ratio/standing")


def test_what_no_value_ends_is_left_aside_and_told() -> None:
    each = named(of_weak_line(), "turns of the tail round the trunk")
    assert each.inside
    assert {"ratio/standing"} <= {one.rule for one in each.aside}
    loose = limits("long_haul", {"chain[8].tail.stopper": "none"})
    assert "tail/stopper" in {one.rule for one in loose.standing}
    assert all(one.inside for one in loose.ranges)


def test_milder_words_end_ranges_sooner() -> None:
    wide, narrow = of_long_line(), of_long_line(Signal.CAUTION)
    assert [one.name for one in wide.ranges] == [one.name for one in narrow.ranges]
    for outer, inner in zip(wide.ranges, narrow.ranges, strict=True):
        assert outer.lower is not None
        assert outer.upper is not None
        assert inner.lower is not None
        assert inner.upper is not None
        assert number(outer.lower.last) <= number(inner.lower.last), outer.name
        assert number(inner.upper.last) <= number(outer.upper.last), outer.name
    assert named(narrow, "standing tension").upper != named(wide, "standing tension").upper


def test_a_tighter_policy_ends_ranges_sooner() -> None:
    force = InForce(limits={"ratio/standing.required_ratio": 4.0})
    upper = named(limits("long_haul", force=force), "standing tension").upper
    assert upper is not None
    assert upper.last == "8 kN"


def test_reports_hold_every_range_and_what_stops_it() -> None:
    for found in (of_long_line(), of_weak_line()):
        text = " ".join(characters(limits_text(found, 80)).split())
        data = json.loads(limits_json(found))
        assert data["riglint"] == "limits/1"
        assert [one["name"] for one in data["ranges"]] == [one.name for one in found.ranges]
        for each, told in zip(found.ranges, data["ranges"], strict=True):
            assert each.name in text.lower()
            assert (told["now"], told["inside"]) == (each.now, each.inside)
            for end in ("lower", "upper"):
                edge = getattr(each, end)
                assert told[end]["last"] == edge.last
                if edge.beyond is not None:
                    assert told[end]["beyond"]["rule"] == edge.beyond.rule
                    assert edge.beyond.rule in text
                    assert parse_or_number(edge.last)
        assert "does not mean that a rig may be used" in text


def parse_or_number(text: str) -> bool:
    """Return whether a text is a plain number or a quantity that a file may hold."""
    if " " not in text:
        return float(text) >= 0.0
    units = {"kN": "force", "kg": "mass", "m": "length", "%": "strain_or_ratio"}
    return parse_quantity(text, units[text.partition(" ")[2]]).si >= 0.0  # type: ignore[arg-type]


@pytest.mark.parametrize("width", [40, 64, 100])
def test_text_keeps_to_its_width(width: int) -> None:
    assert max(map(len, characters(limits_text(of_weak_line(), width)).splitlines())) <= width


def test_the_rope_tail_moves_with_what_leaves_it() -> None:
    """The file's own figure for the tail ends no range: rope, tension and blocks move it."""
    found = limits("long_haul", {"chain[8].tail.left": "34 m"})
    for name in ("standing tension", "rope of the pulley system", "blocks laid out hand-tight"):
        one = named(found, name)
        beyond = [edge.beyond.rule for edge in (one.lower, one.upper) if edge and edge.beyond]
        assert "tail/rope" not in beyond, name
    rope = named(found, "rope of the pulley system").lower
    assert rope is not None
    assert rope.beyond is not None
    # Shortest by hand: 5 strands of 4.77 m and 1 m of reeving lie in the haul, 5 × 2.23 m go out, 1 m is kept: 37 m.
    assert number(rope.last) == pytest.approx(37.0, abs=0.5)
