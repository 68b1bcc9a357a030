"""What differs between two rigs, so that only what rests on it need run again; see `riglint.model.reads`."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import field
from typing import Any, TypeVar

from pydantic import BaseModel

from riglint.model.library import RigFile
from riglint.model.reads import EVERYTHING, Read, is_noted, reading, rests_on
from riglint.records import dataclass

T = TypeVar("T")


@dataclass(slots=True)
class Changes:
    """What differs between two rigs: numbers, by the models of the first; and the models that took their places."""

    numbers: set[Read] = field(default_factory=set)
    instead: dict[int, int] = field(default_factory=dict)
    beyond: bool = False  # whether anything else differs than numbers that are taken note of
    _undecided: dict[Read, tuple[object, object]] = field(default_factory=dict)

    def touch(self, read: frozenset[Read]) -> bool:
        """Return whether a computation that read these must run again."""
        if self.beyond or EVERYTHING in read or not self.numbers.isdisjoint(read):
            return True
        return any(self._decided(one) for one in [*self._undecided] if one in read)

    def decide(self, old: object, new: object, *names: str) -> None:
        """Compare values of these names (see `decided`) that two things have of the rigs, once something read one."""
        self.instead[id(old)] = id(new)
        self._undecided |= {(id(old), name): (old, new) for name in names}

    def _decided(self, one: Read) -> bool:
        """Return whether such a value differs; where it can't be computed, whoever asks for it must say so."""
        old, new = self._undecided.pop(one)
        try:
            differs = bool(getattr(old, one[1]) != getattr(new, one[1]))
        except Exception:  # noqa: BLE001 - as above
            differs = True
        if differs:
            self.numbers.add(one)
        return differs

    def moved(self, read: frozenset[Read]) -> frozenset[Read]:
        """Return the same numbers as they are called in the second rig."""
        instead = self.instead
        return frozenset([(instead[one[0]], one[1]) if one[0] in instead else one for one in read])


def changes(old: RigFile, new: RigFile) -> Changes:
    """Return what differs between two rigs of one file."""
    found = Changes()
    found.beyond = (
        old.document is not new.document
        or old.spot_document is not new.spot_document
        or old.spot_key != new.spot_key
        or old.refers_to != new.refers_to
        or old.items.keys() != new.items.keys()
        or any(old.items[name].document is not item.document for name, item in new.items.items())
        or any(old.items[name].key != item.key for name, item in new.items.items())
    )
    _compare(old.rig, new.rig, found, None)
    _compare(old.spot, new.spot, found, None)
    for name, item in new.items.items():
        if not found.beyond:
            _compare(old.items[name].gear, item.gear, found, None)
    return found


def _compare(old: Any, new: Any, found: Changes, holder: tuple[BaseModel, str] | None) -> None:
    """Take note of what differs below two values; `holder` is the model and field that they are the values of."""
    if old is new:
        return
    if isinstance(old, BaseModel) and type(old) is type(new):
        found.instead[id(old)] = id(new)
        mine, other = old.__dict__, new.__dict__
        found.beyond |= mine.keys() != other.keys()
        for name in mine.keys() & other.keys():
            _compare(mine[name], other[name], found, (old, name))
    elif _same_length(old, new) and any(isinstance(one, BaseModel) for one in old):
        for one, another in zip(old, new, strict=True):
            _compare(one, another, found, holder)
    elif isinstance(old, dict) and isinstance(new, dict) and old.keys() == new.keys():
        for name in old:
            _compare(old[name], new[name], found, holder)
    elif holder is not None and is_noted(*holder):
        if not _alike(old, new):
            found.numbers.add((id(holder[0]), holder[1]))
    else:
        found.beyond = True


def _alike(old: Any, new: Any) -> bool:
    """Whether two numbers, or lists of them, are the same to the last digit, sign of zero and text included."""
    return type(old) is type(new) and old == new and repr(old) == repr(new)


def _same_length(old: Any, new: Any) -> bool:
    return isinstance(old, list) and isinstance(new, list) and len(old) == len(new)


def read_elsewhere(compute: Callable[[], T], different: Changes) -> T:
    """Return what is computed of another rig, and take note of what it reads as it is called in this one.

    Args:
        compute: computes it.
        different: what differs between that rig and this one.
    """
    with reading() as read:
        value = compute()
    rests_on(different.moved(read.all()))
    return value
