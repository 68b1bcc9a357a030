"""What is left of a spread of legs when one of them goes: under the main line, or under a backup in its catch."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from riglint.loadpath import Placed
from riglint.loads.inputs import MissingInput
from riglint.loads.path.geometry import Geometry
from riglint.loads.path.parts import PartLoad
from riglint.loads.rig_loads import Loads
from riglint.loads.states.backup import BackupLine
from riglint.loads.states.line import State
from riglint.loads.what_if.left import Removal, weakest
from riglint.loads.what_if.sinking import sinks
from riglint.mechanics.anchors.bolts import leg_forces_n


def leg_of_main_gone(loads: Loads, legs: Placed, after: str | None) -> Iterator[Removal]:
    """Yield what is left of legs of the main line; `after` is what catches when they go too.

    Raises:
        MissingInput, NotComputable: share or angle, a strength or the states are not known.
    """
    spread, extension = _LegsOneFewer(loads.geometry, legs, loads.parts, loads.peaks()), legs.part.extension
    down = sinks(loads, loads.path.side(legs), extension.si) if extension else None
    for row in spread.one_gone("leg", "", after):
        yield replace(
            row, fall_m=down.sink_m if down else None, clearance_m=down.clearance_m if down else None
        )


def leg_of_backup_gone(loads: Loads, backup: BackupLine, legs: Placed) -> Iterator[Removal]:
    """Yield what is left of legs of a backup in its catch; errors as `leg_of_main_gone`."""
    spread = _LegsOneFewer(backup.geometry, legs, backup.parts(), loads.caught(backup))
    yield from spread.one_gone("backup leg", f" of {backup.id} in its catch", None)


class _LegsOneFewer:
    """Legs of one line and the states that they must bear."""

    def __init__(self, geometry: Geometry, legs: Placed, parts: list[PartLoad], states: list[State]) -> None:
        self.geometry, self.legs, self.parts, self.states = geometry, legs, parts, states

    def one_gone(self, what: str, whose: str, after: str | None) -> Iterator[Removal]:
        """Yield the row; nothing of a single leg, which is part of the series."""
        number = len(self.legs.part.legs or [])
        if number < 2:  # noqa: PLR2004 - no other leg
            return
        rest = number - 1
        yield Removal(
            what,
            f"one leg{whose} at '{self.geometry.anchor_of(self.legs).part.at}'",
            self.geometry.on_part(self.legs),
            "the other leg" if rest == 1 else f"the other {rest} legs",
            weakest(list(self._others())),
            "one leg" if rest == 1 else f"{rest} legs",
            flies="what has come loose, with its connector, toward the other anchor",
            after=after,
        )

    def _others(self) -> Iterator[tuple[PartLoad, float, float, float]]:
        """Yield each part inside the legs with its force and ratio once one other leg has gone, and its ratio now."""
        legs, first = self.legs, self.geometry.path.side(self.legs) == "a"
        share, angle = legs.part.share, legs.part.included_angle
        missing = [
            self.geometry.on_part(legs, key)
            for key, value in (("share", share), ("included_angle", angle))
            if value is None
        ]
        if share is None or angle is None:
            raise MissingInput(*missing)
        tension = max((one.tension_a_n if first else one.tension_b_n for one in self.states), default=0.0)
        force = max(leg_forces_n(tension, len(legs.part.legs or []) - 1, share, angle.si))
        for load in self.parts:
            if load.id.startswith(f"{legs.id}.") and not load.untied and force:
                now = load.worst(self.states)  # None of a spare that hangs slack so far
                ratio = load.strength.strength_n / force
                yield load, force, ratio, now.ratio if now else float("inf")
