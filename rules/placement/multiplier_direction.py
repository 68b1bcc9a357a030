"""The rope grip of the multiplier bites toward the load."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Placed,
    Signal,
    faulty,
    need,
    open_,
    rule,
    sound,
    the_haul,
)


@rule(
    title="The rope grip is the wrong way round",
    each=the_haul,
    signal=Signal.WARNING,
    why="A grip that faces your hands runs along the rope at the first pull, and the crew falls backwards.",
    formula="the grip bites toward the load",
    sources=(PRACTICE,),
    prevents=("grip_the_wrong_way",),
    examples=(
        sound("long_haul"),
        sound("long_haul", {"chain[8].multiplier": REMOVE}),
        faulty(
            "long_haul",
            {"chain[8].multiplier.bites": "toward_hand"},
            at="chain[8].multiplier.bites",
            signal=Signal.WARNING,
        ),
        open_("long_haul", {"chain[8].multiplier.bites": REMOVE}, at="chain[8].multiplier.bites"),
    ),
)
def multiplier_direction(case: Case, placed: Placed) -> Iterator[Fault]:
    tackle = placed.part.multiplier
    if tackle is None:
        return
    at = case.on_part(placed, "multiplier", "bites")
    if need(tackle.bites, at) == "toward_hand":
        grip = tackle.grip or "of the multiplier"
        yield Fault(
            at,
            f"The grip {grip} bites toward the hand, so it slides as soon as you pull the multiplier.",
            f"Turn the grip {grip} round. It must bite when the rope runs toward the load. Pull "
            "once by hand to check.",
            value="toward_hand",
            limit="toward_load",
        )
