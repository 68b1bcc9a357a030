"""Runs the examples of rules: each is one change of a sound rig, and says what the rule must answer.

Used by riglint's own tests and by those who write rules of their own. Nothing here needs a test framework.
"""

import re
from copy import deepcopy
from dataclasses import dataclass
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from riglint.findings import Finding, judge
from riglint.model.library import Library
from riglint.policy import DEFAULT, InForce
from riglint.read.yaml_text import read_yaml, resolved
from riglint.rulebook import Rulebook
from riglint.rulekit import Example, Inserted, Removed, Rule, Signal

BASELINES = Path(__file__).parent / "baselines"
STEP = re.compile(r"([^.\[\]]+)|\[(\d+)\]")


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a rule said of one example, and what is wrong with that; empty if nothing is."""

    example: Example
    findings: tuple[Finding, ...]
    wrong: str


def baseline_names() -> tuple[str, ...]:
    """Return the names of the sound rigs that examples may start from."""
    return tuple(sorted(path.stem for path in BASELINES.glob("*.yaml")))


def edited(example: Example) -> str:
    """Return the text of an example's rig: its baseline with the edits made.

    Raises:
        KeyError: an edit names a key that the baseline does not have.
    """
    data: Any = resolved(_baseline(example.baseline).data)
    for key, value in example.edits:
        _edit(data, key, value)
    return yaml.safe_dump(data, sort_keys=False, allow_unicode=True, width=1000)


def run_example(rule_id: str, rule: Rule, example: Example) -> Outcome:
    """Run one rule over one example."""
    force = InForce(recalled=frozenset(example.recalled))
    found = findings_of(edited(example), {rule_id: rule}, example.on, force)
    findings = tuple(one for one in found if rule_id in {one.rule, *one.rules})
    return Outcome(example, findings, _wrong(example, rule, findings))


def findings_of(text: str, rules: dict[str, Rule], on: str, force: InForce = DEFAULT) -> list[Finding]:
    """Return what some rules say of a rig that stands whole in one text.

    Raises:
        ValueError: the text is no rig that can be judged.
    """
    path = Path("/example/rig.yaml")
    library = Library(path.parent)
    library.take(path, text.encode())
    rig, problems, _ = library.resolve(path)
    if rig is None:
        raise ValueError("; ".join(f"{one.key}: {one.message}" for one in problems))
    return judge(rig, Rulebook(rules), date.fromisoformat(on), force).findings


def _wrong(example: Example, rule: Rule, findings: tuple[Finding, ...]) -> str:
    """Say how the findings differ from the verdict that the example states."""
    crashed = [finding.message for finding in findings if finding.crashed]
    if crashed:
        return crashed[0]
    said = [f"{one.kind} {one.signal.name} at {one.at.key}: {one.message}" for one in findings]
    kinds = {finding.kind for finding in findings}
    if example.verdict == "sound":
        # A review that every rig has is no fault; anything else is.
        loud = [one for one in findings if one.kind != "review" or one.signal > Signal.NOTICE]
        return f"expected nothing, got {said}" if loud else ""
    wanted = {"faulty": "fail", "open": "open", "review": "review"}[example.verdict]
    matching = [one for one in findings if one.kind == wanted]
    if not matching:
        return f"expected {wanted}, got {said or 'nothing'}"
    if kinds - {wanted, "review"}:
        return f"expected only {wanted}, got {said}"
    if example.at is not None and not any(example.at in {one.at.key, one.at.part} for one in matching):
        return f"expected it at {example.at}, got {said}"
    if example.signal is not None and not any(one.signal == example.signal for one in matching):
        return f"expected {example.signal.name}, got {said}"
    # An open question carries the worst word that its rule could give.
    if example.verdict == "open" and any(one.signal < rule.signal for one in matching):
        return f"an open question carries less than the rule's word: {said}"
    return ""


@cache
def _baseline(name: str) -> Any:
    path = BASELINES / f"{name}.yaml"
    document, problems = read_yaml(path.read_bytes(), path.name)
    if document is None or problems:
        raise ValueError(f"the baseline {name} cannot be read: {problems}")
    return document


def _steps(key: str) -> list[str | int]:
    return [int(number) if number else word for word, number in STEP.findall(key)]


def _edit(data: Any, key: str, value: Any) -> None:
    *way, last = _steps(key)
    at = data
    for step in way:
        at = at[step]
    if isinstance(value, Removed):
        if isinstance(at, list) or last in at:  # a key that is not there is away already
            del at[last]
    elif isinstance(value, Inserted):
        at[last:last] = [dict(entry) for entry in value.entries]
    else:
        at[last] = deepcopy(value)  # examples share their edits
