"""What a rule says: signal words, limits, inputs, faults, and numbers as they stand in a sentence."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN, Context
from enum import IntEnum
from math import ceil, floor
from typing import Literal, NamedTuple

from riglint.loadpath.path import first_up
from riglint.loads.inputs import At
from riglint.loads.what_if.solved_for import Remedy
from riglint.model.values.defaults import in_si
from riglint.model.values.sources import Source
from riglint.read.quantity import Dimension
from riglint.records import dataclass


class Signal(IntEnum):
    """The signal words of ANSI Z535.4 and ISO 3864-2, least first."""

    NOTICE = 1
    CAUTION = 2
    WARNING = 3
    DANGER = 4


MEANINGS: dict[Signal, str] = {
    Signal.DANGER: "do not tension or load",
    Signal.WARNING: "correct this before anyone walks",
    Signal.CAUTION: "know it, improve it",
    Signal.NOTICE: "gear, tree or paperwork, no injury",
}

# What is advised where a fall can cost a life, and the only thing.
LOWER_OR_LEASH = "Lower the line until nobody is more than 3 m up, or rig a highline with leash and backup."
Kind = Literal["fail", "open", "review"]
Tighter = Literal["higher", "lower"]


@dataclass(frozen=True, slots=True)
class Limit:
    """A number that a rule compares with, written as a file would write it, with its reason and source."""

    name: str
    text: str  # "0.5 m", "2.5"
    dimension: Dimension | None  # None for a plain number
    tighter: Tighter  # which way asks for more
    because: str
    source: Source

    @property
    def si(self) -> float:
        """The default in SI units."""
        return in_si(self.text, self.dimension)


class Input(NamedTuple):
    """One number that a finding rests on, as a reader would check it."""

    name: str
    symbol: str
    value: float | str
    unit: str
    where: str | None = None  # file and line it was read from


@dataclass(frozen=True, slots=True)
class Fault:
    """What a rule says about one place. Signal, kind and source are the rule's own unless given."""

    at: At
    message: str
    do: str
    value: float | str | None = None
    limit: float | str | None = None
    unit: str | None = None
    inputs: tuple[Input, ...] = ()
    state: str | None = None
    signal: Signal | None = None
    kind: Literal["fail", "review"] = "fail"
    why: str | None = None
    source: Source | None = None
    remedies: tuple[Remedy, ...] = ()  # changes of one value that end it, as `Case.put_right` finds them
    rigs: tuple[str, ...] = ()  # of a rule that looks at a whole library: the rigs that it touches


def place_of(at: At) -> tuple[object, ...]:
    """Return what tells one place from another."""
    return at.path, at.key, at.part


def either(*changes: Remedy | str) -> str:
    """Return ways of putting something right as one sentence, such as `Raise both anchors to 1.9 m, or let 1 haul`."""
    words = [one.words if isinstance(one, Remedy) else one for one in changes]
    text = ", or ".join(filter(None, (", ".join(words[:-1]), words[-1])))
    return f"{first_up(text)}."


def rounded(value: float, direction: Literal["near", "up", "down"] = "near", digits: int = 3) -> str:
    """Return a number with 3 significant digits; `up` for what is needed, `down` for what is allowed."""
    rounding = {"near": ROUND_HALF_EVEN, "up": ROUND_CEILING, "down": ROUND_FLOOR}[direction]
    # Nine digits first, so that the noise of binary fractions does not push 6 to 6.01.
    return f"{Context(prec=digits, rounding=rounding).create_decimal(f'{value:.9g}').normalize():f}"


def to_the_cm(length_m: float, direction: Literal["up", "down"]) -> str:
    """Return a length (m) with 3 significant digits, none of them finer than anybody measures over the ground.

    >>> [to_the_cm(length_m, "down") for length_m in (1.2345, 0.0951, 0.007)]
    ['1.23', '0.09', 'less than 0.01']
    >>> to_the_cm(0.002, "up")
    '0.01'
    """
    if length_m >= 1.0:
        return rounded(length_m, direction)
    whole = {"up": ceil, "down": floor}[direction](round(length_m * 100.0, 6))
    return f"{whole / 100.0:g}" if whole else "less than 0.01"


def in_kn(force_n: float, direction: Literal["near", "up", "down"] = "near") -> str:
    """Return a force (N) as it stands in a sentence, such as `8.25 kN`."""
    return f"{rounded(force_n / 1000.0, direction)} kN"


def listed(words: Iterable[str]) -> str:
    """Return words as a list in a sentence, such as `a, b and c`."""
    *first, last = words
    return f"{', '.join(first)} and {last}" if first else last
