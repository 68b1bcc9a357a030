"""The blocks can be reeved to the strands that the file states."""

from collections.abc import Iterator

from riglint.rulekit import (
    OWN,
    REMOVE,
    At,
    Case,
    Fault,
    Input,
    MissingInput,
    Placed,
    Signal,
    faulty,
    open_,
    rule,
    sound,
    the_haul,
)


@rule(
    title="Blocks and strands don't match",
    each=the_haul,
    signal=Signal.WARNING,
    why=("With fewer strands than planned, rope, brake and hands carry more than anyone has calculated."),
    formula="sheaves of the moving block ≥ n/2, of the fixed block ≥ (n − 1)/2, both rounded down; "
    "the dead end on the moving block where n is odd, on the fixed block where n is even",
    sources=(OWN,),
    prevents=("reeved_otherwise",),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("long_haul", {"chain[8].strands": 4, "chain[8].rope.dead_end.on": "fixed_block"}),
        sound("long_haul", {"chain[8].strands": 3, "shelf[0].items.DB-2.sheaves": 1}),
        faulty("long_haul", {"chain[8].strands": 7}, at="chain[8].moving_block", signal=Signal.WARNING),
        faulty("long_haul", {"shelf[0].items.DB-2.sheaves": 1}, at="chain[8].fixed_block"),
        faulty("long_haul", {"chain[8].rope.dead_end.on": "fixed_block"}, at="chain[8].rope.dead_end.on"),
        faulty("long_haul", {"chain[8].strands": 4}, at="chain[8].rope.dead_end.on"),
        open_("long_haul", {"chain[8].strands": REMOVE}, at="chain[8].strands"),
        open_("long_haul", {"chain[8].fixed_block": REMOVE}, at="chain[8].fixed_block"),
        open_("long_haul", {"shelf[0].items.DB-1.sheaves": REMOVE}, at="shelf[0].items.DB-1.sheaves"),
        open_("long_haul", {"chain[8].rope.dead_end": REMOVE}, at="chain[8].rope.dead_end.on"),
    ),
)
def blocks(case: Case, placed: Placed) -> Iterator[Fault]:
    strands = case.haul.strands
    named = Input("strands", "n", strands, "", case.on_part(placed, "strands").reference)
    missing: list[At] = []
    for key, wanted in zip(("moving_block", "fixed_block"), case.haul.sheaves_needed, strict=True):
        at = case.on_part(placed, key)
        item = case.items.get(getattr(placed.part, key) or "")
        if item is None or item.gear.sheaves is None:
            missing.append(at if item is None else case.on_item(item, "sheaves", part=placed.id))
        elif item.gear.sheaves < wanted:
            words = key.replace("_", " ")
            yield Fault(
                at,
                f"{strands} strands need {wanted} sheaves on the {words}. {item.id} has {item.gear.sheaves}.",
                f"Count the strands at the moving block, or use a {words} with {wanted} sheaves.",
                value=item.gear.sheaves,
                limit=wanted,
                unit="1",
                inputs=(named,),
            )
    end = placed.part.rope.dead_end if placed.part.rope else None
    at, right = case.on_part(placed, "rope", "dead_end", "on"), f"{case.haul.dead_end_on}_block"
    if end is None or end.on is None:
        missing.append(at)
    elif end.on != right:
        yield Fault(
            at,
            f"{strands} strands end on the {right.replace('_', ' ')}. The file puts the dead end "
            f"on the {end.on.replace('_', ' ')}.",
            "Count the strands that pull on the moving block, including the dead end, and correct the file.",
            value=end.on,
            limit=right,
            inputs=(named,),
        )
    if missing:
        raise MissingInput(*missing)
