"""Backup and main line share no anchor point and no piece of gear, and the backup's own chain is whole."""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    At,
    BackupLine,
    Case,
    Fault,
    MissingInput,
    Placed,
    Signal,
    Source,
    each_backup,
    faulty,
    insert_before,
    open_,
    rule,
    sound,
)

OWN_CHAIN = "backups[0].chain"
OAK = {"kind": "tree", "species": "oak", "girth": "2 m", "bark": "rough", "health": "sound", "fork": "none"}


def _round(*slings: str) -> list[dict[str, object]]:
    """Return legs that go round the tree, one for each sling."""
    return [
        {"to": "west", "chain": [{"part": "sling", "gear": sling, "hitch": "basket"}]} for sling in slings
    ]


ON_A_TREE: dict[str, object] = {
    "spot.anchors.west": OAK,
    "chain[1].legs": _round("RS-1", "RS-2"),
    f"{OWN_CHAIN}[1].legs": _round("RS-7", "RS-8"),
}
COVER = {"part": "protector", "gear": "TP-1"}
SHARED_COVER: dict[str, object] = {
    "shelf[0].items.TP-1": {"kind": "protector", "length": "3 m"},
    "chain[1]": insert_before(COVER),
    f"{OWN_CHAIN}[1]": insert_before(COVER),
}
ONE_BOLT = {"radial": "25 kN", "axial": "15 kN"}


@rule(
    title="Backup and main line share a part",
    each=each_backup,
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    worst=Signal.DANGER,
    why="A bolt or ring that holds both lines drops both. A gap in the backup's chain drops the backup.",
    formula="no anchor point and no piece of gear in both chains; anchor, …, webbing, …, anchor",
    sources=(
        Source(
            "Swiss federation, ten points for highlines: every safety part doubled, backup anchored apart",
            "published",
            ("swiss_ten_points",),
        ),
    ),
    prevents=("backup_on_the_same_point", "one_piece_in_two_places"),
    examples=(
        sound("low"),
        sound("highline"),
        sound("highline", {"backups": [{"kind": "tail", "holds": "main"}]}),
        sound("highline", ON_A_TREE),  # four slings round one oak: the tree itself is another rule's review
        faulty(
            "highline",
            {f"{OWN_CHAIN}[1].legs[0].to": "w3"},
            at=f"{OWN_CHAIN}[0]",
            signal=Signal.DANGER,
            shows="backup_on_the_same_point",
        ),
        faulty("highline", {f"{OWN_CHAIN}[7].legs[1].to": "e1"}, at=f"{OWN_CHAIN}[8]", signal=Signal.DANGER),
        faulty(
            "highline",
            {"chain[1]": REMOVE, f"{OWN_CHAIN}[1]": REMOVE, "spot.anchors.west.points": {"w1": ONE_BOLT}},
            at=f"{OWN_CHAIN}[0]",
        ),
        faulty(
            "highline",
            {f"{OWN_CHAIN}[2].gear": "SH-1"},
            at=f"{OWN_CHAIN}[2].gear",
            signal=Signal.DANGER,
            shows="one_piece_in_two_places",
        ),
        faulty("highline", {f"{OWN_CHAIN}[1].legs[0].chain[1].gear": "RS-1"}, signal=Signal.DANGER),
        faulty("highline", SHARED_COVER, at=f"{OWN_CHAIN}[1].gear", signal=Signal.CAUTION),
        faulty("highline", {f"{OWN_CHAIN}[2]": REMOVE}, at=f"{OWN_CHAIN}[2]", signal=Signal.WARNING),
        faulty("highline", {f"{OWN_CHAIN}[3]": REMOVE}, at=f"{OWN_CHAIN}[3]", signal=Signal.DANGER),
        faulty("highline", {f"{OWN_CHAIN}[8]": REMOVE}, at=f"{OWN_CHAIN}[7]", signal=Signal.DANGER),
        faulty("highline", {OWN_CHAIN: []}, at=OWN_CHAIN, signal=Signal.DANGER),
        open_("highline", {f"{OWN_CHAIN}[1].legs[0].to": REMOVE}, at=f"{OWN_CHAIN}[1].legs[0].to"),
        open_("highline", {"chain[1].legs[2].to": REMOVE}, at="chain[1].legs[2].to"),
    ),
)
def independence(case: Case, backup: BackupLine) -> Iterator[Fault]:
    for found in backup.path.breaks:
        message = f"{backup.id}: {found.message[:1].lower()}{found.message[1:]}"
        word = Signal[found.word] if found.word else None
        yield Fault(case.at(*found.key, part=found.id), message, found.do, signal=word)
    for key, name in backup.gear_also_in(case.path):
        cover = name in case.items and case.items[name].gear.kind == "protector"
        yield Fault(
            case.at(*key, part=backup.id),
            f"{name} is in the main line and in {backup.id}.",
            "Give the backup gear of its own, and name the piece that is rigged there.",
            signal=Signal.CAUTION if cover else None,  # a protector carries nothing
        )
    if not (case.path.whole and backup.path.whole):
        return
    # Both ends of the main line: a backup may start where the main line ends.
    main = case.path.held_by(0) | case.path.held_by(1)
    for end, anchor in enumerate(backup.path.anchors):
        for point in sorted(main & backup.path.held_by(end)):
            yield Fault(
                case.on_part(anchor),
                f"The main line and {backup.id} both hang on {point}. If it fails, both fall.",
                f"Move {backup.id} to at least two points of its own at '{anchor.part.at}'.",
                signal=Signal.DANGER,
            )
    unnamed = [
        at for path in (case.path, backup.path) for placed in path.parts for at in _unnamed(case, placed)
    ]
    if unnamed:
        raise MissingInput(*unnamed)


def _unnamed(case: Case, placed: Placed) -> list[At]:
    """Return the legs of a part that do not say which point they go to."""
    legs = enumerate(placed.part.legs or [])
    return [case.on_part(placed, "legs", n, "to") for n, leg in legs if leg.to is None]
