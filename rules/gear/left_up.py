"""A line near the ground comes down before sun and weather have weakened it.

Webbing over a deadly drop has stricter days of its own, see `gear/exposure`.
"""

from collections.abc import Iterator

from riglint.rulekit import (
    OWN,
    REMOVE,
    Case,
    Fault,
    Limit,
    Signal,
    Source,
    faulty,
    need,
    open_,
    review,
    rule,
    sound,
    the_rig,
)

LOOK = Limit(
    name="look_after",
    text="30",
    dimension=None,
    tighter="lower",
    because="A line that is up for a month isn't a day rig any more. Plan it as one that stays up.",
    source=OWN,
)
MOST = Limit(
    name="most_days",
    text="180",
    dimension=None,
    tighter="lower",
    because="In half a year of sun webbing loses about a third to a half of its strength, and barely shows it.",
    source=Source(
        "tests: polyester loses 30 % in its first year of sun, a line up for seven months lost 8 kN; accounts of lines "
        "left up: about half",
        "unnamed",
    ),
)
DAYS = "plan.days_up"


@rule(
    title="The line stays up too long for its gear",
    each=the_rig,
    signal=Signal.CAUTION,
    raised={"fall": Signal.WARNING},
    why="Webbing and slings that hang in the sun from spring break in autumn at an everyday load.",
    formula="days up ≤ most days; above `look_after` somebody has planned it as a line that stays",
    limits=(LOOK, MOST),
    prevents=("day_gear_left_up",),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("low", {DAYS: 30}),
        review("low", {DAYS: 31}, at=DAYS, signal=Signal.CAUTION),
        review("low", {DAYS: 180}, at=DAYS, signal=Signal.CAUTION),
        faulty("low", {DAYS: 181}, at=DAYS, signal=Signal.CAUTION),
        faulty("long_haul", {DAYS: 181}, at=DAYS, signal=Signal.WARNING),
        # Over a drop the webbing has days of its own; what holds it is looked at all the same.
        review("highline", {DAYS: 31}, at=DAYS, signal=Signal.CAUTION),
        review("highline", {DAYS: 180}, at=DAYS, signal=Signal.CAUTION),
        sound("highline", {DAYS: 181}),  # gear/exposure tells it
        sound("highline", {DAYS: 30}),
        open_("low", {DAYS: REMOVE}, at=DAYS),
        open_("low", {"plan": REMOVE}, at=DAYS),
    ),
)
def left_up(case: Case, _rig: None) -> Iterator[Fault]:
    at = case.at("plan", "days_up")
    days = need(case.plan.days_up if case.plan else None, at)
    look, most = case.limit(LOOK), case.limit(MOST)
    if days > most and case.consequence != "life":
        yield Fault(
            at,
            f"The line stays up for {days} days. At most {most:.0f} on the same webbing and slings.",
            f"Take it down within {most:.0f} days, or plan new webbing and slings for the days after.",
            value=days,
            limit=most,
            unit="days",
            source=MOST.source,
        )
    elif look < days <= most:
        yield Fault(
            at,
            f"The line stays up for {days} days, in sun and weather, on slings round its anchors.",
            "Name someone who looks at webbing, slings, pins and bark every week, and keeps a log.",
            value=days,
            limit=look,
            unit="days",
            kind="review",
            signal=Signal.CAUTION,
            source=LOOK.source,
        )
