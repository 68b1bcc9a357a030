"""Turns answers into the document of a rig: what is not known stays out, and so comes back as an open question."""

from __future__ import annotations

from typing import Any, get_args

from riglint.asking.answered import ENDS, LINES, anchors_of, kind_of_line, known_end, so
from riglint.asking.gear_list import GearList
from riglint.asking.ground import profile
from riglint.asking.question import NO_PIECE, Answers, metres, name_and_hitch, piece, word
from riglint.asking.recipes import CHAINS, LAYOUT, LAYOUT_KEYS, LOWERING, STANDING_AT, RecipePlace
from riglint.asking.writing.generic_gear import generic_items, generic_name, tie_back_names
from riglint.asking.writing.rig_highline import anchor, backups, edges, leash, legs
from riglint.asking.writing.short_form import shortened
from riglint.model.vocabulary import words

Document = dict[str, Any]
YES_NO = {"yes": "true", "no": "false"}
HELD_PART = {"ratchet": "webbing", "tackle": "webbing_anchor"}  # what the tie-back of a tensioner holds
HELD = {kind: [one.part for one in CHAINS[kind]].index(part) for kind, part in HELD_PART.items()}
LONG_M = 40.0  # from here on a line with a pulley system is called a long line


def rig_document(title: str, answers: Answers, gear: GearList) -> Document:
    """Return the document of a rig, as it stands in a rig file."""
    found: Document = {
        "riglint": "rig/1",
        "title": title,
        "use": _use(answers),
        "spot": _spot(answers),
        "shelf": list(gear.paths) or [{"items": generic_items(kind_of_line(answers), answers)}],
        "plan": _plan(answers),
        "chain": _chain(answers, gear),
    }
    high = kind_of_line(answers) == "highline"
    if high:
        found |= {"backups": backups(answers), "leash": leash(answers), "edges": edges(answers)}
    else:
        found["backups"] = []
    layout = word(answers, "layout") if kind_of_line(answers) in LAYOUT else "yes"
    if layout != "yes":
        found = _without(found, LAYOUT_KEYS)
    known: Document = _known(found)
    items = known["shelf"][0].get("items", {}) if not gear.paths else {}
    gear_kinds = {name: item.kind for name, item in gear.items.items()} | {
        name: str(item["kind"]) for name, item in items.items()
    }
    for held in (known, *known["backups"]):
        held["chain"] = shortened(held["chain"], gear_kinds)
    return known


def _without(value: Any, keys: frozenset[str]) -> Any:
    """Return a value without some keys, however deep they stand."""
    if isinstance(value, dict):
        return {key: _without(one, keys) for key, one in value.items() if key not in keys}
    return [_without(one, keys) for one in value] if isinstance(value, list) else value


def _known(value: Any) -> Any:
    """Return a value without what nobody knows."""
    if isinstance(value, dict):
        kept = {key: _known(one) for key, one in value.items() if one is not None}
        return {key: one for key, one in kept.items() if one != {}}
    return [_known(one) for one in value] if isinstance(value, list) else value


def _use(answers: Answers) -> str:
    kind = kind_of_line(answers)
    if kind == "highline":
        return kind
    if word(answers, "ground") == "water":
        return "waterline"
    return "longline" if kind == "pulley" and metres(word(answers, "lengths")) > LONG_M else "lowline"


def _spot(answers: Answers) -> Document:
    bolts = anchors_of(answers, "bolts")
    return {
        "span": word(answers, "lengths"),
        "span_between": "points" if len(bolts) == len(ENDS) else None,
        "anchors": {
            end: _bolts(answers, end) if end in bolts else _tree(answers, end)
            for end in ENDS
            if known_end(answers, end)
        },
        "ground": _ground(answers),
        "surroundings": _surroundings(answers),
        "permission": {"held": so(answers, "permission")},
        "access": {
            "meeting_point": word(answers, "help"),
            "signal": YES_NO.get(word(answers, "help", 1) or ""),
        },
    }


def _tree(answers: Answers, end: str) -> Document:
    n = anchors_of(answers, "tree").index(end)
    girth = word(answers, "trees", 0, n)
    return {
        "kind": "tree",
        "species": word(answers, "trees", 1, n),
        "girth": girth,
        "girth_at": word(answers, "lengths", 1 + ENDS.index(end)) if girth else None,
        "bark": word(answers, "trees", 2, n),
        "health": word(answers, "trees", 3, n),
        "fork": word(answers, "trees", 4, n),
    }


def _bolts(answers: Answers, end: str) -> Document:
    n = anchors_of(answers, "bolts").index(end)
    keys = ("radial", "axial", "spacing", "edge", "pull_from_radial")
    point: Document = {key: word(answers, "bolts", place, n) for place, key in enumerate(keys)}
    point |= {"placed": word(answers, "bolt_dates", 0, n), "tested": word(answers, "bolt_dates", 1, n)}
    point["standard"] = word(answers, "bolts", 6, n)
    points = {f"{end[0]}1 to {end[0]}{sum(count for _, count in LINES)}": point}
    return {"kind": "bolts", "rock": word(answers, "bolts", 5, n), "points": points}


def _ground(answers: Answers) -> Document:
    points = profile(answers)
    return {
        "surface": word(answers, "ground", 0),
        "soil": word(answers, "ground", 1),
        "water_depth": word(answers, "water"),
        "profile_from": known_end(answers, "near") if points else None,
        "profile": points,
    }


def _surroundings(answers: Answers) -> Document:
    wires = [
        {"distance": distance, "voltage": volt} for distance, volt in answers.get("wires", ()) if distance
    ]
    things = [
        {"what": what, "along": along, "aside": aside, "height": height}
        for what, along, aside, height in answers.get("obstacles", ())
        if what
    ]
    return {
        "path_crosses": so(answers, "path"),
        "airfield_within": word(answers, "help", 2),
        "wires": [] if so(answers, "wires") == "false" else wires or None,
        "obstacles": [] if so(answers, "obstacles") == "false" else things or None,
    }


def _plan(answers: Answers) -> Document:
    kind = kind_of_line(answers)
    high = kind == "highline"
    moves = _moves(answers)
    zone = [word(answers, "lengths", n) for n in (3, 4)]
    spotter = {"true": "1", "false": "0"}.get(str(so(answers, "spotter")))
    day = word(answers, "days") or word(answers, "dates")
    found: Document = {
        "standing_tension": word(answers, "plan"),
        "standing_at": STANDING_AT[kind] if kind != "pulley" else None,
        "users": [
            {"mass": mass, "level": level} for mass, level, _ in answers.get("people", ()) if mass or level
        ]
        or None,
        "walk_zone": zone if all(zone) else None,
        "moves": moves or None,
        "first_day": day,
        "days_up": word(answers, "days", 1) or word(answers, "dates", 3),
        "public": so(answers, "public"),
        "watcher": so(answers, "watcher"),
        "spotters": spotter,
        "crew": {
            "haulers": word(answers, "plan", 1),
            "pull_each": word(answers, "plan", 2),
            "checker": so(answers, "checker"),
        },
        "lowering": LOWERING[kind] if kind in LAYOUT or so(answers, "slow_release") == "true" else None,
        "standby": so(answers, "standby"),
        "tail_wraps": word(answers, "turns"),
        "wind": word(answers, "plan", 3),
    }
    return found | {
        name: so(answers, name) for name in ("wet", "night", "unattended", *(("rescue", "tag_line") * high))
    }


def _moves(answers: Answers) -> list[str]:
    """Return what is done on the line: the liveliest of each person, and what is milder."""
    most = {does for _, _, does in answers.get("people", ()) if does}
    lively = {*most, *(["bounce"] if most & {"surf", "jump"} else []), *(["walk"] if most else [])}
    if most and kind_of_line(answers) == "highline":
        lively.add("fall_on_leash")
    return [one for one in get_args(words.Move) if one in lively]


def _chain(answers: Answers, gear: GearList) -> list[Document]:
    kind = kind_of_line(answers)
    parts: list[Document] = []
    for n, place in enumerate(CHAINS[kind]):
        typed = word(answers, "pieces", n)
        if typed == NO_PIECE or (typed is None and _left_away(place, answers, gear)):
            continue
        parts.append(_part(place, typed, answers, gear))
    if kind == "pulley":
        at = next(n for n, one in enumerate(reversed(parts)) if one["part"] == "shackle")
        parts.insert(len(parts) - at - 1, _haul(answers))
    if kind == "highline":
        parts = [*legs(answers, "near", "main"), *parts, *legs(answers, "far", "main")]
    return [*anchor(answers, "near"), *parts, *anchor(answers, "far")]


def _left_away(place: RecipePlace, answers: Answers, gear: GearList) -> bool:
    """Return whether a part that nobody named is not there: a protector, unless its length was given."""
    if place.part != "protector":
        return False
    return bool(gear.paths) or word(answers, "around") in {None, "none"}


def _part(place: RecipePlace, typed: str | None, answers: Answers, gear: GearList) -> Document:
    part, end = place.part, place.words.split(" ")[0]
    name, hitch = name_and_hitch(typed or "") if part == "sling" else (typed or "", "")
    found: Document = {
        "part": part,
        "gear": name or (None if gear.paths else generic_name(kind_of_line(answers), part, end)),
        "hitch": hitch or word(answers, "sizes", 3),
    }
    if part != "sling":
        del found["hitch"]
    if part == "webbing_anchor":
        found["tail"] = word(answers, "webbing", 1)
    if part == "webbing":
        found["cut"] = word(answers, "webbing")
    if part == "puller":
        found["tie_back"] = _puller_tie_back(answers, gear)
    return found


def _puller_tie_back(answers: Answers, gear: GearList) -> Document | None:
    """Return the tie-back across a tensioner; None where there is none, or nobody knows of one."""
    if gear.paths:
        tie, sling, slack = (piece(answers, "tie_back", n) for n in range(3))
        names = (tie, sling)
        held = piece(answers, "pieces", HELD[kind_of_line(answers)])
    else:
        tie, slack = word(answers, "around", 2), word(answers, "around", 3)
        names = tie_back_names() if tie not in {None, "none"} else (None, None)
        held = generic_name(kind_of_line(answers), HELD_PART[kind_of_line(answers)])
    if not names[0]:
        return None
    return {"gear": names[0], "slack": slack, "from": held, "to": "far", "sling": names[1]}


def _haul(answers: Answers) -> Document:
    moving, fixed, plate, rope, link, brake, connector = (piece(answers, "haul", n) for n in range(7))
    grip, pulley, its_connector = (piece(answers, "multiplier", n) for n in range(3))
    tie_back, sling = (piece(answers, "tie_back", n) for n in range(2))
    held = piece(answers, "pieces", 6)  # the shackle before the moving block
    multiplied = {"ratio": "3", "grip": grip, "pulley": pulley, "connector": its_connector}
    return {
        "part": "haul",
        "strands": "5",
        "moving_block": moving,
        "fixed_block": fixed,
        "plate": plate,
        "rope": {
            "gear": rope,
            "dead_end": {"by": link, "ends": word(answers, "rope_ends")},
        },
        "open": word(answers, "haul_lengths"),
        "closed": word(answers, "haul_lengths", 1),
        "brake": {"gear": brake, "side": "fixed", "connector": connector},
        "tail": {
            "stopper": "double_overhand",
            "stopper_at": "0.3 m",
            "left": word(answers, "haul_lengths", 2),
        },
        "multiplier": multiplied | {"strand": "lead", "bites": "toward_load"}
        if any((grip, pulley, its_connector))
        else None,
        "tie_back": {
            "gear": tie_back,
            "slack": "0.1 m",
            "from": held,
            "to": "far",
            "sling": sling,
            "ends": word(answers, "rope_ends", 1),
        },
        "pull": {"stand": "aside"},
    }
