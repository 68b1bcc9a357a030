"""How one value is written, as JSON Schema: exactly what the fields of the documents accept, as patterns.

The patterns are of letters that Python and JavaScript (unicode mode) read alike: ASCII, no look-behind.
"""

import re
from typing import Any

from riglint.model.vocabulary.meanings import meanings_of
from riglint.read.quantity import LONGEST_NUMBER, LONGEST_TEXT, units_of
from riglint.read.units import Dimension

Schema = dict[str, Any]

_SPACE = r"[ \t\n\r\u00a0\u2009\u202f]*"  # what a quantity may be parted with
_EDGE = r"\s*"  # what may stand around it
_NUMBER = r"(?:0|[1-9][0-9]*)(?:\.[0-9]+)?"
_NAUGHT = r"0(?:\.0+)?"
_NOT_TOO_LONG = rf"(?![-+\u22120-9.]{{{LONGEST_NUMBER + 1}}})"
_MINUS = r"[-\u2212]"  # hyphen, and the minus sign

NOTHING: Schema = {"not": {"not": {"type": "null"}}}  # so said, editors don't offer it

_MONTHS = "(?:0[1-9]|1[0-2])"
_DAYS = (
    "(?:(?:0[13578]|1[02])-(?:0[1-9]|[12][0-9]|3[01])"
    "|(?:0[469]|11)-(?:0[1-9]|[12][0-9]|30)"
    "|02-(?:0[1-9]|1[0-9]|2[0-8]))"
)
# A year has a 29th of February if 4 divides it, unless 100 does and 400 does not.
_LEAP_YEAR = "(?:[0-9]{2}(?:0[48]|[2468][048]|[13579][26])|(?:[02468][048]|[13579][26])00)"
DAY_PATTERN = rf"^(?!0000)(?:[0-9]{{4}}-(?:{_MONTHS}|{_DAYS})|{_LEAP_YEAR}-02-29)$"


def unit_pattern(unit: str) -> str:
    """Return the pattern of one unit, with the spaces that may stand in it.

    >>> print(unit_pattern("m"))
    m
    """
    escaped = re.sub(r"[\^$.*+?()[\]{}|\\]", r"\\\g<0>", unit).replace("°", r"\u00b0")
    # A slash needs an escape in JavaScript only between slashes, and unicode mode allows it there.
    return escaped.replace("/", f"{_SPACE}/{_SPACE}").replace("100 ft", f"100{_SPACE}ft")


def quantity_pattern(dimension: Dimension, least: float | None, *, above_zero: bool = False) -> str:
    """Return the pattern of the quantities that a field takes: of any sign, none below zero, or not even zero."""
    units = sorted(map(unit_pattern, units_of(dimension)), key=len, reverse=True)
    unit = f"(?:{'|'.join(units)})"
    value = f"[-+\\u2212]?{_NUMBER}" if least is None else rf"(?:\+?{_NUMBER}|{_MINUS}{_NAUGHT})"
    value = rf"\+?(?![0.]+(?![0-9.])){_NUMBER}" if above_zero else value
    spread = rf"{_SPACE}(?:\u00b1|\+/{_MINUS}){_SPACE}{_NOT_TOO_LONG}{_NUMBER}{_SPACE}{unit}"
    return f"^{_EDGE}{_NOT_TOO_LONG}{value}{_SPACE}{unit}(?:{spread})?{_EDGE}$"


def is_above_zero(band: tuple[str, str | None] | None) -> bool:
    """Whether a band, as its reader has it, leaves zero out: without an upper end, or beginning above zero."""
    return band is not None and (band[1] is None or float(band[0].partition(" ")[0]) > 0.0)


def quantity_schema(
    dimension: Dimension, least: float | None, examples: list[str], band: tuple[str, str | None] | None = None
) -> Schema:
    """Return the schema of a number with its unit, with what editors show and offer; `band` as its reader has it."""
    number, _, unit = examples[0].partition(" ")
    units = ", ".join(units_of(dimension))
    sign = "" if least is None else "; above zero" if is_above_zero(band) else "; zero or more"
    wrong = f"Write a number with its unit, such as {examples[0]}. Units: {units}{sign}."
    return {
        "type": "string",
        "maxLength": LONGEST_TEXT,
        "pattern": quantity_pattern(dimension, least, above_zero=is_above_zero(band)),
        "patternErrorMessage": wrong,
        "errorMessage": wrong,
        "examples": examples,
        "defaultSnippets": [{"label": f"… {unit}", "body": f"${{1:{number}}} {unit}"}],
    }


def table_schema(dimensions: list[Dimension], examples: list[dict[str, str]]) -> Schema:
    """Return the schema of a table whose keys are quantities too, such as stretch by tension."""
    (key, value), *_ = examples[0].items()
    names = quantity_schema(dimensions[0], 0.0, [key])
    return {
        "type": "object",
        "minProperties": 1,
        "propertyNames": {name: names[name] for name in ("maxLength", "pattern", "patternErrorMessage")},
        "additionalProperties": quantity_schema(dimensions[1], 0.0, [value]),
        "errorMessage": "Write tensions and strains, such as {1 kN: 0.7 %, 5 kN: 2.4 %}.",
        "examples": examples,
    }


def day_schema() -> Schema:
    """Return the schema of a day of the calendar, or of a month."""
    wrong = "Write year-month-day or year-month, such as 2026-05-02 or 2026-05."
    return {
        "type": "string",
        "pattern": DAY_PATTERN,
        "patternErrorMessage": wrong,
        "errorMessage": wrong,
        "examples": ["2026-05-02", "2026-05"],
    }


def text_schema() -> Schema:
    """Return the schema of a text. What YAML takes for a number or a yes/no is text in such a field."""
    return {"type": ["string", "number", "boolean"], "errorMessage": "Write one line of text here."}


def reason_schema() -> Schema:
    """Return the schema of a text that must say something."""
    return {**text_schema(), "pattern": r"\S", "patternErrorMessage": "Say who or why, in a few words."}


def written_schema() -> Schema:
    """Return the schema of a value whose name says what it must be: a number, most often with a unit."""
    wrong = "Write a number with its unit, such as 0.7 m, or a plain number."
    return {"type": ["string", "number"], "errorMessage": wrong, "examples": ["0.7 m", 0.9]}


def flag_schema() -> Schema:
    """Return the schema of a yes/no."""
    return {"type": "boolean", "errorMessage": "Write true or false, without quotes."}


def number_schema(bounds: Schema) -> Schema:
    """Return the schema of a plain decimal number, between two others where `bounds` holds low, high and ends."""
    shared = {"errorMessage": "Write a decimal number, such as 0.5, without quotes.", "examples": [0.5]}
    if "low" not in bounds:
        return {"type": "number", **shared}
    low, high = ("minimum", "maximum") if bounds["ends"] else ("exclusiveMinimum", "exclusiveMaximum")
    shared["errorMessage"] = (
        f"Write a share between {bounds['low']:g} and {bounds['high']:g}, without quotes."
    )
    return {"type": "number", low: bounds["low"], high: bounds["high"], **shared}


def whole_schema(least: int, most: int) -> Schema:
    """Return the schema of a whole number with its least and its greatest value."""
    return {
        "type": "integer",
        "minimum": least,
        "maximum": most,
        "errorMessage": f"Write a whole number from {least} to {most}, without quotes.",
    }


def words_schema(words: list[str]) -> Schema:
    """Return the schema of a closed list of words."""
    meant = {"enumDescriptions": meanings_of(words)} if meanings_of(words) else {}
    return {
        "type": "string",
        "enum": words,
        **meant,
        "errorMessage": f"Write one of these: {', '.join(words)}.",
    }


def or_null(schema: Schema) -> Schema:
    """Return a schema that also takes null, which means leaving out."""
    if "else" in schema:
        return {**schema, "else": or_null(schema["else"])}
    if "enum" in schema:
        return {
            "anyOf": [schema, NOTHING]
        }  # a null among the words would be shown and offered as one of them
    kinds = schema["type"] if isinstance(schema["type"], list) else [schema["type"]]
    return {**schema, "type": [*kinds, "null"]}
