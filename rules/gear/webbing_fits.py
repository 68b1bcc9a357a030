"""The webbing is as wide as its webbing anchor is made for."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Placed,
    Signal,
    everywhere,
    faulty,
    need,
    open_,
    rule,
    sound,
)

ANCHOR, WEBBING = "shelf[0].items.WA-1", "shelf[0].items.W-1"


@rule(
    title="The webbing does not fit its webbing anchor",
    each=everywhere("webbing_anchor"),
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    why="Wide webbing folds over in its anchor and tears from the edge; narrow webbing wanders and slips.",
    formula="narrowest ≤ width of the webbing ≤ widest",
    sources=(PRACTICE,),
    prevents=("webbing_slips_in_its_anchor",),
    examples=(
        sound("low"),
        sound("highline"),
        sound("low", {f"{ANCHOR}.width_min": "25 mm"}),
        faulty("low", {f"{WEBBING}.width": "26 mm"}, at="chain[4].gear", signal=Signal.WARNING),
        faulty("low", {f"{ANCHOR}.width_min": "26 mm", f"{ANCHOR}.width_max": "50 mm"}, at="chain[4].gear"),
        faulty(
            "highline",
            {"shelf[0].items.W-2.width": "35 mm"},
            at="backups[0].chain[3].gear",
            signal=Signal.DANGER,
        ),
        sound("low", {f"{ANCHOR}.width_min": "20 mm", f"{ANCHOR}.width_max": REMOVE}),
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
    device, band = case.item(placed), case.item(webbing)
    narrowest, widest = device.gear.width_min, device.gear.width_max
    if narrowest is None:
        need(widest, case.on_item(device, "width_max"))
    width = need(band.gear.width, case.on_item(band, "width"))
    too_wide, too_narrow = (
        widest and width.si > widest.si,
        narrowest and width.si < narrowest.si,
    )
    limit = widest if too_wide else narrowest if too_narrow else None
    if limit is None:
        return
    word = "at most" if too_wide else "at least"
    yield Fault(
        case.on_part(placed, "gear"),
        f"{band.id} is {width.text} wide; {device.id} takes webbing of {word} {limit.text}.",
        f"Use a webbing anchor made for {width.text} in place of {device.id}.",
        value=width.si * 1e3,
        limit=limit.si * 1e3,
        unit="mm",
        inputs=(case.given("width of the webbing", "b", width, case.on_item(band, "width")),),
    )
