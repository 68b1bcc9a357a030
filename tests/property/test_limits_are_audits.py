"""What `limits` says is what an audit says: of each example rig, with only the named keys written anew.

At the last value that passes no more is stopped than today; one step on, the rule that is named speaks.
"""

from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest

from riglint.findings import Finding
from riglint.findings.auditing import audit, load_rig
from riglint.findings.variation.objecting import IsWorse
from riglint.findings.variation.ranges import Limits, Range, limits_of
from riglint.findings.variation.varied_rig import RangeEnd, VariedRig
from riglint.loads.what_if.adjustable import higher_anchors, lower_anchors, lower_tension, more_tension
from riglint.loads.what_if.solved_for import Adjustment
from riglint.loads.what_if.strides import strides
from riglint.policy import DEFAULT
from riglint.read.document import Document
from riglint.read.yaml_text import read_yaml
from riglint.rulebook import Rulebook, load_rulebook
from riglint.rulekit import Signal
from tests.rigs import ON

ROOT = Path(__file__).parents[2] / "examples"
RIGS = sorted(str(file.relative_to(ROOT)) for file in (ROOT / "rigs").glob("*.yaml"))
NOW = ("rigs/low-line.yaml", "rigs/highline-webbing-backup.yaml")  # the others take half a minute together
# Of each value the step in its unit, and whether several keys move by the same.
STEPS = {
    "standing tension": 0.1,
    "heaviest user": 1.0,
    "people on the line at a time": 1.0,
    "height of both anchors": 0.05,
    "haulers": 1.0,
    "turns of the tail round the trunk": 0.25,
    "rope of the pulley system": 0.5,
    "blocks laid out hand-tight": 0.1,
}


@cache
def book() -> Rulebook:
    return load_rulebook()


@cache
def limits(name: str) -> Limits:
    loads, told = load_rig(ROOT / name, ON, None)
    assert loads is not None, told
    return limits_of(loads, book(), ON)


def stopped(name: str, edits: dict[tuple[str | int, ...], str]) -> list[Finding]:
    """Return the faults and open questions of WARNING or graver with keys written anew, as a file would hold them."""
    file = (ROOT / name).resolve()
    document, _ = read_yaml(file.read_bytes(), name)
    assert document is not None
    lines = document.text.splitlines()
    for key, text in edits.items():
        place, old = document.place(key), written(document, key)
        line, column = lines[place.line - 1], place.column - 1
        assert line[column:].startswith(old), (key, old)
        lines[place.line - 1] = line[:column] + text + line[column + len(old) :]
    texts = {file: "\n".join(lines).encode()}
    found = audit([ROOT / name], book(), ON, texts=texts).findings
    return [one for one in found if one.kind != "review" and one.counts and one.signal >= Signal.WARNING]


def written(document: Document, key: tuple[str | int, ...]) -> str:
    """Return a value as it stands in a file."""
    node: object = document.data
    for step in key:
        node = node[step]  # type: ignore[index]
    return str(node)


def number(text: str) -> float:
    return float(text.partition(" ")[0])


def moved(each: Range, edge: RangeEnd, by: float) -> dict[tuple[str | int, ...], str]:
    """Return the edits that bring every key of a range to an end, and some steps beyond."""
    unit = edge.last.partition(" ")[2]
    first = number(edge.last) + by
    today = [number(one) for one in each.today]
    if each.capped:
        values = [first, *(min(one, first) for one in today[1:])]
    else:
        values = [one + first - today[0] for one in today]
    edits = {at.key: f"{value:.6g} {unit}".strip() for at, value in zip(each.at, values, strict=True)}
    return edits | {one.at.key: one.new for one in edge.along}


def rules_of(found: list[Finding]) -> set[str]:
    return {rule for one in found for rule in (one.rule, *one.rules)}


@pytest.mark.parametrize(
    "name", [one if one in NOW else pytest.param(one, marks=pytest.mark.slow) for one in RIGS]
)
def test_ends_are_those_of_an_audit(name: str) -> None:
    today = stopped(name, {})
    looked_at = 0
    for each in limits(name).ranges:
        step = STEPS.get(each.name, 0.1)
        for edge, way in ((each.lower, -1.0), (each.upper, 1.0)):
            if edge is None or not each.inside:
                continue
            looked_at += 1
            within = stopped(name, moved(each, edge, 0.0))
            assert rules_of(within) <= rules_of(today), (
                each.name,
                edge.last,
                [one.message for one in within],
            )
            if edge.beyond is not None:
                beyond = stopped(name, moved(each, edge, way * step))
                assert edge.beyond.rule in rules_of(beyond), (each.name, edge.last)
    assert looked_at >= 6


# What one rule is enough for


@pytest.mark.parametrize("name", ["compact/park-line.yaml", "rigs/low-line.yaml", "faulty/waterline.yaml"])
def test_what_one_rule_objects_to_fails_when_all_are_asked(
    name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    loads, told = load_rig(ROOT / name, ON, None)
    assert loads is not None, told
    objected: list[tuple[VariedRig, Adjustment, int, IsWorse]] = []

    def noting(short: Callable[..., bool]) -> Callable[..., bool]:
        def fails(judging: VariedRig, adjustment: Adjustment, steps: int, is_worse: IsWorse) -> bool:
            found = short(judging, adjustment, steps, is_worse)
            objected.extend([(judging, adjustment, steps, is_worse)] if found else [])
            return found

        return fails

    with monkeypatch.context() as patch:
        for short in (VariedRig.fails, VariedRig.fails_as_written, VariedRig.is_objected_to):
            patch.setattr(VariedRig, short.__name__, noting(short))
        limits_of(loads, book(), ON)
    assert len(objected) >= 6
    for judging, adjustment, steps, is_worse in objected:
        judging.at(adjustment, steps)  # asks all
        assert judging.fails(adjustment, steps, is_worse), (adjustment.keys, steps)


@pytest.mark.parametrize("name", ["faulty/long-line.yaml", "faulty/waterline.yaml"])
def test_rules_that_a_value_does_not_silence_are_found_when_all_are_asked(name: str) -> None:
    loads, told = load_rig(ROOT / name, ON, None)
    assert loads is not None, told
    judging = VariedRig(loads, book(), ON, DEFAULT, Signal.WARNING)
    today = {one.rule for one in judging.today}
    for adjusting in (lower_tension, more_tension, lower_anchors, higher_anchors):
        adjustment = adjusting(loads)
        assert adjustment is not None
        start, bound = judging.search.reach(adjustment)
        for steps in strides(start, bound, 8):
            short = judging.silenced(adjustment, steps, today)
            judging.at(adjustment, steps)  # asks all
            assert judging.silenced(adjustment, steps, today) == short, (adjustment.keys, steps)
