"""Every file of published values says what it is, how far it may be trusted and why that far."""

import pytest

from tests.published.sources import HERE, MARKS, ORIGINS, TOLERANCES, PublishedSource, read_source

NAMES = sorted(path.stem for path in HERE.glob("*.yaml"))


@pytest.mark.parametrize("name", NAMES)
def test_a_source_is_complete(name: str) -> None:
    source = read_source(name)
    assert source.origin in ORIGINS
    assert source.mark in MARKS
    assert len(source.tolerance) == 1
    assert set(source.tolerance) <= TOLERANCES
    assert len(source.citation) > 20
    assert len(source.because) > 20
    assert source.cases


def with_tolerance(**tolerance: float) -> PublishedSource:
    return PublishedSource("made up", "none", "own", "calculated", tolerance, "none", ())


def test_the_comparison_can_fail() -> None:
    assert with_tolerance(last_digit=0.5).agrees(3.904, "3.90")
    assert not with_tolerance(last_digit=0.5).agrees(3.906, "3.90")
    assert with_tolerance(last_digit=0.5).agrees(1054.99, "1055")
    assert not with_tolerance(last_digit=0.5).agrees(1056.0, "1055")
    assert not with_tolerance(relative=0.01).agrees(102.0, 100.0)
    assert not with_tolerance(absolute=0.0).agrees(1.0001, 1.0)
