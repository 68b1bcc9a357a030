"""Where strangers can come near, somebody watches."""

from collections.abc import Iterator

from riglint.rulekit import REMOVE, Case, Fault, Signal, Source, faulty, need, open_, rule, sound, the_rig


@rule(
    title="Nobody watches a line in public",
    each=the_rig,
    signal=Signal.WARNING,
    why="Children, cyclists and older people walk into a tight line, or stand beside it when a part fails.",
    formula="strangers can come near: somebody watches",
    sources=(
        Source(
            "Swiss federation, ten principles, 4: someone watches around the line",
            "published",
            ("swiss_ten_principles",),
        ),
    ),
    prevents=("nobody_watches",),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        sound("low", {"plan.watcher": REMOVE}),
        sound("low", {"plan.watcher": False}),
        faulty("long_haul", {"plan.watcher": False}, at="plan.watcher", signal=Signal.WARNING),
        faulty("low", {"plan.public": True, "plan.watcher": False}, at="plan.watcher", signal=Signal.WARNING),
        open_("long_haul", {"plan.watcher": REMOVE}, at="plan.watcher"),
        open_("low", {"plan.public": REMOVE}, at="plan.public"),
        open_("low", {"plan": REMOVE}, at="plan.public"),
    ),
)
def public(case: Case, _rig: None) -> Iterator[Fault]:
    plan = case.plan
    if not need(plan.public if plan else None, case.at("plan", "public")):
        return
    at = case.at("plan", "watcher")
    if not need(plan.watcher if plan else None, at):
        yield Fault(
            at,
            "The public can come near this line, and nobody watches.",
            "Put 1 person beside the line with no other job, from the first pull until the tension is off.",
            value="nobody watches",
            limit="1 watcher",
        )
