"""Every rule answers its own examples, and has the examples, sources and limits that a rule must have."""

import ast
import gc
import re
import sys
from collections import defaultdict
from collections.abc import Iterator
from functools import cache
from itertools import islice
from math import isfinite
from pathlib import Path
from typing import Any

import pytest

from riglint.model.values.sources import MARKS
from riglint.read.yaml_text import read_yaml, resolved
from riglint.rulebook import shipped
from riglint.rulekit import REMOVE, Example, Limit, MissingInput, NotComputable
from riglint.testing import BASELINES, Outcome, edited, findings_of, run_example
from tests.rules.cases import RULES, case_of

FILES = sorted(shipped("rules").glob("*/*.py"))
ON = "2026-05-02"
EXAMPLES = [(rule_id, n) for rule_id, rule in RULES.items() for n in range(len(rule.examples))]
LIMITS = [
    pytest.param(rule_id, limit, id=f"{rule_id}.{limit.name}")
    for rule_id, rule in RULES.items()
    for limit in rule.limits
]
FORCES = "ratio/peak"
# How far a limit may lie from the nearest example on either side.
NEAR = 0.05


@pytest.fixture(scope="module", autouse=True)
def few_collections() -> Iterator[None]:
    """Let the garbage collector run seldom: a thousand rigs are kept, and it would walk all of them each time."""
    before = gc.get_threshold()
    gc.set_threshold(100_000, 50, 100)
    yield
    gc.set_threshold(*before)


@cache
def outcome(rule_id: str, n: int) -> Outcome:
    return run_example(rule_id, RULES[rule_id], RULES[rule_id].examples[n])


@pytest.mark.parametrize(("rule_id", "n"), EXAMPLES)
def test_rule_answers_its_example(rule_id: str, n: int) -> None:
    assert outcome(rule_id, n).wrong == "", RULES[rule_id].examples[n]


@pytest.mark.parametrize("rule_id", RULES)
def test_rule_has_sound_and_faulty_examples(rule_id: str) -> None:
    verdicts = {example.verdict for example in RULES[rule_id].examples}
    assert "sound" in verdicts
    assert verdicts & {"faulty", "review"}


# A long line has the same parts as a low one. Taking away every value takes minutes, one in so many seconds.
@pytest.mark.parametrize(
    ("baseline", "one_in"),
    [
        ("low", 5),
        ("highline", 50),
        pytest.param("low", 1, marks=pytest.mark.slow),
        pytest.param("highline", 1, marks=pytest.mark.slow),
    ],
)
def test_each_input_has_an_open_example(baseline: str, one_in: int) -> None:
    """Take one value after the other out of a sound rig: a rule that then waits for a field must show it.

    What the forces rest on is asked for by every rule that judges forces; one rule shows it for all.
    """
    not_shown: dict[str, set[str]] = defaultdict(set)
    for example in with_one_value_missing(baseline, one_in):
        for finding in findings_of(edited(example), RULES, ON):
            assert not finding.crashed, (example.edits, finding.message)
            # What nobody can compute stands at no field: no example could leave that one out.
            for rule_id in finding.rules if finding.kind == "open" and finding.at.key else ():
                if any_place(finding.at.key) not in shown_open(rule_id) | shown_open(FORCES):
                    not_shown[rule_id].add(finding.at.key)
    assert {rule_id: sorted(keys) for rule_id, keys in not_shown.items()} == {}


@pytest.mark.parametrize("rule_id", RULES)
def test_rule_says_what_it_compares_and_why(rule_id: str) -> None:
    rule = RULES[rule_id]
    assert rule.title
    assert rule.formula
    assert rule.why.endswith(".")
    sources = [*rule.sources, *(limit.source for limit in rule.limits)]
    assert sources
    assert all(source.text and source.mark in MARKS for source in sources)


@pytest.mark.parametrize(("rule_id", "limit"), LIMITS)
def test_limit_has_a_reason_and_a_number(rule_id: str, limit: Limit) -> None:
    assert limit.because.endswith(".")
    assert isfinite(limit.si)
    assert [one.name for one in RULES[rule_id].limits].count(limit.name) == 1


@pytest.mark.parametrize("way", [1, -1], ids=["raised", "lowered"])
@pytest.mark.parametrize(("rule_id", "limit"), LIMITS)
def test_limit_lies_between_two_near_examples(rule_id: str, limit: Limit, way: int) -> None:
    """A limit that moves a little, up or down, changes what its rule says of some example."""
    step = NEAR * abs(limit.si)
    if limit.text.isdigit():  # a count has no nearer neighbour than the next one
        step = max(step, 1.0)
    moved = {f"{rule_id}.{limit.name}": limit.si + way * step}
    assert any(said(rule_id, n, moved) != usually(rule_id, n) for n in range(len(RULES[rule_id].examples)))


@pytest.mark.parametrize("family", sorted({file.parent for file in FILES}), ids=lambda path: path.name)
def test_family_says_what_it_holds(family: Path) -> None:
    assert re.fullmatch(r'"""[A-Z].+\."""\n', (family / "__init__.py").read_text(encoding="utf-8"))


@pytest.mark.parametrize("file", FILES, ids=lambda path: f"{path.parent.name}/{path.name}")
def test_rule_imports_the_rulekit_and_the_standard_library_only(file: Path) -> None:
    modules = set()
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            modules |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            modules.add("." * node.level + (node.module or ""))
    foreign = {name for name in modules if name.partition(".")[0] not in sys.stdlib_module_names}
    assert foreign <= {"riglint.rulekit"}


@cache
def usually(rule_id: str, n: int) -> list[tuple[object, ...]]:
    return said(rule_id, n, {})


def said(rule_id: str, n: int, limits: dict[str, float]) -> list[tuple[object, ...]]:
    """Return what a rule says of an example with other limits in force: where and with which word."""
    rule = RULES[rule_id]
    found: list[tuple[object, ...]] = []
    try:
        case = case_of(rule_id, n, limits)
        for subject in rule.each.of(case):
            faults = rule.check(case, subject)
            found += ((one.at.key_text, one.at.part, one.kind, one.signal) for one in faults)
    except (MissingInput, NotComputable) as reason:
        found.append((str(reason),))
    return found


@cache
def shown_open(rule_id: str) -> set[str]:
    """Return the fields that the open examples of a rule leave out."""
    opens = [n for n, example in enumerate(RULES[rule_id].examples) if example.verdict == "open"]
    return {
        any_place(one.at.key) for n in opens for one in outcome(rule_id, n).findings if one.kind == "open"
    }


def any_place(key: str) -> str:
    """Return a key without the part, gear, anchor or bolt that it stands at; a backup's chain is a chain."""
    key = re.sub(r"^backups\[\d+\]\.chain", "chain", key)
    return re.sub(r"\[\d+\]|(?<=items\.)[^.]+|(?<=anchors\.)[^.]+|(?<=points\.)[^.]+", "*", key)


def with_one_value_missing(baseline: str, one_in: int) -> Iterator[Example]:
    """Yield one example for each key of a baseline, or one in so many, that a rig can be read without."""
    document, _ = read_yaml((BASELINES / f"{baseline}.yaml").read_bytes(), baseline)
    assert document is not None
    for key in islice(keys_below(resolved(document.data)), 0, None, one_in):
        example = Example("open", baseline, ((key, REMOVE),))
        try:
            findings_of(edited(example), {}, ON)
        except ValueError:  # without it the file is no rig
            continue
        yield example


def keys_below(data: Any, above: str = "") -> Iterator[str]:
    if isinstance(data, dict):
        for key, value in data.items():
            if "." not in key:  # an edit cannot name the rest, such as the points of a stretch curve
                yield f"{above}.{key}".lstrip(".")
                yield from keys_below(value, f"{above}.{key}".lstrip("."))
    elif isinstance(data, list):
        for n, value in enumerate(data):
            yield from keys_below(value, f"{above}[{n}]")
