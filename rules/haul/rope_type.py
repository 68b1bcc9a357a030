"""The haul's rope stretches little."""

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
    title="Dynamic rope in the pulley system",
    each=the_haul,
    signal=Signal.CAUTION,
    why=(
        "A dynamic rope wastes your pull in stretch. If something breaks, it throws blocks and hands harder."
    ),
    formula="the rope isn't dynamic",
    sources=(PRACTICE,),
    prevents=("climbing_rope_in_haul",),
    examples=(
        sound("long_haul"),
        sound("long_haul", {"shelf[0].items.RP-1.type": "hmpe"}),
        faulty(
            "long_haul",
            {"shelf[0].items.RP-1.type": "dynamic"},
            at="chain[8].rope.gear",
            signal=Signal.CAUTION,
        ),
        open_("long_haul", {"shelf[0].items.RP-1.type": REMOVE}, at="shelf[0].items.RP-1.type"),
        open_("long_haul", {"chain[8].rope.gear": REMOVE}, at="chain[8].rope.gear"),
    ),
)
def rope_type(case: Case, placed: Placed) -> Iterator[Fault]:
    rope = placed.part.rope
    item = case.haul.gear(rope.gear if rope else None, "rope", "gear")
    if need(item.gear.type, case.on_item(item, "type", part=placed.id)) == "dynamic":
        yield Fault(
            case.on_part(placed, "rope", "gear"),
            f"The pulley system is reeved with {item.id}, a dynamic climbing rope.",
            "Reeve it with a static rope (EN 1891 A, `low_stretch`) of the same diameter.",
            value="dynamic",
            limit="low_stretch",
        )
