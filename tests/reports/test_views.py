"""A view is finished: frozen through and through, and nothing in it can compute anything any more."""

from collections.abc import Iterator
from dataclasses import FrozenInstanceError, fields, is_dataclass
from datetime import date
from enum import Enum
from pathlib import Path
from typing import Any

import pytest

from riglint.findings import audit
from riglint.model.documents.rig import Measured
from riglint.policy import DEFAULT
from riglint.read.quantity import Quantity
from riglint.rulebook import load_rulebook
from riglint.testing import BASELINES
from riglint.views.audit.drawn import drawn_of
from riglint.views.audit.summary import summary_of
from riglint.views.card.build import build_card
from riglint.views.gauge.build import gauge_rig
from riglint.views.sheet.build import build_sheet

ON = date(2026, 5, 2)
VALUES = (str, int, float, bool, Enum, type(None))
WRITERS = Path(__file__).parents[2] / "riglint/reports"
PULL = Measured.model_construct(
    what="force", returns=1, where="lead_strand", value=Quantity(1300.0, 0.0, "1.3 kN")
)


def is_frozen(value: Any) -> bool:
    if not is_dataclass(value):
        return False
    try:
        setattr(value, "any", None)  # noqa: B010 - a name that is no field of it
    except FrozenInstanceError:
        return True
    except AttributeError:
        return False
    return False


def unfinished(name: str, value: Any) -> Iterator[str]:
    """What in a view is neither a value nor frozen, by its name."""
    if isinstance(value, tuple):
        for n, one in enumerate(value):
            yield from unfinished(f"{name}[{n}]", one)
    elif is_frozen(value):
        for field in fields(value):
            yield from unfinished(f"{name}.{field.name}", getattr(value, field.name))
    elif not isinstance(value, VALUES):
        yield f"{name}: {type(value).__name__}"


def views(baseline: str) -> Iterator[tuple[str, object]]:
    book = load_rulebook()
    found = audit([BASELINES / f"{baseline}.yaml"], book, ON)
    (result,) = (one for one in found.files if one.kind == "rig")
    loads = result.loads
    assert loads is not None
    yield "sheet", build_sheet(loads, ON)
    yield "card", build_card(loads, found, book)
    yield "summary", summary_of(result)
    yield "drawn", drawn_of(result, result.findings)
    if loads.haul is not None:
        yield "gauge", gauge_rig(loads, PULL, 0.15)


@pytest.mark.parametrize("baseline", ["low", "highline", "long_haul"])
def test_a_view_holds_values_only(baseline: str) -> None:
    for name, view in views(baseline):
        assert view is not None, name
        assert list(unfinished(name, view)) == []


def test_what_can_compute_would_be_seen() -> None:
    assert list(unfinished("policy", (DEFAULT, [1.0], lambda: 1.0))) != []
    assert list(unfinished("list", [1.0])) == ["list: list"]


def test_no_writer_reaches_into_the_loads() -> None:
    # A type is imported to be named; a value can come along inside another one, past every import contract.
    files = sorted(WRITERS.rglob("*.py"))
    assert len(files) > 30
    assert [file.name for file in files if ".loads" in file.read_text(encoding="utf-8")] == []
