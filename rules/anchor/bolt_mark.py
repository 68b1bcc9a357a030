"""A bolt is marked with a standard for anchors, and its days can be true.

Its pull, its rock and its age are judged by `anchor/bolt_state`, its strength by `anchor/bolts`.
"""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    At,
    Case,
    End,
    Fault,
    MissingInput,
    Signal,
    ends,
    faulty,
    known,
    open_,
    rule,
    sound,
)

# Words of standards for anchors in rock or on buildings; others say what a bolt is, not that one may hang on it.
ANCHORS = ("959", "uiaa", "795", "eta", "16415")
BOLT = "spot.anchors.west.points.w1"


@rule(
    title="An unknown bolt",
    each=ends("bolts"),
    signal=Signal.CAUTION,
    raised={"fall": Signal.WARNING, "life": Signal.WARNING},
    why="A hardware-shop bolt looks like a climbing bolt, but its hanger bends at a fraction of the load.",
    formula="marked to an anchor standard; placed and tested on past days, in this order",
    sources=(PRACTICE,),
    prevents=("rock_or_bolt_unknown",),
    examples=(
        sound("low"),
        sound("highline"),
        faulty(
            "highline",
            {f"{BOLT}.standard": "DIN 933"},
            at=f"{BOLT}.standard",
            signal=Signal.WARNING,
            shows="rock_or_bolt_unknown",
        ),
        sound("highline", {f"{BOLT}.standard": "UIAA 123"}),
        open_("highline", {f"{BOLT}.standard": REMOVE}, at=f"{BOLT}.standard"),
        faulty("highline", {f"{BOLT}.placed": "2026-05-03"}, at=f"{BOLT}.placed", signal=Signal.WARNING),
        faulty("highline", {f"{BOLT}.tested": "2026-05-03"}, at=f"{BOLT}.tested", signal=Signal.WARNING),
        sound("highline", {f"{BOLT}.tested": "2026-05-02"}),
        faulty("highline", {f"{BOLT}.tested": "2023-04-30"}, at=f"{BOLT}.tested", signal=Signal.WARNING),
        sound("highline", {f"{BOLT}.tested": "2023-05-01"}),
        sound("highline", {f"{BOLT}.tested": REMOVE}),
    ),
)
def bolt_mark(case: Case, end: End) -> Iterator[Fault]:
    missing: list[At] = []
    for name in known(end.point_names) or list(end.structure.points):
        bolt = end.structure.points.get(name)
        if bolt is None:
            continue
        if bolt.standard is None:
            missing.append(end.on_structure("points", name, "standard"))
        elif not any(word in bolt.standard.casefold() for word in ANCHORS):
            yield Fault(
                end.on_structure("points", name, "standard"),
                f"Bolt '{name}' is marked {bolt.standard}. No standard for anchors that hold "
                "people has that name.",
                f"Use an EN 959 bolt instead of '{name}', or have someone who knows bolts judge and test it.",
                value=bolt.standard,
                limit="EN 959",
            )
        yield from _days(case, end, name)
    if missing:
        raise MissingInput(*missing)


def _days(case: Case, end: End, name: str) -> Iterator[Fault]:
    bolt = end.structure.points[name]
    for key, day in (("placed", bolt.placed), ("tested", bolt.tested)):
        if day is not None and day > case.on:
            yield Fault(
                end.on_structure("points", name, key),
                f"Bolt '{name}' was {key} on {day}. That is after this audit ({case.on}).",
                f"Correct the date. Until then nobody knows when '{name}' was {key}.",
            )
    # A test older than its bolt was of another bolt; a day still to come has its own fault above.
    if bolt.placed is not None and bolt.tested is not None and bolt.tested < bolt.placed <= case.on:
        yield Fault(
            end.on_structure("points", name, "tested"),
            f"Bolt '{name}' was tested on {bolt.tested}, before it was placed on {bolt.placed}.",
            "Correct the dates. Until then its test doesn't count.",
        )
