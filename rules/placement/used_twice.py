"""The leash, its rings and every backup have gear of their own.

Pieces that one chain names twice are told by `chain/order`, what main line and backup share by `backup/independence`.
"""

from collections.abc import Iterator
from typing import NamedTuple

from riglint.rulekit import (
    PRACTICE,
    At,
    Case,
    Each,
    Fault,
    Signal,
    faulty,
    gear_named,
    insert_before,
    rule,
    sound,
)

RING = {"part": "ring", "gear": "RI-1"}
BACKUP = "backups[0].chain"


class Named(NamedTuple):
    """One place that names a piece of gear, outside of the main line's chain."""

    at: At
    name: str
    words: str
    before: str  # the place that names the same piece before, in words; empty where none does


def _named(case: Case) -> Iterator[Named]:
    """Yield each place of leash and backups with the place before it that names the same piece."""
    seen = {name: "the main line" for _, name in gear_named(case.path.parts)}
    backups: dict[str, str] = {}
    for backup in case.loads.backups:
        for key, name in gear_named(backup.path.parts):
            before = backups.get(name, "")
            yield Named(case.at(*key, part=backup.id), name, backup.id, "" if before == backup.id else before)
            backups.setdefault(name, backup.id)
    seen |= backups
    leash = case.rig.leash
    if leash is None:
        return
    places = [(("leash", "gear"), leash.gear)] if leash.gear else []
    places += [(("leash", "rings", n), ring) for n, ring in enumerate(leash.rings or [])]  # type: ignore[misc]
    for key, name in places:
        yield Named(case.at(*key, part="leash"), name or "", "the leash", seen.get(name or "", ""))
        seen.setdefault(name or "", "the leash")


each_named: Each[Named] = Each("every piece that leash and backups name", _named)


@rule(
    title="One piece of gear is in two places",
    each=each_named,
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    why="One piece can only be in one place. In the other hangs something unrecorded, or nothing.",
    formula="no piece of the leash in main line, backup or leash again; none in two backups",
    sources=(PRACTICE,),
    prevents=("one_piece_in_two_places",),
    examples=(
        sound("low"),
        sound("highline"),
        faulty("highline", {"chain[3]": insert_before(RING)}, at="leash.rings[0]", signal=Signal.DANGER),
        faulty("highline", {f"{BACKUP}[3]": insert_before(RING)}, at="leash.rings[0]", signal=Signal.DANGER),
        faulty("highline", {"leash.rings": ["RI-1", "RI-1"]}, at="leash.rings[1]", signal=Signal.DANGER),
        faulty(
            "low",
            {"leash": {"rings": ["RI-1", "RI-1"]}, "shelf[0].items.RI-1": {"kind": "ring"}, "use": "midline"},
            at="leash.rings[1]",
            signal=Signal.DANGER,
        ),
    ),
)
def used_twice(_case: Case, named: Named) -> Iterator[Fault]:
    if named.before:
        yield Fault(
            named.at,
            f"{named.name} is in {named.before} and in "
            f"{named.words}{' again' if named.before == named.words else ''}.",
            f"One piece can only be in one place. Name the piece that is rigged in {named.words}.",
            value=named.name,
        )
