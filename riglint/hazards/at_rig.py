"""Which lines for the eyes concern one rig: nobody looks for rock edges in a park."""

from riglint.hazards.hazard import Where
from riglint.model.documents.parts import Part
from riglint.model.library import RigFile

OVER_ROCK = {"bolts", "boulder"}
LONG_M = 50.0  # from there on wind is asked for too, see the rule site/wind


def places(file: RigFile) -> frozenset[Where]:
    """Return what a rig has that a person must look at: a pulley, trees, bolts, edges, a leash over the void, water.

    What the file does not say counts as there: edges that nobody listed on a highline over rock, a long span.
    """
    spot = file.spot
    named = {part.at for part in file.rig.chain if part.part == "anchor"}
    kinds = {anchor.kind for name, anchor in spot.anchors.items() if name in named} if spot else set()
    found: set[Where] = {"any", *kinds, *_of_the_use(file)}
    found |= _of_what_tightens(file.rig.chain)
    if any(part.part == "legs" for part in file.rig.chain):
        found.add("legs")
    if spot is None or spot.span is None or spot.span.si > LONG_M:
        found.add("long")
    unlisted = file.rig.edges is None and "highline" in found and (not spot or bool(kinds & OVER_ROCK))
    if file.rig.edges or unlisted:
        found.add("edge")
    return frozenset(found)


def _of_what_tightens(chain: list[Part]) -> set[Where]:
    """Return what the pulley or the puller brings with it; plate and multiplier only where the file names them."""
    found: set[Where] = {"plate" for part in chain if part.part == "plate"}
    for part in chain:
        if part.part in {"haul", "puller"}:
            found.add("tightened")
        if part.part != "haul":
            continue
        found.add("haul")
        if part.plate is not None:
            found.add("plate")
        if part.multiplier is not None:
            found.add("grip")
    return found


def _of_the_use(file: RigFile) -> set[Where]:
    rig = file.rig
    found: set[Where] = set()
    if rig.use == "highline" or rig.leash is not None:
        found.add("highline")
    elif file.over_water:
        found.add("waterline")
    if rig.use == "slackrope":
        found.add("slackrope")
    return found
