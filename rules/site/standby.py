"""Above water somebody watches, and can get to whoever does not come up."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Signal,
    due,
    faulty,
    need,
    open_,
    review,
    rule,
    sound,
    the_rig,
)

WATER: dict[str, object] = {
    "use": "waterline",
    "spot.ground.surface": "water",
    "spot.ground.water_depth": "4 m",
}
WATCHER, STANDBY = "plan.watcher", "plan.standby"


@rule(
    title="Nobody can reach a walker in the water",
    each=the_rig,
    signal=Signal.CAUTION,
    raised={"fall": Signal.WARNING, "life": Signal.WARNING},
    why="A person who hits the water badly is quiet. They drown before a swimmer gets there from the far bank.",
    formula="at a waterline a watcher, and a boat, a swimmer or a throw line at hand",
    sources=(PRACTICE,),
    prevents=("water_shallow_or_trapping", "nobody_watches"),
    examples=(
        sound("low"),
        sound("low", WATER | {STANDBY: True}),
        faulty(
            "low",
            WATER | {STANDBY: False},
            at=STANDBY,
            signal=Signal.WARNING,
            shows="water_shallow_or_trapping",
        ),
        faulty(
            "low", WATER | {STANDBY: False, "use": "longline"}, at=STANDBY, signal=Signal.CAUTION
        ),  # ankle-deep
        faulty(
            "low",
            WATER | {STANDBY: True, WATCHER: False},
            at=WATCHER,
            signal=Signal.WARNING,
            shows="nobody_watches",
        ),
        open_("low", WATER | {STANDBY: True, WATCHER: REMOVE}, at=WATCHER),
        review("low", WATER, at=STANDBY),
        open_("low", WATER | {"stage": "built"}, at=STANDBY),
    ),
)
def standby(case: Case, _rig: None) -> Iterator[Fault]:
    if not case.file.over_water:
        return
    plan = case.plan
    watcher_at, at = case.at("plan", "watcher"), case.at("plan", "standby")
    ready = plan.standby if plan else None
    do = "Have a boat, a good swimmer or a throw line at the bank before anyone walks."
    if ready is None:
        yield from due(case, at, do)
    elif not ready:
        message = "Nothing at the bank reaches a walker who doesn't come up."
        yield Fault(at, message, do, value="nothing", limit="boat, swimmer or throw line")
    if not need(plan.watcher if plan else None, watcher_at):
        yield Fault(
            watcher_at,
            "Nobody watches the people who fall into the water.",
            "Put 1 person at the bank with no other job while anyone is on the line.",
            value="nobody watches",
            limit="1 watcher",
        )
