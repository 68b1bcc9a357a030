"""What joins two parts that lie side by side, and whether the parts inside a leg can stand there."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from riglint.loadpath.contacts import Contact, leg_target, toward_anchor
from riglint.loadpath.path import AGAINST, IDLE, Break, LoadPath, Placed, first_up

# Of these no two hang in one another without a shackle, a link or a join. A puller has hooks or eyes of its own; two
# slings are judged as a joint of textiles.
SEPARATE = frozenset({"sling", "webbing_anchor", "sewn_end", "haul", "rope_knot"})
# The pin of a webbing anchor may hold a sewn loop.
DIRECT = (frozenset({"webbing_anchor", "sewn_end"}), frozenset({"sling"}))
# What a loop of sling may be laid over without a shackle.
OVER_METAL = frozenset({"webbing_anchor", "haul"})
# What may stand in a leg: one that goes to an anchor carries no webbing, no pulley and no further spread.
IN_LEGS = frozenset(
    {
        "sling",
        "shackle",
        "connector",
        "quick_link",
        "ring",
        "swivel",
        "plate",
        "protector",
        "rope",
        "rope_knot",
    }
)


def unjoined(path: LoadPath) -> Iterator[Break]:
    """Yield every two parts that lie side by side with nothing named that joins them."""
    for run in (path.parts, *(leg for one in path.parts for leg in path.leg_runs(one))):
        carrying = [one for one in run if one.part.part not in IDLE]
        for one, other in pairwise(carrying):
            kinds = frozenset({_ends_in(one), _ends_in(other)})
            if kinds <= SEPARATE and kinds not in DIRECT and not _looped(path, one, other):
                message = f"The file has nothing between {one.words} and {other.words}."
                do = "Name the shackle, link or join between the two, so that we can judge it too."
                yield Break(other.id, other.key, message, do, False, "WARNING")


def _looped(path: LoadPath, one: Placed, other: Placed) -> bool:
    """Return whether one of two parts is a loop that itself joins two pieces of metal, laid over both."""
    for loop, beside in ((one, other), (other, one)):
        if loop.part.part == "sling" and loop.part.hitch == "straight" and beside.part.part in OVER_METAL:
            return toward_anchor(path, loop).part is not None
    return False


def _ends_in(placed: Placed) -> str:
    """Return the kind of a part; of a spread of legs the kind that its legs end in."""
    ends = [leg.chain[-1].part for leg in placed.part.legs or [] if leg.chain]
    return next((end for end in ends if end in SEPARATE), placed.part.part)


def inside_legs(path: LoadPath) -> Iterator[Break]:
    """Yield what cannot stand in a leg, or not next to what the leg goes to."""
    for holder in path.parts:
        for leg, run in zip(holder.part.legs or [], path.leg_runs(holder), strict=True):
            yield from _no_part_of_a_leg(run)
            if path.ends_in_anchors:  # else told by itself, and no leg is known to go anywhere
                yield from _at_its_target(holder, leg_target(path, holder, leg), run)


def _no_part_of_a_leg(run: tuple[Placed, ...]) -> Iterator[Break]:
    for one in run:
        if one.part.part not in IN_LEGS:
            message = f"{first_up(one.words)} is inside a leg, and no leg can hold that."
            do = "Keep only the parts that tie the leg to its point: slings, shackles, links."
            yield Break(one.id, one.key, message, do, False)


def _at_its_target(holder: Placed, target: Contact, run: tuple[Placed, ...]) -> Iterator[Break]:
    """Yield a leg with nothing, or the wrong thing, round what it goes to."""
    first = next((one for one in run if one.part.part not in IDLE), None)
    against = AGAINST.get(target.kind)
    if first is None and target.kind in {"tree", "boulder"}:
        message = f"The leg to {target.words} names no part, so nothing goes round it."
        do = f"Name the sling round {target.words}."
        yield Break(holder.id, holder.key, message, do, False, "WARNING")
    elif first is not None and against is not None and first.part.part not in against:
        message = f"{first_up(first.words)} is next to {target.words} with nothing round it."
        yield Break(first.id, first.key, message, f"Add the sling that goes round {target.words}.", False)
