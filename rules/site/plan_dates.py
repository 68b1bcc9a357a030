"""The days of the plan are still to come, or the line stands on them, and the stage says which."""

from collections.abc import Iterator
from datetime import date

from riglint.rulekit import (
    PRACTICE,
    Case,
    Fault,
    Limit,
    Signal,
    built_ahead,
    faulty,
    in_time,
    last_day,
    review,
    rule,
    sound,
    the_rig,
)

LATE = Limit(
    name="most_days_late",
    text="0",
    dimension=None,
    tighter="lower",
    because="A plan past its last day was made for other weather and another crew.",
    source=PRACTICE,
)
FIRST, UP = "plan.first_day", "plan.days_up"
READ = [{"what": "force", "where": "line", "value": "3 kN", "date": "2026-05-02"}]
UNDATED = {"what": "force", "where": "line", "value": "3 kN"}
CHECK = [{"what": "pins", "date": "2026-05-02", "after_tension": "3 kN"}]


def _from(day: str, up: object = 1, **more: object) -> dict[str, object]:
    return {FIRST: day, UP: up, **more}


@rule(
    title="The plan's days are over",
    each=the_rig,
    signal=Signal.CAUTION,
    raised={"fall": Signal.WARNING, "life": Signal.WARNING},
    worst=Signal.WARNING,
    why="A line past its last day is older, wetter and less watched than planned.",
    formula="first day + days up not over; standing: first day not ahead",
    limits=(LATE,),
    prevents=("plan_out_of_date", "line_left_alone"),
    examples=(
        sound("low"),
        sound("low", _from("2026-05-09")),
        sound("low", _from("2026-05-02")),
        faulty("low", _from("2026-05-01"), at=FIRST, signal=Signal.NOTICE, shows="plan_out_of_date"),
        sound("low", _from("2026-05-01", 2)),
        faulty("low", _from("2026-04-30", 2), at=FIRST, signal=Signal.NOTICE),
        faulty("long_haul", _from("2025-05-01"), at=FIRST, signal=Signal.NOTICE),
        sound("low", _from("2026-05-01", 2, stage="built")),
        faulty(
            "low",
            _from("2026-04-30", 2, stage="walking"),
            at=UP,
            signal=Signal.CAUTION,
            shows="line_left_alone",
        ),
        sound("low", _from("2026-04-01", 1, stage="lowered")),
        sound(
            "low", _from("2026-05-04", stage="built")
        ),  # built on the evening before, or the one before that
        review("low", _from("2026-06-01", stage="built"), at=FIRST, signal=Signal.NOTICE),
        review("low", {"measured": READ}, at="stage", signal=Signal.CAUTION),
        review("low", {"checks": CHECK}, at="stage", signal=Signal.CAUTION),
        sound("low", {"checks": CHECK, "stage": "built"}),
        sound("low", {"measured": [UNDATED]}),
    ),
)
def plan_dates(case: Case, _rig: None) -> Iterator[Fault]:
    plan, stage = case.plan, case.rig.stage
    first = plan.first_day if plan else None
    if stage == "planned":
        yield from _stands_already(case)
    if plan is None or first is None or stage == "lowered":
        return
    at = case.at("plan", "first_day")
    if stage == "planned":
        yield from _day_has_passed(case, last_day(case))
    elif first > case.on + built_ahead(case):
        yield Fault(
            at,
            f"The line is {stage}, but its first day, {first}, is after this audit ({case.on}).",
            "Correct the first day or the stage.",
            kind="review",
            signal=Signal.NOTICE,
        )
    elif plan.days_up is not None and (last := last_day(case)) is not None and last < case.on:
        yield Fault(
            case.at("plan", "days_up"),
            f"The line is {stage}. Its last day was {last} ({first} and {plan.days_up} days up).",
            "Take it down. Or look over all of it again, and enter how many days it really stays.",
            value=(case.on - first).days + 1,
            limit=plan.days_up,
            unit="days",
        )


def _day_has_passed(case: Case, last: date | None) -> Iterator[Fault]:
    """Tell a plan whose last day is over, once and in few words: nothing stands because of it."""
    late, limit = (case.on - last).days if last is not None else 0, case.limit(LATE)
    if late > limit:
        yield Fault(
            case.at("plan", "first_day"),
            f"The last day of this plan was {last}. This audit is for {case.on}.",
            "If you rig it again, enter the new first day, and look again at gear, trees, users and weather. "
            "If it is up, enter its stage.",
            signal=Signal.NOTICE,
            value=late,
            limit=limit,
            unit="days",
        )


def _stands_already(case: Case) -> Iterator[Fault]:
    """Tell a rig whose readings or checks say that it stands, while its stage says planned."""
    days = [one.date for one in case.rig.measured if one.date is not None]
    days += [one.date for one in case.rig.checks if one.date is not None]
    if any(in_time(case, day) for day in days):
        yield Fault(
            case.at("stage"),
            f"The stage is still planned, but somebody read or checked this line on {max(days)}.",
            "If it is up, enter stage: built. Only then do we ask for the checks on site.",
            kind="review",
            signal=Signal.CAUTION,
        )
