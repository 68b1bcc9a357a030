"""No more people on one line than the plan knows, and no crowd."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Limit,
    Signal,
    faulty,
    need,
    open_,
    rule,
    sound,
    the_rig,
)

MOST = Limit(
    name="most_at_once",
    text="2",
    dimension=None,
    tighter="lower",
    because="More cannot see each other's steps, and when one steps off the line throws the others.",
    source=PRACTICE,
)
PAIR = {"plan.users": [{"mass": "80 kg", "level": "practised"}, {"mass": "60 kg", "level": "practised"}]}
THREE = {"plan.users": [*PAIR["plan.users"], {"mass": "70 kg", "level": "practised"}]}


@rule(
    title="Too many on the line at once",
    each=the_rig,
    signal=Signal.CAUTION,
    why="Whoever steps off lets the line spring up under the others and throws them.",
    formula="at once ≤ users listed, and ≤ 2",
    limits=(MOST,),
    prevents=("too_many_on_the_line",),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        sound("low", {**PAIR, "plan.at_once": 2}),
        faulty("low", {"plan.at_once": 2}, at="plan.at_once", signal=Signal.CAUTION),
        sound("low", {**THREE, "plan.at_once": 2}),
        faulty("low", {**THREE, "plan.at_once": 3}, at="plan.at_once", signal=Signal.CAUTION),
        open_("low", {"plan.users": REMOVE}, at="plan.users"),
        open_("low", {"plan.users[0]": REMOVE}, at="plan.users"),
        open_("low", {"plan": REMOVE}, at="plan.users"),
    ),
)
def at_once(case: Case, _rig: None) -> Iterator[Fault]:
    plan, at = case.plan, case.at("plan", "at_once")
    users = need((plan.users if plan else None) or None, case.at("plan", "users"))
    together, most = plan.at_once if plan else 1, round(case.limit(MOST))
    if together > most:
        yield Fault(
            at,
            f"{together} people are to be on the line at once; {most} at most.",
            f"Let {most} on at most, and plan a line for each of the others.",
            value=together,
            limit=most,
        )
    elif together > len(users):
        yield Fault(
            at,
            f"{together} are to be on the line at once and the plan lists {len(users)}.",
            f"List the mass and level of all {together}, so that the loads are theirs, or let only {len(users)} "
            "on.",
            value=together,
            limit=len(users),
        )
