"""On which days a rig is up, as far as its plan says."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date, timedelta
from itertools import groupby

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

    Rigs start one by one, so the largest companies are found on the first days of one of them. A company ends with the
    first rig that goes: until then each that comes joins it.
    """
    found: list[tuple[date, frozenset[int]]] = []
    here: frozenset[int] = frozenset()
    for day, coming in groupby(_by_first(range(len(days)), days), key=lambda n: days[n].first):
        stay = frozenset(n for n in here if days[n].on(day))
        if found and stay == here:
            found.pop()
        here = stay | frozenset(coming)
        found.append((day, here))
    return found


def may_meet(numbers: Sequence[int], days: Sequence[DaysUp | None]) -> Iterator[tuple[int, int]]:
    """Yield every two of these rigs that are up on one day; one without told days only with the first other one.

    Args:
        numbers: of the rigs, rising.
        days: on which each rig is up, by its number; None for one that has been let down.
    """
    up = {n: one for n in numbers if (one := days[n]) is not None}
    for n, one in up.items():
        if not one.told:
            other = next((other for other in up if other != n), n)
            if other != n:
                yield min(n, other), max(n, other)
    here: list[int] = []
    for n in _by_first([n for n, one in up.items() if one.told], up):
        here = [other for other in here if up[other].on(up[n].first)]
        yield from ((min(n, other), max(n, other)) for other in here)
        here.append(n)


def _by_first(numbers: Iterable[int], days: Sequence[DaysUp] | Mapping[int, DaysUp]) -> list[int]:
    return sorted(numbers, key=lambda n: days[n].first)
