"""The card's chain: every part in order, what to take from the shelf, and what it has to spare."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from riglint.loadpath import LoadPath, Placed
from riglint.loadpath.gear import haul_gear
from riglint.loads import Loads, PartLoad
from riglint.loads.states.backup import BackupLine
from riglint.model.documents.parts import Part
from riglint.model.library import Item
from riglint.views.card.content import Row
from riglint.views.figures import number
from riglint.views.judged_parts import JudgedPart, caught_parts, main_parts

PIECES = {
    "rope.gear": "rope",
    "rope.dead_end.by": "dead end",
    "brake.gear": "brake",
    "brake.connector": "brake connector",
    "tie_back.gear": "tie-back",
    "tie_back.sling": "tie-back sling",
    "pull.redirect.gear": "redirect",
}

INSIDE = "webbing inside"  # how the load on it begins, before the webbing anchor that it lies in

# Under which name a piece of the haul carries load, where that is not the key of its gear.
LOADS = {
    "rope.gear": "rope",
    "rope.dead_end.by": "dead_end",
    "brake.gear": "brake",
    "brake.connector": "brake_connector",
}


def chain_rows(loads: Loads) -> list[Row]:
    """Return the main line, then each backup and the leash."""
    found = _rows(loads, loads.path, _spare(main_parts(loads)))
    for backup in loads.backups:
        found.append(Row("", f"{backup.id}: {backup.entry.kind or 'backup'}", _long(backup)))
        found += _rows(loads, backup.path, _spare(caught_parts(loads, backup)))
    return found + _leash(loads)


def _long(backup: BackupLine) -> str:
    """Return how long a backup is, as the file says it where that decides; nothing where it does not."""
    if not backup.lengths:
        return ""
    at, given = backup.lengths[0]
    return f"{given.text} longer than the distance" if at.key[-1] == "extra" else f"{at.key[-1]} {given.text}"


# What each part has to spare

Spare = tuple[float, float, float | None, str]  # force in kN, ratio, ratio asked, whose strength if another's


def _spare(parts: Iterable[JudgedPart]) -> dict[str, Spare]:
    """Return force, ratio and asked ratio of each part by its id; of two the one with less to spare."""
    found: dict[str, Spare] = {}
    for part in parts:
        load, worst = part.load, part.worst
        if worst is None:
            continue
        one = (worst.force_n / 1000.0, worst.ratio, part.asked, _whose(load))
        if load.id not in found or _share(one) < _share(found[load.id]):
            found[load.id] = one
    return found


def _whose(load: PartLoad) -> str:
    """Return whose strength it is and how much, where what lies inside a part stands for it."""
    if not load.words.startswith(INSIDE):
        return ""
    return f"{INSIDE}, {number(load.strength.strength_n / 1000.0)} kN"


def _share(one: Spare) -> float:
    return one[1] / (one[2] or 1.0)


def _row(number: str, words: str, take: str, spare: Spare | None) -> Row:
    return Row(number, words, take, *(spare or ()))


# What the rows say


def _rows(loads: Loads, path: LoadPath, spare: dict[str, Spare]) -> list[Row]:
    found: list[Row] = []
    for n, placed in enumerate(path.parts, 1):
        found.append(_row(str(n), _words(placed), _take(placed.part, placed.item), spare.get(placed.id)))
        found += _legs(path, placed, spare)
        if placed.part.part == "haul":
            found += _haul(loads, placed, spare)
            fast = path.made_fast(placed)
            found += [
                _row("", f"made fast: {one.words}", _take(one.part, one.item), spare.get(one.id))
                for one in fast
            ]
    return found


def _words(placed: Placed) -> str:
    if placed.part.part == "anchor":
        return f"anchor {placed.part.at or '(which?)'}"
    return placed.words


def _legs(path: LoadPath, placed: Placed, spare: dict[str, Spare]) -> list[Row]:
    """Return each leg of a spread in one row, with what it has least to spare of."""
    found: list[Row] = []
    if not placed.part.legs:
        return found
    for leg, run in zip(placed.part.legs, path.leg_runs(placed), strict=False):
        spares = [spare[one.id] for one in run if one.id in spare]
        words = ", ".join(one.words for one in run)
        found.append(_row("", f"to {leg.to or '?'}", words, min(spares, key=_share, default=None)))
    return found


def _haul(loads: Loads, placed: Placed, spare: dict[str, Spare]) -> list[Row]:
    found, items = [], loads.path.rig.items
    for key, name in haul_gear(placed.part):
        names = [str(step) for step in key]
        joined = ".".join(names)
        words = PIECES.get(joined, " ".join(names).replace("_", " "))
        one = spare.get(f"{placed.id}.{LOADS.get(joined, joined)}")
        found.append(_row("", f"{words} {name}", _piece(placed.part, joined, items.get(name)), one))
    return found


def _piece(haul: Part, key: str, item: Item | None) -> str:
    """Return what to know of one piece of a haul: how it lies, its label, the knot behind the brake."""
    how = HOW_IT_LIES[key](haul) if key in HOW_IT_LIES else ""
    return _listed(how, _label(item), _stopper(haul) if key == "rope.gear" else "")


def _long_rope(haul: Part) -> str:
    rope = haul.rope
    return rope.length.text if rope and rope.length else "length not said"


def _stopper(haul: Part) -> str:
    tail = haul.rope_tail
    if tail is None or tail.stopper is None:
        return ""
    at = f" {tail.stopper_at.text} behind the brake" if tail.stopper_at else ""
    return f"stopper: {_spelled(tail.stopper)}{at}"


def _dead_end(haul: Part) -> str:
    end = haul.rope.dead_end if haul.rope else None
    return f"on the {_spelled(end.on or 'block')}, {_spelled(end.ends or 'end not said')}" if end else ""


def _brake_side(haul: Part) -> str:
    return f"{haul.brake.side or 'side not said'} side" if haul.brake else ""


def _on_strand(haul: Part) -> str:
    return f"on the {haul.multiplier.strand or 'lead'} strand, comes off" if haul.multiplier else ""


def _slack(haul: Part) -> str:
    tie = haul.tie_back
    return f"{tie.slack.text} slack" if tie and tie.slack else "slack not said"


# By the key that names the piece, as far as a haul says how the piece lies.
HOW_IT_LIES: dict[str, Callable[[Part], str]] = {
    "rope.gear": _long_rope,
    "rope.dead_end.by": _dead_end,
    "brake.gear": _brake_side,
    "multiplier.grip": _on_strand,
    "tie_back.gear": _slack,
}


def _take(part: Part, item: Item | None) -> str:
    """Return what to take from the shelf for a part and how to lay it."""
    take = WHAT_TO_TAKE.get(part.part, _take_gear)
    return _listed(*take(part, item), f"tail {part.webbing_tail.text}" if part.webbing_tail else "")


def _take_anchor(part: Part, _item: Item | None) -> list[str]:
    return [f"sling or bolt {part.height.text} up" if part.height else "height not said"]


def _take_haul(part: Part, _item: Item | None) -> list[str]:
    strands = f"{part.strands} strands" if part.strands else "strands not said"
    laid_out = f"laid out {part.open.text} apart" if part.open else ""
    return [strands, laid_out, "" if part.stays else "comes off again"]


def _take_legs(part: Part, _item: Item | None) -> list[str]:
    between = f"{part.included_angle.text} between" if part.included_angle else ""
    return [_spelled(part.share) if part.share else "share not said", between]


def _take_webbing(part: Part, item: Item | None) -> list[str]:
    cut = part.cut or part.length
    return [f"{'cut' if part.cut else 'length'} {cut.text}" if cut else "", _label(item)]


def _take_gear(part: Part, item: Item | None) -> list[str]:
    length = item.gear.length if item is not None and part.part in {"sling", "protector"} else None
    return [
        length.text if length else "",
        _spelled(part.hitch or ""),
        _spelled(part.knot or ""),
        _label(item),
    ]


# By the kind of part; any other is taken by its gear.
WHAT_TO_TAKE: dict[str, Callable[[Part, Item | None], list[str]]] = {
    "anchor": _take_anchor,
    "haul": _take_haul,
    "legs": _take_legs,
    "webbing": _take_webbing,
}


def _listed(*words: str) -> str:
    return ", ".join(filter(None, words))


def _label(item: Item | None) -> str:
    """Return the figure to look for on the label."""
    if item is None:
        return ""
    gear = item.gear
    if gear.wll is not None:
        return f"WLL {gear.wll.text}"
    if gear.mbs is not None:
        return f"MBS {gear.mbs.text}"
    return f"up to {gear.max_load.text}" if gear.max_load is not None else ""


def _spelled(word: str) -> str:
    return word.replace("_", " ")


def _leash(loads: Loads) -> list[Row]:
    leash = loads.path.rig.rig.leash
    if leash is None:
        return []
    words = (
        f"hangs {leash.hang.text}" if leash.hang else "",
        f"rings {', '.join(leash.rings)}" if leash.rings else "",
        f"on {' and '.join(leash.rings_on)}" if leash.rings_on else "",
        f"{_spelled(leash.ring_knot)} at the rings" if leash.ring_knot else "",
        f"{_spelled(leash.harness_knot)} at the harness" if leash.harness_knot else "",
    )
    return [Row("", f"leash {leash.gear or '(which?)'}", _listed(*words))]
