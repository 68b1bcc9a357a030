"""Every place where a rope, or webbing in a backup, ends under load, and how it is made fast there."""

from __future__ import annotations

from collections.abc import Iterator

from riglint.loadpath import Placed
from riglint.loads.inputs import At
from riglint.loads.strength.strengths import is_slick
from riglint.model.library import Item
from riglint.records import dataclass
from riglint.rulekit.case import Case
from riglint.rulekit.rules import Each


@dataclass(frozen=True, slots=True)
class RopeEnd:
    """One end: where the file says how it is made, what ends there, and how."""

    at: At
    words: str  # the end, as a sentence names it
    made: str | None  # sewn, spliced, or the knot; None where the file does not say
    gear: Item | None  # what ends there, where its shelf entry is known
    asked: bool = True  # whether a rule must know how it is made
    hangs_slack: bool = False  # whether it hangs unloaded while people walk
    webbing: bool = False  # webbing of a line, in which no knot belongs
    tape: bool = False  # webbing of a tie-back, in which a knot for flat tape holds


def rope_ends(case: Case) -> Iterator[RopeEnd]:
    """Yield every end of a rope: of the haul, of tie-backs, of the leash, and of lines of rope or webbing."""
    main = {one.key for one in case.path.parts}
    for placed in {one.key: one for run in case.loads.runs for one in run}.values():
        backup = placed.key[0] == "backups"
        if placed.part.part == "rope_knot" or (placed.part.part == "webbing_knot" and backup):
            yield _of_line(case, placed, hangs_slack=backup)
        elif placed.part.part == "webbing_knot" and placed.part.knot == "none":
            yield _of_line(case, placed, hangs_slack=False)
        if placed.key in main:
            yield from _of_haul(case, placed)
            yield from _of_tie_back(case, placed)


def _of_line(case: Case, placed: Placed, *, hangs_slack: bool) -> RopeEnd:
    lines = [one for one in case.beside(placed) if one.part.part in {"rope", "webbing"}]
    line = lines[0] if lines else placed
    words = f"the end of {line.words} at {placed.id}" if lines else f"the end at {placed.id}"
    webbing = placed.part.part == "webbing_knot"
    return RopeEnd(
        case.on_part(placed, "knot"),
        words,
        placed.part.knot,
        line.item,
        hangs_slack=hangs_slack,
        webbing=webbing,
    )


def _of_haul(case: Case, placed: Placed) -> Iterator[RopeEnd]:
    rope = placed.part.rope
    if placed.part.part == "haul" and rope is not None:
        end = rope.dead_end
        at = case.on_part(placed, "rope", "dead_end", "ends")
        words = "the dead end of the pulley system's rope"
        yield RopeEnd(at, words, end.ends if end else None, case.items.get(rope.gear or ""))


def _of_tie_back(case: Case, placed: Placed) -> Iterator[RopeEnd]:
    tie = placed.part.tie_back
    item = case.items.get(tie.gear or "") if tie is not None else None
    if tie is not None and item is not None and item.gear.kind in {"rope", "cord", "webbing"}:
        yield RopeEnd(
            case.on_part(placed, "tie_back", "ends"),
            f"the tie-back {item.id}",
            tie.ends,
            item,
            asked=is_slick(item),
            hangs_slack=True,
            tape=item.gear.kind == "webbing",
        )


each_rope_end: Each[RopeEnd] = Each("every end of a rope, of backups and tie-backs too", rope_ends)
