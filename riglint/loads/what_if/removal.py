"""What is left when one part goes: what catches, how hard, with which ratio, and how far somebody falls.

The parts of one run hang in series: whichever of them goes, the same catches. So there is one row for each catch. The
catch of a backup, of a tie-back and of the other legs is that of the states; nothing is computed here a second time.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import partial

from riglint.loadpath import Placed
from riglint.loads.inputs import At, MissingInput, NotComputable
from riglint.loads.rig_loads import Loads
from riglint.loads.states.backup import BackupLine
from riglint.loads.states.catch import Catching
from riglint.loads.states.person import Arrests
from riglint.loads.what_if.anchor_gone import bolt_gone, shared_gone
from riglint.loads.what_if.left import Left, Removal, weakest_in
from riglint.loads.what_if.legs_gone import leg_of_backup_gone, leg_of_main_gone
from riglint.loads.what_if.sinking import to_the_ground, when_tie_back_catches
from riglint.records import dataclass

PULLER = "what you pulled the line with"


@dataclass(frozen=True, slots=True)
class MayGo:
    """Something that may go. What is then left is computed when asked for: what one row lacks holds up no other."""

    what: str  # as `Removal.what`
    find: Callable[[], Iterator[Removal]]

    def rows(self) -> list[Removal]:
        """Return what is then left.

        Raises:
            MissingInput, NotComputable: the catch cannot be computed.
        """
        return list(self.find())


def all_that_may_go(loads: Loads) -> Iterator[MayGo]:
    """Yield the main line, its pulley system and tie-back, legs, backups, leash rings, and the bolts of every end.

    Raises:
        NotComputable: a chain does not run from anchor to anchor, so that nobody knows its ends.
    """
    backups = [one for one in loads.backups if one.backs_main]
    after = backups[0].id if backups else None
    yield MayGo("series", partial(_series, loads))
    yield MayGo("haul", partial(_haul, loads))
    yield MayGo("tie-back", partial(_tie_back, loads))
    yield MayGo("ring", partial(ring_gone, loads))
    for legs in loads.path.parts:
        if legs.part.part == "legs":
            yield MayGo("leg", partial(leg_of_main_gone, loads, legs, after))
    for backup in backups:
        yield MayGo("backup", partial(_backup, loads, backup))
        yield MayGo("shared", partial(shared_gone, loads, backup))
        for legs in backup.path.parts:
            if legs.part.part == "legs":
                yield MayGo("backup leg", partial(leg_of_backup_gone, loads, backup, legs))
    for end in loads.ends():
        if end.backup is None:
            yield MayGo("bolt", partial(bolt_gone, end, after))
        elif end.backup in {one.id for one in backups}:
            yield MayGo("backup bolt", partial(bolt_gone, end, None))


def _series(loads: Loads) -> Iterator[Removal]:
    """Yield what is left when the webbing goes, or any part in series with it."""
    at = loads.geometry.on_part(loads.path.webbings[0]) if loads.path.webbings else _rig_at(loads)
    gone = "any part of the main line (ends included)"
    flies = "webbing and metal toward both anchors"
    backups = [one for one in loads.backups if one.backs_main]
    if not backups:
        down = to_the_ground(loads)
        yield Removal(
            "series",
            gone,
            at,
            None,
            None,
            "nothing",
            fall_m=down.sink_m if down else None,
            clearance_m=down.clearance_m if down else None,
            flies=flies,
        )
        return
    backup = backups[0]
    catch = loads.catch(backup)
    left = weakest_in(loads.caught(backup), backup.parts())
    clear = [
        one.least_clearance_m for one in (catch.state, catch.hanging) if one.least_clearance_m is not None
    ]
    yield Removal(
        "series",
        gone,
        at,
        backup.id,
        left,
        f"{backup.id} alone",
        fall_m=_fall_m(loads, backup),
        clearance_m=min(clear, default=None),
        flies=f"{flies}, as far as {backup.id} lets them",
        after=backups[1].id if len(backups) > 1 else None,
    )


def _fall_m(loads: Loads, backup: BackupLine) -> float | None:
    """Return how far the harness falls when the main line breaks under somebody who stands, in mid run."""
    catch, hang = loads.catch(backup), loads.leash_reach()[0]
    if catch.state.soft is None:
        return None
    from_line_m = loads.values["harness_above_line"] + hang
    return Catching(backup, loads.band).fall(from_line_m, catch.state.soft.rest).height_m


def _haul(loads: Loads) -> Iterator[Removal]:
    """Yield what is left when rope, brake or a block of the pulley system goes, or the puller; nothing of neither."""
    placed, tie = _pulled_with(loads), loads.tie_back
    if placed is None:
        return
    slung = tie is not None and tie.own_sling is not None
    gone = PULLER
    if placed is loads.path.haul:
        gone = f"the pulley system (rope, brake{', a block or its anchor sling' if slung else ' or a block'})"
    at = loads.geometry.on_part(placed)
    flies = "blocks, shackle and webbing along the line"
    if tie is None:  # in series with the main line: whatever catches that catches this
        for row in _series(loads):
            yield replace(row, what="haul", gone=gone, at=at, flies=flies)
        return
    force = loads.tie_back_catch.tension_n
    holds = loads.strengths.of_tie_back(tie.item, tie.placed).strength_n
    left = Left(f"tie-back {tie.item.id}", tie.on("gear"), force, holds / force if force else float("inf"))
    backups = [one for one in loads.backups if one.backs_main]
    down = when_tie_back_catches(loads, tie)
    yield Removal(
        "haul",
        gone,
        at,
        "the tie-back",
        left,
        "the tie-back alone",
        fall_m=down.sink_m if down else None,
        clearance_m=down.clearance_m if down else None,
        flies=f"{flies}, as far as the tie-back lets them",
        after=backups[0].id if backups else None,
    )


def _pulled_with(loads: Loads) -> Placed | None:
    """Return the pulley system or puller that stays in the line; None where the line stands without."""
    haul = loads.path.haul
    if haul is not None:
        return haul if haul.part.stays else None
    return loads.puller.placed if loads.puller is not None else None


def _tie_back(loads: Loads) -> Iterator[Removal]:
    """Yield what is left when the tie-back goes: the pulley system, as before."""
    placed, tie = _pulled_with(loads), loads.tie_back
    if placed is None or tie is None:
        return
    inside = [load for load in loads.parts if f"{load.id}.".startswith(f"{placed.id}.")]
    left = weakest_in(loads.peaks(), inside)
    system = "the pulley system" if placed is loads.path.haul else PULLER
    yield Removal(
        "tie-back", f"the tie-back {tie.item.id}", tie.on("gear"), system, left, f"{system} alone", 0.0
    )


def _backup(loads: Loads, backup: BackupLine) -> Iterator[Removal]:
    """Yield what is left when a part of a backup goes: the main line, as before."""
    left = weakest_in(loads.peaks(), loads.parts)
    yield Removal(
        "backup", f"any part of {backup.id}", backup.on(), "the main line", left, "the main line alone", 0.0
    )


def ring_gone(loads: Loads) -> Iterator[Removal]:
    """Yield what is left when one ring of the leash goes; nothing without a leash that names rings.

    The force is the highest that a fall on the leash near an end may bring, see `riglint.loads.states.person`.
    """
    leash = loads.path.rig.rig.leash
    if leash is None or not leash.rings:
        return
    at = At(loads.path.rig.document, ("leash", "rings"), "leash")
    gone = "one leash ring"
    rings = [loads.path.rig.items[name] for name in leash.rings if name in loads.path.rig.items]
    if len(rings) < 2:  # noqa: PLR2004 - no other ring
        yield Removal("ring", gone, at, None, None, "nothing")
        return
    try:
        force = Arrests(loads).hardest().high_n
    except NotComputable:  # `leash/arrest_force` tells why
        return
    found = [(item.id, item.gear.mbs.si / force) for item in rings if item.gear.mbs is not None]
    missing = [At(item.document, (*item.key, "mbs"), "leash") for item in rings if item.gear.mbs is None]
    if missing:
        raise MissingInput(*missing)
    name, ratio = min(found, key=lambda one: one[1])
    yield Removal("ring", gone, at, "the other ring", Left(f"ring {name}", at, force, ratio), "one ring", 0.0)


def _rig_at(loads: Loads) -> At:
    return At(loads.path.rig.document, ("chain",))
