"""A line that is down was packed up with care: gear looked at, wet things apart, book written, nothing left."""

from collections.abc import Iterator

from riglint.rulekit import PRACTICE, Case, Fault, Signal, faulty, in_time, rule, sound, the_rig

CLOSED = [{"what": "closing", "by": "crew", "date": "2026-05-02"}]


@rule(
    title="Nobody has closed the session",
    each=the_rig,
    signal=Signal.CAUTION,
    why="If you don't check gear and spot on the day, you use unknown gear next time, and may lose the spot.",
    formula="once lowered, `checks` hold one that is called closing",
    sources=(PRACTICE,),
    prevents=("packed_wet", "log_not_kept", "left_behind"),
    examples=(
        sound("low"),
        sound("low", {"stage": "built"}),
        sound("low", {"stage": "lowered", "checks": CLOSED}),
        faulty(
            "low",
            {"stage": "lowered"},
            at="checks",
            signal=Signal.CAUTION,
            shows=("packed_wet", "log_not_kept", "left_behind"),
        ),
        faulty("low", {"stage": "lowered", "checks": [{**CLOSED[0], "date": "2026-05-03"}]}, at="checks"),
        faulty("low", {"stage": "lowered", "checks": [{"what": "hand_tight_recheck"}]}, at="checks"),
    ),
)
def closing(case: Case, _rig: None) -> Iterator[Fault]:
    if case.rig.stage == "lowered" and not any(
        check.what == "closing" and in_time(case, check.date) for check in case.rig.checks
    ):
        yield Fault(
            case.at("checks"),
            f"The line is down, and no closing check is entered up to {case.on}.",
            "Look over the gear, the bark and the ground, and set wet gear apart. Write days, "
            "catches and damage in the gear list. Then enter the check as closing.",
            value="no check",
            limit="closing",
        )
