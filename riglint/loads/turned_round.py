"""The mechanics turned round: how far one value of a rig must move until a condition on its loads holds.

A search over values as they would be written into the file: multiples of a step that a person can set. The value that
is found is the one that was tried, and the one before it was tried too and does not hold. What cannot be computed does
not hold. One value is moved, or several that belong together (both anchors), never two that do not.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from math import ceil, floor
from typing import Any, Literal, NamedTuple

from riglint.loadpath import Placed, build
from riglint.loads.backup import BackupLine
from riglint.loads.changed import value_at, with_value
from riglint.loads.inputs import At, MissingInput, NotComputable
from riglint.loads.rig_loads import Loads
from riglint.model.load import Key
from riglint.read.quantity import Dimension, Quantity, parse_quantity

MOST_STEPS = 1000  # farthest that is looked, in steps: about twenty rigs are computed then
FURTHER = 63  # steps beyond the first that holds, for a second condition
FAR = 3.0  # times today's standing tension
MOST_RISE_M = 5.0  # of an anchor; more is another place
LIGHTEST_KG = 40.0  # a limit for users below that leaves hardly anybody

Way = Literal["up", "down"]
Unit = Literal["kN", "m", "mm", "kg", "%", ""]
# Of each unit: what the field of the file takes, and how much it is in SI.
UNITS: dict[Unit, tuple[Dimension | None, float]] = {
    "kN": ("force", 1000.0),
    "m": ("length", 1.0),
    "mm": ("length", 0.001),
    "kg": ("mass", 1.0),
    "%": ("strain_or_ratio", 0.01),
    "": (None, 1.0),
}


@dataclass(frozen=True, slots=True)
class Turn:
    """One value that may be moved, or several together, and how."""

    words: str  # what is done, with {} for the new value: `lower the standing tension to {}`
    keys: tuple[Key, ...]  # in the rig file
    way: Way
    unit: Unit
    step: float  # in that unit
    farthest: float | None = None  # in that unit: beyond it the rig would be another one
    to: float | None = None  # the one value that is meant, in that unit, where there is nothing to search
    capped: bool = False  # whether all are brought to the same value, those within it left as they are


# What a turn needs to know of the rig; None where the rig has no such value.
Turning = Callable[[Loads], Turn | None]


class Edit(NamedTuple):
    """One value of a file, as it stands there and as it would."""

    at: At
    old: str
    new: str


@dataclass(frozen=True, slots=True)
class Remedy:
    """A change that ends a finding: what is done, and the values that say so in the file."""

    words: str
    edits: tuple[Edit, ...]
    # Whether an editor may write it: once the line stands, or where a person's mass is meant, another number in the
    # file changes nothing on site.
    offered: bool = True


@dataclass(frozen=True, slots=True)
class Found:
    """The nearest value that holds, and the rig with it."""

    remedy: Remedy
    loads: Loads


class Nowhere(NamedTuple):
    """No value was found."""

    because: str


@dataclass(slots=True)
class Search:
    """Turns values of one rig; what it has computed for one question serves the next."""

    loads: Loads
    _known: dict[tuple[tuple[Key, str], ...], Loads] = field(default_factory=dict)

    def nearest(
        self, turning: Turning, holds: Callable[[Loads], bool], also: Callable[[Loads], bool] | None = None
    ) -> Found | Nowhere:
        """Return the value nearest to today's with which a condition holds.

        Args:
            turning: the value, and the way that it is moved.
            holds: the condition. It is taken not to hold today, nor where it raises MissingInput or NotComputable.
            also: a second one, dearer to ask: from where the first holds the search goes a little further for it.
        """
        turn = turning(self.loads)
        if turn is None:
            return Nowhere("the rig has no such value")
        if turn.to is not None:
            return self._exactly(turn, holds, also)
        now = [_number(self._value(key)) / UNITS[turn.unit][1] for key in turn.keys]
        start, bound = _range(turn, now[0])
        if start == bound:
            return Nowhere(f"nothing is tried {turn.way} of {_text(start * turn.step, turn.unit)}")

        def both(loads: Loads) -> bool:
            return holds(loads) and (also is None or also(loads))

        found = nearest_step(lambda n: self._holds(turn, now, n, holds), start, bound)
        if found is not None and also is not None and not self._holds(turn, now, found, also):
            end = min(found + FURTHER, bound) if turn.way == "up" else max(found - FURTHER, bound)
            found = (
                nearest_step(lambda n: self._holds(turn, now, n, both), found, end) if end != found else None
            )
        if found is None:
            return Nowhere(f"no value {turn.way} to {_text(bound * turn.step, turn.unit)} does")
        return self._found(turn, _texts(turn, now, found))

    def _exactly(
        self, turn: Turn, holds: Callable[[Loads], bool], also: Callable[[Loads], bool] | None
    ) -> Found | Nowhere:
        """Return the one value that is meant, where it holds."""
        text = _text(float(f"{turn.to:.3g}"), turn.unit)
        try:
            loads = self.with_texts(turn, (text,))
            held = holds(loads) and (also is None or also(loads))
        except (MissingInput, NotComputable, ValueError):
            held = False
        return self._found(turn, (text,)) if held else Nowhere(f"{text} does not")

    def with_texts(self, turn: Turn, texts: tuple[str, ...]) -> Loads:
        """Return the loads of the rig with the values of a turn written so."""
        name = tuple(zip(turn.keys, texts, strict=True))
        if name not in self._known:
            rig = self.loads.path.rig
            changed = rig.rig
            for key, text in name:
                changed = with_value(changed, key, _value(text, turn.unit, value_at(rig.rig, key)))
            path = build(replace(rig, rig=changed))
            self._known[name] = Loads(path, self.loads.values, self.loads.on)
        return self._known[name]

    def _value(self, key: Key) -> Any:
        return value_at(self.loads.path.rig.rig, key)

    def _holds(self, turn: Turn, now: list[float], steps: int, holds: Callable[[Loads], bool]) -> bool:
        try:
            return holds(self.with_texts(turn, _texts(turn, now, steps)))
        except (MissingInput, NotComputable, ValueError):  # beyond what a line can be
            return False

    def _found(self, turn: Turn, texts: tuple[str, ...]) -> Found:
        rig = self.loads.path.rig
        edits = tuple(
            Edit(At(rig.document, key), _as_written(self._value(key)), text)
            for key, text in zip(turn.keys, texts, strict=True)
            if _as_written(self._value(key)) != text
        )
        shown = " and ".join(dict.fromkeys(texts[:1] if turn.capped else texts[:2]))
        offered = turn.to is not None or (rig.rig.stage == "planned" and turn.unit != "kg")
        return Found(Remedy(turn.words.format(shown), edits, offered), self.with_texts(turn, texts))


def nearest_step(holds: Callable[[int], bool], start: int, bound: int) -> int | None:
    """Return a number from `start` (where it does not hold) towards `bound` that holds, the one before it not.

    Doubles its stride until one holds, then halves the gap. None where none of those up to the bound does.
    """
    way, stride, fails = (1 if bound > start else -1), 1, start
    while True:
        tried = fails + way * stride
        if (tried - bound) * way >= 0:
            tried = bound
        if holds(tried):
            break
        if tried == bound:
            return None
        fails, stride = tried, stride * 2
    while abs(tried - fails) > 1:
        middle = (tried + fails) // 2
        if holds(middle):
            tried = middle
        else:
            fails = middle
    return tried


def _range(turn: Turn, now: float) -> tuple[int, int]:
    """Return where a search begins and how far it goes, in steps."""
    far = turn.farthest
    if turn.way == "up":
        start = floor(now / turn.step)
        bound = start + MOST_STEPS
        return start, max(start, bound if far is None else min(bound, floor(far / turn.step)))
    start = ceil(now / turn.step)
    return start, min(start, max(1, start - MOST_STEPS, 1 if far is None else ceil(far / turn.step)))


def _texts(turn: Turn, now: list[float], steps: int) -> tuple[str, ...]:
    first = steps * turn.step
    if turn.capped:
        return _text(first, turn.unit), *(_text(min(one, first), turn.unit) for one in now[1:])
    return tuple(_text(one + first - now[0], turn.unit) for one in now)


def _text(number: float, unit: Unit) -> str:
    digits = f"{number:.4f}".rstrip("0").rstrip(".")
    return f"{digits} {unit}".rstrip()


def _value(text: str, unit: Unit, old: Any) -> Quantity | int | float:
    dimension = UNITS[unit][0]
    if dimension is not None:
        return parse_quantity(text, dimension)
    return int(text) if isinstance(old, int) else float(text)


def _number(value: Any) -> float:
    return value.si if isinstance(value, Quantity) else float(value)


def _as_written(value: Any) -> str:
    return value.text if isinstance(value, Quantity) else f"{value:g}"


# What may be turned


def one_value(key: Key, words: str, way: Way, unit: Unit, step: float) -> Turning:
    """Return the turn of one value of the rig file, where it is given."""

    def turn(loads: Loads) -> Turn | None:
        given = value_at(loads.path.rig.rig, key) is not None
        return Turn(words, (key,), way, unit, step) if given else None

    return turn


def set_to(key: Key, words: str, unit: Unit, si: float) -> Turning:
    """Return the turn of one value to the one that is meant, such as what was read on site."""

    def turn(loads: Loads) -> Turn | None:
        given = value_at(loads.path.rig.rig, key) is not None
        return Turn(words, (key,), "up", unit, 0.0, to=si / UNITS[unit][1]) if given else None

    return turn


def _tension(loads: Loads, words: str, way: Way) -> Turn | None:
    """Return the standing tension in steps that a dynamometer shows; of a slackrope in finer ones."""
    key: Key = ("plan", "standing_tension")
    given = value_at(loads.path.rig.rig, key)
    if given is None:
        return None
    kn = given.si / 1000.0
    return Turn(words, (key,), way, "kN", 0.01 if kn < 1.0 else 0.1, kn * (FAR if way == "up" else 1.0 / FAR))


def lower_tension(loads: Loads) -> Turn | None:
    """Stand at less tension."""
    return _tension(loads, "lower the standing tension to {}", "down")


def more_tension(loads: Loads) -> Turn | None:
    """Stand at more tension."""
    return _tension(loads, "raise the standing tension to {}", "up")


def lighter_user(loads: Loads) -> Turn | None:
    """Let nobody heavier on the line."""
    plan = loads.path.rig.rig.plan
    users = plan.users if plan and plan.users else []
    masses = [(-user.mass.si, n) for n, user in enumerate(users) if user.mass is not None]
    if not masses or len(masses) < len(users):
        return None
    keys: tuple[Key, ...] = tuple(("plan", "users", n, "mass") for _, n in sorted(masses))
    return Turn("let nobody above {} on the line", keys, "down", "kg", 1.0, LIGHTEST_KG, capped=True)


def heavier_user(loads: Loads) -> Turn | None:
    """Let somebody heavier on the line."""
    turn = lighter_user(loads)
    return None if turn is None else Turn("let up to {} on the line", turn.keys[:1], "up", "kg", 1.0)


def fewer_at_once(loads: Loads) -> Turn | None:
    """Let fewer people on the line together."""
    return one_value(("plan", "at_once"), "let {} on the line at a time", "down", "", 1)(loads)


def _anchors(loads: Loads, words: str, way: Way) -> Turn | None:
    first, last = loads.path.anchors
    if first.part.height is None or last.part.height is None:
        return None
    others = [one for backup in loads.backups if backup.path.whole for one in backup.path.anchors]
    keys: tuple[Key, ...] = tuple(
        (*one.key, "height") for one in (first, last, *others) if one.part.height is not None
    )
    if others:
        words += ", those of the backup with them"
    farthest = first.part.height.si + (MOST_RISE_M if way == "up" else -MOST_RISE_M)
    return Turn(words, keys, way, "m", 0.05, farthest)


def higher_anchors(loads: Loads) -> Turn | None:
    """Raise both anchors by the same."""
    return _anchors(loads, "raise both anchors to {}", "up")


def lower_anchors(loads: Loads) -> Turn | None:
    """Lower both anchors by the same."""
    return _anchors(loads, "lower both anchors to {}", "down")


def anchor_height(anchor: Placed, way: Way) -> Turning:
    """Move one anchor up or down."""
    words = "raise" if way == "up" else "lower"
    return one_value(
        (*anchor.key, "height"), f"{words} the sling at '{anchor.part.at}' to {{}}", way, "m", 0.05
    )


HAULERS: Key = ("plan", "crew", "haulers")
fewer_haulers = one_value(HAULERS, "let {} haul", "down", "", 1)
more_haulers = one_value(HAULERS, "let {} haul", "up", "", 1)
more_turns = one_value(("plan", "tail_wraps"), "take the tail {} turns round the trunk", "up", "", 0.25)


def longer_rope(haul: Placed) -> Turning:
    """Use a longer rope in the haul."""
    return one_value((*haul.key, "rope", "length"), "use a rope of {}", "up", "m", 0.5)


def open_blocks(haul: Placed, way: Way) -> Turning:
    """Lay the line out with the blocks further apart or closer together."""
    words = "lay the line out with the blocks {} apart" + (" or more" if way == "up" else " or less")
    return one_value((*haul.key, "open"), words, way, "m", 0.1)


def backup_length(backup: BackupLine, way: Way) -> Turning:
    """Make a backup longer or shorter: its cut where that is given, else what it has to spare."""
    if backup.entry.cut is not None:
        return one_value(("backups", backup.number, "cut"), f"cut {backup.id} to {{}}", way, "m", 0.1)
    words = f"{'lengthen' if way == 'up' else 'shorten'} {backup.id} to {{}} extra"
    return one_value(("backups", backup.number, "extra"), words, way, "%", 0.1)
