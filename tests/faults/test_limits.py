"""Just outside each limit its rule speaks, whatever the other rules do, and no other joins in."""

import pytest

from tests.faults.limits import Boundary, boundaries, moves, said_outside
from tests.faults.seeded import BOOK

ALL = [pytest.param(one, id=one.name) for one in boundaries()]
# Rules that look at all rigs of a library together are judged with their library, by their own examples.
OF_RIGS = {
    f"{rule_id}.{limit.name}"
    for rule_id, rule in BOOK.rules.items()
    for limit in rule.limits
    if not rule.each.library
}


@pytest.mark.parametrize("one", ALL)
def test_outside_the_rule_of_the_limit_speaks(one: Boundary) -> None:
    assert [each for each in said_outside(one) if one.rule in {each.rule, *each.rules}]


@pytest.mark.parametrize("one", ALL)
def test_no_other_rule_joins_in(one: Boundary) -> None:
    others = [each for each in said_outside(one) if one.rule not in {each.rule, *each.rules}]
    loud = [each for each in others if not any(also.is_told_by(each) for also in one.also)]
    assert [(each.rule, each.kind, each.at.key, each.message) for each in loud] == []
    assert [also for also in one.also if not any(also.is_told_by(each) for each in others)] == []


@pytest.mark.parametrize("one", ALL)
def test_outside_is_near_the_limit(one: Boundary) -> None:
    assert moves(one)


def test_every_limit_has_its_boundary() -> None:
    assert {one.name for one in boundaries()} == OF_RIGS
