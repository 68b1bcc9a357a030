"""Every piece of gear was checked by a competent person within the year."""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    Case,
    Fault,
    Item,
    Limit,
    Signal,
    Source,
    each_item,
    faulty,
    last_check,
    months_after,
    need,
    open_,
    rule,
    sound,
    until,
)

LONGEST = Limit(
    name="longest_months",
    text="12",
    dimension=None,
    tighter="lower",
    because="A competent person checks it at least once a year.",
    source=Source("EN 365 practice, from two pages on periodic checks", "standard", ("en_365",)),
)
SHACKLE = "shelf[0].items.SH-1"
DOWN: dict[str, object] = {"stage": "lowered", "plan.days_up": 1}


@rule(
    title="Gear is overdue for its check",
    each=each_item(),
    signal=Signal.WARNING,
    why=(
        "If the yearly check doesn't find cuts, worn pins and cracked sheaves, the line finds "
        "them by coming down."
    ),
    formula="day of the audit, of a line that is down its last day ≤ last check + longest time between checks",
    limits=(LONGEST,),
    due="months after the last check",
    prevents=("check_overdue",),
    examples=(
        sound("long_haul"),
        sound("long_haul", {f"{SHACKLE}.inspected": "2025-05-02"}),
        faulty(
            "long_haul",
            {f"{SHACKLE}.inspected": "2025-05-01"},
            at=f"{SHACKLE}.inspected",
            signal=Signal.WARNING,
        ),
        sound(
            "long_haul",
            {
                f"{SHACKLE}.inspected": "2024-04",
                f"{SHACKLE}.events": [{"date": "2026-04-02", "what": "inspected"}],
            },
        ),
        faulty("long_haul", {f"{SHACKLE}.inspected": "2026-05-03"}, at=f"{SHACKLE}.inspected"),
        sound("long_haul", {f"{SHACKLE}.inspected": "2026-05-02"}),
        # A line that is down again is judged by its own days: due a day after the last of them, due on the one before.
        sound("long_haul", {**DOWN, "plan.first_day": "2026-04-30", f"{SHACKLE}.inspected": "2025-04-30"}),
        faulty("long_haul", {**DOWN, "plan.first_day": "2026-05-01", f"{SHACKLE}.inspected": "2025-04-30"}),
        faulty("long_haul", {**DOWN, "plan.days_up": REMOVE, f"{SHACKLE}.inspected": "2025-04-30"}),
        faulty(
            "long_haul",
            {"stage": "built", "plan.first_day": "2026-04-30", f"{SHACKLE}.inspected": "2025-04-30"},
        ),
        open_("long_haul", {f"{SHACKLE}.inspected": REMOVE}, at=f"{SHACKLE}.inspected"),
        sound("long_haul", {"shelf[0].items.TP-1.inspected": "2020-01"}),
        sound(
            "long_haul",
            {
                f"{SHACKLE}.inspected": "2024-04",
                f"{SHACKLE}.events": [{"date": "2026-05-02", "what": "inspected"}],
            },
        ),
    ),
)
def inspection(case: Case, item: Item) -> Iterator[Fault]:
    if item.gear.kind == "protector":
        return
    at = case.on_item(item, "inspected")
    stated = item.gear.inspected
    if stated is not None and stated > case.on:
        yield Fault(
            at,
            f"The check of {item.id} is dated {stated}. That is after this audit ({case.on}).",
            f"Correct the date of {item.id} in the gear list. A check in the future doesn't count.",
        )
        return
    months, checked = case.limit(LONGEST), need(last_check(item, case.on), at)
    due = months_after(checked, round(months))
    # A line that is down is judged as of its last day: a check that has run out since then harmed nobody.
    if until(case) > due:
        yield Fault(
            at,
            f"The check of {item.id} was due on {due}. It was last checked on {checked}.",
            f"Have a competent person check {item.id} before you rig it, and enter the date.",
            value=round((until(case) - checked).days / 30.44, 1),
            limit=months,
            unit="months",
        )
