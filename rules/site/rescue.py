"""On a highline the crew can fetch somebody who hangs on the leash and cannot get back by themselves."""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    Case,
    Fault,
    Signal,
    Source,
    due,
    faulty,
    open_,
    review,
    rule,
    sound,
    the_rig,
)

AT = "plan.rescue"


@rule(
    title="Nobody can reach a walker who hangs on the leash",
    each=the_rig,
    signal=Signal.WARNING,
    why="A person who hangs still in a harness can be close to death within a quarter of an hour.",
    formula="on a highline a way to reach a hanging person, with its gear at hand",
    sources=(
        Source(
            "Swiss alpine club: highline only with rescue skill in the team", "published", ("sac_highline",)
        ),
        Source("a motionless body in a harness: minutes, not hours", "memory"),
    ),
    prevents=("no_way_down",),
    examples=(
        sound("low"),
        sound("highline"),
        faulty("highline", {AT: False}, at=AT, signal=Signal.WARNING),
        review("highline", {AT: REMOVE}, at=AT),
        open_("highline", {AT: REMOVE, "stage": "built"}, at=AT),
        open_("long_haul", {"use": REMOVE}, at="use"),
    ),
)
def rescue(case: Case, _rig: None) -> Iterator[Fault]:
    if not case.highline:
        return
    at, ready = case.at("plan", "rescue"), case.plan.rescue if case.plan else None
    do = (
        "Agree who goes out to a hanging walker, and with what gear. Put that gear at the "
        "anchor before anyone walks."
    )
    if ready is None:
        yield from due(case, at, do)
    elif not ready:
        yield Fault(
            at,
            "Nobody here can reach a walker who hangs on the leash and can't climb back.",
            do,
            value="nobody",
            limit="1 who can",
        )
