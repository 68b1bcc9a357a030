"""Months are counted on the calendar, not in days."""

from datetime import date

import pytest

from riglint.rulekit import months_after


@pytest.mark.parametrize(
    ("day", "months", "expected"),
    [
        (date(2025, 5, 2), 12, date(2026, 5, 2)),
        (date(2016, 12, 31), 120, date(2026, 12, 31)),
        (date(2024, 2, 29), 12, date(2025, 2, 28)),  # the calendar: 2025 has no 29 February
        (date(2025, 12, 31), 2, date(2026, 2, 28)),
        (date(2024, 1, 31), 1, date(2024, 2, 29)),
        (date(2026, 5, 2), 0, date(2026, 5, 2)),
        (date(2026, 5, 2), 10**9, date.max),  # the calendar of Python ends there
    ],
)
def test_months_after(day: date, months: int, expected: date) -> None:
    assert months_after(day, months) == expected
