"""A club may move any limit as far as a policy lets it: to nothing, or beyond all measure. No rule crashes on that."""

from collections.abc import Iterator
from dataclasses import replace

import pytest

from riglint.findings import Finding, judge
from riglint.findings.library.across_rigs import judge_library
from riglint.policy import DEFAULT, InForce
from riglint.rulebook import Rulebook, load_rulebook
from riglint.rulekit import Example, Rule
from riglint.testing import edited, library_of, rig_of
from tests.rigs import ON

RULES = {name: rule for name, rule in load_rulebook().rules.items() if rule.limits}
FAR = (0.0, 1e9)  # SI
FEW = 2  # of the examples of each verdict


def chosen(rule: Rule) -> Iterator[Example]:
    for verdict in ("sound", "faulty", "open"):
        yield from [one for one in rule.examples if one.verdict == verdict][:FEW]


def findings(rule_id: str, rule: Rule, example: Example, force: InForce) -> list[Finding]:
    book = Rulebook({rule_id: rule})
    if rule.each.library:
        return judge_library(library_of(example, force), book, force)
    return judge(rig_of(edited(example)), book, ON, force).findings


@pytest.mark.parametrize("rule_id", RULES)
def test_no_limit_crashes_its_rule(rule_id: str) -> None:
    rule = RULES[rule_id]
    for limit in rule.limits:
        for far in FAR:
            force = replace(DEFAULT, limits={f"{rule_id}.{limit.name}": far})
            for example in chosen(rule):
                crashed = [one.message for one in findings(rule_id, rule, example, force) if one.crashed]
                assert crashed == [], (limit.name, far, example.edits)
