"""What a finding says to change ends it: each remedy is written into the rig, and the rig is judged again."""

import re
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from functools import cache

import pytest

from riglint.findings import Finding, judge
from riglint.findings.variation.side_effects import SideEffectCheck
from riglint.loads.what_if.solved_for import Edit, Remedy
from riglint.rulebook import load_rulebook, shipped
from riglint.rulekit import Remedies, Signal, faulty
from riglint.rulekit.remedies import objected
from riglint.testing import edited, loads_of, rig_of, with_remedy
from tests.rules.cases import text_of

BOOK = load_rulebook()
ON = date(2026, 5, 2)
# Rules whose mechanics can be turned round. What other gear alone puts right is not among them: no label is edited.
TURNABLE = {
    "anchor/bolts",
    "anchor/boulder",
    "anchor/ground_anchor",
    "anchor/protector",
    "anchor/structure",
    "anchor/tree_stem",
    "backup/length",
    "backup/strength",
    "backup/stretch",
    "ground/clearance",
    "ground/fall_room",
    "ground/slope",
    "haul/brake",
    "haul/crew",
    "haul/grip",
    "haul/rope",
    "haul/tie_back",
    "haul/tie_back_catch",
    "haul/tie_back_strength",
    "haul/too_long",
    "haul/travel",
    "leash/build",
    "leash/swing",
    "lowering/hold",
    "lowering/let_down",
    "measure/planned_sag",
    "measure/tension",
    "peak/discipline",
    "placement/puller_tie_back",
    "ratio/haul_overshoot",
    "ratio/peak",
    "ratio/rated",
    "ratio/standing",
    "site/beginner",
    "site/water",
    "tail/knot",
    "tail/rope",
    "tail/stopper",
    "tail/webbing",
}
FAULTY = [
    (rule_id, n)
    for rule_id in sorted(TURNABLE)
    for n, example in enumerate(BOOK.rules[rule_id].examples)
    if example.verdict == "faulty"
]
# The last step of a value, by its unit or its key: one less is just short.
STEPS = {"kN": 0.1, "kg": 1.0, "%": 0.1, "mm": 5.0, "": 1.0, "m": 0.05}
STEPS_OF = {"length": 0.5, "open": 0.1, "cut": 0.1, "tail_wraps": 0.25}
PROTECTOR = "chain[1].length"  # a length that goes by the hand's breadth, unlike a rope's


@cache
def judged(text: str, *, with_remedies: bool = False) -> list[Finding]:
    return judge(rig_of(text), BOOK, ON, loads=loads_of(text, ON), with_remedies=with_remedies).findings


@cache
def findings(rule_id: str, n: int) -> tuple[Finding, ...]:
    found = judged(text_of(rule_id, n), with_remedies=True)
    return tuple(one for one in found if one.rule == rule_id and one.kind == "fail")


def remedies(rule_id: str, n: int) -> Iterator[tuple[Finding, Remedy]]:
    for finding in findings(rule_id, n):
        for remedy in finding.remedies:
            yield finding, remedy


def still(finding: Finding, text: str) -> bool:
    """Return whether the rule still finds fault with that place."""
    return any(
        (one.rule, one.at.key, one.at.part, one.kind)
        == (finding.rule, finding.at.key, finding.at.part, "fail")
        for one in judged(text)
    )


def has_no_side_effect(rule_id: str, n: int, text: str, word: Signal = Signal.WARNING) -> bool:
    """Return whether no rule objects to a remedy; to that of a CAUTION, however mildly."""
    before, after = ((loads_of(one, ON), judged(one)) for one in (text_of(rule_id, n), text))
    check = SideEffectCheck(dict((before, after)).__getitem__, before[0])
    return check(after[0]) if word > Signal.CAUTION else check.costs_nothing(after[0])


@pytest.mark.parametrize(("rule_id", "n"), FAULTY)
def test_remedy_ends_its_finding_and_makes_nothing_worse(rule_id: str, n: int) -> None:
    for finding, remedy in remedies(rule_id, n):
        text = with_remedy(text_of(rule_id, n), remedy)
        assert not still(finding, text), remedy
        assert has_no_side_effect(rule_id, n, text, finding.signal), remedy


@pytest.mark.parametrize(("rule_id", "n"), FAULTY)
def test_one_step_less_is_not_enough(rule_id: str, n: int) -> None:
    for finding, remedy in remedies(rule_id, n):
        if rule_id.startswith("measure/"):  # what was read is meant, and not the nearest value that passes
            continue
        short = just_short(remedy)
        if short is None:
            continue
        text = with_remedy(text_of(rule_id, n), short)
        assert still(finding, text) or not has_no_side_effect(rule_id, n, text, finding.signal), short


@pytest.mark.parametrize("rule_id", sorted(TURNABLE))
def test_turnable_rule_has_a_remedy_for_an_example(rule_id: str) -> None:
    examples = [n for one, n in FAULTY if one == rule_id]
    assert any(finding.remedies for n in examples for finding in findings(rule_id, n))


def test_rules_that_look_for_remedies_are_the_turnable_ones() -> None:
    files = shipped("rules").glob("*/*.py")
    asks = re.compile(r"put_right\(|loose_or_askew\(")  # the latter asks for whoever calls it
    asking = {f"{file.parent.name}/{file.stem}" for file in files if asks.search(file.read_text("utf-8"))}
    assert asking == TURNABLE


@pytest.mark.parametrize(
    "rule_id", sorted(TURNABLE - {"site/beginner", "measure/planned_sag", "measure/tension"})
)
def test_advice_holds_the_new_value(rule_id: str) -> None:
    for one, n in FAULTY:
        for finding, remedy in remedies(one, n) if one == rule_id else ():
            figures = re.findall(r"\d+(?:\.\d+)?", remedy.edits[0].new)
            assert set(figures) <= set(re.findall(r"\d+(?:\.\d+)?", finding.do)), finding.do


def test_what_would_do_but_for_another_rule_says_so() -> None:
    line = {"chain[0].height": "0.9 m", "chain[12].height": "0.9 m"}
    lake = faulty("low", {**line, "spot.ground.surface": "water", "spot.ground.water_depth": "2.05 m"})
    (told,) = (one for one in judged(edited(lake), with_remedies=True) if one.rule == "ground/clearance")
    assert not told.remedies
    assert told.do.startswith("Raise both anchors to 1.75 m (but site/water then objects: DANGER), or ")
    higher = faulty("low", {**dict(lake.edits), "chain[0].height": "1.75 m", "chain[12].height": "1.75 m"})
    after = {one.rule: one.signal for one in judged(edited(higher)) if one.kind == "fail"}
    assert after["site/water"] is Signal.DANGER
    assert "ground/clearance" not in after


def test_advice_that_no_value_tried_bears_out_says_so() -> None:
    # 6.1 m is farther than anchors are moved.
    (told,) = (one for one in findings("ground/fall_room", 8) if "6.1 m" in one.do)
    assert not told.remedies
    assert "(not shown to be enough: audit again)" in told.do


def test_ways_of_a_case_that_only_asks_are_those_by_hand() -> None:
    assert Remedies().or_else("lay it lower", "lay it slack") == ("lay it lower", "lay it slack")
    assert Remedies((), in_vain=True).or_else() == ()
    many = objected(Remedy("lay it lower", ()), [("a/b", Signal.DANGER), ("c/d", Signal.WARNING)])
    assert many == "lay it lower (but a/b and 1 more then object: DANGER)"


def just_short(remedy: Remedy) -> Remedy | None:
    """Return a remedy with every value one step nearer to what stands there; None where that is reached already."""
    edits = []
    for edit in remedy.edits:
        new, _, unit = edit.new.partition(" ")
        old, key = number(edit.old), edit.at.key_text
        step = STEPS[unit] if key == PROTECTOR else STEPS_OF.get(str(edit.at.key[-1]), STEPS[unit])
        if unit == "kN" and old < 1.0:
            step = 0.01
        less = float(new) - step if float(new) > old else float(new) + step
        if (less - old) * (float(new) - old) <= 1e-9:
            return None
        edits.append(Edit(edit.at, edit.old, f"{less:.6g} {unit}".rstrip()))
    return replace(remedy, edits=tuple(edits))


def number(text: str) -> float:
    return float(text.partition(" ")[0])
