"""Which lines for the eyes concern one rig: nobody looks for rock edges in a park."""

from riglint.hazards.hazard import Where
from riglint.model.library import RigFile

OVER_ROCK = {"bolts", "boulder"}


def places(file: RigFile) -> frozenset[Where]:
    """Return what a rig has that a person must look at: a pulley, trees, bolts, edges, a leash over the void, water.

    What the file does not say counts as there: on a highline over rock, edges that nobody listed.
    """
    rig, spot = file.rig, file.spot
    found: set[Where] = {"any"}
    if any(part.part in {"haul", "puller"} for part in rig.chain):
        found.add("haul")
    surface = spot.ground.surface if spot and spot.ground else None
    if rig.use == "waterline" or (surface == "water" and rig.leash is None):
        found.add("waterline")
    if rig.use == "highline" or rig.leash is not None:
        found.add("highline")
    named = {part.at for part in rig.chain if part.part == "anchor"}
    kinds = {anchor.kind for name, anchor in spot.anchors.items() if name in named} if spot else set()
    found |= kinds
    if rig.edges or (rig.edges is None and "highline" in found and (not spot or kinds & OVER_ROCK)):
        found.add("edge")
    return frozenset(found)
