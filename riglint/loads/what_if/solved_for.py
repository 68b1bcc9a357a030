"""Solves for one value: how far one value of a rig must move until a condition on its loads holds.

A search over values as they would be written into the file: multiples of a step that a person can set. The value that
is found is the one that was tried, and the one before it was tried too and does not hold. What cannot be computed does
not hold. One value is moved, or several that belong together (both anchors), never two that do not.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import field, replace
from math import ceil, floor
from typing import Any, Literal, NamedTuple

from riglint.loadpath import build
from riglint.loads.inputs import At, MissingInput, NotComputable
from riglint.loads.rig_loads import Loads
from riglint.loads.what_if.strides import inwards, strides
from riglint.model.changed import value_at, with_value
from riglint.model.load import Key
from riglint.read.quantity import Dimension, Quantity, parse_quantity
from riglint.records import dataclass

MOST_STEPS = 1000  # farthest that is looked, in steps: about twenty rigs are computed then
MOST_RIGS = 400  # computed for all remedies of one rig; the example rigs take 16 at most
FURTHER = 63  # steps beyond the first that holds, for a second condition

Direction = Literal["up", "down"]
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
class Adjustment:
    """One value that may be moved, or several together, and how."""

    words: str  # what is done, with {} for the new value: `lower the standing tension to {}`
    keys: tuple[Key, ...]  # in the rig file
    direction: Direction
    unit: Unit
    step: float  # in that unit
    farthest: float | None = None  # in that unit: beyond it the rig would be another one
    to: float | None = None  # the one value that is meant, in that unit, where there is nothing to search
    capped: bool = False  # whether all are brought to the same value, those within it left as they are


# Makes the adjustment of a value from the rig; None where the rig has no such value.
Adjusting = Callable[[Loads], Adjustment | None]


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
        self,
        adjusting: Adjusting,
        holds: Callable[[Loads], bool],
        also: Callable[[Loads], bool] | None = None,
    ) -> Found | Nowhere:
        """Return the value nearest to today's with which a condition holds.

        Args:
            adjusting: the value, and the direction that it is moved in.
            holds: the condition. It is taken not to hold today, nor where it raises MissingInput or NotComputable.
            also: a second one, dearer to ask: from where the first holds the search goes a little further for it.
        """
        adjustment = adjusting(self.loads)
        if adjustment is None:
            return Nowhere("the rig has no such value")
        if len(self._known) >= MOST_RIGS:
            return Nowhere("enough rigs were tried")
        if adjustment.to is not None:
            return self._exactly(adjustment, holds, also)
        now = self._now(adjustment)
        start, bound = _range(adjustment, now[0])
        if start == bound:
            today = _text(start * adjustment.step, adjustment.unit)
            return Nowhere(f"nothing is tried {adjustment.direction} of {today}")

        def both(loads: Loads) -> bool:
            return holds(loads) and (also is None or also(loads))

        found = nearest_step(lambda n: self._holds(adjustment, now, n, holds), start, bound)
        if found is not None and also is not None and not self._holds(adjustment, now, found, also):
            end = min(found + FURTHER, bound) if adjustment.direction == "up" else max(found - FURTHER, bound)
            found = (
                nearest_step(lambda n: self._holds(adjustment, now, n, both), found, end)
                if end != found
                else None
            )
        if found is None:
            return Nowhere(
                f"no value {adjustment.direction} to {_text(bound * adjustment.step, adjustment.unit)} does"
            )
        return self._found(adjustment, _texts(adjustment, now, found))

    def _exactly(
        self, adjustment: Adjustment, holds: Callable[[Loads], bool], also: Callable[[Loads], bool] | None
    ) -> Found | Nowhere:
        """Return the one value that is meant, where it holds."""
        text = _text(float(f"{adjustment.to:.3g}"), adjustment.unit)
        try:
            loads = self.with_texts(adjustment, (text,))
            held = holds(loads) and (also is None or also(loads))
        except (MissingInput, NotComputable, ValueError):
            held = False
        return self._found(adjustment, (text,)) if held else Nowhere(f"{text} does not")

    def reach(self, adjustment: Adjustment) -> tuple[int, int]:
        """Return where a search begins, not beyond today's value, and the farthest that it tries, in steps."""
        return _range(adjustment, self._now(adjustment)[0])

    def texts(self, adjustment: Adjustment, steps: int) -> tuple[str, ...]:
        """Return the values of an adjustment at a step, as they would be written."""
        return _texts(adjustment, self._now(adjustment), steps)

    def written(self, key: Key) -> str:
        """Return the value at a key as it stands in the file."""
        return _as_written(self._value(key))

    def _now(self, adjustment: Adjustment) -> list[float]:
        return [_number(self._value(key)) / UNITS[adjustment.unit][1] for key in adjustment.keys]

    def with_texts(self, adjustment: Adjustment, texts: tuple[str, ...]) -> Loads:
        """Return the loads of the rig with the values of an adjustment written so."""
        name = tuple(zip(adjustment.keys, texts, strict=True))
        if name not in self._known:
            rig = self.loads.path.rig
            changed = rig.rig
            for key, text in name:
                changed = with_value(changed, key, _value(text, adjustment.unit, value_at(rig.rig, key)))
            path = build(replace(rig, rig=changed))
            self._known[name] = Loads(path, self.loads.values, self.loads.on)
        return self._known[name]

    def _value(self, key: Key) -> Any:
        return value_at(self.loads.path.rig.rig, key)

    def _holds(
        self, adjustment: Adjustment, now: list[float], steps: int, holds: Callable[[Loads], bool]
    ) -> bool:
        try:
            return holds(self.with_texts(adjustment, _texts(adjustment, now, steps)))
        except (MissingInput, NotComputable, ValueError):  # beyond what a line can be
            return False

    def _found(self, adjustment: Adjustment, texts: tuple[str, ...]) -> Found:
        rig = self.loads.path.rig
        edits = tuple(
            Edit(At(rig.document, key), _as_written(self._value(key)), text)
            for key, text in zip(adjustment.keys, texts, strict=True)
            if _as_written(self._value(key)) != text
        )
        shown = " and ".join(dict.fromkeys(texts[:1] if adjustment.capped else texts[:2]))
        offered = adjustment.to is not None or (rig.rig.stage == "planned" and adjustment.unit != "kg")
        return Found(
            Remedy(adjustment.words.format(shown), edits, offered), self.with_texts(adjustment, texts)
        )


def nearest_step(holds: Callable[[int], bool], start: int, bound: int) -> int | None:
    """Return a number from `start` (where it does not hold) towards `bound` that holds, the one before it not.

    Doubles its stride until one holds, then halves the gap. None where none of those up to the bound does.
    """
    fails = start
    for tried in strides(start, bound, 2):
        if holds(tried):
            _, holding = inwards(holds, fails, tried)
            return holding
        fails = tried
    return None


def _range(adjustment: Adjustment, now: float) -> tuple[int, int]:
    """Return where a search begins and how far it goes, in steps."""
    far = adjustment.farthest
    if adjustment.direction == "up":
        start = floor(now / adjustment.step)
        bound = start + MOST_STEPS
        return start, max(start, bound if far is None else min(bound, floor(far / adjustment.step)))
    start = ceil(now / adjustment.step)
    return start, min(start, max(1, start - MOST_STEPS, 1 if far is None else ceil(far / adjustment.step)))


def _texts(adjustment: Adjustment, now: list[float], steps: int) -> tuple[str, ...]:
    first = steps * adjustment.step
    if adjustment.capped:
        return _text(first, adjustment.unit), *(_text(min(one, first), adjustment.unit) for one in now[1:])
    return tuple(_text(one + first - now[0], adjustment.unit) for one in now)


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
