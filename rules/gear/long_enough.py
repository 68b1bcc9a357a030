"""No more of a webbing, rope or leash is used than its shelf has of it.

A webbing's length on the shelf is the whole piece before it is cut. What is not on file is not asked for. Whether the
tie-back reaches across its haul is for `haul/tie_back_length`.
"""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    At,
    BackupLine,
    Case,
    Fault,
    Item,
    Limit,
    Placed,
    Signal,
    faulty,
    open_,
    rounded,
    rule,
    sound,
    the_rig,
)

OVER = Limit(
    name="most_over",
    text="0.1 m",
    dimension="length",
    tighter="lower",
    because="Two people measuring one piece differ by as much.",
    source=PRACTICE,
)
SHORT = Limit(
    name="most_short",
    text="0.5 m",
    dimension="length",
    tighter="lower",
    because="For a calculated cut: we know what webbing anchors take in to about half a metre.",
    source=PRACTICE,
)
W, W1 = "shelf[0].items.W-2.length", "shelf[0].items.W-1.length"
RP, LE = "shelf[0].items.RP-1.length", "shelf[0].items.LE-1.length"
CUT = "backups[0].chain[4].cut"

# What the rig takes of a piece: the piece, where that is said, how much (m), and how a sentence says it.
Use = tuple[Item, At, float, str]


@rule(
    title="The rig uses more of a piece than there is",
    each=the_rig,
    signal=Signal.CAUTION,
    raised={"fall": Signal.WARNING, "life": Signal.WARNING},
    why=(
        "You find out at the tree. The tail behind the brake or the webbing anchor gets shorter, "
        "or something unknown fills the gap."
    ),
    formula="length used ≤ length on the shelf + most over; a backup's cut by its `extra` ≤ it + most short",
    limits=(OVER, SHORT),
    prevents=("piece_shorter_than_planned",),
    examples=(
        sound("low"),
        sound("highline"),
        # The webbing of the main line: its roll before cutting.
        sound("low", {W1: "14 m"}),
        sound("low", {W1: "13.9 m"}),
        faulty("low", {W1: "13.897 m"}, at="chain[5].cut", signal=Signal.CAUTION),
        faulty("long_haul", {W1: "50 m"}, at="chain[5].cut", signal=Signal.WARNING),
        # The rope of the haul.
        sound("long_haul", {RP: "59.91 m"}),
        faulty("long_haul", {RP: "20 m"}, at="chain[8].rope.length", signal=Signal.WARNING),
        sound("long_haul", {RP: REMOVE}),
        # A backup: 55.79 m are computed from its extra, tails and webbing anchors included.
        sound("highline", {W: "55.3 m"}),
        faulty("highline", {W: "55.28 m"}, at="backups[0].extra", signal=Signal.WARNING),
        sound("highline", {W: "55.6 m", CUT: "55.7 m"}),
        faulty("highline", {W: "55 m", CUT: "55.7 m"}, at=CUT),
        faulty("highline", {W: "55 m", "backups[0].cut": "55.7 m"}, at="backups[0].cut"),
        faulty(
            "highline", {W: "51 m", "backups[0].chain[4].length": "51.8 m"}, at="backups[0].chain[4].length"
        ),
        # The leash, whose knots come on top.
        sound("highline", {"leash.hang": "3.5 m"}),
        faulty("highline", {"leash.hang": "4 m"}, at="leash.hang", signal=Signal.WARNING),
        sound("highline", {"leash.hang": "4 m", LE: REMOVE}),
        open_("highline", {W: "60 m", "spot.span": REMOVE}, at="spot.span"),
    ),
)
def long_enough(case: Case, _rig: None) -> Iterator[Fault]:
    for item, at, used_m, said in _written(case):
        yield from _fault(case, (item, at, used_m, said), case.limit(OVER))
    for backup in case.loads.backups:
        yield from _by_extra(case, backup)


def _by_extra(case: Case, backup: BackupLine) -> Iterator[Fault]:
    """Compare the cut that a backup needs for its `extra`, where no length is written."""
    at, spanning = backup.length_at, backup.path.webbings
    item = spanning[0].item if len(spanning) == 1 else None
    if item is None or item.gear.length is None or at.key[-1] != "extra":
        return
    use = (item, at, backup.cut_for_m(backup.extra), "has to be cut at {} for that much `extra`")
    yield from _fault(case, use, case.limit(SHORT))


def _written(case: Case) -> Iterator[Use]:
    """Yield what the rig file says to be used of a piece."""
    for placed in (
        *case.path.webbings,
        *(one for backup in case.loads.backups for one in backup.path.webbings),
    ):
        yield from _of_line(case, placed)
    for backup in case.loads.backups:
        yield from _of_backup(backup)
    haul, leash = case.path.haul, case.rig.leash
    rope = haul.part.rope if haul is not None else None
    if haul is not None and rope is not None and rope.length is not None and rope.gear in case.items:
        yield (
            case.items[rope.gear],
            case.on_part(haul, "rope", "length"),
            rope.length.si,
            "is taken to be {} long",
        )
    if leash is not None and leash.hang is not None and leash.gear in case.items:
        at = case.at("leash", "hang", part="leash")
        yield case.items[leash.gear], at, leash.hang.si, "hangs {} below the rings, without its knots"


def _of_line(case: Case, placed: Placed) -> Iterator[Use]:
    if placed.item is None:
        return
    if placed.part.cut is not None:
        yield placed.item, case.on_part(placed, "cut"), placed.part.cut.si, "is cut at {}"
    elif placed.part.length is not None:
        yield (
            placed.item,
            case.on_part(placed, "length"),
            placed.part.length.si,
            "is {} long between its end fittings",
        )


def _of_backup(backup: BackupLine) -> Iterator[Use]:
    spanning = backup.path.webbings
    if backup.entry.cut is not None and len(spanning) == 1 and spanning[0].item is not None:
        yield spanning[0].item, backup.on("cut"), backup.entry.cut.si, "is cut at {}"


def _fault(case: Case, use: Use, over_m: float) -> Iterator[Fault]:
    item, at, used_m, said = use
    there = item.gear.length
    if there is None or used_m <= there.si + over_m:
        return
    how = said.format(f"{rounded(used_m, 'up')} m")
    yield Fault(
        at,
        f"{item.gear.kind.capitalize()} {item.id} {how}. The gear list has {there.text} of it.",
        f"Measure {item.id}, and correct the wrong figure. The rig needs at least {rounded(used_m, 'up')} m.",
        value=used_m,
        limit=there.si,
        unit="m",
        inputs=(case.given("length on the shelf", "ℓ", there, case.on_item(item, "length")),),
    )
