"""What the gear book says of a piece: when it was checked, and what a check cleared."""

from __future__ import annotations

from datetime import date

from riglint.model.library import Item

CLEARS = frozenset({"inspected", "repaired"})


def last_check(item: Item, on: date) -> date | None:
    """Return the day of the last check of a piece up to a day; None where none is on record."""
    checks = [item.gear.inspected, *(event.date for event in item.gear.events if event.what == "inspected")]
    return max((day for day in checks if day is not None and day <= on), default=None)


def checked_since(item: Item, n: int, on: date) -> bool:
    """Return whether a check clears event number n: on a later day, or later in the list on the same day."""
    day, stated = item.gear.events[n].date, item.gear.inspected
    if stated is not None and day < stated <= on:
        return True
    events = enumerate(item.gear.events)
    return any(one.what in CLEARS and (day, n) < (one.date, m) and one.date <= on for m, one in events)
