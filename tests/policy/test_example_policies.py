"""The policies of the example library: each comes into force, finds what it says and tells every change.

What the park and the crew ask is invented; such rules of cities and clubs were read (marked in the rulebook).
"""

import re
from pathlib import Path
from typing import Any

import pytest
import yaml

from riglint.policy import load_policy
from riglint.rulebook import Rulebook
from tests.policy.policies import audited

LIBRARY = Path(__file__).parents[2] / "examples/ordinary"
POLICIES = ("city-park", "highline-crew")
# Rig, policy, and what the policy adds to or takes from the findings: rule, key, word.
Found = tuple[str, str, str]
EFFECTS: dict[tuple[str, str], tuple[set[Found], set[Found]]] = {
    # Young birches; the children's line may hang lower above the lawn.
    ("rigs/03-children", "city-park"): (
        {
            ("anchor/tree_stem", "anchors.left.girth", "WARNING"),
            ("anchor/tree_stem", "anchors.right.girth", "WARNING"),
        },
        {("ground/clearance", "chain[0].height", "CAUTION")},
    ),
    # Slings too high for the park, two people at once, bare bark: which alone is only a NOTICE.
    ("against_park_rules/webbing-tackle", "city-park"): (
        {
            ("peak/discipline", "chain[0].height", "WARNING"),
            ("site/at_once", "plan.at_once", "CAUTION"),
            ("anchor/protector", "chain[9].gear", "WARNING"),
        },
        {("anchor/protector", "chain[9].gear", "NOTICE")},
    ),
    # Two on the rope, tapes too far apart, a webbing anchor that the crew has drawn from service.
    ("rigs/20-highline-trees", "highline-crew"): (
        {
            ("site/crew", "plan.crew.haulers", "WARNING"),
            ("backup/taping", "backups[0].taped_every", "WARNING"),
            ("gear/recalled", "items.HA-4", "DANGER"),
            ("gear/recalled", "items.HX-1", "DANGER"),
        },
        set(),
    ),
}


def policy_file(name: str) -> Path:
    """Return the file of a policy."""
    return LIBRARY / f"policies/{name}.yaml"


def faults(report: dict[str, Any]) -> set[Found]:
    """Return the faults of a report that count, by rule, key and word."""
    every = [one for file in report["files"] for one in file["findings"]]
    return {(one["rule"], one["at"]["key"], one["signal"]) for one in every if one["kind"] != "review"}


@pytest.mark.parametrize("name", POLICIES)
def test_an_example_policy_comes_into_force(name: str, book: Rulebook) -> None:
    force, problems = load_policy(policy_file(name), book)
    assert problems == []
    assert force is not None


@pytest.mark.parametrize(("rig", "name"), list(EFFECTS))
def test_a_policy_adds_what_it_says_and_nothing_else(
    capsys: pytest.CaptureFixture[str], rig: str, name: str
) -> None:
    status, before = audited(capsys, LIBRARY / f"{rig}.yaml")
    assert status == 0
    status, after = audited(capsys, LIBRARY / f"{rig}.yaml", "--policy", policy_file(name))
    assert status == 1
    added, gone = EFFECTS[rig, name]
    assert faults(after) - faults(before) == added
    assert faults(before) - faults(after) == gone


@pytest.mark.parametrize("name", POLICIES)
def test_the_report_tells_every_change_and_every_reason(
    capsys: pytest.CaptureFixture[str], name: str
) -> None:
    _, report = audited(capsys, LIBRARY / "rigs/04-sports-hall.yaml", "--policy", policy_file(name))
    told = report["policy"]["changed"]
    text = policy_file(name).read_text("utf-8")
    written = yaml.load(text, yaml.BaseLoader)  # noqa: S506 - builds text only, and leaves `off` a word
    places = ("values", "required", "signals", "off", "recalled")
    assert len(told) == sum(len(written.get(place, [])) for place in places)
    named = " ".join(one["name"] for one in told)
    assert [one for one in written["values"] if one not in named] == []
    reasons = set(re.findall(r"because: (.*?)[}\n]", text))
    assert {one["because"] for one in told if one["because"]} == reasons
    assert {one["because"] is not None for one in told if one["loosens"]} == {True}
    assert {one["loosens"] for one in told} == {True, False}
