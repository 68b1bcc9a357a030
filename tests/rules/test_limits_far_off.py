"""A club may move any limit as far as a policy lets it: to nothing, or beyond all measure. No rule crashes on that."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import product

import pytest

from riglint.findings import Finding
from riglint.findings.library.across_rigs import judge_library
from riglint.policy import DEFAULT, InForce
from riglint.rulebook import Rulebook, load_rulebook
from riglint.rulekit import Example, Rule
from riglint.testing import edited, findings_of, library_of
from tests.rigs import ON

RULES = {name: rule for name, rule in load_rulebook().rules.items() if rule.limits}
FAR = (0.0, 1e9)  # SI
FEW = 2  # of the examples of each verdict


def chosen(rule: Rule) -> Iterator[Example]:
    for verdict in ("sound", "faulty", "open"):
        yield from [one for one in rule.examples if one.verdict == verdict][:FEW]


def findings(rule_id: str, rule: Rule, example: Example, text: str, force: InForce) -> list[Finding]:
    """Return what a rule says; the forces of a rig rest on no limit, so they are computed once."""
    if rule.each.library:
        return judge_library(library_of(example, force), Rulebook({rule_id: rule}), force)
    return findings_of(text, {rule_id: rule}, ON.isoformat(), force)


@pytest.mark.parametrize("rule_id", RULES)
def test_no_limit_crashes_its_rule(rule_id: str) -> None:
    rule = RULES[rule_id]
    for example in chosen(rule):
        text = edited(example)
        for limit, far in product(rule.limits, FAR):
            force = replace(DEFAULT, limits={f"{rule_id}.{limit.name}": far})
            found = findings(rule_id, rule, example, text, force)
            assert [one.message for one in found if one.crashed] == [], (limit.name, far, example.edits)
