"""The rope is as thick as brake and grip are made for."""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    At,
    Case,
    Fault,
    Item,
    MissingInput,
    Placed,
    Quantity,
    Signal,
    Source,
    faulty,
    need,
    open_,
    rule,
    sound,
    the_haul,
)


@rule(
    title="The rope doesn't fit the brake or the grip",
    each=the_haul,
    signal=Signal.DANGER,
    why=(
        "A rope thinner than the label slips through the brake or grip without warning. A "
        "thicker one jams it half closed."
    ),
    formula="thinnest rope ≤ rope diameter ≤ thickest rope, of brake and of grip",
    sources=(
        Source(
            "EN 567:2013, EN 12841:2006: rope devices hold ropes in their marked range only",
            "standard",
            ("en_567", "en_12841"),
        ),
    ),
    prevents=("rope_outside_brake_range",),
    examples=(
        sound("long_haul"),
        sound("long_haul", {"shelf[0].items.RP-1.diameter": "9 mm"}),
        sound("long_haul", {"shelf[0].items.RP-1.diameter": "11 mm"}),
        sound("long_haul", {"chain[8].multiplier": REMOVE}),
        faulty(
            "long_haul",
            {"shelf[0].items.RP-1.diameter": "8.9 mm"},
            at="chain[8].brake.gear",
            signal=Signal.DANGER,
        ),
        faulty("long_haul", {"shelf[0].items.RP-1.diameter": "11.1 mm"}, at="chain[8].brake.gear"),
        faulty("long_haul", {"shelf[0].items.GR-1.rope_min": "10.5 mm"}, at="chain[8].multiplier.grip"),
        open_("long_haul", {"chain[8].rope": REMOVE}, at="chain[8].rope.gear"),
        open_("long_haul", {"shelf[0].items.RP-1.diameter": REMOVE}, at="shelf[0].items.RP-1.diameter"),
        open_("long_haul", {"shelf[0].items.BR-1.rope_min": REMOVE}, at="shelf[0].items.BR-1.rope_min"),
        open_("long_haul", {"shelf[0].items.GR-1.rope_max": REMOVE}, at="shelf[0].items.GR-1.rope_max"),
        open_("long_haul", {"chain[8].brake": REMOVE}, at="chain[8].brake"),
        open_("long_haul", {"chain[8].brake.gear": REMOVE}, at="chain[8].brake.gear"),
        open_("long_haul", {"chain[8].multiplier.grip": REMOVE}, at="chain[8].multiplier.grip"),
    ),
)
def rope_fits(case: Case, placed: Placed) -> Iterator[Fault]:
    part = placed.part
    rope = case.haul.gear(part.rope.gear if part.rope else None, "rope", "gear")
    diameter = need(rope.gear.diameter, case.on_item(rope, "diameter", part=placed.id))
    devices = [("brake", "gear", part.brake.gear if part.brake else None)]
    if part.multiplier is not None:
        devices.append(("multiplier", "grip", part.multiplier.grip))
    missing: list[At] = []
    for group, key, name in devices:
        at = (
            case.on_part(placed, group, key)
            if part.brake or group != "brake"
            else case.on_part(placed, "brake")
        )
        item = case.items.get(name or "")
        if item is None:
            missing.append(at)
            continue
        missing += [
            case.on_item(item, end, part=placed.id)
            for end in ("rope_min", "rope_max")
            if getattr(item.gear, end) is None
        ]
        yield from _outside(case, at, item, diameter)
    if missing:
        raise MissingInput(*missing)


def _outside(case: Case, at: At, item: Item, diameter: Quantity) -> Iterator[Fault]:
    gear, millimetres = item.gear, diameter.si * 1000.0
    for bound, words, thin in ((gear.rope_min, "thinnest", True), (gear.rope_max, "thickest", False)):
        if bound is None or (diameter.si >= bound.si if thin else diameter.si <= bound.si):
            continue
        yield Fault(
            at,
            f"The rope is {millimetres:g} mm thick. The {words} rope for {gear.kind} {item.id} is {bound.text}.",
            f"Use a rope of {bound.text} or {'more' if thin else 'less'} within its range, or "
            f"another {gear.kind}.",
            value=millimetres,
            limit=bound.si * 1e3,
            unit="mm",
            inputs=(case.given("rope diameter", "d", diameter, case.on_item(item)),),
        )
