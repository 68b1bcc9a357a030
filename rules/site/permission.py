"""Whoever owns the place agreed, and still does on the day."""

from collections.abc import Iterator

from riglint.rulekit import PRACTICE, REMOVE, Case, Fault, Signal, faulty, need, open_, rule, sound, the_rig

HELD, UNTIL = "spot.permission.held", "spot.permission.until"


@rule(
    title="No leave to rig here",
    each=the_rig,
    signal=Signal.NOTICE,
    why=(
        "A crew sent away takes a loaded line down in haste; and places where nobody asked are closed to all."
    ),
    formula="permission held, and its last day not before the day of the audit",
    sources=(PRACTICE,),
    prevents=("no_leave_to_rig",),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        sound("low", {UNTIL: "2026-05-02"}),
        sound("low", {UNTIL: REMOVE}),
        faulty("low", {UNTIL: "2026-05-01"}, at=UNTIL, signal=Signal.NOTICE),
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
    elif leave is not None and leave.until is not None and leave.until < case.on:
        yield Fault(
            case.on_spot("permission", "until"),
            f"The permission ran out on {leave.until}; this audit is for {case.on}.",
            f"Have it renewed to {case.on} or later before rigging.",
            value=str(leave.until),
            limit=str(case.on),
        )
