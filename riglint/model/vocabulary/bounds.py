"""Fields whose values only make sense within bounds: a span, a person, a strength, a share.

Beyond them a unit or a figure is wrong, or the formulas do not hold; no ordinary rig comes near an end of
them. Tighter bounds, which a club may move, are limits of rules.
"""

from collections.abc import Callable
from typing import Annotated

from pydantic import Field

from riglint.model.vocabulary.fields import (
    inside,
    quantity_by,
    quantity_reader,
    quoted,
    read_number,
    refuse,
    whole_reader,
)
from riglint.model.vocabulary.read_by import NotedReadBy, ReadBy
from riglint.read.quantity import Dimension, Quantity, parse_quantity

_LEAST_EFFICIENCY = 0.1  # below it nothing turns
_LEAST_PERCENTAGE = 5.0  # a smaller number was not meant as one
_FIGURE = "Correct the number or its unit."
_STRENGTH = "Write the value on its label. If you don't know it, leave the key out."


def _above_zero(dimension: Dimension, what: str, do: str = _FIGURE) -> Callable[[object], Quantity]:
    """Read a quantity of which nothing at all would make no sense; `what` names it in the sentence."""
    read = quantity_reader(dimension)

    def read_above(value: object) -> Quantity:
        quantity = read(value)
        if quantity.si > 0.0:
            return quantity
        message = f"{quoted(value)} can't be {what}. Expected a value above zero."
        raise refuse("file/value", message, do)

    return read_above


def _between(dimension: Dimension, low: str, high: str, what: str) -> Callable[[object], Quantity]:
    """Read a quantity that only makes sense from `low` to `high`, both written as in a file."""
    least, most = (parse_quantity(bound, dimension).si for bound in (low, high))
    read = quantity_reader(dimension, fits=lambda quantity: least <= quantity.si <= most)

    def read_between(value: object) -> Quantity:
        quantity = read(value)
        if least <= quantity.si <= most:
            return quantity
        message = f"{quoted(value)} can't be {what}. Expected {low} to {high}."
        raise refuse("file/value", message, _FIGURE)

    return read_between


def _share(low: float, high: float, *, ends: bool = True, what: str = "a share") -> Callable[[object], float]:
    """Read a share from `low` to `high`, both of them included or (`ends` false) neither."""
    bounds = f"{what} between {low:g} and {high:g}" + ("" if ends else ", neither of them itself,")

    def read(value: object) -> float:
        number = read_number(value)
        if low < number < high or (ends and number in (low, high)):
            return number
        message = f"Expected {bounds}, found {inside(value)}."
        if number >= _LEAST_PERCENTAGE and low < number / 100.0 <= high:
            share = f"{number / 100.0:g}"
            raise refuse("file/value", message, f"Write {share} if you mean {number:g} %.", share)
        raise refuse("file/value", message, "Write a number such as 0.5.")

    return read


def _shared(low: float, high: float, *, ends: bool = True, what: str = "a share") -> NotedReadBy:
    """Read a share, and note between which numbers it lies."""
    note = {"type": "number", "low": low, "high": high, "ends": ends}
    return NotedReadBy(_share(low, high, ends=ends, what=what), note)


LengthAboveZero = Annotated[
    Quantity,
    quantity_by(_above_zero("length", "a length"), "length", "82 m", band=("0 m", None)),
]
Span = Annotated[
    Quantity,
    quantity_by(
        _between("length", "1 m", "2000 m", "the span of a line"), "length", "82 m", band=("1 m", "2000 m")
    ),
]
Girth = Annotated[
    Quantity,
    quantity_by(
        _between("length", "5 cm", "25 m", "the girth of a tree"), "length", "160 cm", band=("5 cm", "25 m")
    ),
]
WindSpeed = Annotated[
    Quantity,
    quantity_by(
        _between("speed", "0 km/h", "200 km/h", "the wind on a line"),
        "speed",
        "15 km/h",
        band=("0 km/h", "200 km/h"),
    ),
]
Width = Annotated[
    Quantity,
    quantity_by(
        _between("length", "1 mm", "2 m", "the width of a flat band or the diameter of a bar or rope"),
        "length",
        "25 mm",
        band=("1 mm", "2 m"),
    ),
]
Thickness = Annotated[
    Quantity,
    quantity_by(
        _between("length", "0.1 mm", "0.5 m", "the thickness of webbing, a sling or a protector"),
        "length",
        "2 mm",
        band=("0.1 mm", "0.5 m"),
    ),
]
Holding = Annotated[
    Quantity,
    quantity_by(_above_zero("force", "a strength", _STRENGTH), "force", "6 kN", band=("0 kN", None)),
]
Tension = Annotated[
    Quantity,
    quantity_by(
        _between("force", "0 kN", "100 kN", "the tension of a slackline"),
        "force",
        "6 kN",
        band=("0 kN", "100 kN"),
    ),
]
Person = Annotated[
    Quantity,
    quantity_by(
        _between("mass", "10 kg", "300 kg", "the mass of a person"), "mass", "82 kg", band=("10 kg", "300 kg")
    ),
]
RockMass = Annotated[
    Quantity,
    quantity_by(
        _between("mass", "10 kg", "10000 t", "the mass of a boulder"),
        "mass",
        "82 kg",
        band=("10 kg", "10000 t"),
    ),
]
GearMass = Annotated[
    Quantity,
    quantity_by(
        _between("mass", "10 g", "100 kg", "the mass of a block, plate or brake"),
        "mass",
        "1.2 kg",
        band=("10 g", "100 kg"),
    ),
]
Strength = Annotated[
    Quantity,
    quantity_by(
        _above_zero("force_or_mass", "a strength", _STRENGTH), "force_or_mass", "42 kN", band=("0 kN", None)
    ),
]
# The walkers beside the first are computed one by one, in every state.
_MOST_AT_ONCE = 50
AtOnce = Annotated[
    int,
    ReadBy(whole_reader(_MOST_AT_ONCE, "the people on one line at a time")),
    Field(ge=1, le=_MOST_AT_ONCE),
]
# The legs of a wider angle pull almost against each other, without end.
IncludedAngle = Annotated[
    Quantity,
    quantity_by(
        _between("angle", "0 deg", "177 deg", "the angle between two legs"),
        "angle",
        "50 deg",
        band=("0 deg", "177 deg"),
    ),
]
QuarterAngle = Annotated[
    Quantity,
    quantity_by(
        _between("angle", "0 deg", "90 deg", "an angle from a plane or from the vertical"),
        "angle",
        "50 deg",
        band=("0 deg", "90 deg"),
    ),
]
Efficiency = Annotated[float, _shared(_LEAST_EFFICIENCY, 1.0)]
InnerShare = Annotated[float, _shared(0.0, 1.0, ends=False)]
Friction = Annotated[float, _shared(0.0, 1.0, what="a friction number")]
