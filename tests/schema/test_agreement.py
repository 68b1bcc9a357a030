"""The reader and the schema files accept and refuse the same documents; where they cannot, it says why."""

import re
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft7Validator
from pydantic import TypeAdapter, ValidationError

from riglint.model.compact.short_parts import written_out
from riglint.model.load import kind_of, load_as
from riglint.model.schema import MODELS, schema_of
from riglint.model.schema_values import DAY_PATTERN, quantity_pattern
from riglint.model.vocabulary.fields import Day
from riglint.read.quantity import LONGEST_TEXT, Dimension, QuantityError, parse_quantity, units_of
from riglint.read.units import UNITS
from riglint.read.yaml_text import read_yaml, resolved
from tests.schema.corpus import CASES

CHECKOUT = Path(__file__).parents[2]
EXAMPLES = [
    file for file in CHECKOUT.glob("examples/**/*.yaml") if "ci" not in file.parts
]  # recipes for CI are no rigs
GOOD_FILES = sorted([*CHECKOUT.glob("riglint/baselines/*.yaml"), *EXAMPLES])
BROKEN_FILES = sorted(CHECKOUT.glob("tests/broken/**/*.yaml"))

# What only the reader can refuse: file in tests/broken, and why no schema can say it.
ONLY_THE_READER = {
    "kind_below_other_keys.yaml": "keys have no order in a schema",
    "value_stretch_falls.yaml": "a schema cannot compare two values",
    "yaml_duplicate_key.yaml": "a second key of one name is gone before a schema is asked",
    "yaml_tag.yaml": "a tag is gone before a schema is asked",
    "yaml_line_separator.yaml": "schemas do not forbid unseen letters in text",
    "reference_leg_to_no_bolt.yaml": "a schema does not know which names there are",
    "reference_line_misspelt.yaml": "a schema does not know which names there are",
    "reference_profile_from_no_anchor.yaml": "a schema does not know which names there are",
    "reference_with_escapes.yaml": "schemas do not forbid unseen letters in text",
}
# The same for single documents: what is tried, why no schema can say it, and a document that shows it.
EXCEPTIONS: dict[str, tuple[str, str]] = {
    "a number with a unit beyond its bounds": (
        "a schema cannot compare numbers that stand in text",
        "riglint: rig/1\ntitle: x\nchain: []\nplan: {wind: 300 km/h}\n",
    ),
    "a ± as large as its value": (
        "a schema cannot compare numbers that stand in text",
        "riglint: shelf/1\nitems: {A: {kind: rope, mbs: 20 kN ± 20 kN}}\n",
    ),
    "a last day that is too far off": (
        "a schema cannot compare numbers that stand in text",
        "riglint: rig/1\ntitle: x\nchain: []\n"  # noqa: ISC004
        "accepted: [{rule: gear/age, reason: x, role: y, until: 9999-12-31}]\n",
    ),
    "stretch that begins at zero": (
        "a schema cannot compare two values",
        "riglint: shelf/1\nitems: {A: {kind: rope, stretch: {0 kN: 1 %}}}\n",
    ),
    "a date that ends with a line break": (
        "$ also stands before a last line break in Python, not in JavaScript",
        'riglint: shelf/1\nitems: {A: {kind: rope, made: "2026-05\\n"}}\n',
    ),
}


def _named(path: Path) -> str:
    return path.relative_to(CHECKOUT).as_posix()


@cache
def validator(kind: str) -> Draft7Validator:
    """Return the validator of a kind of document, in a general-purpose library."""
    schema = schema_of(kind)
    Draft7Validator.check_schema(schema)
    return Draft7Validator(schema)


def answers(text: bytes, kind: str | None = None) -> tuple[bool, bool] | None:
    """Return whether the reader and whether the schema accepts a document; None if it holds no values."""
    document, problems = read_yaml(text, "a.yaml")
    if document is None:
        return None
    said, wrong = kind_of(document)
    kind = kind or said or "rig"
    whole, short = written_out(document, None) if kind in {"rig", "shelf"} else (document, [])
    more = [*short, *load_as(whole, MODELS[kind], kind)[1]]
    reader = not problems and wrong is None and said == kind and not more
    return reader, validator(kind).is_valid(resolved(document.data))


@pytest.mark.parametrize("tried", CASES)
def test_reader_and_schema_say_the_same(tried: str) -> None:
    cases = CASES[tried]
    said = [(case.tried, answers(case.text.encode(), case.kind)) for case in cases]
    assert said == [(case.tried, (case.good, case.good)) for case in cases]


def test_the_corpus_is_large_and_of_both_sorts() -> None:
    every = [case for cases in CASES.values() for case in cases]
    assert sum(case.good for case in every) > 500
    assert sum(not case.good for case in every) > 500


@pytest.mark.parametrize("path", GOOD_FILES, ids=_named)
def test_whole_files_are_accepted_by_both(path: Path) -> None:
    assert answers(path.read_bytes()) == (True, True)


@pytest.mark.parametrize("path", BROKEN_FILES, ids=_named)
def test_broken_files(path: Path) -> None:
    found = answers(path.read_bytes())
    if found is None:
        return  # no values, so there is nothing to ask a schema
    reader, schema = found
    assert schema == (reader or path.name in ONLY_THE_READER)


def test_every_exception_is_one() -> None:
    files = {path.name: path for path in BROKEN_FILES}
    texts = [files[name].read_bytes() for name in ONLY_THE_READER]
    texts += [text.encode() for _, text in EXCEPTIONS.values()]
    assert [answers(text) for text in texts] == [(False, True)] * len(texts)


PIECES = [
    "0", "1", "82", "007", "5", ".", ",", "-", "+", "−", "±", "+/-", "+/−", " ", "  ", "\t", "\n", "\u00a0",
    "\u2009", "\u202f", "\u3000", "/", "m", "k", "kN", "N", "kg", "t", "lb/100 ft", "lb/100ft", "ft", "%",
    "deg", "°", "°C", "km/h", "m / s", "1234567890123456789", "e3", "٣",
]  # fmt: skip
pieces = st.lists(st.sampled_from(PIECES), max_size=9).map("".join)


@st.composite
def nearly_right(draw: st.DrawFn, dimension: Dimension) -> str:
    """Return a quantity as people write it, sometimes with one piece put in at any place."""
    unit = st.sampled_from(units_of(dimension))
    number = st.sampled_from(["0", "82", "0.5", "-1.25", "−3", "+7", "-0.0"])
    space = st.sampled_from(["", " ", "\u00a0"])
    text = draw(number) + draw(space) + draw(unit)
    if draw(st.booleans()):
        text += (
            draw(space) + draw(st.sampled_from(["±", "+/-"])) + draw(space) + "0.5" + draw(space) + draw(unit)
        )
    at = draw(st.integers(0, len(text)))
    return text[:at] + draw(st.sampled_from(["", "", *PIECES])) + text[at:]


@pytest.mark.parametrize("dimension", UNITS)
def test_patterns_take_what_the_reader_takes(dimension: Dimension) -> None:
    any_sign, no_sign = (re.compile(quantity_pattern(dimension, least)) for least in (None, 0.0))

    @settings(max_examples=150, deadline=None)
    @given(st.one_of(nearly_right(dimension), pieces))
    def agree(text: str) -> None:
        try:
            si: float | None = parse_quantity(text, dimension).si
        except QuantityError:
            si = None
        short = len(text) <= LONGEST_TEXT
        assert (any_sign.search(text) is not None and short) == (si is not None)
        if dimension != "temperature":  # below zero on one scale is not below zero on the other
            assert (no_sign.search(text) is not None and short) == (si is not None and si >= 0.0)

    agree()


def test_every_day_of_the_calendar() -> None:
    """The calendar is Python's; its rule of leap years is that of ISO 8601."""
    day, written = re.compile(DAY_PATTERN), TypeAdapter(Day)
    years = (1, 4, 100, 400, 1900, 2000, 2023, 2024, 2100, 9996, 9999)
    for year in years:
        first = date(year, 1, 1).toordinal()
        days = [date.fromordinal(n) for n in range(first, date(year, 12, 31).toordinal() + 1)]
        assert all(day.search(one.isoformat()) for one in days)
        there = {one.isoformat() for one in days}
        every = (f"{year:04}-{month:02}-{n:02}" for month in range(14) for n in range(33))
        assert {one for one in every if day.search(one)} == there
    assert written.validate_python("2024-02") == date(2024, 2, 1)
    for text in ("0000-01-01", "2024-1-01", "2024-02-30", "２０２４-02"):
        assert not day.search(text)
        with pytest.raises(ValidationError):
            written.validate_python(text)


def test_no_pattern_needs_more_than_ascii() -> None:
    patterns: list[str] = []

    def collect(node: Any) -> None:
        if isinstance(node, dict):
            patterns.extend(
                value for key, value in node.items() if key == "pattern" and isinstance(value, str)
            )
        for item in node.values() if isinstance(node, dict) else node if isinstance(node, list) else ():
            collect(item)

    for kind in MODELS:
        collect(schema_of(kind))
    assert patterns
    assert all(pattern.isascii() and "(?<" not in pattern for pattern in patterns)
