"""The reading that stands in for the plan, where the plan says `standing_from: measured`.

What it rests on moves the whole rig then, so its ± is carried like any other.
"""

from __future__ import annotations

from datetime import date

from riglint.loads.inputs import At, MissingInput, NotComputable
from riglint.loads.measure.measured import Reading, tension_read
from riglint.loads.path.geometry import Geometry

SAYS = "plan.standing_from says 'measured'"


def standing_reading(geometry: Geometry, on: date) -> Reading | None:
    """Return the reading that the standing tension is taken from; None where the plan gives it.

    The newest by date that is not after the day judged by, of the kinds that give one tension: a pulse, a sag, a force
    read in the line. It is never passed over for an older one because a value of it is missing. Taken as the tension at
    the end that the plan means; the ends of a line differ by its weight for each metre of rise.

    Raises:
        MissingInput: a reading has no date, or the newest lacks a value.
        NotComputable: no reading can be used, and why.
    """
    rig = geometry.rig.rig
    if rig.plan is None or rig.plan.standing_from == "plan":
        return None
    _must_follow_a_reading(geometry)
    undated = [n for n, entry in enumerate(rig.measured) if entry.date is None]
    if undated:  # nobody can tell which is the newest
        raise MissingInput(*(At(geometry.rig.document, ("measured", n, "date")) for n in undated))
    usable = [
        (entry.date, n)
        for n, entry in enumerate(rig.measured)
        if entry.date is not None and entry.date <= on and entry.where != "lead_strand"
    ]
    if not usable:
        raise NotComputable(f"{SAYS}, and {_why_none(geometry, on)}")
    _, number = max(usable)
    entry = rig.measured[number]
    at = At(geometry.rig.document, ("measured", number))
    best, low, high = tension_read(geometry, None, None, entry, at)
    return Reading(number, entry.what, best, low, high, at, entry.date)


def _must_follow_a_reading(geometry: Geometry) -> None:
    """Refuse a reading where nothing stands yet, or where the lengths in the file fix the tension already.

    Raises:
        NotComputable: it cannot be followed, and why.
    """
    if geometry.rig.rig.stage == "planned":
        raise NotComputable(f"{SAYS}, but the stage is 'planned': there is no line yet to read")
    haul = geometry.path.haul
    hauled = haul is not None and haul.part.stays and geometry.path.side(haul) != "between"
    taken_in = haul is not None and hauled and haul.part.at_standing is None
    if geometry.path.whole and geometry.floating() is None and not taken_in:
        raise NotComputable(f"{SAYS}, but the lengths of the webbing in the chain fix the tension already")


def _why_none(geometry: Geometry, on: date) -> str:
    entries = geometry.rig.rig.measured
    if not entries:
        return "'measured' has no entry"
    if all(entry.where == "lead_strand" for entry in entries):
        return "a force in the lead strand only bounds the tension in the line"
    return f"no reading that gives the tension in the line is dated {on.isoformat()} or earlier"
