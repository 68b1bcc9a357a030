"""How a mechanics function refuses a number: outside its validity range it raises, it never clamps."""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import cache
from operator import attrgetter

STANDARD_GRAVITY_M_S2 = 9.80665  # exact by definition (3rd CGPM, 1901)
LARGEST_FORCE_N = 1e6  # far above any rig; a larger number is a slipped unit


# Units of the formulas and those that people read: name, and how many of these one of those makes.
_READ = {"N": ("kN", 1e-3), "rad": ("deg", 180.0 / math.pi), "Pa": ("MPa", 1e-6), "N/m": ("kN/m", 1e-3)}
_MOST_TOLD = 1e9  # nobody needs the digits of a larger number


class OutOfRange(ValueError):  # noqa: N818 - it is an answer, not a fault of the program
    """A number for which a formula does not hold; the message is for riggers."""


def require_within(what: str, value: float, low: float, high: float) -> None:
    """Raise OutOfRange unless `low` ≤ `value` ≤ `high`; not-a-number fails too.

    Units are the caller's; it names them as in `tension in N`, and the message tells kN for N and deg for rad.

    >>> require_within("sheave efficiency", 0.92, 0.1, 1.0)
    """
    if low <= value <= high:
        return
    name, _, unit = what.partition(" in ")
    unit, times = _READ.get(unit, (unit, 1.0))
    given, least, most = (plain(number * times) for number in (value, low, high))
    unit = f" {unit}" if unit else ""
    raise OutOfRange(f"{name} is {given}{unit}; valid is {least} to {most}{unit}")


def require_force(what: str, value_n: float) -> None:
    """Raise OutOfRange unless the force (N) lies between 0 and 1 MN.

    >>> require_force("line tension", 6000.0)
    """
    require_within(f"{what} in N", value_n, 0.0, LARGEST_FORCE_N)


def plain(number: float) -> str:
    """Return a number to four digits, without a power of ten unless it is very small.

    >>> plain(1_137_370.0)
    '1137000'
    """
    rounded = float(f"{number:.4g}")
    return (
        f"{rounded:.10g}"
        if abs(rounded) <= _MOST_TOLD
        else f"beyond {math.copysign(_MOST_TOLD, rounded):.10g}"
    )


def number(what: str, value: float) -> float:
    """Return a result, or raise OutOfRange if it is infinite or not a number: it would meet every limit.

    >>> number("catch", 4100.0)
    4100.0
    """
    if not math.isfinite(value):
        raise OutOfRange(f"{what} came out as {value}, which is no number")
    return value


class Numbers:
    """A result whose floats are numbers: one that is infinite or not a number would compare false with every limit.

    For dataclasses with slots. A rule that rests on such a result stays open, as with any number outside a formula.
    """

    __slots__: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        """Raise OutOfRange if a float is none."""
        for value in _values_of(self.__slots__)(self):
            if isinstance(value, float) and not math.isfinite(value):
                self._refuse()

    def _refuse(self) -> None:
        for name in self.__slots__:
            value = getattr(self, name)
            if isinstance(value, float):
                number(name.replace("_", " "), value)


@cache
def _values_of(names: tuple[str, ...]) -> Callable[[Numbers], tuple[object, ...]]:
    """Return what gives all values of a result."""
    return attrgetter(*names) if len(names) > 1 else lambda of: tuple(getattr(of, name) for name in names)
