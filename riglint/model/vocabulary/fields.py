"""Field types of the documents: how the text of one value becomes a number with a unit, a date, a yes/no or a word.

The reader hands over unquoted scalars as `Plain` text; the field decides what they mean. So `no` in a title
stays a word, and `no` in a true/false field is an error that names the right spelling.
"""

import re
from collections.abc import Callable, Iterator
from datetime import date
from typing import Annotated, Any, Self

from pydantic import BaseModel, ConfigDict, Field, model_validator
from pydantic_core import PydanticCustomError

from riglint.model.reads import everything_read
from riglint.model.vocabulary.read_by import NotedReadBy, ReadBy
from riglint.read.document import FALSE, LONGEST_NUMBER, TRUE, Plain, plain_number
from riglint.read.problems import HIDDEN, shown
from riglint.read.quantity import Dimension, Quantity, QuantityError, parse_quantity, unit_behind, units_of
from riglint.read.spelling import nearest

DECIMAL = re.compile(r"[-+]?(0|[1-9][0-9]*)(\.[0-9]+)?")
DAY = re.compile(r"([0-9]{4})-([0-9]{2})(?:-([0-9]{2}))?")
LAST_YEAR = 2099
MARGIN: dict[Dimension, str] = {"length": "0.3 m", "force": "0.2 kN", "mass": "1 kg"}  # shown in examples


class Form(BaseModel):
    """A part of a document: unknown keys are refused, nothing is changed after reading."""

    model_config = ConfigDict(extra="forbid", frozen=True, use_attribute_docstrings=False, defer_build=True)

    def __eq__(self, other: object) -> bool:
        """Compare value by value: whoever does has read all of them."""
        everything_read()
        return super().__eq__(other)

    def __hash__(self) -> int:
        """Return a hash of all values."""
        everything_read()
        return hash((type(self), *vars(self).values()))

    def __iter__(self) -> Iterator[tuple[str, Any]]:  # type: ignore[override]
        """Yield every field with its value."""
        everything_read()
        return super().__iter__()

    def __copy__(self) -> Self:
        """Return a copy, for one with another value."""
        everything_read()
        return super().__copy__()

    def model_dump(self, **how: Any) -> dict[str, Any]:
        """Return all values as plain data."""
        everything_read()
        return super().model_dump(**how)

    @model_validator(mode="before")
    @classmethod
    def _null_is_left_out(cls, data: Any) -> Any:
        return without_nulls(cls, data)


def without_nulls(model: type[Form], data: Any) -> Any:
    """Take a null as a key that is not there, where the key may be left out."""
    if not isinstance(data, dict) or None not in data.values():
        return data
    fields = model.model_fields
    spared = {field.alias or name for name, field in fields.items() if not field.is_required()}
    return {key: value for key, value in data.items() if value is not None or key not in spared}


def about(description: str, default: Any = None, **more: Any) -> Any:
    """Describe a field that may be left out."""
    return Field(default=default, description=description, **more)


def for_people(description: str, because: str, default: Any = None) -> Any:
    """Describe a field that people read: no verdict hangs on its being there, for the reason given.

    No strength, load, length, date or part is one: `tests/silence` holds them to that.
    """
    words = f"{description.rstrip('.')}. For people: {because}"
    return Field(default=default, description=words, json_schema_extra={"for_people": because})


def needed(description: str, **more: Any) -> Any:
    """Describe a field that must be there."""
    return Field(description=description, **more)


def refuse(rule: str, message: str, do: str, *instead: str, written: str = "") -> PydanticCustomError:
    """Return the error that carries our own sentence; `instead` and `written` are those of a `Problem`."""
    # Braces would be taken for placeholders; the sentence travels in the context instead.
    told = {"sentence": message, "do": do, "instead": instead, "written": written}
    return PydanticCustomError(rule, "{sentence}", told)


def quoted(value: object) -> str:
    """Return a value as it begins a sentence: quoted on one line, or what kind of thing stands there."""
    if value is None:
        return "Nothing"
    if isinstance(value, dict):
        return "A group of keys"
    return "A list" if isinstance(value, list) else shown(str(value))


def inside(value: object) -> str:
    """Return a value as it stands inside a sentence."""
    text = quoted(value)
    return text if isinstance(value, str) else text[:1].lower() + text[1:]


def _text(value: object) -> str:
    if isinstance(value, str):
        return str(value)
    raise refuse("file/value", f"Expected text, found {inside(value)}.", "Write one line of text here.")


def _reason(value: object) -> str:
    """Read a text that somebody answers with; spaces, signs and unseen letters alone answer nothing."""
    text = _text(value)
    if any(letter.isalnum() for letter in HIDDEN.sub("", text)):
        return text
    raise refuse("file/value", "Nothing is written here. Expected words.", "Say who or why, in a few words.")


FLAGS = {
    **dict.fromkeys(("yes", "y", "on", "true"), "true"),
    **dict.fromkeys(("no", "n", "off", "false"), "false"),
}


def _flag(value: object) -> bool:
    if isinstance(value, Plain) and (value in TRUE or value in FALSE):
        return value in TRUE
    folded = str(value).lower() if isinstance(value, str) else ""
    meant = FLAGS.get(folded) or nearest(folded, ("true", "false"))
    do = f"Write {meant}." if meant else "Write true or false."
    if not isinstance(value, Plain) and value in ("true", "false"):
        message = f"{quoted(value)} is in quotes, which make it text. Expected true or false."
        raise _meant(value, message, f"Write {meant}, without quotes.", meant)
    raise _meant(value, f"Expected true or false, found {inside(value)}.", do, meant)


def _meant(value: object, sentence: str, do: str, meant: str | None) -> PydanticCustomError:
    """Return the error of a value whose quotes go too: in quotes a number, true or false would stay text."""
    instead = [meant] if meant else []
    return refuse("file/value", sentence, do, *instead, written=str(value) if instead else "")


def _number_in(value: object, what: str, *, whole: bool) -> int | float:
    text = str(value) if isinstance(value, str) else ""
    if len(text) > LONGEST_NUMBER:
        raise refuse("file/value", f"The number {shown(text)} is too long.", f"Write {what}.")
    number = plain_number(text)
    fits = number is not None and (not whole or number == int(number))
    if isinstance(value, Plain) and number is not None and fits:
        return number
    do, meant = f"Write {what}.", None
    if re.fullmatch(r"[-+]?0[0-9]+", text):
        meant = text.lstrip("+-0") or "0"
        do = f"Write {meant}, without leading zeros."
    elif re.fullmatch(r"[0-9][0-9_]*(\.[0-9]+)?", text) and "_" in text:
        meant = text.replace("_", "")
        do = f"Write {meant}, without underscores."
    elif re.fullmatch(r"[0-9]+,[0-9]+", text):
        meant = text.replace(",", ".")
        do = f"Write {meant}, with a decimal point."
    elif not isinstance(value, Plain) and fits:
        do, meant = f"Write {text}, without quotes.", text
    sentence = f"Expected {what.partition(',')[0]}, found {inside(value)}."
    raise _meant(value, sentence, do, meant)


def read_number(value: object) -> float:
    """Read a plain decimal number."""
    return float(_number_in(value, "a decimal number, such as 0.5", whole=False))


def whole_reader(most: int, what: str) -> Callable[[object], int]:
    """Read a whole number; more than `most` cannot be `what`."""

    def read(value: object) -> int:
        number = int(_number_in(value, "a whole number, such as 3", whole=True))
        if number <= most:
            return number
        message = f"{quoted(value)} cannot be {what}; {most} is the most."
        raise refuse("file/value", message, "Correct the number.")

    return read


def _day(value: object) -> date:
    do = "Write year-month-day or year-month, such as 2026-05-02 or 2026-05."
    found = DAY.fullmatch(value) if isinstance(value, str) else None
    if not found:
        raise refuse("file/value", f"Expected a date, found {inside(value)}.", do)
    year, month, day = found.groups()
    try:
        return date(int(year), int(month), int(day or 1))
    except ValueError:
        raise refuse("file/value", f"{quoted(value)} is not a day of the calendar.", do) from None


def _until(value: object) -> date:
    """Read the last day of something that somebody answers for; nobody answers for longer than a working life."""
    day = _day(value)
    if day.year <= LAST_YEAR:
        return day
    message = f"{quoted(value)} is too far off for anyone to answer for. {LAST_YEAR} is the last year."
    raise refuse("file/value", message, "Write the date by which somebody looks at it again.")


def quantity_reader(
    dimension: Dimension, least: float | None = 0.0, fits: Callable[[Quantity], bool] = lambda _: True
) -> Callable[[object], Quantity]:
    """Return what reads a number with its unit, `least` or more in SI units; None where any sign makes sense.

    `fits` tells which units a number may lack: those with which it makes sense here.
    """
    units = ", ".join(units_of(dimension))

    def read(value: object) -> Quantity:
        if not isinstance(value, str):
            message = f"Expected a number with its unit, found {inside(value)}."
            raise refuse("file/unit", message, f"Write a number and one of {units}.")
        try:
            quantity = parse_quantity(str(value), dimension)
        except QuantityError as error:
            if error.bare:
                do, meant = unit_behind(error.bare, dimension, fits)
                raise refuse("file/unit", error.message, do, *meant) from None
            raise refuse("file/unit", error.message, error.do, *error.right) from None
        if least is not None and quantity.si < least:
            raise refuse("file/value", f"{quoted(value)} is below zero.", "Write a value of zero or more.")
        if least is not None and 0.0 < quantity.plus_minus >= quantity.si:
            message = f"The ± of {quoted(value)} is as large as the value itself, so it tells us nothing."
            raise refuse("file/value", message, MEASURE)
        return quantity

    return read


def quantity_by(
    read: Callable[[object], Quantity],
    dimension: Dimension,
    example: str,
    least: float | None = 0.0,
    band: tuple[str, str | None] | None = None,
) -> NotedReadBy:
    """Note what the schema file and editors need to know, `band` as its reader has it; None is no upper end."""
    examples = [example, f"{example} ± {MARGIN[dimension]}"] if dimension in MARGIN else [example]
    note = {"quantity": dimension, "least": least, "examples": examples}
    return NotedReadBy(read, {**note, "band": band} if band else note)


MEASURE = "Measure it more closely, or leave the key out. riglint then asks for it."
_FARTHEST_M = 3000.0  # from a line that is 2000 m long at the most


def _height(value: object) -> Quantity:
    """Read a height, or a distance along the ground, of either sign."""
    quantity = quantity_reader("length", None)(value)
    if abs(quantity.si) <= _FARTHEST_M:
        return quantity
    message = f"{quoted(value)} can't be a place near a slackline. Expected -3000 m to 3000 m."
    raise refuse("file/value", message, "Correct the number or its unit.")


_MOST_COUNTED = 100_000  # days, people, sheaves, turns; more is a slip

Text = Annotated[str, ReadBy(_text)]
Reason = Annotated[str, NotedReadBy(_reason, {"type": "string", "format": "reason"})]
Flag = Annotated[bool, ReadBy(_flag)]
Number = Annotated[float, ReadBy(read_number)]
Whole = Annotated[int, ReadBy(whole_reader(_MOST_COUNTED, "a count")), Field(ge=0, le=_MOST_COUNTED)]
Count = Annotated[int, ReadBy(whole_reader(_MOST_COUNTED, "a count")), Field(ge=1, le=_MOST_COUNTED)]
Day = Annotated[date, ReadBy(_day)]
Until = Annotated[date, ReadBy(_until)]


def _plain(dimension: Dimension, example: str, least: float | None = 0.0) -> NotedReadBy:
    return quantity_by(quantity_reader(dimension, least), dimension, example, least)


Length = Annotated[Quantity, _plain("length", "82 m")]
Height = Annotated[Quantity, quantity_by(_height, "length", "-1.2 m", None, ("-3000 m", "3000 m"))]
Force = Annotated[Quantity, _plain("force", "6 kN")]
MassPerLength = Annotated[Quantity, _plain("mass_per_length", "58 g/m")]
Fraction = Annotated[Quantity, _plain("strain_or_ratio", "3.5 %")]
Angle = Annotated[Quantity, _plain("angle", "50 deg")]
Voltage = Annotated[Quantity, _plain("voltage", "20 kV")]
Duration = Annotated[Quantity, _plain("duration", "7.9 s")]
Stiffness = Annotated[Quantity, _plain("stiffness", "130 kN/m")]
Temperature = Annotated[Quantity, _plain("temperature", "18 °C", None)]
