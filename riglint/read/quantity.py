"""Numbers with their unit, as riggers write them, turned into SI.

Nothing is guessed: a number without a unit, a unit in wrong letters (`KN`) or of the wrong kind, a decimal
comma and a thousands separator are errors that show the right spelling.
"""

import re
from collections.abc import Callable, Iterable
from functools import lru_cache
from typing import NamedTuple

from riglint.read.problems import shown
from riglint.read.spelling import nearest
from riglint.read.units import MEANT, NAMES, UNITS, Dimension, Unit

__all__ = ["Dimension", "Quantity", "QuantityError", "parse_quantity", "units_of"]


class Quantity(NamedTuple):
    """A number in SI (m, N, kg, kg/m, 1, rad, m/s, °C, V, Pa, N/m, s), its uncertainty, the text written."""

    si: float
    plus_minus: float
    text: str


class QuantityError(ValueError):
    """A text that is no quantity of the dimension wanted: one sentence, and what to write instead.

    `right` is the text that was meant, where that is plain, or each of its readings; `bare` a number that lacks
    nothing but its unit.
    """

    def __init__(self, message: str, do: str, *, right: tuple[str, ...] = (), bare: str = "") -> None:
        super().__init__(message)
        self.message = message
        self.do = do
        self.right = right
        self.bare = bare


LONGEST_TEXT = 80
AFTER = "After the ±"
IF_WEIGHT = " if you mean the weight of that mass"
LONGEST_NUMBER = 20  # characters; keeps every number finite and readable
_NUMBER = re.compile(r"[+-]?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?")
_SPACES = re.compile(
    "[ \t\n\r\u00a0\u2009\u202f]+"
)  # the last three: no-break, thin and narrow no-break space
_PARTS = re.compile(
    r"(?P<number>[+-]?[\d.,_]*(?:[ '’]\d[\d.,_]*)*(?:[eE][+-]?\d+)?) ?(?P<unit>.*)", re.DOTALL
)


def units_of(dimension: Dimension) -> tuple[str, ...]:
    """Return the accepted units, the way they are written."""
    return tuple(UNITS[dimension])


def parse_quantity(text: str, dimension: Dimension) -> Quantity:
    """Return the quantity that a text such as `82 m`, `82m` or `82 m ± 0.5 m` states, in SI.

    Any sign is allowed; rules judge it. The uncertainty is not negative and may have another unit of the same
    dimension. A mass where `force_or_mass` is wanted means its weight at 9.80665 m/s².

    Raises:
        QuantityError: The text is anything else; `message` says what was read, `do` what to write.

    >>> parse_quantity("82 m ± 50 cm", "length")
    Quantity(si=82.0, plus_minus=0.5, text='82 m ± 50 cm')
    """
    return _parsed(text, dimension)


@lru_cache(maxsize=4096, typed=True)  # limits, and what many files of a library say alike
def _parsed(text: str, dimension: Dimension) -> Quantity:
    if len(text) > LONGEST_TEXT:
        raise QuantityError(f"{shown(text)} is too long for a number with a unit.", _instead(dimension))
    plain = _SPACES.sub(" ", text.replace("−", "-")).strip()
    value_text, *spread_texts = re.split(r" ?(?:±|\+/-) ?", plain)
    if len(spread_texts) > 1:
        raise QuantityError(f"{shown(text)} has more than one ±.", _instead(dimension))
    spread_text = spread_texts[0] if spread_texts else ""
    try:
        number, unit = _read(value_text, dimension)
        spread = _spread(spread_text, dimension) if spread_texts else 0.0
    except QuantityError as error:
        raise _of_both(error, value_text, spread_text, dimension) if spread_texts else error from None
    si = (number + unit.offset) * unit.times / unit.over
    return Quantity(si + 0.0, spread, text)


def _of_both(error: QuantityError, value: str, spread: str, dimension: Dimension) -> QuantityError:
    """Return what is wrong with one side of a ±, with the whole text to write where it is plain."""
    after = error.message.startswith(AFTER)
    right = error.right
    if error.bare and (parts := _PARTS.match(value if after else spread)):
        right = (f"{error.bare} {parts['unit']}",)
    halves = [(value, one) if after else (one, _meant_spread(spread, dimension)) for one in right]
    wholes = [" ± ".join(one) for one in halves if _both_are_plain(*one, dimension)]
    if not wholes:  # one half alone would lose the ±
        return QuantityError(error.message, error.do)
    only_if = IF_WEIGHT if IF_WEIGHT in error.do else ""
    return QuantityError(error.message, _one_of(wholes, only_if), right=tuple(wholes))


def _meant_spread(text: str, dimension: Dimension) -> str:
    """Return what follows a ±, in right letters where only they are wrong."""
    try:
        _spread(text, dimension)
    except QuantityError as error:
        return next(iter(error.right), text)
    return text


def _both_are_plain(value: str, spread: str, dimension: Dimension) -> bool:
    try:
        _read(value, dimension)
        _spread(spread, dimension)
    except QuantityError:
        return False
    return True


def _one_of(readings: Iterable[str], only_if: str = "") -> str:
    """Return what to write where there is one reading, or several that only the writer can choose from."""
    which = [*readings]
    return f"Write {' or '.join(which)}{', whichever is meant' if len(which) > 1 else only_if}."


def _spread(text: str, dimension: Dimension) -> float:
    """Return the uncertainty after the ± in SI: a difference, so a unit's offset does not count."""
    if text.startswith(("+", "-")):
        raise QuantityError(
            f"A sign follows the ± in {shown('± ' + text)}.", "Write the uncertainty without a sign."
        )
    try:
        number, unit = _read(text, dimension)
    except QuantityError as error:
        raise QuantityError(
            f"{AFTER}: {error.message}", error.do, right=error.right, bare=error.bare
        ) from None
    return number * unit.times / unit.over


def _read(text: str, dimension: Dimension) -> tuple[float, Unit]:
    """Split `82 m` into its number and its unit, or say what keeps it from being that."""
    parts = _PARTS.match(text)
    number_text, unit_text = (parts["number"].strip(), parts["unit"]) if parts else ("", text)
    if not any(letter.isdecimal() for letter in number_text):
        raise QuantityError(f"{shown(text)} does not begin with a number.", _instead(dimension))
    unit_name = re.sub(r" ?/ ?", "/", unit_text).replace("/100ft", "/100 ft")
    number = _number(number_text, unit_name, dimension)
    unit = UNITS[dimension].get(unit_name)
    if unit is None:
        raise _unit_error(text, number_text, unit_name, dimension)
    return number, unit


def _number(text: str, unit_name: str, dimension: Dimension) -> float:
    if _NUMBER.fullmatch(text) and len(text) <= LONGEST_NUMBER:
        return float(text)
    unit = unit_name if unit_name in UNITS[dimension] else _right_unit(unit_name, dimension)
    tail = f" {unit}" if unit else " with its unit"
    if len(text) > LONGEST_NUMBER:
        raise QuantityError(
            f"The number {shown(text)} is too long.", f"Write it with fewer digits, {_such(dimension)}."
        )
    if any(letter.isdecimal() and not letter.isascii() for letter in text):
        raise QuantityError(f"{shown(text)} has digits of another script.", "Write the digits 0 to 9.")
    for pattern, what, right in _NUMBER_SLIPS:
        if re.fullmatch(pattern, text):
            readings = right(text, tail)
            plain = tuple(one for one in readings if unit and _NUMBER.fullmatch(one.removesuffix(tail)))
            raise QuantityError(f"{shown(text)} {what}", _one_of(readings), right=plain)
    raise QuantityError(f"{shown(text)} is not one decimal number.", _instead(dimension))


def _unsigned(text: str) -> tuple[str, str]:
    return ("-" if text.startswith("-") else ""), text.lstrip("+-")


def _without(marks: str, text: str) -> str:
    return "".join(letter for letter in text if letter not in marks)


def _either(text: str, tail: str) -> tuple[str, ...]:
    return f"{_without(',', text)}{tail}", f"{text.replace(',', '.')}{tail}"


def _spelt_out(text: str, tail: str) -> tuple[str, ...]:
    number = float(text)
    plain = f"{number:.15f}".rstrip("0").rstrip(".") if abs(number) < 1e15 else ""  # noqa: PLR2004 - still readable
    return (f"{plain}{tail}" if plain.strip("-0.") else "the number in full",)


def _no_leading_zeros(text: str, tail: str) -> tuple[str, ...]:
    sign, digits = _unsigned(text)
    whole, _, rest = digits.partition(".")
    return (f"{sign}{whole.lstrip('0') or '0'}{'.' + rest if rest else ''}{tail}",)


# Slips in numbers: pattern, what it is, how it is written instead.
_NUMBER_SLIPS = (
    (r"[+-]?[1-9]\d{0,2},\d{3}", "can be read in two ways: a comma parts thousands or decimals.", _either),
    (
        r"[+-]?\d+,\d+",
        "has a decimal comma. Write a decimal point.",
        lambda text, tail: (f"{text.replace(',', '.')}{tail}",),
    ),
    (
        r"[+-]?\d{1,3}(?:[ ,'’_]\d{3})+(?:\.\d+)?|[+-]?\d[\d_]*(?:\.\d+)?",
        "is not a plain decimal number: thousands are not parted and no zero leads.",
        lambda text, tail: _no_leading_zeros(_without(" ,'’_", text), tail),
    ),
    (
        r"[+-]?(?:\d+\.?\d*|\.\d+)[eE][+-]?\d{1,3}",
        "has a power of ten; exponents are not accepted.",
        _spelt_out,
    ),
    (r"[+-]?\d+\.", "ends with its decimal point.", lambda text, tail: (f"{text[:-1]}{tail}",)),
    (r"[+-]?\.\d+", "has no digit before its decimal point.", _no_leading_zeros),
)


def _unit_error(text: str, number: str, unit: str, dimension: Dimension) -> QuantityError:
    """Say what is wrong with a unit: missing, of another kind, in wrong letters, or unknown."""
    wanted = NAMES[dimension][0]
    if not unit:
        message = f"{shown(text)} has no unit. Expected {wanted}."
        usual = NAMES[dimension][1].partition(" ")[2]
        return QuantityError(message, _units_behind(f"such as {number} {usual}", dimension), bare=number)
    others = [NAMES[other][0] for other, units in UNITS.items() if unit in units and other != "force_or_mass"]
    if dimension == "force" and unit in ("kg", "t", "lb"):
        weight_kn = parse_quantity(f"{number} {unit}", "force_or_mass").si / 1000.0
        message = f"{shown(text)} is a mass. Expected a force."
        right = f"{weight_kn:.4g} kN"
        return QuantityError(message, f"Write {right}{IF_WEIGHT}.", right=(right,))
    if others:
        return QuantityError(f"{shown(text)} is {others[0]}. Expected {wanted}.", _instead(dimension))
    if dimension == "speed" and unit in ("kn", "kt", "kts", "knot", "knots"):
        message = f"{shown(text)} is in knots. We leave knots out because kn looks too much like kN."
        in_km_h = f"{float(number) * 1.852:.4g} km/h"  # 1852 m an hour, exact
        return QuantityError(message, f"Write {in_km_h}.", right=(in_km_h,))
    if any(letter.isdigit() for letter in unit.replace("/100 ft", "")) or unit[0] in "-–~/…<>=":
        return QuantityError(f"{shown(text)} is not one number with one unit.", _instead(dimension))
    unit_meant = _right_unit(unit, dimension)
    meant = f"{number} {unit_meant}" if unit_meant else ""
    message = f"{shown(unit)} in {shown(text)} is not a unit of {wanted.split(' ', 1)[1]}."
    return QuantityError(
        message, f"Write {meant}." if meant else _instead(dimension), right=(meant,) if meant else ()
    )


def _right_unit(unit: str, dimension: Dimension) -> str | None:
    """Return the unit that wrong letters stand for. Short ones only when nothing but capitals differs."""
    units = units_of(dimension)
    folded = unit.casefold().rstrip(".")
    same = [name for name in units if name.casefold() == folded]
    meant = MEANT.get(folded)
    if same or meant in units:
        return same[0] if same else meant
    return nearest(unit, units) if len(unit) > 3 else None  # noqa: PLR2004 - mN is not nearly N


def _such(dimension: Dimension) -> str:
    return f"such as {NAMES[dimension][1]}"


def unit_behind(
    number: str, dimension: Dimension, fits: Callable[[Quantity], bool]
) -> tuple[str, tuple[str, ...]]:
    """Return what to write where a number has no unit: the usual one, if the number then fits; else those that do.

    The second is each of them alone.
    """
    usual = NAMES[dimension][1].partition(" ")[2]
    fitting = [
        f"{number} {one}" for one in units_of(dimension) if fits(_parsed(f"{number} {one}", dimension))
    ]
    if f"{number} {usual}" in fitting or not fitting:
        such = f"such as {number} {usual}" if fitting else _such(dimension)
        return _units_behind(such, dimension), (f"{number} {usual}",) if fitting else ()
    return f"Write its unit behind it: {' or '.join(fitting)}.", tuple(fitting)


def _units_behind(such: str, dimension: Dimension) -> str:
    return f"Write its unit behind it ({_listed(dimension)}), {such}."


def _listed(dimension: Dimension) -> str:
    *first, last = units_of(dimension)
    return f"{', '.join(first)} or {last}" if first else last


def _instead(dimension: Dimension) -> str:
    return f"Write a number with its unit ({_listed(dimension)}), {_such(dimension)}."
