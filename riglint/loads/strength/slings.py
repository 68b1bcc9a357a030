"""Every sling of a rig in its place, with what it goes round: of all lines, of legs, of what is made fast."""

from __future__ import annotations

from collections.abc import Iterator

from riglint.loadpath import Contact, LoadPath, Placed, toward_line
from riglint.loads.inputs import At
from riglint.loads.path.geometry import Geometry
from riglint.loads.rig_loads import Loads
from riglint.records import dataclass


@dataclass(frozen=True, slots=True)
class LaidSling:
    """A sling as it is laid, and the chain that it is part of."""

    placed: Placed
    contact: Contact
    geometry: Geometry

    @property
    def path(self) -> LoadPath:
        """The chain that it is part of."""
        return self.geometry.path

    @property
    def words(self) -> str:
        """What a person calls it."""
        return self.placed.words

    @property
    def toward_line(self) -> Placed | None:
        """The part that hangs in it on the webbing's side."""
        return toward_line(self.path, self.placed)

    def at(self, *key: str | int) -> At:
        """Return a place below it in the rig file."""
        return self.geometry.on_part(self.placed, *key)

    def on_structure(self, *key: str) -> At:
        """Return a place below the structure that it goes round, on the spot."""
        anchor = self.contact.anchor or self.path.anchor_of(self.placed).part.at or ""
        return self.geometry.on_spot("anchors", anchor, *key)


def slings_of(loads: Loads) -> Iterator[LaidSling]:
    """Yield every sling, those of the main line first; of a haul that stays, nothing is made fast."""
    for geometry in (loads.geometry, *(backup.geometry for backup in loads.backups)):
        for placed in geometry.path.everything:
            if placed.part.part == "sling" and not _idle(geometry.path, placed):
                yield LaidSling(placed, geometry.contact(placed), geometry)


def _idle(path: LoadPath, placed: Placed) -> bool:
    holder = path.parts[path.number(placed)]
    return holder.part.part == "haul" and holder.part.stays
