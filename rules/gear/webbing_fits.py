"""The webbing is as wide as its webbing anchor or ratchet is made for, and as the sewn end that is to end it."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Limit,
    Placed,
    Quantity,
    Signal,
    everywhere,
    faulty,
    first_up,
    need,
    open_,
    review,
    rule,
    sound,
)

NOMINAL = Limit(
    name="nominal",
    text="0.02",
    dimension=None,
    tighter="lower",
    because="Widths are nominal: 1 in is sold as 25 mm and is 25.4 mm, 2 in as 50 mm and is 50.8 mm.",
    source=PRACTICE,
)
SIZE_BELOW = Limit(
    name="size_below",
    text="0.8",
    dimension=None,
    tighter="higher",
    because="Webbing is 19, 25, 35 or 50 mm wide: a device made for one of them lets the next narrower one wander.",
    source=PRACTICE,
)
RATCHET = {
    "shelf[0].items.RT-1": {"kind": "puller", "form": "ratchet", "width": "25 mm"},
    "chain[4]": {"part": "puller", "gear": "RT-1"},
}
ANCHOR, WEBBING, SEWN = "shelf[0].items.WA-1", "shelf[0].items.W-1", "shelf[0].items.SE-1"
NARROW = {f"{SEWN}.width": REMOVE, f"{ANCHOR}.width_max": "25 mm"}


@rule(
    title="The webbing doesn't fit the part that holds it",
    each=everywhere("webbing_anchor", "sewn_end", "puller"),
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    why="Wide webbing folds in its anchor and tears from the edge. Narrow webbing wanders and slips.",
    formula="narrowest ≤ width of the webbing ≤ widest; sewn end as wide as its webbing; 2 % for nominal sizes",
    limits=(NOMINAL, SIZE_BELOW),
    sources=(PRACTICE,),
    prevents=("webbing_slips_in_its_anchor",),
    examples=(
        sound("low"),
        sound("highline"),
        sound("low", {f"{ANCHOR}.width_min": "25 mm"}),
        # 1 in of webbing in a device for 25 mm.
        sound("low", {f"{WEBBING}.width": "1 in"}),
        sound("low", {f"{WEBBING}.width": "25.48 mm", f"{SEWN}.width": REMOVE}),
        faulty("low", {f"{WEBBING}.width": "25.52 mm", f"{SEWN}.width": REMOVE}, at="chain[4].gear"),
        faulty("low", {f"{SEWN}.width": "50 mm"}, at="chain[6].gear", signal=Signal.WARNING),
        faulty("low", {f"{SEWN}.width": "15 mm"}, at="chain[6].gear", signal=Signal.WARNING),
        sound("low", {f"{SEWN}.width": REMOVE}),
        faulty("low", {f"{WEBBING}.width": "26 mm"}, at="chain[4].gear", signal=Signal.WARNING),
        faulty("low", {f"{ANCHOR}.width_min": "26 mm", f"{ANCHOR}.width_max": "50 mm"}, at="chain[4].gear"),
        faulty(
            "highline",
            {"shelf[0].items.W-2.width": "35 mm"},
            at="backups[0].chain[3].gear",
            signal=Signal.DANGER,
        ),
        sound("low", {f"{ANCHOR}.width_min": "20 mm", f"{ANCHOR}.width_max": REMOVE}),
        # A size narrower than the device: only its maker knows whether it may.
        sound("low", NARROW | {f"{WEBBING}.width": "20.1 mm"}),
        review(
            "low", NARROW | {f"{WEBBING}.width": "19.9 mm"}, at=f"{ANCHOR}.width_min", signal=Signal.CAUTION
        ),
        review(
            "low", NARROW | {f"{WEBBING}.width": "19 mm"}, at=f"{ANCHOR}.width_min", signal=Signal.CAUTION
        ),
        sound("low", NARROW | {f"{WEBBING}.width": "19 mm", f"{ANCHOR}.width_min": "18 mm"}),
        # Webbing that is too wide folds on the axle of a ratchet.
        sound("low", RATCHET),
        sound("low", RATCHET | {"shelf[0].items.RT-1.width": REMOVE}),
        faulty(
            "low", RATCHET | {"shelf[0].items.RT-1.width": "24 mm"}, at="chain[4].gear", signal=Signal.WARNING
        ),
        open_("low", {f"{ANCHOR}.width_max": REMOVE}, at=f"{ANCHOR}.width_max"),
        open_("low", {f"{WEBBING}.width": REMOVE}, at=f"{WEBBING}.width"),
        open_("low", {"chain[4].gear": REMOVE}, at="chain[4].gear"),
        open_("low", {"chain[5].gear": REMOVE}, at="chain[5].gear"),
    ),
)
def webbing_fits(case: Case, placed: Placed) -> Iterator[Fault]:
    webbing = next((one for one in case.beside(placed) if one.part.part == "webbing"), None)
    if webbing is None:
        return
    if placed.part.part == "sewn_end":
        yield from _sewn(case, placed, webbing)
        return
    if placed.part.part == "puller":
        yield from _on_its_axle(case, placed, webbing)
        return
    device, band = case.item(placed), case.item(webbing)
    narrowest, widest = device.gear.width_min, device.gear.width_max
    if narrowest is None:
        need(widest, case.on_item(device, "width_max"))
    width = need(band.gear.width, case.on_item(band, "width"))
    nominal = 1.0 + case.limit(NOMINAL)
    too_wide, too_narrow = (
        widest and width.si > widest.si * nominal,
        narrowest and width.si * nominal < narrowest.si,
    )
    if narrowest is None and widest is not None and width.si < widest.si * case.limit(SIZE_BELOW):
        yield _much_narrower(case, placed, widest, f"{band.id} is {width.text} wide.")
        return
    limit = widest if too_wide else narrowest if too_narrow else None
    if limit is None:
        return
    word = "at most" if too_wide else "at least"
    yield Fault(
        case.on_part(placed, "gear"),
        f"{band.id} is {width.text} wide. {device.id} takes webbing of {word} {limit.text}.",
        f"Use a webbing anchor made for {width.text} instead of {device.id}.",
        value=width.si * 1e3,
        limit=limit.si * 1e3,
        unit="mm",
        inputs=(case.given("width of the webbing", "b", width, case.on_item(band, "width")),),
    )


def _much_narrower(case: Case, placed: Placed, widest: Quantity, band: str) -> Fault:
    """Ask whether a device takes webbing of the next narrower size, which its file leaves out."""
    device = case.item(placed)
    return Fault(
        case.on_item(device, "width_min", part=placed.id),
        f"{band} {device.id} takes up to {widest.text}. The file does not say how narrow its webbing may be.",
        f"Read in its maker's instructions how narrow a webbing {device.id} holds, and enter it as width_min.",
        kind="review",
        signal=Signal.CAUTION,
    )


def _sewn(case: Case, placed: Placed, webbing: Placed) -> Iterator[Fault]:
    """Judge whether a sewn end can be that of this webbing: it is the same band, sewn."""
    ours = placed.item.gear.width if placed.item else None
    band = webbing.item.gear.width if webbing.item else None
    if (
        ours is None
        or band is None
        or max(ours.si, band.si) <= min(ours.si, band.si) * (1.0 + case.limit(NOMINAL))
    ):
        return
    yield Fault(
        case.on_part(placed, "gear"),
        f"{first_up(placed.words)} is {ours.text} wide, and its webbing {band.text}.",
        "Look at both. A sewn loop is the same band as its webbing. Correct the width, or name the right piece.",
        value=ours.si * 1e3,
        limit=band.si * 1e3,
        unit="mm",
    )


def _on_its_axle(case: Case, placed: Placed, webbing: Placed) -> Iterator[Fault]:
    """Judge whether a webbing finds room on the axle of a ratchet."""
    ratchet, band = placed.item, webbing.item.gear.width if webbing.item else None
    axle = ratchet.gear.width if ratchet is not None and ratchet.gear.form == "ratchet" else None
    if axle is None or band is None or band.si <= axle.si * (1.0 + case.limit(NOMINAL)):
        return
    yield Fault(
        case.on_part(placed, "gear"),
        f"The webbing is {band.text} wide, and {placed.words} takes {axle.text}: it folds on the axle.",
        f"Use a ratchet for webbing of {band.text}, or webbing of {axle.text}.",
        value=band.si * 1e3,
        limit=axle.si * 1e3,
        unit="mm",
    )
