"""The rig was looked over hand-tight, again at its full tension, and again on each further day.

What each single tick rests on is asked by the rule of that tick; here it is the rig as a whole.
"""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Check,
    Fault,
    Input,
    MissingInput,
    Signal,
    Source,
    after_today,
    confirming_nothing,
    faulty,
    in_kn,
    in_time,
    need,
    open_,
    rule,
    sound,
    the_rig,
)

HAND_TIGHT = {"what": "hand_tight_recheck", "date": "2026-05-02", "after_tension": "0.2 kN"}
TIGHT = {"what": "pins", "date": "2026-05-02", "after_tension": "3 kN"}
LOCKED = {"what": "chain[8].brake.locked", "date": "2026-05-02", "after_tension": "3 kN"}
IN_WORDS = {"what": "slings seen from below, no rub", "date": "2026-05-02", "after_tension": "3 kN"}
UP = {"stage": "built", "checks": [HAND_TIGHT, TIGHT]}


def _dated(day: str) -> list[dict[str, str]]:
    return [one | {"date": day} for one in (HAND_TIGHT, TIGHT)]


OLD = _dated("2026-05-01")


@rule(
    title="Nobody has looked the line over since it was tensioned",
    each=the_rig,
    signal=Signal.CAUTION,
    worst=Signal.WARNING,
    why=(
        "When the tension comes on, slack slings twist, pins ride up and brakes creep. Two more "
        "pulls undo a check."
    ),
    formula=(
        "once it stands: a check named hand_tight_recheck; a check at the present standing tension or "
        "above; if it "
        "stays up for more days, a check dated today; none is dated after the day judged by, nor counts from long "
        "before plan.first_day; a check that names a key names one that is asked for"
    ),
    sources=(
        Source(
            "Swiss federation, ten principles, 7: hand-tight first, then inspect everything again",
            "published",
            ("swiss_ten_principles",),
        ),
        PRACTICE,
    ),
    prevents=(
        "no_stop_at_hand_tension",
        "raised_after_the_check",
        "tension_drifts",
        "slip_and_twist_grow",
        "file_changed_after_the_build",
    ),
    examples=(
        sound("low"),
        sound("highline"),
        sound("low", UP),
        sound("low", {**UP, "stage": "lowered", "checks": []}),
        faulty(
            "low",
            {**UP, "checks": [TIGHT]},
            at="checks",
            signal=Signal.CAUTION,
            shows="no_stop_at_hand_tension",
        ),
        faulty("low", {**UP, "stage": "walking", "checks": []}, at="checks", signal=Signal.CAUTION),
        sound("low", {**UP, "checks": [HAND_TIGHT, TIGHT, LOCKED, IN_WORDS]}),
        faulty(
            "low",
            {**UP, "checks": [HAND_TIGHT, TIGHT, {**LOCKED, "what": "chain[8].brake.lokced"}]},
            at="checks[2].what",
            signal=Signal.NOTICE,
        ),
        faulty(
            "low",
            {**UP, "checks": [HAND_TIGHT, TIGHT, {**LOCKED, "what": "chain[33].pins"}]},
            at="checks[2].what",
            signal=Signal.NOTICE,
        ),
        sound("low", {**UP, "plan.standing_tension": "2.99 kN"}),
        faulty(
            "low",
            {**UP, "plan.standing_tension": "3.01 kN"},
            at="checks[1].after_tension",
            signal=Signal.WARNING,
            shows=("raised_after_the_check", "file_changed_after_the_build"),
        ),
        faulty("low", {**UP, "checks": [HAND_TIGHT]}, at="checks[0].after_tension", signal=Signal.WARNING),
        sound("low", {**UP, "plan.days_up": 1, "checks": OLD}),
        sound("low", {**UP, "plan.days_up": 2}),
        faulty(
            "low",
            {**UP, "plan.days_up": 2, "checks": OLD},
            at="checks[1].date",
            signal=Signal.CAUTION,
            shows=("tension_drifts", "slip_and_twist_grow"),
        ),
        faulty(
            "low",
            {**UP, "checks": [HAND_TIGHT, TIGHT, {**TIGHT, "date": "2026-05-03"}]},
            at="checks[2].date",
            signal=Signal.CAUTION,
        ),
        faulty("low", {**UP, "checks": [HAND_TIGHT, {**TIGHT, "date": "2027-05-02"}]}, at="checks[1].date"),
        faulty("low", {**UP, "checks": [{**TIGHT, "date": "2027-05-02"}]}, at="checks"),
        faulty("low", {"stage": "lowered", "checks": [{**TIGHT, "date": "2026-05-03"}]}, at="checks[0].date"),
        sound("low", {"checks": [{**TIGHT, "date": "2026-05-03"}]}),
        sound("low", {**UP, "plan.first_day": "2026-05-03", "checks": OLD}),
        sound("low", {**UP, "plan.first_day": "2026-05-02", "checks": _dated("2026-04-30")}),
        faulty("low", {**UP, "plan.first_day": "2026-05-02", "checks": _dated("2026-04-29")}, at="checks"),
        open_("low", {**UP, "checks": [{"what": "hand_tight_recheck"}]}, at="checks[0].after_tension"),
        open_("low", {**UP, "plan.standing_tension": REMOVE}, at="plan.standing_tension"),
        open_("low", {**UP, "plan.days_up": REMOVE}, at="plan.days_up"),
        open_(
            "low",
            {**UP, "plan.days_up": 2, "checks": [{**HAND_TIGHT, "after_tension": "3 kN", "date": None}]},
        ),
    ),
)
def recheck(case: Case, _rig: None) -> Iterator[Fault]:
    if case.before_use():
        return
    yield from _still_to_come(case)
    if case.rig.stage not in {"built", "walking"}:
        return
    checks = [(n, one) for n, one in enumerate(case.rig.checks) if in_time(case, one.date)]
    if not any(check.what == "hand_tight_recheck" for _, check in checks):
        yield Fault(
            case.at("checks"),
            f"The line is {case.rig.stage}, and no hand-tight check is entered.",
            "Lower it to hand-tight, go over every part, and enter that under checks as hand_tight_recheck.",
            value="no check",
            limit="hand_tight_recheck",
        )
    for n, what, near in confirming_nothing(case):
        yield Fault(
            case.at("checks", n, "what"),
            f"No rule asks for a check called '{what}', so this entry confirms nothing.",
            f"If you mean {near}, write that."
            if near
            else "Name the check as its open question does, or describe it in words.",
            value=what,
            signal=Signal.NOTICE,
        )
    yield from _of_today(case, checks)
    if checks:  # without any, the fault above has said so
        yield from _raised_since(case, checks)


def _still_to_come(case: Case) -> Iterator[Fault]:
    """Say that checks are dated after the day that the rig is judged by."""
    ahead = [(one.date, n, one.what) for n, one in enumerate(case.rig.checks) if after_today(case, one.date)]
    if not ahead:
        return
    last, n, _ = max(ahead, key=str)
    told = ", ".join(f"{what} on {day}" for day, _, what in ahead)
    yield Fault(
        case.at("checks", n, "date"),
        f"Dated after this audit ({case.on}), so not counted: {told}.",
        "Enter the date on which somebody looked. If nobody has, take the entry out and look.",
        value=str(last),
        limit=str(case.on),
        source=PRACTICE,
    )


def _raised_since(case: Case, checks: list[tuple[int, Check]]) -> Iterator[Fault]:
    """Say that nobody looked since the tension was raised."""
    tensions = [(one.after_tension.si, n, one.after_tension) for n, one in checks if one.after_tension]
    if not tensions:
        raise MissingInput(case.at("checks", checks[-1][0], "after_tension"))
    highest, n, quantity = max(tensions)
    at, standing = case.at("checks", n, "after_tension"), case.loads.standing_tension_n
    if highest < standing:
        yield Fault(
            at,
            f"The line stands at {in_kn(standing, 'up')}. The last check was made at {quantity.text}.",
            f"Go over every part again at {in_kn(standing, 'up')}, and enter that check with its tension.",
            value=highest / 1e3,
            limit=standing / 1e3,
            unit="kN",
            inputs=(
                case.given("tension at the check", "T", quantity, at),
                Input("standing", "T0", standing / 1e3, "kN"),
            ),
            signal=Signal.WARNING,
            source=PRACTICE,
        )


def _of_today(case: Case, checks: list[tuple[int, Check]]) -> Iterator[Fault]:
    """Say that a line which stays up was not looked over on this day."""
    days = need(case.plan.days_up if case.plan else None, case.at("plan", "days_up"))
    if days <= 1 or not checks or any(check.date == case.on for _, check in checks):
        return
    dates = [(check.date, n) for n, check in checks if check.date is not None]
    if not dates:
        raise MissingInput(case.at("checks", checks[-1][0], "date"))
    last, n = max(dates)
    yield Fault(
        case.at("checks", n, "date"),
        f"The line stays up for {days} days. It was last checked on {last}, not on {case.on}.",
        f"Go over every part before the first walk of {case.on}. Cold, heat and wet change the "
        "tension overnight.",
        value=str(last),
        limit=str(case.on),
        source=PRACTICE,
    )
