"""What may be adjusted in a rig: values that people choose when they plan it, and how far it is still the same rig."""

from __future__ import annotations

from dataclasses import replace

from riglint.loadpath import Placed
from riglint.loads.rig_loads import Loads
from riglint.loads.states.backup import BackupLine
from riglint.loads.what_if.solved_for import UNITS, Adjusting, Adjustment, Direction, Unit
from riglint.model.changed import value_at
from riglint.model.load import Key

FAR = 3.0  # times today's standing tension
MOST_RISE_M = 5.0  # of an anchor; more is another place
HEAVIEST_KG = 250.0  # one person, with a load
LIGHTEST_KG = 40.0  # a limit for users below that leaves hardly anybody


def one_value(key: Key, words: str, direction: Direction, unit: Unit, step: float) -> Adjusting:
    """Return the adjustment of one value of the rig file, where it is given."""

    def adjustment(loads: Loads) -> Adjustment | None:
        given = value_at(loads.path.rig.rig, key) is not None
        return Adjustment(words, (key,), direction, unit, step) if given else None

    return adjustment


def set_to(key: Key, words: str, unit: Unit, si: float) -> Adjusting:
    """Return the adjustment of one value to the one that is meant, such as what was read on site."""

    def adjustment(loads: Loads) -> Adjustment | None:
        given = value_at(loads.path.rig.rig, key) is not None
        return Adjustment(words, (key,), "up", unit, 0.0, to=si / UNITS[unit][1]) if given else None

    return adjustment


def _tension(loads: Loads, words: str, direction: Direction) -> Adjustment | None:
    """Return the standing tension in steps that a dynamometer shows; of a slackrope in finer ones."""
    key: Key = ("plan", "standing_tension")
    given = value_at(loads.path.rig.rig, key)
    if given is None:
        return None
    kn = given.si / 1000.0
    return Adjustment(
        words,
        (key,),
        direction,
        "kN",
        0.01 if kn < 1.0 else 0.1,
        kn * (FAR if direction == "up" else 1.0 / FAR),
    )


def lower_tension(loads: Loads) -> Adjustment | None:
    """Stand at less tension."""
    return _tension(loads, "lower the standing tension to {}", "down")


def more_tension(loads: Loads) -> Adjustment | None:
    """Stand at more tension."""
    return _tension(loads, "raise the standing tension to {}", "up")


def lighter_user(loads: Loads) -> Adjustment | None:
    """Let nobody heavier on the line."""
    plan = loads.path.rig.rig.plan
    users = plan.users if plan and plan.users else []
    masses = [(-user.mass.si, n) for n, user in enumerate(users) if user.mass is not None]
    # Whoever's mass is not known may be heavier than any limit.
    if not masses or len(masses) < len(users):
        return None
    keys: tuple[Key, ...] = tuple(("plan", "users", n, "mass") for _, n in sorted(masses))
    return Adjustment("let nobody above {} on the line", keys, "down", "kg", 1.0, LIGHTEST_KG, capped=True)


def heavier_user(loads: Loads) -> Adjustment | None:
    """Let somebody heavier on the line."""
    adjustment = lighter_user(loads)
    return (
        None
        if adjustment is None
        else replace(adjustment, words="let up to {} on the line", direction="up", farthest=HEAVIEST_KG)
    )


AT_ONCE: Key = ("plan", "at_once")
fewer_at_once = one_value(AT_ONCE, "let {} on the line at a time", "down", "", 1)
more_at_once = one_value(AT_ONCE, "let {} on the line at a time", "up", "", 1)


def _anchors(loads: Loads, words: str, direction: Direction) -> Adjustment | None:
    first, last = loads.path.anchors
    if first.part.height is None or last.part.height is None:
        return None
    others = [one for backup in loads.backups if backup.path.whole for one in backup.path.anchors]
    keys: tuple[Key, ...] = tuple(
        (*one.key, "height") for one in (first, last, *others) if one.part.height is not None
    )
    if others:
        words += ", those of the backup with them"
    farthest = first.part.height.si + (MOST_RISE_M if direction == "up" else -MOST_RISE_M)
    return Adjustment(words, keys, direction, "m", 0.05, farthest)


def higher_anchors(loads: Loads) -> Adjustment | None:
    """Raise both anchors by the same."""
    return _anchors(loads, "raise both anchors to {}", "up")


def lower_anchors(loads: Loads) -> Adjustment | None:
    """Lower both anchors by the same."""
    return _anchors(loads, "lower both anchors to {}", "down")


def anchor_height(anchor: Placed, direction: Direction) -> Adjusting:
    """Move one anchor up or down."""
    words = "raise" if direction == "up" else "lower"
    return one_value(
        (*anchor.key, "height"), f"{words} the sling at '{anchor.part.at}' to {{}}", direction, "m", 0.05
    )


HAULERS: Key = ("plan", "crew", "haulers")
fewer_haulers = one_value(HAULERS, "let {} haul", "down", "", 1)
more_haulers = one_value(HAULERS, "let {} haul", "up", "", 1)
TURNS: Key = ("plan", "tail_wraps")
fewer_turns = one_value(TURNS, "take the tail {} turns round the trunk", "down", "", 0.25)
more_turns = one_value(TURNS, "take the tail {} turns round the trunk", "up", "", 0.25)


def longer_rope(haul: Placed) -> Adjusting:
    """Use a longer rope in the haul."""
    return rope_length(haul, "up")


def rope_length(haul: Placed, direction: Direction) -> Adjusting:
    """Use a longer or a shorter rope in the haul."""
    return one_value((*haul.key, "rope", "length"), "use a rope of {}", direction, "m", 0.5)


def open_blocks(haul: Placed, direction: Direction) -> Adjusting:
    """Lay the line out with the blocks further apart or closer together."""
    words = "lay the line out with the blocks {} apart" + (" or more" if direction == "up" else " or less")
    return one_value((*haul.key, "open"), words, direction, "m", 0.1)


def backup_length(backup: BackupLine, direction: Direction) -> Adjusting:
    """Make a backup longer or shorter: its cut or length where the file gives one, else what it has to spare."""
    key = backup.length_at.key
    if key[-1] == "extra":
        words = f"{'lengthen' if direction == 'up' else 'shorten'} {backup.id} to {{}} extra"
        return one_value(key, words, direction, "%", 0.1)
    words = f"cut {backup.id} to {{}}" if key[-1] == "cut" else f"make {backup.id} {{}} long between its ends"
    return one_value(key, words, direction, "m", 0.1)
