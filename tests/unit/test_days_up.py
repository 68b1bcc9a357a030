"""Which rigs are up on one day."""

import random
from datetime import date
from itertools import combinations

import pytest

from riglint.loads.day.days_up import ALWAYS, DaysUp, days_up, may_meet, up_together
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


def some_days(chance: random.Random) -> DaysUp:
    first = chance.randint(1, 20)
    return DaysUp(date(2026, 5, first), date(2026, 5, chance.randint(first, 28)), chance.random() < 0.8)


def largest(days: list[DaysUp]) -> list[frozenset[int]]:
    """The companies by what they are: on each day those that are up, without any that are within another."""
    every = [frozenset(n for n, one in enumerate(days) if one.on(date(2026, 5, day))) for day in range(1, 29)]
    return [one for one in dict.fromkeys(every) if one and not any(one < other for other in every)]


@pytest.mark.parametrize("seed", range(40))
def test_companies_and_meetings_are_those_of_each_day(seed: int) -> None:
    chance = random.Random(seed)  # noqa: S311 - for variety, not for secrets
    days = [some_days(chance) for _ in range(chance.randint(1, 12))]
    assert [numbers for _, numbers in up_together(days)] == largest(days)
    numbers = range(len(days))
    meet = [
        (a, b)
        for a, b in combinations(numbers, 2)
        if max(days[a].first, days[b].first) <= min(days[a].last, days[b].last)
    ]
    told = [(a, b) for a, b in meet if days[a].told and days[b].told]
    found = list(may_meet(numbers, days))
    assert sorted(one for one in found if days[one[0]].told and days[one[1]].told) == told
    asked = {n for pair in found for n in pair}
    assert asked >= {n for n in numbers if not days[n].told and len(days) > 1}


def test_a_rig_without_told_days_is_there_beside_the_first_other_one() -> None:
    days = [may(1, 2), None, ALWAYS, may(5, 6), ALWAYS]
    assert sorted(set(may_meet(range(5), days))) == [(0, 2), (0, 4)]
