"""What is left when a bolt goes, and when something goes that the main line and its backup share."""

from __future__ import annotations

from collections.abc import Iterator

from riglint.loads.inputs import At
from riglint.loads.path.ends import End
from riglint.loads.rig_loads import Loads
from riglint.loads.states.backup import BackupLine
from riglint.loads.strength.points import PointLoad
from riglint.loads.what_if.left import Left, Removal
from riglint.model.load import Key


def bolt_gone(end: End, after: str | None) -> Iterator[Removal]:
    """Yield what is left of the bolts of an end when any one of them goes; nothing of a single bolt.

    Args:
        end: the end of the main line, or of a backup, which is then taken in its catch.
        after: what catches when its other bolts go too.

    Raises:
        MissingInput, NotComputable: errors as `End.pull` and `End.points`.
    """
    left = _other_bolts(end.points(end.pull().line_n)) if end.carries else None
    if left is None:
        return
    number = len(end.point_names())
    line = f"{end.backup} in its catch" if end.backup else "the main line"
    two = number == 2  # noqa: PLR2004 - one is left
    yield Removal(
        "backup bolt" if end.backup else "bolt",
        f"any one bolt of {line} at '{end.name}'",
        end.on_structure("points"),
        "the other bolt" if two else f"the other {number - 1} bolts",
        left,
        "one bolt" if two else f"{number - 1} bolts",
        flies="what has come loose, with its connector, toward the other anchor",
        after=after,
    )


def _other_bolts(points: list[PointLoad]) -> Left | None:
    """Return the bolt that keeps least once another has gone; None where there is no other."""
    found = [
        Left(f"bolt {one.name}", one.at, one.force_one_lost_n, one.ratio_one_lost)
        for one in points
        if one.force_one_lost_n is not None and one.ratio_one_lost is not None
    ]
    return min(found, key=lambda one: one.ratio, default=None)


def shared_gone(loads: Loads, backup: BackupLine) -> Iterator[Removal]:
    """Yield each thing that the main line and a backup both hang on: with it both go, and nothing catches.

    A bolt is told only where one of the two has no other; else its legs take over, see `bolts_gone`.

    Raises:
        MissingInput, NotComputable: an end's bolts are not known.
    """
    named: dict[str, Key] = {}
    for key, name in backup.gear_also_in(loads.path):
        named.setdefault(name, key)
    for name, key in named.items():
        yield _both(f"{name}, in the main line and in {backup.id}", backup, key)
    ends = [end for end in loads.ends() if end.carries]
    main = [end for end in ends if end.backup is None]
    for end in (one for one in ends if one.backup == backup.id):
        for other in main:
            if other.name == end.name and (what := _shared_hold(other, end)) is not None:
                yield _both(f"{what}, which holds the main line and {backup.id}", backup, end.anchor.key)


def _shared_hold(main: End, backup: End) -> str | None:
    """Return the one thing of an anchor structure on which both of two ends hang with all they bear."""
    if main.structure.kind == "bolts":
        mine, theirs = set(main.point_names()), set(backup.point_names())
        return f"bolt '{min(mine)}' at '{main.name}'" if len(mine) == 1 and mine == theirs else None
    alone = main.structures() == backup.structures() == 1
    return f"{main.structure.kind.replace('_', ' ')} '{main.name}'" if alone else None


def _both(gone: str, backup: BackupLine, key: Key) -> Removal:
    at = At(backup.rig.document, key, backup.id)
    return Removal("shared", gone, at, None, None, "nothing", flies="both lines toward the other anchor")
