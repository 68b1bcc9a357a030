"""What a policy calls tightening is one: no value moved its tighter way takes a finding away or lowers its word.

Each model value and each limit is moved by a tenth, by half and by far over sound, ordinary and faulty example rigs.
A sample of them runs each time; all run with `-m slow`.
"""

from functools import cache
from pathlib import Path
from random import Random

import pytest

from riglint.findings.judging import Judged, judge
from riglint.model.library import Library, RigFile
from riglint.model.references import resolve
from riglint.model.values.defaults import DEFAULTS, bounds_of
from riglint.model.values.policy import Values
from riglint.policy import DEFAULT, InForce
from riglint.read.library import library_root
from riglint.rulebook import Rulebook, load_rulebook
from riglint.rulekit import Signal
from tests.rigs import ON

ROOT = Path(__file__).parents[2]
FOLDERS = (
    "examples/rigs",
    "examples/faulty",
    "examples/ordinary/rigs",
    "examples/ordinary/against_park_rules",
)
TIMES = {"higher": (1.1, 1.5, 3.0), "lower": (0.9, 0.67, 0.33)}
SAMPLE = 150  # of a few thousand; which ones is fixed
Said = dict[tuple[str, str, str, str | None], Signal]


@cache
def book() -> Rulebook:
    return load_rulebook()


@cache
def rigs() -> dict[str, RigFile]:
    """Every rig of the corpus that can be read."""
    found = {}
    for folder in FOLDERS:
        for file in sorted((ROOT / folder).glob("*.yaml")):
            rig, _, _ = resolve(Library(library_root(file, None)), file)
            if rig is not None:
                found[f"{folder}/{file.stem}"] = rig
    return found


def moved() -> list[tuple[str, float]]:
    """Every model value (`model.<name>`) and limit with values that are tighter than its default, SI."""
    found = []
    for name, default in DEFAULTS.items():
        low, high = bounds_of(name) or (0.0, 1.0 if default.dimension is None and default.si < 1.0 else 1e12)
        tries = {min(max(default.si * times, low), high) for times in TIMES[default.tighter]}
        found += [(f"model.{name}", one) for one in sorted(tries) if one != default.si]
    for rule_id, rule in book().rules.items():
        if rule.each.library:
            continue
        for limit in rule.limits:
            found += [(f"{rule_id}.{limit.name}", limit.si * times) for times in TIMES[limit.tighter]]
    return found


def judged(rig: RigFile, force: InForce) -> Judged:
    return judge(rig, book(), ON, force, with_remedies=False)


@cache
def usual(name: str) -> Judged:
    return judged(rigs()[name], DEFAULT)


def said(of: Judged) -> Said:
    """Return each place where a rule speaks, with its gravest word, from CAUTION up."""
    found: Said = {}
    for one in of.findings:
        if one.signal >= Signal.CAUTION and one.kind != "review":
            key = one.rule, one.at.path, one.at.key, one.at.part
            found[key] = max(one.signal, found.get(key, one.signal))
    return found


def lost(name: str, value: str, si: float) -> list[object]:
    """Return what is not said any more, or more mildly, with a value so much tighter."""
    force = (
        InForce(values=Values({value.removeprefix("model."): si}))
        if value.startswith("model.")
        else InForce(limits={value: si})
    )
    before, after = usual(name), judged(rigs()[name], force)
    now = said(after)
    gravest = {rule: max(word for (one, *_), word in now.items() if one == rule) for rule, *_ in now}
    return [
        (key, word.name)
        for key, word in said(before).items()
        if now.get(key, Signal.NOTICE) < word
        and gravest.get(key[0], Signal.NOTICE) < word  # told at another place of the same rig
        and key[0] not in after.unanswered
    ]


def cases() -> list[tuple[str, float, str]]:
    return [(value, si, name) for value, si in moved() for name in sorted(rigs())]


def test_the_corpus_is_large() -> None:
    assert len(rigs()) > 30
    assert len(moved()) > 500


@pytest.mark.parametrize(
    "case",
    Random(11).sample(cases(), SAMPLE),  # noqa: S311 - a sample of tests, no secret
    ids=lambda one: f"{one[0]} {one[1]:.3g} {one[2]}",
)
def test_tighter_takes_nothing_away(case: tuple[str, float, str]) -> None:
    value, si, name = case
    assert lost(name, value, si) == []


@pytest.mark.slow
@pytest.mark.parametrize("value", sorted({value for value, _ in moved()}))
def test_no_tighter_value_takes_anything_away(value: str) -> None:
    tries = [si for one, si in moved() if one == value]
    assert [
        (si, name, gone) for si in tries for name in sorted(rigs()) if (gone := lost(name, value, si))
    ] == []
