"""No piece of gear is meant to be in two rigs on the same day, under its name or under its serial."""

from collections.abc import Iterator
from datetime import date

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    At,
    Case,
    Fault,
    LibraryCase,
    Sharing,
    Signal,
    each_sharing_days,
    faulty,
    need_all,
    open_,
    rule,
    sound,
)

SATURDAY = {"plan.first_day": "2026-05-09"}
SUNDAY = {"plan.first_day": "2026-05-10"}
SERIAL, OTHER = "shelf[0].items.SH-1.serial", "shelf[0].items.SH-7.serial"
RENAMED = {
    "shelf[0].items.SH-7": {"kind": "shackle", "material": "steel", "wll": "3.25 t", "serial": "k7731"},
    "chain[3].gear": "SH-7",
}
STANDS = {"stage": "built"}


@rule(
    title="The same gear in two rigs on one day",
    each=each_sharing_days,
    signal=Signal.NOTICE,
    why="The second crew rigs with what is left, on a plan calculated for other gear.",
    formula="first day + days up of one rig before the first day of the other, where they share gear",
    sources=(PRACTICE,),
    prevents=("one_piece_in_two_places",),
    examples=(
        sound("low"),
        sound("low", SATURDAY, beside=(SUNDAY,)),
        faulty("low", SATURDAY, beside=(SATURDAY,), at="plan.first_day", signal=Signal.NOTICE),
        faulty("low", {**SATURDAY, "plan.days_up": 2}, beside=(SUNDAY,)),
        sound("low", {**SUNDAY, "plan.days_up": 2}, beside=(SATURDAY,)),
        faulty("low", {**SATURDAY, "plan.days_up": 100_000}, beside=(SUNDAY,)),
        sound("low", {**SATURDAY, "stage": "lowered"}, beside=(SATURDAY,)),
        # What stands is up on the day of the audit, whatever day it was rigged.
        faulty("low", STANDS, beside=({"plan.first_day": "2026-05-02"},)),
        sound("low", STANDS, beside=({"plan.first_day": "2026-05-03"},)),
        # Another shelf, other gear.
        sound("low", SATURDAY, beside=({**SATURDAY, "shelf[0].items.SH-1.serial": "B"},)),
        # The same piece on another shelf, under another name.
        faulty("low", SATURDAY | {SERIAL: "K 7731"}, beside=({**SATURDAY, **RENAMED},), at="plan.first_day"),
        sound("low", SATURDAY | {SERIAL: "K 7731"}, beside=({**SATURDAY, **RENAMED, OTHER: "K 7732"},)),
        open_("low", {"plan.first_day": REMOVE}, beside=(SATURDAY,), at="plan.first_day"),
        open_("low", {**SATURDAY, "plan.days_up": REMOVE}, beside=(SUNDAY,), at="plan.days_up"),
    ),
)
def double_booking(library: LibraryCase, two: Sharing) -> Iterator[Fault]:
    # A line that is down has given its gear back.
    if "lowered" in {two.one.stage, two.other.stage}:
        return
    need_all(*_asked(two.one), *_asked(two.other))
    (first, last), (others_first, others_last) = _days(two.one, library.on), _days(two.other, library.on)
    day = max(first, others_first)
    if day > min(last, others_last):
        return
    paths = two.one.file.document.path, two.other.file.document.path
    yield Fault(
        two.other.at("plan", "first_day"),
        f"Planned for two rigs on {day}, {paths[0]} and {paths[1]}: {', '.join(two.gear)}.",
        "Move one of the two rigs to another day, or give it other gear.",
        value=str(others_first),
        limit=str(last),
        rigs=paths,
    )


def _asked(case: Case) -> Iterator[tuple[object, At]]:
    """Yield what is missing to say when a rig is up; what stands already is up on the day of the audit."""
    plan = case.plan
    # A place is looked up only where something is missing: that reads the whole rig again.
    if case.before_use() and (plan is None or plan.first_day is None):
        yield None, case.at("plan", "first_day")
    if plan is None or plan.days_up is None:
        yield None, case.at("plan", "days_up")


def _days(case: Case, on: date) -> tuple[date, date]:
    """Return the first and the last day that a rig is up."""
    plan = case.plan
    first = (plan.first_day if plan else None) or on
    after = ((plan.days_up if plan else None) or 1) - 1
    last = date.fromordinal(min(first.toordinal() + after, date.max.toordinal()))
    # What stands holds its gear today as well, whatever days its plan names.
    return (first, last) if case.before_use() else (min(first, on), max(last, on))
