"""A protector lies under each sling round a tree, as long and as wide as the sling needs."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    LaidSling,
    Limit,
    Placed,
    Signal,
    Source,
    each_sling,
    either,
    faulty,
    insert_before,
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
    because="A narrow sling crushes living bark until it dies.",
    source=Source(
        "DIN 79400 as carried by Swiss, Indian and German federations",
        "standard",
        ("din_79400", "swiss_ten_principles", "portuguese_rules"),
    ),
)
ITEMS = "shelf[0].items"
TP_3 = {f"{ITEMS}.TP-3": {"kind": "protector", "length": "0.6 m", "width": "200 mm"}}
HALVES = {**TP_3, f"{ITEMS}.TP-1.length": "0.5 m"}
LIME = {"kind": "tree", "girth": "0.9 m", "bark": "rough", "health": "sound", "fork": "none"}
SPREAD = [
    {"to": to, "chain": [{"part": "sling", "gear": gear, "hitch": "choke"}]}
    for to, gear in (("gate", "RS-1"), ("lime", "RS-9"))
]
OTHER_TREE: dict[str, object] = {
    "spot.anchors.lime": LIME,
    f"{ITEMS}.TP-3": {"kind": "protector", "length": "1.2 m", "width": "200 mm"},
    f"{ITEMS}.TP-1.length": "1.6 m",
    f"{ITEMS}.RS-9": {"kind": "round_sling", "length": "2 m", "width": "55 mm"},
    "chain[2]": {"part": "legs", "share": "fixed", "included_angle": "40 deg", "legs": SPREAD},
}
PADDED = [SPREAD[1]["chain"][0], {"part": "protector", "gear": "TP-3"}]
BACKED_UP: dict[str, object] = {
    "spot.anchors.west": LIME | {"girth": "1.6 m"},
    f"{ITEMS}.RS-7.length": "3 m",
    "backups[0].chain[1]": {"part": "sling", "gear": "RS-7", "hitch": "basket"},
}


@rule(
    title="The bark isn't protected from the sling",
    each=each_sling,
    signal=Signal.NOTICE,
    why="A sling on bare bark slowly kills the tree. Then the spot is closed to everyone.",
    formula="protector length ≥ D/2·(π + θ) in basket, else ≥ π·D; its width ≥ sling width ≥ 50 mm",
    limits=(LEAST_SLING,),
    prevents=("protector_too_short", "protector_too_narrow"),
    examples=(
        sound("long_haul"),
        sound("low"),
        sound("low", {f"{ITEMS}.TP-1.length": "0.91 m"}),
        faulty(
            "low",
            {f"{ITEMS}.TP-1.length": "0.89 m"},
            at="chain[1].gear",
            signal=Signal.NOTICE,
            shows="protector_too_short",
        ),
        faulty("low", {f"{ITEMS}.TP-1.length": "1.39 m", "chain[2].hitch": "choke"}, at="chain[1].gear"),
        faulty("low", {"chain[1].length": "0.89 m"}, at="chain[1].gear"),
        sound("low", {f"{ITEMS}.TP-1.length": "0.5 m", "chain[1].length": "0.91 m"}),
        sound("low", {f"{ITEMS}.TP-1.width": "55 mm"}),
        faulty("low", {f"{ITEMS}.TP-1.width": "54 mm"}, at="chain[1].gear", shows="protector_too_narrow"),
        sound("low", {f"{ITEMS}.RS-1.width": "50 mm"}),
        faulty("low", {f"{ITEMS}.RS-1.width": "49 mm"}, at="chain[2].gear"),
        faulty("low", {"chain[1]": REMOVE}, at="chain[1].gear"),
        # Half of the way each; a leg that goes to another tree needs a protector of its own.
        sound("low", {**HALVES, "chain[2]": insert_before({"part": "protector", "gear": "TP-3"})}),
        faulty("low", HALVES, at="chain[1].gear"),
        faulty("low", OTHER_TREE, at="chain[2].legs[1].chain[0].gear"),
        sound("low", {**OTHER_TREE, "chain[2].legs[1].chain": PADDED}),
        faulty("highline", BACKED_UP, at="backups[0].chain[1].gear"),
        sound("low", {"chain[2].around": "an eye bolt", "chain[2].hitch": "straight", "chain[1]": REMOVE}),
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
def protector(case: Case, sling: LaidSling) -> Iterator[Fault]:
    if sling.contact.kind != "tree":
        return
    if not sling.contact.covers:
        yield Fault(
            sling.at("gear"),
            f"There is nothing between {sling.words} and the bark of '{sling.contact.anchor}'.",
            f"Put a tree protector under {sling.words}, and name it beside the sling.",
        )
        return
    for cover in sling.contact.covers:
        yield from _width(case, sling, cover)
    yield from _length(case, sling)


def _width(case: Case, sling: LaidSling, cover: Placed) -> Iterator[Fault]:
    item, under = case.item(sling.placed), case.item(cover)
    wide = item.gear.width or item.gear.diameter
    need_all((wide, case.on_item(item, "width")), (under.gear.width, case.on_item(under, "width")))
    width, room = (
        need(wide, case.on_item(item, "width")),
        need(under.gear.width, case.on_item(under, "width")),
    )
    least = case.limit(LEAST_SLING)
    # Told once a sling, though it may lie on several protectors.
    if width.si < least and cover is sling.contact.covers[0]:
        yield Fault(
            sling.at("gear"),
            f"The {sling.words} is {width.text} wide. At least {least * 1e3:.0f} mm on bark.",
            f"Use a sling at least {least * 1e3:.0f} mm wide instead of {item.id}.",
            value=width.si * 1e3,
            limit=least * 1e3,
            unit="mm",
        )
    if room.si < width.si:
        yield Fault(
            case.on_part(cover, "gear"),
            f"The {cover.words} is {room.text} wide, narrower than {sling.words} at {width.text}.",
            f"Use a protector wider than {width.text} under {sling.words}.",
            value=room.si * 1e3,
            limit=width.si * 1e3,
            unit="mm",
            source=PRACTICE,
        )


def _length(case: Case, sling: LaidSling) -> Iterator[Fault]:
    """Judge the length of the protectors; several lie one after the other round the trunk."""
    cover = sling.contact.covers[0]
    lengths = [
        need(one.part.length or case.item(one).gear.length, case.on_item(case.item(one), "length"))
        for one in sling.contact.covers
    ]
    long, contact = sum(one.si for one in lengths), sling.geometry.contact_m(sling.placed)
    if long >= contact:
        return
    at = case.on_part(cover, "gear")
    longer = one_value((*cover.key, "length"), f"lay {{}} of protector under {sling.words}", "up", "m", 0.05)
    remedies = case.put_right(at, longer) if len(lengths) == 1 else case.put_right(at)
    words = (
        f"The {cover.words} is {lengths[0].text}"
        if len(lengths) == 1
        else f"The protectors are {rounded(long)} m"
    )
    yield Fault(
        at,
        f"{words} long, but {sling.words} lies on {contact:.3g} m of bark.",
        either(
            *remedies.or_else(f"use at least {rounded(contact, 'up')} m of protector under {sling.words}")
        ),
        value=long,
        limit=contact,
        unit="m",
        source=Source("geometry: the arc between the two tangents of the sling", "own"),
        remedies=remedies,
    )
