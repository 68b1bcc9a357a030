"""Whoever owns the place agreed, and still does on every day that the line stands."""

from collections.abc import Iterator
from datetime import date

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Signal,
    faulty,
    need,
    open_,
    rule,
    sound,
    the_rig,
    until,
)

HELD, UNTIL = "spot.permission.held", "spot.permission.until"
FIRST, DAYS = "plan.first_day", "plan.days_up"
THREE_DAYS = {FIRST: "2026-05-20", DAYS: 3}


@rule(
    title="No permission to rig here",
    each=the_rig,
    signal=Signal.NOTICE,
    why=(
        "A crew that is sent away takes a loaded line down in a hurry. If you don't ask, the "
        "place closes to everyone."
    ),
    formula="permission held, and its last day before neither the audit nor the last day up, first_day + days_up − 1",
    sources=(PRACTICE,),
    prevents=("no_leave_to_rig",),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        sound("low", {UNTIL: "2026-05-02"}),
        sound("low", {UNTIL: REMOVE}),
        faulty("low", {UNTIL: "2026-05-01"}, at=UNTIL, signal=Signal.NOTICE),
        sound("low", THREE_DAYS | {UNTIL: "2026-05-22"}),
        faulty("low", THREE_DAYS | {UNTIL: "2026-05-21"}, at=UNTIL, signal=Signal.NOTICE),
        faulty("low", THREE_DAYS | {UNTIL: "2026-05-10"}, at=UNTIL),
        faulty("low", THREE_DAYS | {UNTIL: "2026-05-01"}, at=UNTIL),
        faulty("low", THREE_DAYS | {UNTIL: "2026-05-02"}, at=UNTIL),
        # Without a number of days up, the first day itself still counts.
        sound("low", {FIRST: "2026-05-20", DAYS: REMOVE, UNTIL: "2026-05-20"}),
        faulty("low", {FIRST: "2026-05-20", DAYS: REMOVE, UNTIL: "2026-05-19"}, at=UNTIL),
        sound("low", {FIRST: "2026-05-20", DAYS: 0, UNTIL: "2026-05-20"}),
        # More days than any calendar has.
        faulty("low", {FIRST: "2026-05-20", DAYS: 100_000, UNTIL: "2026-05-20"}, at=UNTIL),
        faulty("low", {HELD: False}, at=HELD, signal=Signal.NOTICE),
        open_("low", {HELD: REMOVE}, at=HELD, signal=Signal.NOTICE),
        open_("low", {"spot.permission": REMOVE}, at=HELD),
        open_("low", {"spot": REMOVE}, at="spot"),
    ),
)
def permission(case: Case, _rig: None) -> Iterator[Fault]:
    leave = need(case.spot, case.at("spot")).permission
    at = case.on_spot("permission", "held")
    if not need(leave.held if leave else None, at):
        do = "Ask the owner or the town, and write down who agreed and until when."
        yield Fault(at, "There is no permission to rig here.", do)
    elif leave is not None and leave.until is not None:
        last, then = max((until(case), f"this audit is for {until(case)}"), _last_day(case))
        if leave.until < last:
            yield Fault(
                case.on_spot("permission", "until"),
                f"The permission {'ran out' if leave.until < until(case) else 'ends'} on {leave.until}; {then}.",
                f"Have it renewed to at least {last} before you rig.",
                value=str(leave.until),
                limit=str(last),
            )


def _last_day(case: Case) -> tuple[date, str]:
    """Return the last day that the line is to stand, as far as the plan says, and the words for it."""
    first = case.plan.first_day if case.plan else None
    if case.plan is None or first is None:
        return date.min, ""
    after = max((case.plan.days_up or 1) - 1, 0)
    last = date.fromordinal(min(first.toordinal() + after, date.max.toordinal()))
    return last, f"the line is to stand until {last}" if after else f"the line is to stand on {last}"
