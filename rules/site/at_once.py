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
    because="More than that can't see each other's steps. One who steps off throws the others.",
    source=PRACTICE,
)
PAIR = {"plan.users": [{"mass": "80 kg", "level": "practised"}, {"mass": "60 kg", "level": "practised"}]}
THREE = {"plan.users": [*PAIR["plan.users"], {"mass": "70 kg", "level": "practised"}]}


@rule(
    title="Too many on the line at once",
    each=the_rig,
    signal=Signal.CAUTION,
    why="A person who steps off lets the line spring up under the others and throws them.",
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
            f"{together} people plan to be on the line at once. At most {most}.",
            f"Let at most {most} on, and plan a line for each of the others.",
            value=together,
            limit=most,
        )
    elif together > len(users):
        yield Fault(
            at,
            f"{together} plan to be on the line at once. The plan lists {len(users)}.",
            f"List the mass and level of all {together}, so that we calculate with them, or let "
            f"only {len(users)} on.",
            value=together,
            limit=len(users),
        )
