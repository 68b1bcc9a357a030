"""The page of a day at a spot: plan, sums with their formula, order, packing list; and who is found at fault."""

import json
from pathlib import Path
from typing import Any

import pytest

from tests.cli.calling import run
from tests.festival import DAY, LINES, PLACES, write_festival

ON = ("--on", "2026-05-02", "--day", DAY)


@pytest.fixture(scope="module")
def festival(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return write_festival(tmp_path_factory.mktemp("festival") / "day")


@pytest.fixture(scope="module")
def page(festival: Path) -> str:
    return run(festival, "audit", ".", *ON, "--format", "html")[1]


def of_the_day(where: Path) -> list[dict[str, Any]]:
    report = json.loads(run(where, "audit", ".", *ON, "--format", "json")[1])
    found = [one for file in report["files"] for one in file["findings"]]
    return [one for one in found if one["rule"].startswith("day/") and one["kind"] != "review"]


def test_the_plan_shows_every_anchor_and_every_line(page: str) -> None:
    assert "Plan of the spot" in page
    for name in (*PLACES, *LINES):
        assert f">{name}</text>" in page


def test_the_sums_stand_there_with_their_formula(page: str) -> None:
    assert "Festival meadow on 2026-05-09: 5 lines" in page
    assert "|Σ T·e|, e along each line in plan" in page
    assert "worst of any lines, as vectors" in page


def test_order_and_packing_list_stand_there(page: str) -> None:
    assert "rig in this order" in page
    assert page.count("<td>webbing</td>") == len(LINES)


def test_without_a_day_the_page_is_that_of_the_files(festival: Path) -> None:
    assert "Plan of the spot" not in run(festival, "audit", ".", *ON[:2], "--format", "html")[1]


def test_the_sound_day_has_nothing_but_its_narrow_corners(festival: Path) -> None:
    """At a shared tree two walk zones come near each other; nothing else is said."""
    assert {one["rule"] for one in of_the_day(festival)} <= {"day/fall_zones"}


def test_a_thin_oak_in_two_lines_is_told_in_both_and_once_for_the_day(tmp_path: Path) -> None:
    """By hand: at right angles √2 · 8.4 kN at 1.35 m bend it as one line of 11.9 kN would."""
    where = write_festival(tmp_path / "thin")
    thin = where / "spot.yaml"
    text = thin.read_text(encoding="utf-8")  # the oak stands first
    thin.write_text(text.replace("girth: 1.4 m", "girth: 1.04 m", 1), encoding="utf-8")
    found = [one for one in of_the_day(where) if one["rule"] == "day/tree_stem"]
    assert sorted(one["at"]["path"] for one in found) == ["line-1.yaml", "line-2.yaml", "spot.yaml"]
    assert {one["at"]["key"] for one in found} == {"chain[0]", "anchors.oak"}
    assert {one["rule"] for one in of_the_day(where)} <= {"day/tree_stem", "day/fall_zones"}
