"""The stretch of webbing or rope as people write it: strains at tensions, from a data sheet."""

from itertools import pairwise
from typing import Annotated

from pydantic_core import PydanticCustomError

from riglint.model.vocabulary.fields import inside, quantity_reader, refuse
from riglint.model.vocabulary.read_by import NotedReadBy
from riglint.read.quantity import Quantity

_MOST_STRAIN = 1.0  # of webbing, rope or cord; more is a slip


_FORCE, _STRAIN = quantity_reader("force", 0.0), quantity_reader("strain_or_ratio", 0.0)


def _row(force: object, strain: object) -> tuple[Quantity, Quantity]:
    """Read one row; what is wrong with it names the row, since the place is that of the whole table."""
    try:
        return _FORCE(force), _STRAIN(strain)
    except PydanticCustomError as error:
        told = error.context or {}
        message = f"In the row {inside(force)}: {told['sentence']}"
        raise refuse(error.type, message, f"{told['do']} Leave the other rows as they are.") from None


def _stretch(value: object) -> tuple[tuple[float, float], ...]:
    """Read `{1 kN: 0.7 %, 5 kN: 2.4 %}` as pairs of tension in N and strain."""
    example = "Write tensions and strains, such as {1 kN: 0.7 %, 5 kN: 2.4 %}."
    if not isinstance(value, dict) or not value:
        raise refuse("file/value", f"Expected a stretch table, found {inside(value)}.", example)
    rows = [(Quantity(0.0, 0.0, "0 kN"), Quantity(0.0, 0.0, "0 %"))]
    rows += sorted(_row(force, strain) for force, strain in value.items())
    for (force, strain), (more_force, more_strain) in pairwise(rows):
        if force.si < more_force.si and strain.si < more_strain.si:
            continue
        message = (
            f"The stretch does not rise from {strain.text} at {force.text} to {more_strain.text} "
            f"at {more_force.text}. More tension must mean more stretch."
        )
        raise refuse("file/value", message, "Correct the wrong value. The table starts at zero by itself.")
    force, strain = rows[-1]
    if strain.si > _MOST_STRAIN:
        message = (
            f"A stretch of {strain.text} at {force.text} can't be right. At most {100.0 * _MOST_STRAIN:g} %."
        )
        raise refuse("file/value", message, "Write how much longer it gets, as a share of its own length.")
    return tuple((force.si, strain.si) for force, strain in rows[1:])


Stretch = Annotated[
    tuple[tuple[float, float], ...],
    NotedReadBy(
        _stretch, {"table": ["force", "strain_or_ratio"], "examples": [{"1 kN": "0.7 %", "5 kN": "2.4 %"}]}
    ),
]
