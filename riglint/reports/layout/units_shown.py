"""Figures in feet, pounds and miles an hour beside those in SI, where a call asks for them.

Rules judge in SI, so the SI figure always stays on the page. Formulas and tables stay in SI alone. What a figure
becomes is rounded to three digits: only the SI figure is exact.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from typing import Literal

from riglint.read.units import UNITS, Dimension
from riglint.rulekit import rounded

Shown = Literal["metric", "imperial", "both"]
_SHOWN: ContextVar[Shown] = ContextVar("units shown", default="metric")
SHORT_M = 0.3  # below it lengths are shown in inches

_OTHER: dict[str, tuple[Dimension, str]] = {  # unit: its kind, and the unit that stands beside it
    "km": ("length", "ft"),
    "m": ("length", "ft"),
    "cm": ("length", "in"),
    "mm": ("length", "in"),
    "kN": ("force", "lbf"),
    "N": ("force", "lbf"),
    "kg": ("mass", "lb"),
    "km/h": ("speed", "mph"),
    "m/s": ("speed", "mph"),
}
_NUMBER = r"-?\d+(?:\.\d+)?"
_JOINT = r"(?: ± | to |–|, [a-z]+(?: [a-z]+)? )"  # `between 3 and 4 kN` has a pattern of its own
_NAMED = r", [a-z]+(?: [a-z]+)? "  # said once is enough
_UNIT = "|".join(sorted(_OTHER, key=len, reverse=True))
_FIGURE = (  # compiled when it is first asked for
    # Names in quotes and code are not ours to change.
    r"(?P<kept>`[^`]*`|(?<!\w)'[^']*'(?!\w))|"
    rf"(?<![\w./·-])(?P<figures>(?:(?<=between ){_NUMBER} and )?{_NUMBER}(?:{_JOINT}{_NUMBER})*)"
    rf" (?P<unit>{_UNIT})(?![\w/²·°^])"
)


@contextmanager
def showing(units: Shown) -> Iterator[None]:
    """Show figures in these units until the end of the block."""
    token = _SHOWN.set(units)
    try:
        yield
    finally:
        _SHOWN.reset(token)


def in_units(text: str) -> str:
    """Return text with the figures that are asked for.

    >>> with showing("both"):
    ...     in_units("The line comes down to 0.58 m.")
    'The line comes down to 0.58 m (1.9 ft).'
    """
    return text if _SHOWN.get() == "metric" else re.sub(_FIGURE, _both, text)


def _both(match: re.Match[str]) -> str:
    if match["kept"] is not None:
        return match["kept"]
    figures, unit = match["figures"], match["unit"]
    dimension, other = _OTHER[unit]
    values = [float(one) for one in re.findall(_NUMBER, figures)]
    if unit == "m" and max(map(abs, values)) < SHORT_M:
        other = "in"
    size, beside = UNITS[dimension][unit], UNITS[dimension][other]
    factor = size.times * beside.over / (size.over * beside.times)
    converted = re.sub(_NUMBER, lambda one: rounded(float(one[0]) * factor), figures)
    first, second = (figures, unit), (converted, other)
    if _SHOWN.get() == "imperial":
        first, second = second, first
    return f"{first[0]} {first[1]} ({re.sub(_NAMED, ', ', second[0])} {second[1]})"
