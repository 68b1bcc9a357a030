"""The bands that editors show of a number with a unit are those of the reader: tried at both ends and just outside."""

from typing import Any

import pytest
from pydantic import TypeAdapter, ValidationError

from riglint.model.vocabulary import bounds, fields
from riglint.read.quantity import parse_quantity

FIELDS: dict[str, Any] = {**vars(fields), **vars(bounds)}
BANDS = {
    name: note.json_schema
    for name, field in FIELDS.items()
    for note in getattr(field, "__metadata__", ())
    if "band" in (getattr(note, "json_schema", None) or {})
}


def takes(name: str, text: str) -> bool:
    try:
        TypeAdapter(FIELDS[name]).validate_python(text)
    except ValidationError:
        return False
    return True


def beside(text: str, times: float) -> str:
    """Return a quantity a little larger or smaller than another, in its unit."""
    number, unit = text.split(" ")
    return f"{float(number) * times:.6f}".rstrip("0").rstrip(".") + f" {unit}"


def test_every_field_with_bounds_shows_them() -> None:
    bounded = {name for name, one in vars(bounds).items() if hasattr(one, "__metadata__")}
    plain = {
        "AtOnce",
        "Efficiency",
        "InnerShare",
        "Friction",
    }  # no unit: their bounds are numbers of the schema
    assert bounded - plain == BANDS.keys() - {"Height"}


@pytest.mark.parametrize("name", BANDS)
def test_a_band_is_that_of_the_reader(name: str) -> None:
    low, high = BANDS[name]["band"]
    dimension = BANDS[name]["quantity"]
    if high is None:
        assert not takes(name, low)
        assert takes(name, beside(low.replace("0 ", "1 "), 0.001))
        return
    assert takes(name, low)
    assert takes(name, high)
    assert not takes(name, beside(high, 1.001))
    if parse_quantity(low, dimension).si > 0.0:
        assert not takes(name, beside(low, 0.999))
