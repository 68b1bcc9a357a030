"""The multiplier's pulley can be reeved to the ratio that the file states."""

from collections.abc import Iterator

from riglint.rulekit import (
    OWN,
    REMOVE,
    Case,
    Fault,
    Input,
    Placed,
    Signal,
    faulty,
    need,
    open_,
    rule,
    sound,
    the_haul,
)

FOUR = {"chain[8].multiplier.ratio": 4}


@rule(
    title="The multiplier's pulley doesn't match its ratio",
    each=the_haul,
    signal=Signal.WARNING,
    why="A multiplier with another ratio pulls with forces that nobody has calculated for crew, grip and rope.",
    formula="sheaves of the pulley at the grip ≥ ratio of the multiplier/2, rounded down",
    sources=(OWN,),
    prevents=("reeved_otherwise",),
    examples=(
        sound("long_haul"),
        sound("long_haul", {"shelf[0].items.SP-1.sheaves": REMOVE}),  # every pulley has one
        sound("long_haul", {**FOUR, "shelf[0].items.SP-1.sheaves": 2}),
        faulty("long_haul", FOUR, at="chain[8].multiplier.pulley", signal=Signal.WARNING),
        open_(
            "long_haul",
            {**FOUR, "shelf[0].items.SP-1.sheaves": REMOVE},
            at="shelf[0].items.SP-1.sheaves",
        ),
    ),
)
def multiplier_pulley(case: Case, placed: Placed) -> Iterator[Fault]:
    tackle = placed.part.multiplier
    item = case.items.get((tackle.pulley if tackle else None) or "")
    if item is None:
        return
    wanted = case.haul.multiplier_sheaves_needed
    if wanted <= 1:
        return
    has = need(item.gear.sheaves, case.on_item(item, "sheaves", part=placed.id))
    if has < wanted:
        at = case.on_part(placed, "multiplier", "ratio")
        yield Fault(
            case.on_part(placed, "multiplier", "pulley"),
            f"A {case.haul.multiplier}:1 multiplier needs {wanted} sheaves on the pulley at its grip. "
            f"{item.id} has {has}.",
            f"Count the strands at the pulley of the grip, or use a pulley with {wanted} sheaves.",
            value=has,
            limit=wanted,
            unit="1",
            inputs=(Input("ratio of the multiplier", "m", case.haul.multiplier, "", at.reference),),
        )
