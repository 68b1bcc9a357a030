"""On which days a rig is up, as far as its plan says."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from riglint.model.documents.rig import Rig
from riglint.records import dataclass


@dataclass(frozen=True, slots=True)
class DaysUp:
    """The days from the first to the last that a rig is up; one that names no day may be up on any."""

    first: date
    last: date
    told: bool = True  # whether the plan says which days

    def on(self, day: date) -> bool:
        """Whether it is up on a day."""
        return self.first <= day <= self.last


ALWAYS = DaysUp(date.min, date.max, told=False)


def days_up(rig: Rig, today: date) -> DaysUp | None:
    """Return the days on which a rig is up; None where it has been let down.

    What stands already is up today, whatever day it was rigged. Days that are not counted may be any from the first.
    """
    if rig.stage == "lowered":
        return None
    plan = rig.plan
    first = plan.first_day if plan else None
    if first is None:
        return ALWAYS
    count = plan.days_up if plan else None
    last = date.max if count is None else first + timedelta(min(max(count, 1) - 1, (date.max - first).days))
    if rig.stage != "planned":
        first, last = min(first, today), max(last, today)
    return DaysUp(first, last, told=count is not None)


def up_together(days: Sequence[DaysUp]) -> list[tuple[date, frozenset[int]]]:
    """Return the days on which most are up, each with the numbers of those, none of them within another.

    Rigs start one by one, so the largest companies are found on the first days of one of them.
    """
    found: list[tuple[date, frozenset[int]]] = []
    for day in sorted({one.first for one in days}):
        here = frozenset(n for n, one in enumerate(days) if one.on(day))
        if not any(here <= other for _, other in found):
            found = [(other_day, other) for other_day, other in found if not other < here]
            found.append((day, here))
    return found
