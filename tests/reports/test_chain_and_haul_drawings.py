"""The drawings of chain and haul: the figures are those of the rig, the signs stand where the findings point."""

import re
from collections.abc import Sequence
from html import unescape
from typing import Any

import pytest

from riglint.findings import Finding, Where
from riglint.loads import Loads
from riglint.model.values.sources import OWN
from riglint.reports.drawing.chain import chain_drawing
from riglint.reports.drawing.haul import haul_drawing
from riglint.rulekit import Signal
from riglint.views.drawing.chain import chains_of
from riglint.views.drawing.haul import haul_of
from tests.rigs import loads_of, rig_data


def said(drawing: str) -> list[str]:
    found = re.search(r"<desc[^>]*>(.*?)</desc>", drawing)
    assert found is not None
    return unescape(found[1]).split("; ")


def words(drawing: str) -> list[str]:
    return [unescape(one) for one in re.findall(r"<text[^>]*>(.*?)</text>", drawing)]


def finding(key: str, part: str | None, signal: Signal = Signal.WARNING, kind: Any = "fail") -> Finding:
    at = Where("rig.yaml", 1, 1, key, part)
    return Finding("tail/webbing", signal, kind, f"said of {key}", "why", "do", at, OWN)


def drawn(loads: Loads, findings: Sequence[Finding]) -> list[str]:
    return [chain_drawing(one, "one") for one in chains_of(loads, findings)]


@pytest.fixture(scope="module")
def low() -> Loads:
    return loads_of(rig_data("low"))


def test_every_part_stands_there_in_the_order_of_the_chain(low: Loads) -> None:
    (drawing,) = drawn(low, [])
    rows = said(drawing)
    names = [placed.words for placed in low.path.parts if placed.part.part != "anchor"]
    places = [next(n for n, row in enumerate(rows) if row.startswith(f"{name}: ")) for name in names]
    assert places == sorted(places)
    assert rows[0].startswith("anchor ")
    assert rows[-1].startswith("anchor ")


def test_figures_are_those_of_the_parts(low: Loads) -> None:
    (drawing,) = drawn(low, [])
    rows = said(drawing)
    seen = 0
    for load in low.parts:
        worst = load.worst(low.peaks()) or load.worst([low.haul_state])
        assert worst is not None
        row = next(one for one in rows if one.startswith(f"{load.words}: "))
        figures = [float(one) for one in re.findall(r"(?<=[: ])\d+\.?\d*", row.removeprefix(load.words))]
        asked = load.required_at(low.consequence.word)
        expected = [worst.force_n / 1000, load.strength.strength_n / 1000, worst.ratio, asked]
        assert figures == pytest.approx(expected, rel=0.006)  # three digits are printed
        seen += 1
    assert seen > 10


def test_the_gravest_finding_stands_beside_the_part_that_it_points_into(low: Loads) -> None:
    anchor = next(one for one in low.path.parts if one.part.part == "webbing_anchor")
    place = f"chain[{low.path.number(anchor)}]"
    found = [
        finding(f"{place}.tail", place, Signal.CAUTION),
        finding(f"{place}.tail_tied", place, Signal.WARNING),
        finding(f"{place}.tail", place, Signal.WARNING, "review"),
    ]
    (drawing,) = drawn(low, found)
    marked = [row for row in said(drawing) if "WARNING" in row or "CAUTION" in row]
    assert [row.split(":")[0] for row in marked] == [anchor.words]
    assert "tail_tied" in marked[0]
    assert words(drawing).count("WARNING") == 1


def test_a_finding_in_the_haul_stands_beside_its_piece(low: Loads) -> None:
    haul = low.path.haul
    assert haul is not None
    place = f"chain[{low.path.number(haul)}]"
    (drawing,) = drawn(low, [finding(f"{place}.brake.locked", place)])
    marked = [row for row in said(drawing) if "WARNING" in row]
    assert [row.split(" ")[0] for row in marked] == ["brake"]


def test_a_finding_of_the_shelf_stands_beside_the_part_that_the_gear_serves_as(low: Loads) -> None:
    shackle = next(one for one in low.path.parts if one.part.part == "shackle")
    (drawing,) = drawn(low, [finding(f"items.{shackle.part.gear}.inspected", None)])
    assert [row.split(":")[0] for row in said(drawing) if "WARNING" in row] == [shackle.words]


def test_a_backup_has_a_chain_of_its_own() -> None:
    loads = loads_of(rig_data("highline"))
    main, *backups = drawn(loads, [finding("backups[0].chain[1]", "backups[0].chain[1]")])
    assert len(backups) == len(loads.backups) > 0
    assert not any("WARNING" in row for row in said(main))
    assert sum("WARNING" in row for row in said(backups[0])) == 1
    catch = loads.catch(loads.backups[0]).state
    assert any(f"{catch.tension_n / 1000:.3g} of " in row for row in said(backups[0]))


@pytest.mark.parametrize("strands", [1, 2, 3, 4, 5, 6, 9])
def test_each_strand_of_the_haul_has_its_force(strands: int) -> None:
    data = rig_data("low")
    haul = next(part for part in data["chain"] if part["part"] == "haul")
    haul["strands"] = strands
    loads = loads_of(data)
    view = haul_of(loads)
    assert view is not None
    drawing = haul_drawing(view, "one")
    assert loads.haul is not None
    forces = loads.haul.at_rest(loads.standing_tension_n).strands_n
    shown = [re.match(r"(lead|strand \d+) (\S+) / (\S+)$", one) for one in words(drawing)]
    figures = [float(one[2]) for one in shown if one]
    assert figures == pytest.approx([one / 1000 for one in forces], rel=0.006)
    assert len(figures) == strands
    assert drawing.count("A12.0 12.0") == strands  # the rope turns between strands, and once in the brake


def test_a_rig_without_a_haul_has_no_such_drawing() -> None:
    data = rig_data("low")
    data["chain"] = [part for part in data["chain"] if part["part"] != "haul"]
    loads = loads_of(data)
    assert loads.haul is None
    assert haul_of(loads) is None
