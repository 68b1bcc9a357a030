"""The days of an audit: which of its rigs stand together on the day that was asked for, spot by spot."""

from __future__ import annotations

from riglint.findings import Audit
from riglint.rulekit.case import Case
from riglint.rulekit.together import companies
from riglint.views.day.content import Day, day_of
from riglint.views.day.plan import SitePlan, site_plan


def days_of(audit: Audit) -> list[tuple[Day, SitePlan | None]]:
    """Return each spot on which several lines are up that day, with its plan; nothing without a day."""
    if audit.day is None:
        return []
    cases = [
        Case(loads, audit.on, audit.force.limits, audit.force.recalled)
        for one in audit.files
        if (loads := one.computed) is not None
    ]
    found = [one for one in companies(cases, audit.on, audit.day) if len(one.cases) > 1]
    findings = [one for file in audit.files for one in file.findings]
    days = []
    for company in found:
        here = [one for one in findings if set(one.rigs) & set(company.paths)]
        days.append((day_of(company, here), site_plan(company)))
    return days
