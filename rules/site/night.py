"""After dusk the line, its ends and whoever walks can be seen."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    MissingInput,
    OnCard,
    Signal,
    faulty,
    need,
    open_,
    review,
    rule,
    sound,
    the_rig,
)

NIGHT = "plan.night"
DO = (
    "Light both anchors and the ground, mark the line with lights or white tape, and give the "
    "walker a headlamp."
)


@rule(
    title="The line is used after dusk",
    each=the_rig,
    signal=Signal.CAUTION,
    why="In the dark you don't see a pin work loose or a sling creep. Passers-by run into the line.",
    formula="not used after dusk, or lit and marked",
    sources=(PRACTICE,),
    prevents=("used_in_the_dark",),
    on_card=OnCard(advice=True),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        faulty("low", {NIGHT: True}, at=NIGHT, signal=Signal.CAUTION),
        review("low", {NIGHT: REMOVE}, at=NIGHT, signal=Signal.NOTICE),
        open_("low", {NIGHT: REMOVE, "plan.days_up": 2}, at=NIGHT),
        open_("highline", {NIGHT: REMOVE}, at=NIGHT),
        open_("low", {NIGHT: REMOVE, "plan.days_up": REMOVE}, at="plan.days_up"),
        open_("low", {"plan": REMOVE}, at="plan.days_up"),
    ),
)
def night(case: Case, _rig: None) -> Iterator[Fault]:
    plan, at = case.plan, case.at("plan", "night")
    if plan is not None and plan.night is not None:
        if plan.night:
            yield Fault(at, "The line is used after dusk.", DO, value="after dusk", limit="daylight")
    elif need(plan.days_up if plan else None, case.at("plan", "days_up")) > 1:
        raise MissingInput(at)  # it stands through a night
    else:
        message = "Used after dark? The file doesn't say."
        yield Fault(
            at,
            message,
            f"Stop before dusk. Otherwise: {DO[:1].lower()}{DO[1:]}",
            kind="review",
            signal=Signal.NOTICE,
        )
