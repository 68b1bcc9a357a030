"""Just outside each limit its rule speaks, whatever the other rules do, and no other joins in."""

import pytest

from riglint.findings import Finding
from riglint.testing import edited
from tests.faults.limits import Boundary, boundary, moves, names, pair_of_examples, rows, said_outside

ALL = names()


@pytest.mark.parametrize("name", ALL)
def test_outside_the_rule_of_the_limit_speaks(name: str) -> None:
    one = boundary(name)
    assert [each for each in said_outside(one) if one.rule in {each.rule, *each.rules}]


@pytest.mark.parametrize("name", ALL)
def test_no_other_rule_joins_in(name: str) -> None:
    one = boundary(name)
    others = [each for each in said_outside(one) if one.rule not in {each.rule, *each.rules}]
    loud = [each for each in others if not any(also.is_told_by(each) for also in one.also)]
    assert [(each.rule, each.kind, each.at.key, each.message) for each in loud] == []
    assert [also for also in one.also if not any(also.is_told_by(each) for each in others)] == []


@pytest.mark.parametrize("name", ALL)
def test_outside_is_near_the_limit(name: str) -> None:
    assert moves(name, boundary(name).outside, 1)


def test_every_row_is_of_a_limit_and_says_more_than_the_examples_of_its_rule() -> None:
    """A row stands only where others come in, or where the examples let others in and the row's own pair does not."""
    assert set(rows()) <= set(ALL)
    assert [name for name, row in rows().items() if "rig" not in row and not row.get("also")] == []
    assert [name for name, row in rows().items() if "rig" in row and not _others_of_examples(name)] == []


def _others_of_examples(name: str) -> list[Finding]:
    """What other rules say outside a limit, going by the examples of its rule."""
    inside, outside = pair_of_examples(name)
    one = Boundary(name, edited(inside), edited(outside), ())
    return [each for each in said_outside(one) if one.rule not in {each.rule, *each.rules}]
