"""The leash hangs on forged rings, and they run on the main line and on its backup."""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    Case,
    Fault,
    Item,
    Leash,
    Limit,
    Signal,
    Source,
    faulty,
    in_kn,
    in_prose,
    need_all,
    open_,
    rule,
    sound,
    the_leash,
)

HANDBOOK = Source(
    "US highline handbook, personal safety system: forged rings without welds, 5,000 lbf", "unnamed"
)
LEAST = Limit(
    name="least_strength",
    text="22 kN",
    dimension="force",
    tighter="higher",
    because="Nothing backs up a leash ring. We ask of it what an anchor for one person must hold.",
    source=HANDBOOK,
)
DOUBLED = Source(
    "Swiss federation, ten points for highlines: every safety part is doubled",
    "published",
    ("swiss_ten_points",),
)
SHELF = "shelf[0].items"
LINK = {"kind": "connector", "material": "steel", "connector_class": "B", "gate": "screw", "mbs": "25 kN"}


@rule(
    title="The leash ring can't be trusted with a life",
    each=the_leash,
    signal=Signal.DANGER,
    why=(
        "A connector used as a leash ring opened or broke in the first highline death. A ring on "
        "the main line only falls with it."
    ),
    formula="each ring is a forged ring, breaking strength ≥ 22 kN; main line and backup run through them",
    limits=(LEAST,),
    prevents=("ring_not_on_the_line", "ring_on_main_only"),
    examples=(
        sound("highline"),
        faulty("highline", {"leash.rings": ["RI-1"]}, at="leash.rings", signal=Signal.CAUTION),
        sound("highline", {f"{SHELF}.RI-1.mbs": "22 kN"}),
        sound("highline", {"leash.rings_on": ["main", "backups[0]"]}),
        sound("highline", {"backups": [], "leash.rings_on": ["main"]}),  # the missing backup is another fault
        faulty("highline", {f"{SHELF}.RI-1.mbs": "21.8 kN"}, at=f"{SHELF}.RI-1.mbs", signal=Signal.DANGER),
        faulty("highline", {f"{SHELF}.RI-2.forged": False}, at=f"{SHELF}.RI-2.forged"),
        faulty("highline", {f"{SHELF}.RI-1": LINK}, at="leash.rings[0]", signal=Signal.DANGER),
        faulty("highline", {"leash.rings": []}, at="leash.rings", shows="ring_not_on_the_line"),
        faulty(
            "highline",
            {"leash.rings_on": ["main"]},
            at="leash.rings_on",
            signal=Signal.DANGER,
            shows="ring_on_main_only",
        ),
        faulty("highline", {"leash.rings_on": ["backup"]}, at="leash.rings_on"),
        faulty("highline", {"leash.rings_on": ["backups[0]"]}, at="leash.rings_on"),
        open_("highline", {"leash.rings": REMOVE}, at="leash.rings"),
        open_("highline", {"leash.rings_on": REMOVE}, at="leash.rings_on"),
        open_("highline", {f"{SHELF}.RI-1.forged": REMOVE}, at=f"{SHELF}.RI-1.forged"),
        open_("highline", {f"{SHELF}.RI-2.mbs": REMOVE}, at=f"{SHELF}.RI-2.mbs"),
    ),
)
def rings(case: Case, leash: Leash) -> Iterator[Fault]:
    at, on = case.at("leash", "rings", part="leash"), case.at("leash", "rings_on", part="leash")
    if leash.rings_on is not None:
        backups = {one.id for one in case.loads.backups if one.backs_main}
        wanted = ["main"] + (["backup"] if backups else [])
        named = {*leash.rings_on} | ({"backup"} if backups <= {*leash.rings_on} else set())
        for line in (line for line in wanted if line not in named):
            yield Fault(
                on,
                f"The leash rings don't run on the {line}{' line' if line == 'main' else ''}.",
                f"Before you close the ends, thread every ring onto: {', '.join(wanted)}. List them here.",
            )
    if leash.rings == []:
        yield Fault(
            at, "No ring ties the leash to the line.", "Put a forged ring of at least 22 kN on the lines."
        )
    if leash.rings and len(leash.rings) == 1:
        yield Fault(
            at,
            f"The leash hangs on one ring, {leash.rings[0]}; two are usual.",
            "Thread a second forged ring beside it, and tie the leash through both.",
            value=1,
            limit=2,
            signal=Signal.CAUTION,
            source=DOUBLED,
        )
    items = [case.items[name] for name in leash.rings or [] if name in case.items]
    for n, item in enumerate(items):
        yield from _ring(case, n, item)
    fields = [(leash.rings, at), (leash.rings_on, on)]
    for item in (item for item in items if item.gear.kind == "ring"):
        fields += [
            (getattr(item.gear, key), case.on_item(item, key, part="leash")) for key in ("forged", "mbs")
        ]
    need_all(*fields)


def _ring(case: Case, n: int, item: Item) -> Iterator[Fault]:
    """Judge one ring by what its shelf entry says."""
    least = case.limit(LEAST)
    if item.gear.kind != "ring":
        yield Fault(
            case.at("leash", "rings", n, part="leash"),
            f"The leash hangs on {item.id}, a {in_prose(item.gear.kind)}, instead of a ring.",
            f"Use a forged ring without weld or gate, at least {in_kn(least)}.",
            value=item.gear.kind,
            limit="ring",
        )
        return
    if item.gear.forged is False:
        yield Fault(
            case.on_item(item, "forged", part="leash"),
            f"Leash ring {item.id} isn't forged in one piece.",
            f"Use a forged ring without weld, at least {in_kn(least)}.",
        )
    if item.gear.mbs is not None and item.gear.mbs.si < least:
        yield Fault(
            case.on_item(item, "mbs", part="leash"),
            f"Leash ring {item.id} breaks at {in_kn(item.gear.mbs.si, 'down')}. At least {in_kn(least)}.",
            f"Use a forged ring of at least {in_kn(least)}.",
            value=item.gear.mbs.si / 1e3,
            limit=least / 1e3,
            unit="kN",
        )
