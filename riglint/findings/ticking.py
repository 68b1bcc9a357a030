"""What is ticked on site, written into a rig file: the values and the checks that confirm them."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import NamedTuple

import yaml

from riglint.loads.inputs import At
from riglint.model.changed import value_at
from riglint.read.yaml_edit import CannotEditError, Nodes, TextEdit, edited
from riglint.records import dataclass
from riglint.rulekit import Case
from riglint.rulekit.ticks import confirmed, ticks

# What each tick asks, and what a yes writes; None where the file says already what is looked at.
ASKED: dict[str, tuple[str, str | None]] = {
    "pins": ("Every pin and gate is closed", "true"),
    "tail_tied": ("The webbing tail is tied off", "true"),
    "locked": ("The brake is locked or tied off", "true"),
    "threading_checked": ("A second person has checked the threading of the brake", "true"),
    "stopper": ("The stopper knot behind the brake is tied as the file says", None),
    "tied_off": ("The rope tail is tied off", "true"),
    "left_on": ("The multiplier is off", "false"),
    "partner_check": ("A partner has checked the leash", "true"),
}


@dataclass(frozen=True, slots=True)
class Box:
    """One box to tick: what it asks, and all places of the file that a yes is about."""

    words: str
    places: tuple[At, ...]
    value: str | None


class Signed(NamedTuple):
    """Who looked, when, and at which tension."""

    by: str
    day: date
    tension: str | None


def boxes(case: Case) -> Iterator[Box]:
    """Yield the boxes of a rig that are still to be ticked, in the order of the load.

    Legs that share an entry of the file share a box. What stands in a kit has none: other rigs have that kit too.
    """
    found: dict[tuple[object, ...], list[At]] = {}
    for at in {at.key: at for at in ticks(case)}.values():
        if at.path == case.file.document.path and not at.in_kit and not _is_settled(case, at):
            held = at.document.places.get(at.key[:-1])
            found.setdefault((held, at.key[-1]), []).append(at)
    for places in found.values():
        asked, value = ASKED[str(places[0].key[-1])]
        words = list(dict.fromkeys(_part_words(case, at) for at in places))
        yield Box(f"{asked}: {', '.join(words)}", tuple(places), value)


def _is_settled(case: Case, at: At) -> bool:
    """Whether a check confirms it, or there is nothing to look at: no brake, no multiplier, no knot on file."""
    rig, last = case.rig, str(at.key[-1])
    if value_at(rig, at.key) is not None and confirmed(case, at):
        return True
    if last in {"locked", "threading_checked", "left_on"} and value_at(rig, at.key[:-1]) is None:
        return True
    return last == "stopper" and value_at(rig, at.key) is None


def _part_words(case: Case, at: At) -> str:
    placed = next((one for one in case.path.parts if one.id == at.part), None)
    return case.path.count_words(placed) if placed is not None else str(at.part or "leash")


def ticked(text: str, done: list[Box], signed: Signed, stage: str | None = None) -> str:
    """Return the text of a rig file with boxes ticked; everything else stays, letter by letter.

    Args:
        text: the file.
        done: the boxes.
        signed: who ticked them.
        stage: the stage that the rig has now, if it changes.

    Raises:
        CannotEditError: the file is written in a way that must be edited by hand.
    """
    nodes = Nodes(text)
    edits = [_edit(nodes, box) for box in done if box.value is not None]
    if stage is not None:
        edits.append(nodes.set_key(nodes.root, "stage", stage))
    if done:
        edits.append(nodes.add_entries("checks", list(_entries(done, signed))))
    new = edited(text, _joined(edits))
    yaml.compose(new, Loader=yaml.SafeLoader)  # which raises where the edits do not fit together
    return new


def _edit(nodes: Nodes, box: Box) -> TextEdit:
    at = box.places[0]
    place = at.document.places.get(at.key[:-1])
    group = nodes.at(place) if place is not None else None
    if group is None:
        raise CannotEditError(f"{at.key_text} has no place in the file. Write it by hand.")
    return nodes.set_key(group, str(at.key[-1]), str(box.value))


def _joined(edits: list[TextEdit]) -> list[TextEdit]:
    """Return edits with those at the same letter joined in their order; two for one name alone become one."""
    found: dict[tuple[int, int], TextEdit] = {}
    for edit in edits:
        old = found.get((edit.start, edit.end))
        if old is None:
            found[edit.start, edit.end] = edit
        elif edit.start == edit.end:
            found[edit.start, edit.end] = edit._replace(text=old.text + edit.text)
        else:  # a name alone, with two keys
            found[edit.start, edit.end] = edit._replace(text=f"{old.text[:-1]},{edit.text.partition(',')[2]}")
    return list(found.values())


def _entries(done: list[Box], signed: Signed) -> Iterator[str]:
    after = f", after_tension: {signed.tension}" if signed.tension else ""
    for box in done:
        for at in box.places:
            yield f'{{what: "{at.key_text}", by: {signed.by}, date: {signed.day}{after}}}'
