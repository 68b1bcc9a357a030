"""Values that no verdict waits for and a rule would still hold something against: what a label or a tape tells.

A value that a verdict needs is asked for by its rule. These are read where they stand and pass in silence where they do
not; so whoever fills in the file is told once, in one line, which of them are not there.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from riglint.model.kinds import GEAR, GEAR_SHARED, TEXTILE_FORMS, TEXTILE_KINDS
from riglint.model.library import Item
from riglint.rulekit.case import Case

# Of each piece, what its label says or a tape shows, where its kind takes the key.
OF_GEAR = (
    "mbs_minor",
    "material",
    "standard",
    "label",
    "width",
    "thickness",
    "length",
    "diameter",
    "width_min",
    "width_max",
    "rope_min",
    "rope_max",
    "holds",
    "max_load",
    "sheaves",
    "type",
    "shape",
    "pin",
    "connector_class",
)
OF_FIBRES = ("made", "inspected", "days_used")
# Where others carry a breaking strength or a rated load, these carry both; a leash is judged by its standard first.
OF_KIND = {"puller": ("mbs", "wll"), "leash": ("mbs",), "round_sling": ("wll",), "flat_sling": ("wll",)}
CHECKED = frozenset({"protector", "dynamometer"})  # no fibres that carry a load, and looked over all the same
OF_RIG = ("use", "backups")
OF_PLAN = (
    "standing_at",
    "walk_zone",
    "moves",
    "first_day",
    "spotters",
    "watcher",
    "wet",
    "unattended",
)
OF_CREW = ("haulers", "pull_each")
OF_CHECK = ("date", "after_tension")
OF_TREE = ("girth_at", "lean")
OF_BOLT = ("placed", "tested", "standard", "spacing", "edge")
OF_OBSTACLE = ("along", "aside", "height")


def not_filled_in(case: Case, items: Iterable[Item]) -> Iterator[str]:
    """Yield the name of each key that is not there, once for every piece, part or place that lacks it."""
    for item in items:
        yield from _of_item(item)
    yield from _of_rig(case)
    yield from _of_spot(case)


def _of_item(item: Item) -> Iterator[str]:
    gear = item.gear
    ages = gear.kind in TEXTILE_KINDS or gear.form in TEXTILE_FORMS
    asked = OF_GEAR + (OF_FIBRES if ages else ("inspected",) if gear.kind in CHECKED else ())
    asked += OF_KIND.get(gear.kind, ())
    taken = GEAR[gear.kind].takes | GEAR_SHARED
    yield from (key for key in asked if key in taken and getattr(gear, key) is None)


def _of_rig(case: Case) -> Iterator[str]:
    rig, plan = case.rig, case.plan
    yield from (key for key in OF_RIG if getattr(rig, key) is None)
    written = plan.model_fields_set if plan is not None else frozenset()
    yield from (key for key in OF_PLAN if key not in written)
    crew = plan.crew if plan is not None else None
    yield from (key for key in OF_CREW if getattr(crew, key, None) is None)
    webbings = [placed.part for run in case.loads.runs for placed in run if placed.part.part == "webbing"]
    yield from ("cut" for part in webbings if part.cut is None)
    yield from ("holds" for backup in rig.backups or [] if backup.holds is None)
    yield from (key for check in rig.checks for key in OF_CHECK if getattr(check, key) is None)
    for edge in rig.edges or []:
        yield from (key for key in ("at", "from_anchor") if getattr(edge, key) is None)


def _of_spot(case: Case) -> Iterator[str]:
    spot = case.spot
    if spot is None:
        return
    for anchor in spot.anchors.values():
        yield from (key for key in OF_TREE if anchor.kind == "tree" and getattr(anchor, key) is None)
        for bolt in anchor.points.values():
            yield from (key for key in OF_BOLT if getattr(bolt, key) is None)
    if spot.ground is None or spot.ground.profile_from is None:
        yield "profile_from"
    if spot.permission is None or spot.permission.until is None:
        yield "until"
    around = spot.surroundings
    for thing in (around.obstacles if around is not None else None) or []:
        yield from (key for key in OF_OBSTACLE if getattr(thing, key) is None)
