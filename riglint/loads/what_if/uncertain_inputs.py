"""Values written with a ±: which a rig has, and the rig with one of them moved.

First order: each value is moved by its ± to both ends, half the difference is its effect, and the effects of several
add up as the root of the sum of their squares, as independent ones do (JCGM 100:2008, 5.1.2, equation 10, where the
± is one standard uncertainty). The ± inside a stretch table is not carried.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from functools import cache
from math import hypot
from typing import Annotated, Any, Literal, get_args, get_origin

from pydantic import BaseModel

from riglint.loadpath import build
from riglint.loads.inputs import At
from riglint.loads.rig_loads import Loads
from riglint.model.changed import with_value
from riglint.model.documents.spot import Spot
from riglint.model.library import RigFile
from riglint.model.load import Key
from riglint.read.quantity import Quantity
from riglint.records import dataclass

MOST = 12  # inputs that a sheet ranks
MOST_WEIGHED = 40  # inputs that findings are weighed with: each costs two judgements of the whole rig
Inside = Literal["rig", "spot", "gear"]


@dataclass(frozen=True, slots=True)
class UncertainInput:
    """One value with its ±, in SI."""

    at: At
    text: str  # as written
    si: float
    plus_minus: float
    inside: Inside
    key: Key  # below that
    gear: str = ""  # its shelf name

    @property
    def name(self) -> str:
        """What sets it apart: file and key."""
        return f"{self.at.path}:{self.at.key_text}"


def uncertain_inputs(rig: RigFile) -> list[UncertainInput]:
    """Return every value with a ± in the rig, its spot and the gear that it names, in that order, each as written."""
    written = dict(leaves(rig.rig.model_copy(update={"spot": None, "shelf": []})))
    found = [
        UncertainInput(At(rig.document, key), value.text, value.si, value.plus_minus, "rig", key)
        for key, value in written.items()
        if isinstance(value, Quantity) and value.plus_minus > 0.0
    ]
    for key, value in _uncertain(rig.spot):
        at = At(rig.spot_document, rig.spot_place(key))
        found.append(UncertainInput(at, value.text, value.si, value.plus_minus, "spot", key))
    named = {value for value in written.values() if isinstance(value, str)}
    for name in sorted(named & rig.items.keys()):
        item = rig.items[name]
        for key, value in _uncertain(item.gear):
            at = At(item.document, (*item.key, *key))
            found.append(UncertainInput(at, value.text, value.si, value.plus_minus, "gear", key, name))
    return found


def moved_ones(rig: RigFile, most: int = MOST) -> tuple[list[UncertainInput], list[UncertainInput]]:
    """Return the inputs that are moved, at most so many, in order, and those left out: with the least share ±."""
    found = uncertain_inputs(rig)
    by_share = sorted(found, key=lambda one: -one.plus_minus / abs(one.si) if one.si else float("-inf"))
    kept = by_share[:most]
    return [one for one in found if one in kept], by_share[most:]


def nudged(rig: RigFile, moved: UncertainInput, by: float) -> RigFile:
    """Return a rig with one input moved by so many of its ±, and exactly known there; the ground goes with the span."""
    value = Quantity(moved.si + by * moved.plus_minus, 0.0, moved.text)
    if moved.inside == "rig":
        return replace(rig, rig=with_value(rig.rig, moved.key, value))
    if moved.inside == "spot":
        spot = with_value(rig.spot, moved.key, value)
        return replace(rig, spot=_with_ground(spot, value.si / moved.si) if moved.key == ("span",) else spot)
    item = rig.items[moved.gear]
    gear = with_value(item.gear, moved.key, value)
    return replace(rig, items={**rig.items, moved.gear: replace(item, gear=gear)})


def _with_ground(spot: Spot, times: float) -> Spot:
    """Let the ground under a span grow with it: one tape measured both, and the profile ends at the far anchor."""
    if spot.ground is None or spot.ground.profile is None:
        return spot
    profile = [(along._replace(si=along.si * times), up) for along, up in spot.ground.profile]
    return spot.model_copy(update={"ground": spot.ground.model_copy(update={"profile": profile})})


def nudged_loads(loads: Loads, moved: UncertainInput, by: float) -> Loads:
    """Return the loads of a rig with one input moved.

    The catches on backups are most of the work. A ± of the spot hardly moves them, so there they stay as they are.
    """
    again = Loads(build(nudged(loads.path.rig, moved, by)), loads.values, loads.on)
    if moved.inside == "spot":
        again.take_catches(loads)
    return again


def combined(effects: list[float]) -> float:
    """Return the ± of a result from the effects of its independent inputs: the root of the sum of squares."""
    return hypot(*effects)


def _uncertain(node: Any, key: Key = ()) -> Iterator[tuple[Key, Quantity]]:
    """Yield every value with a ± below a model, as `leaves` names it."""
    if isinstance(node, Quantity):
        if node.plus_minus > 0.0:
            yield key, node
    elif isinstance(node, BaseModel):
        values = node.__dict__
        for name, written in _holding(type(node)):
            if values[name] is not None:
                yield from _uncertain(values[name], (*key, written))
    elif isinstance(node, dict):
        for name, value in node.items():
            yield from _uncertain(value, (*key, name))
    elif isinstance(node, list | tuple):
        for n, value in enumerate(node):
            yield from _uncertain(value, (*key, n))


_PLAIN = (str, int, float, bool, date, type(None), ...)


def _may_hold(annotation: Any) -> bool:
    """Whether a field of a type may hold a quantity, itself or below."""
    if get_origin(annotation) is Literal or any(annotation is one for one in _PLAIN):
        return False
    inside = get_args(annotation)[: 1 if get_origin(annotation) is Annotated else None]
    return not inside or any(map(_may_hold, inside))


def leaves(node: Any, key: Key = ()) -> Iterator[tuple[Key, Any]]:
    """Yield every value that a model gives, with its key as the file writes it."""
    if isinstance(node, BaseModel):
        values = node.__dict__
        for name, written in _names(type(node)):
            value = values[name]
            if value is not None:
                yield from leaves(value, (*key, written))
    elif isinstance(node, dict):
        for name, value in node.items():
            yield from leaves(value, (*key, name))
    elif isinstance(node, list | tuple) and not isinstance(node, Quantity):
        for n, value in enumerate(node):
            yield from leaves(value, (*key, n))
    else:
        yield key, node


@cache
def _holding(model: type[BaseModel]) -> tuple[tuple[str, str], ...]:
    """Return the fields of a model that may hold a quantity, each with its key in a file."""
    held = {name for name, field in model.model_fields.items() if _may_hold(field.annotation)}
    return tuple(one for one in _names(model) if one[0] in held)


@cache
def _names(model: type[BaseModel]) -> tuple[tuple[str, str], ...]:
    """Return the fields of a model, each with its key in a file."""
    return tuple((name, field.alias or name) for name, field in model.model_fields.items())
