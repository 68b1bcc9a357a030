"""A bolt is known: what standard it is marked with, when it was placed, in what rock."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    At,
    Case,
    End,
    Fault,
    Limit,
    MissingInput,
    Signal,
    ends,
    faulty,
    known,
    months_after,
    open_,
    review,
    rule,
    sound,
)

MOST = Limit(
    name="most_years",
    text="15",
    dimension=None,
    tighter="lower",
    because="Older bolts have rusted where nobody sees it, and many were not made for it; a test tells.",
    source=PRACTICE,
)
# Words of standards for anchors in rock or on buildings; others say what a bolt is, not that it is one to hang on.
ANCHORS = ("959", "uiaa", "795", "eta", "16415")
SOFT = (
    "sandstone",
    "chalk",
    "tuff",
    "marl",
    "conglomerate",
    "shale",
    "slate",
    "mudstone",
    "soft",
    "crumbly",
    "loose",
)
HARD = (
    "granite",
    "gneiss",
    "limestone",
    "dolomite",
    "basalt",
    "quartzite",
    "porphyry",
    "diorite",
    "gabbro",
    "andesite",
    "rhyolite",
    "schist",
    "concrete",
)
WEST = "spot.anchors.west"
BOLT = f"{WEST}.points.w1"
NO_TEST = {f"{BOLT}.tested": REMOVE}


@rule(
    title="Nobody knows what this bolt is",
    each=ends("bolts"),
    signal=Signal.CAUTION,
    raised={"fall": Signal.WARNING, "life": Signal.WARNING},
    why="A bolt without a mark, in soft rock or decades old holds a fraction of what the label of a new one says.",
    formula="marked with a standard for anchors; in hard rock, or tested; placed within the years, or tested since",
    limits=(MOST,),
    sources=(PRACTICE,),
    prevents=("rock_or_bolt_unknown",),
    examples=(
        sound("low"),
        sound("highline"),
        faulty("highline", {f"{BOLT}.standard": "DIN 933"}, at=f"{BOLT}.standard", signal=Signal.WARNING),
        sound("highline", {f"{BOLT}.standard": "UIAA 123"}),
        open_("highline", {f"{BOLT}.standard": REMOVE}, at=f"{BOLT}.standard"),
        sound("highline", NO_TEST | {f"{BOLT}.placed": "2011-05-02"}),
        faulty(
            "highline",
            NO_TEST | {f"{BOLT}.placed": "2011-05-01"},
            at=f"{BOLT}.placed",
            signal=Signal.WARNING,
            shows="rock_or_bolt_unknown",
        ),
        sound("highline", {f"{BOLT}.placed": "1998-05"}),  # tested since
        faulty("highline", {f"{BOLT}.placed": "2026-05-03"}, at=f"{BOLT}.placed"),
        open_("highline", {f"{BOLT}.placed": REMOVE}, at=f"{BOLT}.placed"),
        faulty(
            "highline", NO_TEST | {f"{WEST}.rock": "soft sandstone"}, at=f"{WEST}.rock", signal=Signal.WARNING
        ),
        review("highline", {f"{WEST}.rock": "sandstone"}, at=f"{WEST}.rock", signal=Signal.CAUTION),
        review("highline", {f"{WEST}.rock": "greenstone"}, at=f"{WEST}.rock", signal=Signal.NOTICE),
        open_("highline", {f"{WEST}.rock": REMOVE}, at=f"{WEST}.rock"),
        sound("highline", {f"{WEST}.rock": "Limestone"}),
    ),
)
def bolt_origin(case: Case, end: End) -> Iterator[Fault]:
    names = known(end.point_names) or list(end.structure.points)
    missing: list[At] = []
    for name in names:
        bolt = end.structure.points.get(name)
        if bolt is None:
            continue
        yield from _marked(end, name)
        yield from _old(case, end, name)
        keys = [key for key in ("standard", "placed") if getattr(bolt, key) is None]
        missing += [end.on_structure("points", name, key) for key in keys]
    told = end.backup is not None and end.name in {one.part.at for one in case.path.anchors}
    if not told and names:
        yield from _rock(end, names)
        if end.structure.rock is None:
            missing.append(end.on_structure("rock"))
    if missing:
        raise MissingInput(*missing)


def _marked(end: End, name: str) -> Iterator[Fault]:
    standard = end.structure.points[name].standard
    if standard is not None and not any(word in standard.casefold() for word in ANCHORS):
        yield Fault(
            end.on_structure("points", name, "standard"),
            f"Bolt '{name}' is marked {standard}, which is no standard for anchors that people hang on.",
            f"Use a bolt to EN 959 in place of '{name}', or have somebody who knows bolts judge and test it.",
            value=standard,
            limit="EN 959",
        )


def _old(case: Case, end: End, name: str) -> Iterator[Fault]:
    bolt, at = end.structure.points[name], end.on_structure("points", name, "placed")
    if bolt.placed is None:
        return
    years = case.limit(MOST)
    if bolt.placed > case.on:
        yield Fault(
            at,
            f"Bolt '{name}' was placed on {bolt.placed}, after this audit ({case.on}).",
            "Put the day right; until then nobody knows how old it is.",
        )
    elif bolt.tested is None and case.on > months_after(bolt.placed, round(years * 12)):
        yield Fault(
            at,
            f"Bolt '{name}' was placed on {bolt.placed} and never tested; without a test {years:g} years is the most.",
            f"Have '{name}' tested in the line's direction, or use a bolt that is known.",
            value=round((case.on - bolt.placed).days / 365.25, 1),
            limit=years,
            unit="years",
        )


def _rock(end: End, names: list[str]) -> Iterator[Fault]:
    rock = end.structure.rock
    word = (rock or "").casefold()
    if rock is None or (any(one in word for one in HARD) and not any(one in word for one in SOFT)):
        return
    at = end.on_structure("rock")
    soft = any(one in word for one in SOFT)
    bolts = [end.structure.points.get(name) for name in names]
    tested = all(bolt is None or bolt.tested is not None for bolt in bolts)
    if soft and not tested:
        yield Fault(
            at,
            f"The bolts at '{end.name}' stand in {rock} and were not all tested; their labels hold for hard rock.",
            f"Have every bolt at '{end.name}' tested in the line's direction, or use other anchors.",
        )
        return
    yield Fault(
        at,
        f"The bolts at '{end.name}' stand in {rock}: {'soft rock' if soft else 'a rock that no rule here knows'}. "
        "Their labels hold for hard rock.",
        "Look at each bolt and the rock round it with somebody who knows bolts in that rock.",
        kind="review",
        signal=Signal.CAUTION if soft else Signal.NOTICE,
    )
