"""The days of a line: the last one planned, and the one that a line is judged by."""

from __future__ import annotations

from datetime import date

from riglint.rulekit.case import Case


def last_day(case: Case) -> date | None:
    """Return the last day that the plan has the line up; None where it has no first day."""
    first = case.plan.first_day if case.plan else None
    if case.plan is None or first is None:
        return None
    after = max((case.plan.days_up or 1) - 1, 0)
    return date.fromordinal(min(first.toordinal() + after, date.max.toordinal()))


def until(case: Case) -> date:
    """Return the day up to which gear and papers must last: that of the audit, or the last of a line that is down.

    A line that is down must say how many days it was up, and it was up as long as somebody read or checked it.
    """
    last = last_day(case)
    if case.rig.stage != "lowered" or last is None or case.plan is None or case.plan.days_up is None:
        return case.on
    seen = [one.date for one in case.rig.checks if one.date is not None]
    seen += [one.date for one in case.rig.measured if one.date is not None]
    return min(case.on, max((last, *seen)))
