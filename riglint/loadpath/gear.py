"""Which pieces of gear a chain names, and with which keys."""

from riglint.loadpath.path import Placed
from riglint.model.documents.parts import Part
from riglint.model.load import Key


def gear_named(parts: tuple[Placed, ...]) -> list[tuple[Key, str]]:
    """Return every piece of gear that the chain names, with the key that names it."""
    found: list[tuple[Key, str]] = []
    for placed in parts:
        if placed.part.gear:
            found.append(((*placed.key, "gear"), placed.part.gear))
        if placed.part.part in {"haul", "puller"}:
            found += [((*placed.key, *path), name) for path, name in haul_gear(placed.part)]
        if placed.part.legs:
            for m, leg in enumerate(placed.part.legs):
                key = (*placed.key, "legs", m, "chain")
                found += [((*key, n, "gear"), one.gear) for n, one in enumerate(leg.chain) if one.gear]
        for n, one in enumerate(placed.part.made_fast or []):
            if one.gear:
                found.append(((*placed.key, "made_fast", n, "gear"), one.gear))
    return found


def haul_gear(haul: Part) -> list[tuple[Key, str]]:
    """Return the gear inside a haul, or of the tie-back of a puller, with the keys that name it."""
    rope, brake, tackle, tie, pull = haul.rope, haul.brake, haul.multiplier, haul.tie_back, haul.pull
    end = rope.dead_end if rope else None
    redirect = pull.redirect if pull else None
    named: list[tuple[Key, str | None]] = [
        (("moving_block",), haul.moving_block),
        (("fixed_block",), haul.fixed_block),
        (("plate",), haul.plate),
        (("rope", "gear"), rope.gear if rope else None),
        (("rope", "dead_end", "by"), end.by if end else None),
        (("brake", "gear"), brake.gear if brake else None),
        (("brake", "connector"), brake.connector if brake else None),
        (("multiplier", "grip"), tackle.grip if tackle else None),
        (("multiplier", "pulley"), tackle.pulley if tackle else None),
        (("multiplier", "connector"), tackle.connector if tackle else None),
        (("tie_back", "gear"), tie.gear if tie else None),
        (("tie_back", "sling"), tie.sling if tie else None),
        (("pull", "redirect", "gear"), redirect.gear if redirect else None),
    ]
    return [(key, name) for key, name in named if name]
