"""A second person checks the rig, and nobody rigs a highline alone."""

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
    need_all,
    open_,
    rule,
    sound,
    the_rig,
)

FEWEST = Limit(
    name="fewest_on_highline",
    text="2",
    dimension=None,
    tighter="higher",
    because="One person can't check their own work, and can't reach a walker who hangs below the line.",
    source=PRACTICE,
)
CHECKER, HAULERS = "plan.crew.checker", "plan.crew.haulers"


@rule(
    title="No second person checks",
    each=the_rig,
    signal=Signal.CAUTION,
    raised={"life": Signal.WARNING},
    why=("If you thread a brake wrongly or leave a pin open, you look again and see what you meant to do."),
    formula="a checker is named; on a highline 2 people or more on the rope",
    limits=(FEWEST,),
    prevents=("crew_too_small",),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        sound("low", {HAULERS: 1}),
        faulty("low", {CHECKER: False}, at=CHECKER, signal=Signal.CAUTION),
        faulty("highline", {CHECKER: False}, at=CHECKER, signal=Signal.WARNING),
        sound("highline", {HAULERS: 2}),
        faulty("highline", {HAULERS: 1}, at=HAULERS, signal=Signal.WARNING),
        open_("low", {CHECKER: REMOVE}, at=CHECKER),
        open_("low", {"plan.crew": REMOVE}, at=CHECKER),
        open_("low", {"plan": REMOVE}, at=CHECKER),
        open_("highline", {HAULERS: REMOVE}, at=HAULERS),
        open_("long_haul", {"use": REMOVE}, at="use"),
    ),
)
def crew(case: Case, _rig: None) -> Iterator[Fault]:
    people = case.plan.crew if case.plan else None
    checker, haulers = (people.checker, people.haulers) if people else (None, None)
    checker_at, haulers_at = case.at("plan", "crew", "checker"), case.at("plan", "crew", "haulers")
    if checker is False:
        do = "Name 1 person who did not rig, to go over every part before anyone walks."
        yield Fault(
            checker_at,
            "No second person checks the rig.",
            do,
            value="nobody",
            limit="1 checker",
            source=PRACTICE,
        )
    if not case.highline:
        need(checker, checker_at)
        return
    need_all((checker, checker_at), (haulers, haulers_at))
    fewest, there = round(case.limit(FEWEST)), need(haulers, haulers_at)
    if there < fewest:
        yield Fault(
            haulers_at,
            f"{there} on the rope of this highline. At least {fewest}.",
            f"Rig with at least {fewest} people. One of them can reach a walker who hangs on the leash.",
            value=there,
            limit=fewest,
        )
