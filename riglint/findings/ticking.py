"""What is ticked on site, written into a rig file: the values and the checks that confirm them."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from datetime import date
from typing import NamedTuple

import yaml

from riglint.loads.inputs import At
from riglint.model.changed import value_at
from riglint.model.sentences import Key
from riglint.read.problems import Place, key_text
from riglint.read.yaml_edit import CannotEditError, Nodes, TextEdit, edited
from riglint.records import dataclass
from riglint.rulekit import Case
from riglint.rulekit.ticks import HAND_TIGHT, confirmed, in_time, ticks

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
STOPPED = "You stopped at hand tension and looked everything over again from anchor to anchor"
SECOND = frozenset({"threading_checked", "partner_check"})


@dataclass(frozen=True, slots=True)
class Box:
    """One box to tick: what it asks, and all places of the file that a yes is about."""

    words: str
    names: tuple[str, ...]  # what each of its checks names
    group: Place | None = (
        None  # where the group begins that the value is written into: a part, or the call of its kit
    )
    below: Key = ()  # the key below that group
    value: str | None = None  # what stands there once it is ticked
    checked: bool = False  # whether the file has its checks already, and only the value is missing
    second: bool = False  # whether somebody looks who did not rig
    tight: bool = True  # whether it is looked at under the tension that is read


class Signed(NamedTuple):
    """Who looked, when, and at which tension."""

    by: str
    day: date
    tension: str | None


def boxes(case: Case) -> Iterator[Box]:
    """Yield the boxes of a rig that are still to be ticked, in the order of the load.

    Legs that share an entry of the file share a box, and so do the parts of a kit: its call in this rig has the value,
    since other rigs have that kit too.
    """
    if not any(one.what == HAND_TIGHT and in_time(case, one.date) for one in case.rig.checks):
        yield Box(STOPPED, (HAND_TIGHT,), second=True, tight=False)
    found: dict[tuple[Place | None, Key], list[At]] = {}
    for at in _still_open(case):
        group, below = _written_at(case, at)
        if not (_is_inside(below) and value_at(case.rig, at.own_key) is None):
            found.setdefault((group, below), []).append(at)
    for (group, below), places in found.items():
        asked, value = ASKED[str(below[-1])]
        words = list(dict.fromkeys(_part_words(case, at) for at in places))
        yield Box(
            f"{asked}: {', '.join(words)}",
            tuple(key_text(at.own_key) for at in places),
            group,
            below,
            None if _is_inside(below) else value,
            all(confirmed(case, at) for at in places),
            below[-1] in SECOND,
        )


def by_hand(case: Case) -> list[str]:
    """Return one sentence for each thing to tick that no rig can say of a kit that it calls."""
    open_ = [at for at in _still_open(case) if value_at(case.rig, at.own_key) is None]
    return [
        f"{ASKED[str(at.key[-1])][0]}: {_part_words(case, at)}. It lies inside a kit of {at.path}, line {at.line}, "
        "which other rigs may call too. Write that kit's parts out in this rig, and tick them here."
        for at in open_
        if _is_inside(_written_at(case, at)[1])
    ]


def _still_open(case: Case) -> list[At]:
    return [at for at in {at.own_key: at for at in ticks(case)}.values() if not _is_settled(case, at)]


def _written_at(case: Case, at: At) -> tuple[Place | None, Key]:
    """Return where the group begins that holds a value, and the key below it; of what a kit holds, its call."""
    document, key = case.file.document, at.own_key
    for length in range(len(key), 0, -1):
        if origin := document.origins.get(key[:length]):
            return origin.called_at, key[length:]
    return document.places.get(key[:-1]), key[-1:]


def _is_inside(below: Key) -> bool:
    """Whether something lies deeper in a kit than its call can say: in a leg, or in what a system is made fast with."""
    return any(isinstance(one, int) for one in below)


def _is_settled(case: Case, at: At) -> bool:
    """Whether a check confirms it, or there is nothing to look at: no brake, no multiplier, no knot on file."""
    rig, key = case.rig, at.own_key
    if value_at(rig, key) is not None and confirmed(case, at):
        return True
    if key[-1] in {"locked", "threading_checked", "left_on"} and value_at(rig, key[:-1]) is None:
        return True
    return key[-1] == "stopper" and value_at(rig, key) is None


def _part_words(case: Case, at: At) -> str:
    placed = next((one for one in case.path.parts if one.id == at.part), None)
    if placed is not None:
        return case.path.count_words(placed)
    inside = next((one for run in case.loads.runs for one in run if one.id == at.part), None)
    return inside.words if inside is not None else str(at.part or "leash")


Done = Sequence[
    tuple[Box, Signed | None]
]  # None where the file has the check already, and only the value is missing


def ticked(text: str, done: Done, stage: str | None = None, fingerprint: str | None = None) -> str:
    """Return the text of a rig file with boxes ticked; everything else stays, letter by letter.

    Args:
        text: the file.
        done: the boxes, and who ticked each.
        stage: the stage that the rig has now, if it changes.
        fingerprint: of the files that were looked at; it goes into the last check.

    Raises:
        CannotEditError: the file is written in a way that must be edited by hand.
    """
    nodes = Nodes(text)
    edits = list(_edits(nodes, [box for box, _ in done]))
    if stage is not None:
        edits.append(nodes.set_key(nodes.root, "stage", stage))
    if entries := list(_entries(done, fingerprint)):
        edits.append(nodes.add_entries("checks", entries))
    new = edited(text, _joined(edits))
    yaml.compose(new, Loader=yaml.SafeLoader)  # which raises where the edits do not fit together
    return new


def _edits(nodes: Nodes, done: list[Box]) -> Iterator[TextEdit]:
    """Yield the edits that write the values; those of one group that is not there yet come together."""
    new: dict[tuple[Place | None, str], list[str]] = {}
    for box in done:
        if box.value is None:
            continue
        *way, last = map(str, box.below)
        group = nodes.at(box.group) if box.group is not None else None
        if group is None:
            raise CannotEditError(f"{box.names[0]} has no place in the file. Write it by hand.")
        held = nodes.below(group, way[0]) if way else group
        if held is None:
            new.setdefault((box.group, way[0]), []).append(f"{last}: {box.value}")
        else:
            yield nodes.set_key(held, last, box.value)
    for (place, name), values in new.items():
        if place is not None and (group := nodes.at(place)) is not None:
            yield nodes.set_key(group, name, f"{{{', '.join(values)}}}")


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


def _entries(done: Done, fingerprint: str | None) -> Iterator[str]:
    checks = [(name, box, signed) for box, signed in done if signed is not None for name in box.names]
    for n, (name, box, signed) in enumerate(checks, 1):
        more = f", after_tension: {signed.tension}" if signed.tension and box.tight else ""
        more += f", fingerprint: {fingerprint}" if fingerprint and n == len(checks) else ""
        what = json.dumps(name, ensure_ascii=False)
        yield f"{{what: {what}, by: {signed.by}, date: {signed.day}{more}}}"
