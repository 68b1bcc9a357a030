"""What the ± of several inputs does to one finding, apart from any rig."""

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest

from riglint.findings.finding import Finding, Where
from riglint.findings.rule_runs import RunResult
from riglint.findings.variation import uncertainty
from riglint.model.values.sources import OWN
from riglint.rulekit import Signal

AT = Where("a.yaml", 1, 1, "x")
FAULT = Finding(
    "ratio/peak", Signal.WARNING, "fail", "Too weak.", "w", "Less.", AT, OWN, value=1.96, limit=2.0
)
NOTHING = RunResult([], frozenset(), "")


def moved(name: str) -> Any:
    at = SimpleNamespace(key_text=name, path="a.yaml", line=1, column=1)
    return SimpleNamespace(name=name, text=f"{name} ± 1", at=at)


def end(of: Any, value: float) -> Any:
    name = uncertainty._name(FAULT)
    return SimpleNamespace(
        moved=of, fails={name: replace(FAULT, value=value)}, result=NOTHING, sign="upper", whole=True
    )


@pytest.mark.parametrize(("moves", "within"), [(0.03, True), (0.02, False)])
def test_two_inputs_that_flip_a_fault_only_together_are_told(moves: float, within: bool) -> None:
    """0.04 to the limit: root of 2 × 0.03² is 0.042, of 2 × 0.02² is 0.028."""
    ends = [end(moved("span"), 1.96 - moves), end(moved("mass"), 1.96 - moves)]
    said = uncertainty._weighed(FAULT, ends)
    assert ("within the uncertainty" in said.message) == within
    assert said.kind == "fail"
    assert said.signal == Signal.WARNING


def test_only_the_input_that_silences_a_rule_is_named() -> None:
    silent = RunResult([], frozenset({"ratio/peak"}), "")
    a, b = moved("span"), moved("mass")
    ends: list[Any] = [SimpleNamespace(moved=a, result=silent, fails={}, sign="upper", whole=True)]
    rules: Any = {"ratio/peak": SimpleNamespace(why="w", formula="f")}
    found = {
        one.name: uncertainty._silenced(one, NOTHING, ends, lambda _: Signal.WARNING, rules) for one in (a, b)
    }
    assert [one.rule for one in found["span"]] == ["ratio/peak"]
    assert found["mass"] == []
