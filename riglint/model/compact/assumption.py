"""A value that a rig leaves out and that its parts tell: between which ends it lies, and what says so."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any, Literal, NamedTuple

from riglint.model.changed import with_value
from riglint.model.sentences import Key
from riglint.model.values.sources import Source
from riglint.records import dataclass

if TYPE_CHECKING:
    from riglint.model.library import RigFile


class AssumedEnd(NamedTuple):
    """One value that the parts allow: as a file would write it, and as the model holds it."""

    text: str
    value: Any


@dataclass(frozen=True, slots=True)
class Assumption:
    """One value that is taken because the rig does not say.

    Every rule judges the rig at each end, and the worst counts; numbers are computed with the first one.
    """

    name: str  # such as `stretch of W-1`
    inside: Literal["rig", "gear"]
    keys: tuple[Key, ...]  # below that; several where one value is taken for all of them
    gear: str  # its name in the gear list; empty inside the rig
    ends: tuple[AssumedEnd, ...]
    value: str  # all of them in words: `46 to 333 g/m`
    of_line: bool  # whether the shape of the whole line goes with it, or only its own part
    why: str  # what says so, after "from"
    look_up: str  # what a person does to know it
    source: Source

    def put(self, rig: RigFile, end: AssumedEnd) -> RigFile:
        """Return a rig with the value written in."""
        for key in self.keys:
            if self.inside == "rig":
                rig = replace(rig, rig=with_value(rig.rig, key, end.value))
            else:
                item = rig.items[self.gear]
                held = replace(item, gear=with_value(item.gear, key, end.value))
                rig = replace(rig, items={**rig.items, self.gear: held})
        return rig
