"""The pulley system: its rope's length, the block that the rope ends on, how close the blocks come together."""

from __future__ import annotations

from collections.abc import Iterator

from riglint.loads.rig_loads import Loads
from riglint.model.compact.assumption import AssumedEnd, Assumption
from riglint.model.documents.parts import Part
from riglint.model.library import Item
from riglint.model.sentences import Key
from riglint.model.values.defaults import DEFAULTS
from riglint.model.values.sources import Source
from riglint.read.quantity import Quantity

GEAR_LIST = Source("its entry in the gear list", "own")
REEVING = Source("geometry: with an odd number of strands the rope ends on the moving block", "own")


def of_haul(loads: Loads) -> Iterator[Assumption]:
    """Yield what a pulley system leaves out and its pieces tell."""
    haul = loads.path.haul
    if haul is None:
        return
    items = loads.path.rig.items
    yield from _rope_length(haul.key, haul.part, items)
    yield from _dead_end(haul.key, haul.part)
    yield from _closed(haul.key, haul.part, loads)


def _rope_length(key: Key, part: Part, items: dict[str, Item]) -> Iterator[Assumption]:
    rope = part.rope
    item = items.get(rope.gear or "") if rope is not None else None
    if rope is None or rope.length is not None or item is None or item.gear.length is None:
        return
    length = item.gear.length
    yield Assumption(
        f"length of rope {item.id} in the pulley system",
        "rig",
        ((*key, "rope", "length"),),
        "",
        (AssumedEnd(length.text, length),),
        length.text,
        of_line=False,
        why="its length in the gear list",
        look_up=f"measure {item.id}",
        source=GEAR_LIST,
    )


def _dead_end(key: Key, part: Part) -> Iterator[Assumption]:
    end = part.rope.dead_end if part.rope is not None else None
    if end is None or end.on is not None or part.strands is None:
        return
    block = "moving_block" if part.strands % 2 else "fixed_block"
    words = block.replace("_", " ")
    yield Assumption(
        "block that the rope ends on",
        "rig",
        ((*key, "rope", "dead_end", "on"),),
        "",
        (AssumedEnd(block, block),),
        words,
        of_line=False,
        why=f"the {part.strands} strands",
        look_up="look where the rope is tied",
        source=REEVING,
    )


def _closed(key: Key, part: Part, loads: Loads) -> Iterator[Assumption]:
    blocks = [loads.path.rig.items.get(name or "") for name in (part.moving_block, part.fixed_block)]
    if part.closed is not None or any(one is None for one in blocks):
        return
    values = loads.values
    whole = [one.gear.reach.si if one.gear.reach else values["block_length"] for one in blocks if one]
    longest_m = sum(whole) + values["reach.connector"] + values["dead_end_knot"]
    shortest_m = min(0.5 * sum(whole), 2.0 * values["reach.block"])
    names = " and ".join(one.id for one in blocks if one)
    yield Assumption(
        "distance between the blocks when closed",
        "rig",
        ((*key, "closed"),),
        "",
        tuple(_metres(one) for one in (longest_m, shortest_m)),
        f"{longest_m:.2f} m",
        of_line=False,
        why=f"the length of {names} and of the dead end between them",
        look_up="pull the blocks together and measure from axle to axle",
        source=DEFAULTS["block_length"].source,
    )


def _metres(si: float) -> AssumedEnd:
    text = f"{si:.2f} m"
    return AssumedEnd(text, Quantity(si, 0.0, text))
