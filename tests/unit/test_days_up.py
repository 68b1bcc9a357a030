"""Which rigs are up on one day."""

from datetime import date

import pytest

from riglint.loads.day.days_up import ALWAYS, DaysUp, days_up, up_together
from tests.rigs import loads_of, rig_data

TODAY = date(2026, 5, 2)


def days(**edits: object) -> DaysUp | None:
    return days_up(loads_of(rig_data("low", dict(edits))).path.rig.rig, TODAY)


def may(first: int, last: int) -> DaysUp:
    return DaysUp(date(2026, 5, first), date(2026, 5, last))


@pytest.mark.parametrize(
    ("edits", "expected"),
    [
        ({"plan.first_day": "2026-05-09", "plan.days_up": 2}, may(9, 10)),
        ({"plan.first_day": "2026-05-09", "stage": "built"}, may(2, 9)),
        ({"plan.first_day": "2026-05-09", "stage": "lowered"}, None),
        ({}, ALWAYS),
    ],
)
def test_days_of_a_plan(edits: dict[str, object], expected: DaysUp | None) -> None:
    assert days(**edits) == expected


def test_days_that_are_not_counted_may_be_any_from_the_first() -> None:
    found = days(**{"plan.first_day": "2026-05-09", "plan.days_up": None})
    assert found is not None
    assert found.on(date(2027, 1, 1))
    assert not found.told


def test_the_largest_companies_are_found() -> None:
    found = up_together([may(1, 3), may(3, 5), may(5, 6), may(3, 3), ALWAYS])
    assert [numbers for _, numbers in found] == [{0, 1, 3, 4}, {1, 2, 4}]
