"""What the gear book says of a piece: when it was checked, and what cleared an event."""

from __future__ import annotations

from datetime import date

from riglint.model.library import Item
from riglint.model.vocabulary.kinds import TEXTILE_FORMS, TEXTILE_KINDS
from riglint.model.vocabulary.words import FIBRES

CLEARS = frozenset({"inspected", "repaired"})
# What a routine look does not find in fibres: whoever clears it must name it.
ASKS_FOR_RELEASE = frozenset({"chemical", "burn", "cut", "overload"})


def is_textile(item: Item) -> bool:
    """Return whether a piece carries with fibres, whatever kind it is."""
    gear = item.gear
    return gear.kind in TEXTILE_KINDS or gear.material in FIBRES or gear.form in TEXTILE_FORMS


def last_check(item: Item, on: date) -> date | None:
    """Return the day of the last check of a piece up to a day; None where none is on record."""
    checks = [item.gear.inspected, *(event.date for event in item.gear.events if event.what == "inspected")]
    return max((day for day in checks if day is not None and day <= on), default=None)


def asks_for_release(item: Item, n: int) -> bool:
    """Return whether event number n is one that only a release by its name clears."""
    return item.gear.events[n].what in ASKS_FOR_RELEASE and is_textile(item)


def cleared(item: Item, n: int, on: date) -> bool:
    """Return whether event number n is cleared: on a later day, or later in the list on the same day.

    A check or a repair clears most events. Acid, heat, a cut or an overload of fibres is cleared by a release that
    names that kind of event.
    """
    event, stated = item.gear.events[n], item.gear.inspected
    later = [
        one for m, one in enumerate(item.gear.events) if (event.date, n) < (one.date, m) and one.date <= on
    ]
    if any(one.what == "released" and one.releases == event.what for one in later):
        return True
    if asks_for_release(item, n):
        return False
    looked_at = stated is not None and event.date < stated <= on
    return looked_at or any(one.what in CLEARS for one in later)
