"""The main inputs that state no ±, each with an error that nobody measured: for guidance, never for a verdict."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from riglint.loads.inputs import At, known
from riglint.loads.rig_loads import Loads
from riglint.loads.what_if.uncertain_inputs import Inside, UncertainInput, nudged
from riglint.model.changed import with_value
from riglint.model.documents.rig import Plan
from riglint.model.library import Item, RigFile
from riglint.model.load import Key
from riglint.model.values.sources import Source
from riglint.read.quantity import Quantity
from riglint.records import dataclass

SHARE, HEIGHT_M = 0.01, 0.1  # of a main input; of a height, and of the ground between the anchors
PERCENT, HAND = f"{SHARE * 100:g} %", f"{HEIGHT_M:g} m"
SOURCE = Source(
    f"{PERCENT} of a main input, {HAND} of a height or of the ground: chosen, not measured", "own"
)
READ = {"pulse": "time", "sag": "depth", "force": "value"}  # what each kind of reading rests on most


@dataclass(frozen=True, slots=True)
class TypicalError:
    """A main input without a ±, and by how much it is moved."""

    at: At
    text: str  # as written, or what it is
    by: str  # 1 %, 0.1 m
    moved: Callable[[float], RigFile]  # by so many of that


def typical_errors_for(loads: Loads) -> list[TypicalError]:
    """Return the main inputs that state no ±: tension, heaviest user, span, heights, ground, stretch."""
    rig = loads.path.rig
    found = [*_of_plan(loads), *_of_spot(rig), *_of_heights(loads)]
    items = {placed.item.id: placed.item for placed in loads.path.webbings if placed.item}
    return found + [_stretch(rig, item) for item in items.values() if item.gear.stretch]


def _single(rig: RigFile, inside: Inside, key: Key, value: Quantity | None, by: str) -> list[TypicalError]:
    """Return one value moved by a share or a height; nothing where it is not given or states its own ±."""
    if value is None or value.plus_minus:
        return []
    error = HEIGHT_M if by == HAND else value.si * SHARE
    at = At(rig.document, key) if inside == "rig" else At(rig.spot_document, (*rig.spot_key, *key))
    one = UncertainInput(at, value.text, value.si, error, inside, key)
    return [TypicalError(at, value.text, by, lambda times: nudged(rig, one, times))]


def _of_plan(loads: Loads) -> list[TypicalError]:
    rig, plan = loads.path.rig, loads.path.rig.rig.plan
    if plan is None:
        return []
    places = [_tension(loads, plan)]
    masses = [
        (user.mass.si, n, user.mass) for n, user in enumerate(plan.users or []) if user.mass is not None
    ]
    if masses:
        _, n, mass = max(masses)
        places.append((("plan", "users", n, "mass"), mass))
    found: list[TypicalError] = []
    for key, value in places:
        found += _single(rig, "rig", key, value, PERCENT)
    return found


def _tension(loads: Loads, plan: Plan) -> tuple[Key, Quantity | None]:
    """Return what the standing tension rests on most."""
    read = known(lambda: loads.tension_reading)
    if read is not None:
        name = READ[read.what]
        return ("measured", read.number, name), getattr(loads.path.rig.rig.measured[read.number], name)
    if plan.standing_tension is None and plan.sag_target is not None:
        return ("plan", "sag_target", "depth"), plan.sag_target.depth
    return ("plan", "standing_tension"), plan.standing_tension


def _of_spot(rig: RigFile) -> list[TypicalError]:
    spot = rig.spot
    if spot is None:
        return []
    span = spot.span
    found = _single(rig, "spot", ("span",), span, PERCENT)
    profile = spot.ground.profile if spot.ground is not None else None
    if not profile or len(profile) < 3 or any(up.plus_minus for _, up in profile):  # noqa: PLR2004 - two ends
        return found

    def raised(times: float) -> RigFile:
        inner = [(along, up._replace(si=up.si + times * HEIGHT_M)) for along, up in profile[1:-1]]
        return replace(rig, spot=with_value(spot, ("ground", "profile"), [profile[0], *inner, profile[-1]]))

    at = At(rig.spot_document, rig.spot_place(("ground", "profile")))
    return [*found, TypicalError(at, "all points between the ends", HAND, raised)]


def _of_heights(loads: Loads) -> list[TypicalError]:
    found: list[TypicalError] = []
    for placed in loads.path.anchors if loads.path.whole else ():
        found += _single(loads.path.rig, "rig", (*placed.key, "height"), placed.part.height, HAND)
    return found


def _stretch(rig: RigFile, item: Item) -> TypicalError:
    """Return a webbing's whole curve softer by a share."""

    def softer(times: float) -> RigFile:
        curve = tuple((force, strain * (1.0 + times * SHARE)) for force, strain in item.gear.stretch or ())
        gear = item.gear.model_copy(update={"stretch": curve})
        return replace(rig, items={**rig.items, item.id: replace(item, gear=gear)})

    return TypicalError(At(item.document, (*item.key, "stretch")), "the whole curve", PERCENT, softer)
