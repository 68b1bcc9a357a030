"""A limit that is met exactly is met, whatever it is compared with."""

import pytest

from tests.rules.cases import RULES
from tests.rules.limits_met import AsIf, as_if, not_kept


@pytest.mark.parametrize("rule_id", RULES)
def test_limit_met_exactly_is_kept(rule_id: str) -> None:
    assert list(not_kept(rule_id, RULES[rule_id])) == []


@pytest.mark.parametrize("side", [-1, 0, 1])
def test_number_stands_on_its_side_whatever_is_made_of_it(side: int) -> None:
    limit = as_if(side, 2.0)
    for higher in (limit, limit + 1.0, 1.0 + limit, limit - 1.0, limit * 3.0, 3.0 * limit, limit / 2.0):
        assert isinstance(higher, AsIf)
        assert [higher < 5.0, higher <= 5.0, higher > 5.0, higher >= 5.0] == [
            side < 0,
            side <= 0,
            side > 0,
            side >= 0,
        ]
    for lower in (1.0 - limit, 1.0 / limit, -limit):
        assert (lower > 5.0) == (side < 0)
    assert float(3.0 - limit) == 1.0
    assert float(1.0 / limit) == 0.5
