"""Which pieces of gear a rig uses, and a fingerprint that changes when what was checked changes."""

from __future__ import annotations

from hashlib import sha256
from typing import TYPE_CHECKING, Any

from riglint.loadpath import gear_named
from riglint.model.changed import value_at
from riglint.model.library import Item
from riglint.model.load import Key
from riglint.read.document import Document
from riglint.read.yaml_text import resolved

if TYPE_CHECKING:
    from riglint.loads.rig_loads import Loads

# What is written into a rig while it stands, so that it changes no fingerprint.
LOGGED = frozenset({"riglint", "title", "stage", "checks", "measured", "accepted", "spot", "shelf"})
DIGITS = 4  # of each third: one change in 65,536 goes unseen


def used_names(loads: Loads) -> list[str]:
    """Return what the chain, the leash and the backups name, each once, in order, on the gear list or not."""
    rig = loads.path.rig.rig
    names = [name for _, name in gear_named(loads.path.parts)]
    if rig.leash:
        names += [name for name in (rig.leash.gear, *(rig.leash.rings or [])) if name]
    for backup in loads.backups:
        names += [name for _, name in gear_named(backup.path.parts)]
    return list(dict.fromkeys(names))


def used_items(loads: Loads) -> list[Item]:
    """Return every piece of gear that the chain, the leash and the backups name, each once, in order."""
    items = loads.path.rig.items
    return [items[name] for name in used_names(loads) if name in items]


def fingerprint(loads: Loads) -> str:
    """Return three short words that change with the rig, its spot and the gear that it uses, such as 3f9a-0b7c-e21d.

    It tells whether the files are still those that somebody checked; it is no proof against forgery.
    """
    rig = loads.path.rig
    own = written(rig.document, ())
    plan = {key: value for key, value in own.items() if key not in LOGGED}
    spot = written(rig.spot_document, rig.spot_key)
    gear = {item.id: written(item.document, item.key) for item in used_items(loads)}
    return "-".join(_short(one) for one in (plan, spot, gear))


def written(document: Document, key: Key) -> Any:
    """Return what a document says at a key, as plain values; None where nothing is written there."""
    return resolved(value_at(document.data, key))


def _short(data: Any) -> str:
    import json  # noqa: PLC0415 - only what prints a fingerprint pays for it

    return sha256(json.dumps(data, sort_keys=True, default=str).encode()).hexdigest()[:DIGITS]
