"""Each source says how far it may be trusted: what is called published or a standard stands in a named work."""

import ast
from pathlib import Path
from typing import NamedTuple

import pytest

from riglint.mechanics.anchors.green_wood_table import WORKS
from riglint.model.values.bibliography import Work, works
from riglint.model.values.sources import MARKS, Source
from riglint.reports.rules.bibliography import uses
from riglint.rulebook import load_rulebook

ROOT = Path(__file__).parents[2]
FILES = [*sorted((ROOT / "riglint").rglob("*.py")), *sorted((ROOT / "rules").glob("*/*.py"))]
NAMED = {"published", "standard"}


class Written(NamedTuple):
    """One source as code writes it."""

    where: str
    source: Source


def written() -> list[Written]:
    """Return every source that is written out in riglint and its rules; one made of values is left out."""
    found = []
    for path in FILES:
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "Source":
                try:
                    values = [ast.literal_eval(value) for value in node.args]
                except ValueError:
                    continue
                found.append(Written(f"{path.relative_to(ROOT)}:{node.lineno}", Source(*values)))
    return found


ALL = written()
CALLED_SO = [pytest.param(one, id=one.where) for one in ALL if one.source.mark in NAMED]


def test_they_are_found() -> None:
    assert len(ALL) > 200
    assert len(CALLED_SO) > 100
    assert len(works()) > 40


@pytest.mark.parametrize("one", [pytest.param(one, id=one.where) for one in ALL])
def test_a_source_names_works_that_exist_and_a_known_mark(one: Written) -> None:
    assert one.source.text
    assert one.source.mark in MARKS
    assert set(one.source.works) <= set(works())


@pytest.mark.parametrize("one", CALLED_SO)
def test_nothing_without_a_title_is_published(one: Written) -> None:
    named = [works()[name] for name in one.source.works]
    assert named
    assert any(work.seen != "memory" for work in named), "only recalled: mark it `memory`"


@pytest.mark.parametrize("one", CALLED_SO)
def test_a_standard_is_called_one(one: Written) -> None:
    kinds = {works()[name].kind for name in one.source.works}
    assert one.source.mark in kinds


@pytest.mark.parametrize("work", works().values(), ids=lambda work: work.id)
def test_a_work_can_be_looked_up(work: Work) -> None:
    assert len(work.title) > 10
    assert work.publisher
    assert isinstance(work.year, int) or work.year == "n.d."
    assert work.seen in {"read", "quoted", "memory"}
    assert (work.seen == "quoted") == bool(work.by)
    assert work.words.endswith(".")


def test_every_work_carries_something() -> None:
    used = {name for source, _ in uses(load_rulebook()) for name in source.works}
    used |= {name for one in ALL for name in one.source.works}
    used |= {name for named in WORKS.values() for name in named}
    assert sorted(set(works()) - used) == []
    assert used <= set(works())


def test_an_entry_that_lacks_a_title_is_an_error() -> None:
    with pytest.raises(TypeError):
        Work("x", publisher="y", year=2000, kind="published", seen="read")  # type: ignore[call-arg]
