"""Where a rig names its gear: each place of the chain, with the kinds of gear that may stand there."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

from riglint.model.changed import value_at, with_value
from riglint.model.documents.parts import Part
from riglint.model.documents.rig import Rig
from riglint.model.references import LEASH_RINGS, LEASHES
from riglint.model.sentences import Key
from riglint.model.vocabulary import kinds
from riglint.read.problems import key_text


class GearPlace(NamedTuple):
    """One place of a rig: where its gear is named, what may stand there, and what does."""

    key: Key
    part: str  # the id of its part in the load path
    kinds: frozenset[str]
    name: str


def places_of(rig: Rig) -> Iterator[GearPlace]:
    """Yield every place where a rig names a piece of gear, in the order of its load."""
    yield from _in_chain(("chain",), rig.chain)
    for n, backup in enumerate(rig.backups or []):
        yield from _in_chain(("backups", n, "chain"), backup.chain)
    if rig.leash is not None and rig.leash.gear is not None:
        yield GearPlace(("leash", "gear"), "leash", LEASHES, rig.leash.gear)
    for n, ring in enumerate((rig.leash.rings or []) if rig.leash else []):
        yield GearPlace(("leash", "rings", n), "leash", LEASH_RINGS, ring)


def _in_chain(key: Key, parts: list[Part]) -> Iterator[GearPlace]:
    for n, part in enumerate(parts):
        at = (*key, n)
        if part.gear is not None and part.part in kinds.GEAR_OF_PART:
            yield GearPlace((*at, "gear"), _id(at), kinds.GEAR_OF_PART[part.part], part.gear)
        for path, allowed in kinds.GEAR_OF_HAUL.items() if part.part in {"haul", "puller"} else ():
            inside = (*at, *path.split("."))
            name = value_at(part, tuple(path.split(".")))
            if isinstance(name, str):
                yield GearPlace(inside, _id_inside(at, path), allowed, name)
        yield from _in_chain((*at, "made_fast"), part.made_fast or [])
        for m, leg in enumerate(part.legs or []):
            yield from _in_chain((*at, "legs", m, "chain"), leg.chain)


def _id(key: Key) -> str:
    """Return the id of a part: of a leg without the word `chain` inside it."""
    *way, last = key
    return f"{key_text(tuple(way[:-1]))}[{last}]" if "legs" in way else key_text(key)


def _id_inside(key: Key, path: str) -> str:
    words = path.split(".")
    told = {"rope.gear": "rope", "rope.dead_end.by": "dead_end", "brake.connector": "brake_connector"}
    inside = told.get(path) or ".".join(words[:-1] if words[-1] == "gear" else words)
    return f"{key_text(key)}.{inside}"


def with_piece(rig: Rig, place: GearPlace, name: str) -> Rig:
    """Return a rig with another piece in one place; a tie-back that was tied to the old piece holds the new one."""
    changed: Rig = with_value(rig, place.key, name)
    for key in [key for key in _tied(rig) if value_at(rig, key) == place.name]:
        changed = with_value(changed, key, name)
    return changed


def _tied(rig: Rig) -> Iterator[Key]:
    """Yield where a rig names a piece as something that is held or gone round."""
    chains: list[tuple[Key, Any]] = [(("chain",), rig.chain)]
    chains += [(("backups", n, "chain"), one.chain) for n, one in enumerate(rig.backups or [])]
    for key, parts in chains:
        for n, part in enumerate(parts):
            if part.tie_back is not None:
                yield (*key, n, "tie_back", "from")
            if part.around is not None:
                yield (*key, n, "around")
