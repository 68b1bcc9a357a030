"""What each part of a pulley system is called on its drawing, where it sits, and what is wrong with it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from riglint.loads import Loads
from riglint.loads.haul.pulleys import Haul
from riglint.loads.inputs import known
from riglint.model.vocabulary.words import in_prose
from riglint.records import dataclass
from riglint.views.drawing.reeving import Block, Reeving, turns_at
from riglint.views.figures import number

Place = Literal[
    "fixed_block", "moving_block", "dead_end", "lead", "brake", "tail", "tie_back", "grip", "pulley",
    "fixed_pulley", "hand", "redirect",
]  # fmt: skip
NOT_NAMED = "not named in the file"


@dataclass(frozen=True, slots=True)
class NamedPart:
    """One part, in the order of the list below the drawing."""

    place: Place
    words: str
    wrong: str = ""


def named_of(loads: Loads, haul: Haul, reeving: Reeving) -> tuple[NamedPart, ...]:
    """Return every part that the drawing points at."""
    return (
        *_blocks(haul, reeving),
        _dead_end(haul, reeving),
        _lead(reeving),
        *_brake(haul, reeving),
        *_tail(haul),
        *_tie_back(loads, haul),
        *_multiplier(haul, reeving),
        *_hands(loads, haul),
    )


def _blocks(haul: Haul, reeving: Reeving) -> Iterator[NamedPart]:
    part, anchor = haul.part, _anchor(haul)
    plate = f" on plate {part.plate}" if part.plate else ""
    spare = dict(reeving.spare_sheaves)
    fixed = f"fixed block {part.fixed_block or NOT_NAMED}{plate}, at {anchor}"
    yield NamedPart("fixed_block", fixed, _too_few(reeving, "fixed", spare))
    moving = f"moving block {part.moving_block or NOT_NAMED}, on the line"
    yield NamedPart("moving_block", moving, _too_few(reeving, "moving", spare))


def _anchor(haul: Haul) -> str:
    """Return the anchor on the side of the haul; a chain that does not end in anchors is drawn as it is."""
    path = haul.geometry.path
    first, last = path.parts[0], path.parts[-1]
    end = first if path.side(haul.placed) == "a" else last
    return f"anchor {end.part.at}" if end.part.at else "the anchor"


def _too_few(reeving: Reeving, block: Block, spare: dict[Block, int]) -> str:
    if spare.get(block, 0) >= 0:
        return ""
    turns = turns_at(reeving.strands, block)
    return f"The rope turns here {turns} times. The block has {turns + spare[block]} sheaves."


def _dead_end(haul: Haul, reeving: Reeving) -> NamedPart:
    end = haul.part.rope.dead_end if haul.part.rope else None
    by = [one for one in (end.by, in_prose(end.ends) if end.ends else None) if one] if end else []
    on = reeving.tied_to or reeving.ends_on
    words = ", ".join([f"dead end on the {on} block", *by])
    if reeving.tied_to is None:
        return NamedPart("dead_end", f"{words} (the file does not say where)")
    wrong = (
        f"{len(reeving.strands)} strands end on the {reeving.ends_on} block, not here."
        if reeving.tied_to != reeving.ends_on
        else ""
    )
    return NamedPart("dead_end", words, wrong)


def _lead(reeving: Reeving) -> NamedPart:
    block = reeving.strands[0].start
    to = "to the brake" if reeving.has_brake else "to the hands"
    return NamedPart("lead", f"lead strand, off the {block} block {to}")


def _brake(haul: Haul, reeving: Reeving) -> Iterator[NamedPart]:
    brake = haul.part.brake
    if brake is None:
        yield NamedPart("brake", "no brake in the file", "Nothing holds the lead when the hands let go.")
        return
    by = f" on {brake.connector}" if brake.connector else ""
    checked = "" if brake.threading_checked else "; have the threading checked"
    words = f"brake {brake.gear or NOT_NAMED}{by}: lead in, tail out to the hand{checked}"
    wrong = (
        "The brake is on the moving block. It belongs at the anchor."
        if reeving.brake_side == "moving"
        else ""
    )
    yield NamedPart("brake", words, wrong)


def _tail(haul: Haul) -> Iterator[NamedPart]:
    tail = haul.part.rope_tail
    if tail is None or tail.stopper is None:
        yield NamedPart("tail", "tail behind the brake; the file names no stopper knot")
        return
    at = f" {tail.stopper_at.text} behind the brake" if tail.stopper_at else ""
    left = f", {tail.left.text} of tail beyond" if tail.left else ""
    if tail.stopper == "none":
        yield NamedPart("tail", f"tail behind the brake{left}", "No stopper knot: the rope can run out.")
        return
    wrong = "This knot can run through the brake." if haul.stopper_holds is False else ""
    yield NamedPart("tail", f"stopper knot: {in_prose(tail.stopper)}{at}{left}", wrong)


def _tie_back(loads: Loads, haul: Haul) -> Iterator[NamedPart]:
    tie = haul.part.tie_back
    if tie is None:
        return
    held = next((one.words for one in loads.path.parts if tie.from_ in one.names), None)
    ends = f", {in_prose(tie.ends)}" if tie.ends else ""
    sling = f" on its own sling {tie.sling}" if tie.sling else ""
    slack = f", slack {tie.slack.text}" if tie.slack else ""
    from_ = held or tie.from_ or "a part that the file does not name"
    to = tie.to or "an anchor that the file does not name"
    yield NamedPart("tie_back", f"tie-back {tie.gear or NOT_NAMED}{ends}: from {from_} to {to}{sling}{slack}")


def _multiplier(haul: Haul, reeving: Reeving) -> Iterator[NamedPart]:
    tackle = haul.part.multiplier
    if tackle is None or reeving.multiplier == 1:
        return
    bites = {"toward_load": ", bites toward the load", "toward_hand": ", bites toward the hand"}
    grip = f"grip {tackle.grip or NOT_NAMED} on the {reeving.grip_on}{bites.get(tackle.bites or '', '')}"
    yield NamedPart("grip", grip, _grip_wrong(tackle.bites, reeving))
    by = f" on {tackle.connector}" if tackle.connector else ""
    rope = "a rope of its own" if reeving.multiplier % 2 == 0 else "the returning tail"
    yield NamedPart(
        "pulley", f"pulley {tackle.pulley or NOT_NAMED}{by} for {rope}: {reeving.multiplier}:1 on the grip"
    )
    if any("pulley" in (run.start, run.end) for run in reeving.tail):
        yield NamedPart("fixed_pulley", "fixed end of the multiplier, not in the file")


def _grip_wrong(bites: str | None, reeving: Reeving) -> str:
    if bites == "toward_hand":
        return "Turned round: the grip slides as soon as you pull."
    if reeving.grip_on == "tail":
        return "On the tail, all that it pulls must also drag through the brake."
    return ""


def _hands(loads: Loads, haul: Haul) -> Iterator[NamedPart]:
    pull = haul.part.pull
    count = known(lambda: haul.haulers)
    force = known(lambda: haul.to_reach(loads.standing_tension_n).hand_n)
    people = f"{count} {'person' if count == 1 else 'people'}" if count else "the crew"
    pulls = f", {number(force / 1000.0)} kN in all" if force is not None else ""
    where = {"aside": ", to the side of the line", "behind": ", behind the anchor in line with it"}
    stand = pull.stand if pull and pull.stand else None
    words = f"hands: {people}{pulls}{where.get(stand or '', '; the file does not say where they stand')}"
    wrong = "Parts fly this way when something breaks. Stand to the side." if stand == "behind" else ""
    yield NamedPart("hand", words, wrong)
    if pull and pull.redirect:
        turn = f", turns the hand strand {pull.redirect.turn.text}" if pull.redirect.turn else ""
        yield NamedPart("redirect", f"redirect pulley {pull.redirect.gear or NOT_NAMED}{turn}")
