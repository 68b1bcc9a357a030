"""Connectors with a gate: locked, and not opened three ways by a sling."""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    Case,
    Fault,
    Item,
    Placed,
    Signal,
    Source,
    everywhere,
    faulty,
    insert_before,
    need,
    open_,
    rule,
    sound,
)

GATE = Source("EN 12275:2013: 5 to 8 kN with the gate open, 20 kN closed", "standard", ("en_12275",))
CONNECTOR = {
    "kind": "connector",
    "material": "steel",
    "connector_class": "B",
    "gate": "screw",
    "mbs": "40 kN",
}
BETWEEN = {"shelf[0].items.CN-9": CONNECTOR, "chain[3]": insert_before({"part": "connector", "gear": "CN-9"})}
OF_HAUL = (
    ("brake", "connector"),
    ("multiplier", "connector"),
    ("multiplier", "pulley"),
    ("rope", "dead_end", "by"),
)


@rule(
    title="A connector can open, or is pulled three ways",
    each=everywhere("connector", "quick_link", "haul"),
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    why="A connector with an open gate breaks at a third of its strength, and flies back along the line.",
    formula="the gate locks; no sling in basket straight on a connector",
    sources=(
        GATE,
        Source("test digests and a circus accident finding: no rating exists for three ways", "unnamed"),
    ),
    prevents=("connector_pulled_three_ways", "gate_does_not_lock"),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        sound("low", BETWEEN | {"chain[2].hitch": "choke"}),
        faulty("low", BETWEEN, at="chain[3]", signal=Signal.WARNING, shows="connector_pulled_three_ways"),
        faulty("low", BETWEEN | {"plan.consequence": "life"}, at="chain[3]", signal=Signal.DANGER),
        faulty(
            "low",
            {"shelf[0].items.CN-2.gate": "none"},
            at="shelf[0].items.CN-2.gate",
            signal=Signal.WARNING,
            shows="gate_does_not_lock",
        ),
        faulty("low", {"shelf[0].items.CN-1.gate": "none", "plan.consequence": "life"}, signal=Signal.DANGER),
        sound("low", {"shelf[0].items.CN-2.gate": "auto"}),
        sound("low", {"shelf[0].items.CN-2.gate": REMOVE, "shelf[0].items.CN-2.connector_class": "Q"}),
        open_("low", {"shelf[0].items.CN-2.gate": REMOVE}, at="shelf[0].items.CN-2.gate"),
        open_("low", {"shelf[0].items.CN-1.gate": REMOVE}, at="shelf[0].items.CN-1.gate"),
        open_("low", BETWEEN | {"chain[2].hitch": REMOVE}, at="chain[2].hitch"),
    ),
)
def connector(case: Case, placed: Placed) -> Iterator[Fault]:
    if placed.part.part == "haul":
        for key in OF_HAUL:
            name: object = placed.part
            for step in key:
                name = getattr(name, step, None)
            item = case.items.get(str(name))
            if item is not None and _has_gate(item):
                yield from _gate(case, placed, item, key[0])
        return
    if placed.item is None or not _has_gate(placed.item):
        return
    for sling in case.hanging_in(placed):
        # The legs of a basket pull two ways, and the line a third: no connector is rated for that.
        if need(sling.part.hitch, case.on_part(sling, "hitch")) == "basket":
            yield Fault(
                case.on_part(placed),
                f"Both ends of {sling.words} hang in {placed.words}. No connector is rated for a "
                "three-way pull.",
                f"Use a bow shackle instead of {placed.words}.",
                source=Source("test digests and a circus accident finding: use a shackle", "unnamed"),
            )
    yield from _gate(case, placed, placed.item, "the line")


def _has_gate(item: Item) -> bool:
    """Return whether it is a connector with a gate; a screwed link is closed by its sleeve."""
    return item.gear.kind == "connector" and item.gear.connector_class != "Q"


def _gate(case: Case, placed: Placed, item: Item, place: str) -> Iterator[Fault]:
    at = case.on_item(item, "gate", part=placed.id)
    if need(item.gear.gate, at) == "none":
        where = place.replace("_", " ")
        yield Fault(
            at,
            f"The gate of {item.id} in {where if place == 'the line' else f'the {where}'} doesn't lock.",
            f"Use a connector that locks, or a screw link, instead of {item.id}.",
        )
