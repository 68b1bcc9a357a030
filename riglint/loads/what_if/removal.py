"""What is left when one part goes: what catches, how hard, with which ratio, and how far somebody falls.

The parts of one run hang in series: whichever of them goes, the same catches. So there is one row for each catch. The
catch of a backup, of a tie-back and of the other legs is that of the states; nothing is computed here a second time.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from riglint.loadpath import Placed
from riglint.loads.inputs import At, MissingInput, NotComputable
from riglint.loads.path.parts import PartLoad
from riglint.loads.rig_loads import Loads
from riglint.loads.states.backup import BackupLine
from riglint.loads.states.catch import Catching
from riglint.loads.states.person import Arrests
from riglint.loads.what_if.anchor_gone import bolts_gone, shared_gone
from riglint.loads.what_if.left import Left, Removal, weakest
from riglint.mechanics.anchors.bolts import leg_forces_n


def removals(loads: Loads) -> Iterator[Removal]:
    """Yield what is left for each part that may go.

    Raises:
        MissingInput, NotComputable: one of the catches cannot be computed.
    """
    yield _series(loads)
    haul = _haul(loads)
    if haul is not None:
        yield haul
    tie_back = _tie_back(loads)
    if tie_back is not None:
        yield tie_back
    yield from legs_gone(loads)
    yield from bolts_gone(loads)
    for backup in loads.backups:
        if backup.backs_main:
            yield _backup(loads, backup)
            yield from shared_gone(loads, backup)
    ring = ring_gone(loads)
    if ring is not None:
        yield ring


def _series(loads: Loads) -> Removal:
    """Return what is left when the webbing goes, or any part in series with it."""
    at = loads.geometry.on_part(loads.path.webbings[0]) if loads.path.webbings else _rig_at(loads)
    gone = "any single part of the main line, webbing and ends included"
    flies = "webbing and metal toward both anchors"
    backups = [one for one in loads.backups if one.backs_main]
    if not backups:
        return Removal("series", gone, at, None, None, "nothing", flies=flies)
    backup = backups[0]
    catch = loads.catch(backup)
    states = loads.caught(backup)
    worst = [(load, load.worst(states)) for load in backup.parts()]
    left = weakest([(load, one.force_n, one.ratio) for load, one in worst if one is not None])
    clear = [
        one.least_clearance_m for one in (catch.state, catch.hanging) if one.least_clearance_m is not None
    ]
    return Removal(
        "series",
        gone,
        at,
        backup.id,
        left,
        f"{backup.id} alone",
        fall_m=_fall_m(loads, backup),
        clearance_m=min(clear, default=None),
    )


def _fall_m(loads: Loads, backup: BackupLine) -> float | None:
    """Return how far the harness falls when the main line breaks under somebody who stands, in mid run."""
    catch, hang = loads.catch(backup), loads.leash_reach()[0]
    if catch.state.soft is None:
        return None
    from_line_m = loads.values["harness_above_line"] + hang
    return Catching(backup, loads.band).fall(from_line_m, catch.state.soft.rest).height_m


def _haul(loads: Loads) -> Removal | None:
    """Return what is left when rope, brake or a block of the pulley system goes; None where none stays in the line."""
    haul = loads.path.haul
    if haul is None or not haul.part.stays:
        return None
    gone = "pulley system: rope, brake or a block"
    at, tie = loads.geometry.on_part(haul), loads.tie_back
    if tie is None:  # in series with the main line: whatever catches that catches this
        flies = "blocks, shackle and webbing along the line"
        return replace(_series(loads), what="haul", gone=gone, at=at, flies=flies)
    force = loads.tie_back_catch.tension_n
    holds = loads.strengths.of_tie_back(tie.item, tie.placed).strength_n
    left = Left(f"tie-back {tie.item.id}", tie.on("gear"), force, holds / force if force else float("inf"))
    return Removal("haul", gone, at, "the tie-back", left, "the tie-back alone", fall_m=tie.slack_m)


def _tie_back(loads: Loads) -> Removal | None:
    """Return what is left when the tie-back goes: the pulley system, as before."""
    haul, tie = loads.path.haul, loads.tie_back
    if haul is None or tie is None or not haul.part.stays:
        return None
    peaks = loads.peaks()
    worst = [(load, load.worst(peaks)) for load in loads.parts if load.id.startswith(f"{haul.id}.")]
    left = weakest([(load, one.force_n, one.ratio) for load, one in worst if one is not None])
    system = "the pulley system"
    return Removal(
        "tie-back", f"tie-back {tie.item.id}", tie.on("gear"), system, left, f"{system} alone", 0.0
    )


def legs_gone(loads: Loads) -> Iterator[Removal]:
    """Yield what is left of each spread of legs of the main line when one leg goes; errors as `removals`."""
    peaks = loads.peaks()
    for legs in loads.path.parts:
        if legs.part.part != "legs":
            continue
        number = len(legs.part.legs or [])
        gone, at = f"one leg at '{loads.geometry.anchor_of(legs).part.at}'", loads.geometry.on_part(legs)
        if number < 2:  # noqa: PLR2004 - one leg is part of the series
            continue
        tensions = [one.tension_a_n if loads.path.side(legs) == "a" else one.tension_b_n for one in peaks]
        left = weakest(list(_other_legs(loads, legs, max(tensions))))
        extension = legs.part.extension
        rest = number - 1
        yield Removal(
            "leg",
            gone,
            at,
            "the other leg" if rest == 1 else f"the other {rest} legs",
            left,
            "one leg" if rest == 1 else f"{rest} legs",
            fall_m=extension.si if extension else None,
        )


def _other_legs(loads: Loads, legs: Placed, tension_n: float) -> Iterator[tuple[PartLoad, float, float]]:
    """Yield each part inside the legs with its force and ratio once one other leg has gone."""
    number = len(legs.part.legs or [])
    share, angle = legs.part.share, legs.part.included_angle
    missing = [
        loads.geometry.on_part(legs, key)
        for key, value in (("share", share), ("included_angle", angle))
        if value is None
    ]
    if share is None or angle is None:
        raise MissingInput(*missing)
    force = max(leg_forces_n(tension_n, number - 1, share, angle.si))
    for load in loads.parts:
        if load.id.startswith(f"{legs.id}.") and not load.untied:
            doubled = load.force_of(1.0) / _share(load, legs)
            yield load, force * doubled, load.strength.strength_n / (force * doubled)


def _share(load: PartLoad, legs: Placed) -> float:
    """Return the share of the line's tension that its leg bears with all legs holding."""
    share, angle = legs.part.share, legs.part.included_angle
    if share is None or angle is None or not load.force_of(1.0):
        return 1.0
    forces = leg_forces_n(1.0, len(legs.part.legs or []), share, angle.si)
    return min(
        (one for one in forces if one > 0.0), key=lambda one: abs(one - load.force_of(1.0)), default=1.0
    )


def _backup(loads: Loads, backup: BackupLine) -> Removal:
    """Return what is left when a part of a backup goes: the main line, as before."""
    peaks = loads.peaks()
    worst = [(load, load.worst(peaks)) for load in loads.parts]
    left = weakest([(load, one.force_n, one.ratio) for load, one in worst if one is not None])
    return Removal(
        "backup", f"any part of {backup.id}", backup.on(), "the main line", left, "the main line alone", 0.0
    )


def ring_gone(loads: Loads) -> Removal | None:
    """Return what is left when one ring of the leash goes; None without a leash that names rings.

    The force is the highest that a fall on the leash near an end may bring, see `riglint.loads.states.person`.
    """
    leash = loads.path.rig.rig.leash
    if leash is None or not leash.rings:
        return None
    at = At(loads.path.rig.document, ("leash", "rings"), "leash")
    gone = "one leash ring"
    rings = [loads.path.rig.items[name] for name in leash.rings if name in loads.path.rig.items]
    if len(rings) < 2:  # noqa: PLR2004 - no other ring
        return Removal("ring", gone, at, None, None, "nothing")
    try:
        force = Arrests(loads).hardest().high_n
    except NotComputable:
        return None
    found = [(item.id, item.gear.mbs.si / force) for item in rings if item.gear.mbs is not None]
    missing = [At(item.document, (*item.key, "mbs"), "leash") for item in rings if item.gear.mbs is None]
    if missing:
        raise MissingInput(*missing)
    name, ratio = min(found, key=lambda one: one[1])
    return Removal(
        "ring", gone, at, "the other ring", Left(f"ring {name}", at, force, ratio), "one ring", 0.0
    )


def _rig_at(loads: Loads) -> At:
    return At(loads.path.rig.document, ("chain",))
