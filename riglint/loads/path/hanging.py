"""What a pulley system weighs, and how far it drags its end of the line down."""

from __future__ import annotations

from riglint.loads.haul.pulleys import Haul
from riglint.loads.path.geometry import G
from riglint.model.library import Item
from riglint.records import dataclass


@dataclass(frozen=True, slots=True)
class Hanging:
    """A pulley system that hangs in the line."""

    mass_kg: float  # blocks, plate, brake, and the rope between the blocks
    long_m: float  # from its anchor to the webbing

    def dip_m(self, tension_n: float) -> float:
        """Return how far it hangs below the straight line at a tension (N), at most: W·a/T.

        The whole weight is taken at its webbing end, a from the anchor, and the rest of the line as having no end:
        W·a·(L − a)/(T·L) with the span L is less. Source: statics of a taut string with one load.
        """
        return self.mass_kg * G * self.long_m / tension_n


def hanging(haul: Haul, blocks_m: float) -> Hanging:
    """Return what hangs in the line with the blocks so far apart; gear without a mass counts as usual gear.

    Raises:
        MissingInput: the strands are not given.
    """
    part = haul.part
    brake = part.brake.gear if part.brake else None
    named = [
        ("mass.pulley", part.moving_block),
        ("mass.pulley", part.fixed_block),
        ("mass.plate", part.plate),
        ("mass.brake", brake),
    ]
    metal = sum(_mass_kg(haul, name, usual) for usual, name in named if name is not None)
    rope = haul.geometry.rig.items.get((part.rope.gear if part.rope else None) or "")
    given = rope.gear.mass_per_metre if rope is not None else None
    per_metre = given.si if given is not None else haul.values["mass.rope"]
    return Hanging(metal + per_metre * haul.strands * blocks_m, haul.to_anchor_m(blocks_m))


def _mass_kg(haul: Haul, name: str, usual: str) -> float:
    item: Item | None = haul.geometry.rig.items.get(name)
    given = item.gear.mass if item is not None else None
    return given.si if given is not None else haul.values[usual]
