"""Pieces that took each other's place, told in one line each, and what else was written otherwise."""

from __future__ import annotations

import re
from collections.abc import Iterator

from riglint.findings.variation.comparing import Moved, RigChange
from riglint.records import dataclass

_GEAR = re.compile(r"^gear (?P<piece>.+?)\.(?P<key>[^.\s]+(?:\..*)?)$")
# What may differ from piece to piece and changes no verdict by itself.
_SAID_LAST = ("title", "made", "inspected", "label")


@dataclass(frozen=True, slots=True)
class Swap:
    """A piece in place of another; one of the two is empty where a piece was only added or taken out."""

    old: str
    new: str
    kind: str
    differs: tuple[Moved, ...]  # by the keys of the pieces

    @property
    def in_words(self) -> str:
        """What happened, in words."""
        kind = self.kind.replace("_", " ")
        if not self.new:
            return f"{kind} {self.old} taken out"
        if not self.old:
            return f"{kind} {self.new} added"
        return f"{kind} {self.old} swapped for {self.new}"


def swaps(rig: RigChange) -> tuple[list[Swap], list[Moved]]:
    """Return the pieces that came and went, in pairs of one kind, and all inputs that these do not explain."""
    gone, come, left = _pieces(rig)
    found = list(_paired(gone, come))
    names = {name: one for one in found for name in (one.old, one.new) if name}
    return found, [one for one in left if not _explained(one, names, left)]


def _pieces(rig: RigChange) -> tuple[dict[str, dict[str, str]], dict[str, dict[str, str]], list[Moved]]:
    gone: dict[str, dict[str, str]] = {}
    come: dict[str, dict[str, str]] = {}
    left = []
    for moved in rig.inputs:
        match = _GEAR.match(moved.name)
        if match is None or (moved.old is not None and moved.new is not None):
            left.append(moved)
        elif moved.new is None:
            gone.setdefault(match["piece"], {})[match["key"]] = str(moved.old)
        else:
            come.setdefault(match["piece"], {})[match["key"]] = str(moved.new)
    for side, is_gone in ((gone, True), (come, False)):  # a key that came or went in a piece that stays
        for piece in [one for one in side if "kind" not in side[one]]:
            for key, value in side.pop(piece).items():
                name = f"gear {piece}.{key}"
                left.append(Moved(name, value, None) if is_gone else Moved(name, None, value))
    return gone, come, left


def _paired(gone: dict[str, dict[str, str]], come: dict[str, dict[str, str]]) -> Iterator[Swap]:
    waiting = dict(come)
    for piece, held in gone.items():
        kind = held["kind"]
        other = next((one for one in waiting if waiting[one]["kind"] == kind), "")
        now = waiting.pop(other, {})
        keys = [key for key in dict.fromkeys([*held, *now]) if held.get(key) != now.get(key)] if other else []
        keys.sort(key=lambda key: key in _SAID_LAST)
        yield Swap(piece, other, kind, tuple(Moved(key, held.get(key), now.get(key)) for key in keys))
    for piece, held in waiting.items():
        yield Swap("", piece, held["kind"], ())


def _explained(moved: Moved, names: dict[str, Swap], left: list[Moved]) -> bool:
    """Return whether an input moved only because its part is called by a piece that was swapped for another."""
    swap = next((one for name, one in names.items() if _speaks_of(moved.name, name)), None)
    if swap is None:
        return moved.name.endswith(".gear") and {moved.old, moved.new} <= {*names, None}
    if not (swap.old and swap.new):
        return False
    twin = (
        moved.name.replace(swap.old, swap.new)
        if moved.new is None
        else moved.name.replace(swap.new, swap.old)
    )
    other = next((one for one in left if one.name == twin), None)
    if other is None:
        return False
    values = {one for one in (moved.old, moved.new, other.old, other.new) if one is not None}
    return len(values) == 1 or values <= {swap.old, swap.new}


def _speaks_of(name: str, piece: str) -> bool:
    return re.search(rf"(?<![\w-]){re.escape(piece)}(?![\w-])", name) is not None


def renamed(moved: list[Moved], found: list[Swap]) -> list[Moved]:
    """Return values by part with those of a swapped piece laid beside those of the piece before it."""
    known = {one.name: one for one in moved}
    taken: set[str] = set()
    rows = []
    for one in moved:
        pair = next(
            (
                (swap, twin)
                for swap in found
                if swap.old and swap.new and one.new is None and _speaks_of(one.name, swap.old)
                for twin in [known.get(one.name.replace(swap.old, swap.new))]
                if twin is not None and twin.old is None
            ),
            None,
        )
        if pair is None:
            rows.append(one)
            continue
        swap, twin = pair
        taken.add(twin.name)
        rows.append(
            Moved(one.name.replace(swap.old, f"{swap.old} → {swap.new}"), one.old, twin.new, one.unit)
        )
    return [one for one in rows if one.name not in taken]
