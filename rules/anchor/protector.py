"""A protector lies under each sling round a tree, as long and as wide as the sling needs."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Limit,
    Placed,
    Signal,
    Source,
    each_sling,
    faulty,
    need,
    need_all,
    one_value,
    open_,
    rounded,
    rule,
    sound,
)

LEAST_SLING = Limit(
    name="least_sling_width",
    text="50 mm",
    dimension="length",
    tighter="higher",
    because="A narrow sling presses the living bark until it dies.",
    source=Source(
        "DIN 79400 as carried by Swiss, Indian and German federations",
        "standard",
        ("din_79400", "swiss_ten_principles", "portuguese_rules"),
    ),
)
ITEMS = "shelf[0].items"


@rule(
    title="The bark is not protected from the sling",
    each=each_sling,
    signal=Signal.NOTICE,
    why="A sling that works on bare bark kills the tree slowly, and the spot is closed to everybody.",
    formula="protector length ≥ D/2·(π + θ) in basket, else ≥ π·D; its width ≥ sling width ≥ 50 mm",
    limits=(LEAST_SLING,),
    prevents=("protector_too_short", "protector_too_narrow"),
    examples=(
        sound("long_haul"),
        sound("low"),
        sound("low", {f"{ITEMS}.TP-1.length": "0.99 m"}),
        faulty(
            "low",
            {f"{ITEMS}.TP-1.length": "0.97 m"},
            at="chain[1].gear",
            signal=Signal.NOTICE,
            shows="protector_too_short",
        ),
        faulty("low", {f"{ITEMS}.TP-1.length": "1.5 m", "chain[2].hitch": "choke"}, at="chain[1].gear"),
        faulty("low", {"chain[1].length": "0.97 m"}, at="chain[1].gear"),
        sound("low", {f"{ITEMS}.TP-1.length": "0.5 m", "chain[1].length": "0.99 m"}),
        sound("low", {f"{ITEMS}.TP-1.width": "55 mm"}),
        faulty("low", {f"{ITEMS}.TP-1.width": "54 mm"}, at="chain[1].gear", shows="protector_too_narrow"),
        sound("low", {f"{ITEMS}.RS-1.width": "50 mm"}),
        faulty("low", {f"{ITEMS}.RS-1.width": "49 mm"}, at="chain[2].gear"),
        faulty("low", {"chain[1]": REMOVE}, at="chain[1].gear"),
        sound("low", {"spot.anchors.gate": {"kind": "boulder", "mass": "9 t"}, "chain[1]": REMOVE}),
        open_("low", {f"{ITEMS}.TP-1.length": REMOVE}, at=f"{ITEMS}.TP-1.length"),
        open_("low", {f"{ITEMS}.TP-1.width": REMOVE}, at=f"{ITEMS}.TP-1.width"),
        open_("low", {f"{ITEMS}.RS-1.width": REMOVE}, at=f"{ITEMS}.RS-1.width"),
        open_("low", {"chain[1].gear": REMOVE}, at="chain[1].gear"),
        open_("low", {"chain[2].gear": REMOVE}, at="chain[2].gear"),
        open_("low", {"chain[2].hitch": REMOVE}, at="chain[2].hitch"),
        open_("low", {"spot.anchors.gate.girth": REMOVE}, at="spot.anchors.gate.girth"),
        open_("low", {f"{ITEMS}.RS-1.length": REMOVE}, at=f"{ITEMS}.RS-1.length"),
    ),
)
def protector(case: Case, sling: Placed) -> Iterator[Fault]:
    structure = case.path.structure(case.loads.geometry.anchor_of(sling))
    if structure is None or structure.kind != "tree":
        return
    cover = case.path.beside(sling, "protector")
    if cover is None:
        yield Fault(
            case.on_part(sling, "gear"),
            f"Nothing lies between {sling.words} and the bark.",
            f"Put a protector under {sling.words}, and name it beside the sling in the chain.",
        )
        return
    yield from _width(case, sling, cover)
    yield from _length(case, sling, cover)


def _width(case: Case, sling: Placed, cover: Placed) -> Iterator[Fault]:
    item, under = case.item(sling), case.item(cover)
    wide = item.gear.width or item.gear.diameter
    need_all((wide, case.on_item(item, "width")), (under.gear.width, case.on_item(under, "width")))
    width, room = (
        need(wide, case.on_item(item, "width")),
        need(under.gear.width, case.on_item(under, "width")),
    )
    least = case.limit(LEAST_SLING)
    if width.si < least:
        yield Fault(
            case.on_part(sling, "gear"),
            f"The {sling.words} is {width.text} wide; {least * 1e3:.0f} mm is the least on bark.",
            f"Use a sling of {least * 1e3:.0f} mm or more in place of {item.id}.",
            value=width.si * 1e3,
            limit=least * 1e3,
            unit="mm",
        )
    if room.si < width.si:
        yield Fault(
            case.on_part(cover, "gear"),
            f"The {cover.words} is {room.text} wide, less than the {width.text} of {sling.words}.",
            f"Use a protector wider than {width.text} under {sling.words}.",
            value=room.si * 1e3,
            limit=width.si * 1e3,
            unit="mm",
            source=PRACTICE,
        )


def _length(case: Case, sling: Placed, cover: Placed) -> Iterator[Fault]:
    under = case.item(cover)
    long = need(cover.part.length or under.gear.length, case.on_item(under, "length"))
    contact = case.loads.geometry.contact_m(sling)
    if long.si < contact:
        at = case.on_part(cover, "gear")
        longer = one_value(
            (*cover.key, "length"), f"lay {{}} of protector under {sling.words}", "up", "m", 0.05
        )
        ways = case.put_right(at, longer)
        yield Fault(
            at,
            f"The {cover.words} is {long.text} long; {sling.words} lies on {contact:.3g} m of bark.",
            f"Use {rounded(contact, 'up')} m of protector or more under {sling.words}.",
            value=long.si,
            limit=contact,
            unit="m",
            source=Source("geometry: the arc between the two tangents of the sling", "own"),
            remedies=ways,
        )
