"""The page of a day at a spot: plan, sums with their formula, order, packing list; and who is found at fault."""

import json
from pathlib import Path
from shutil import copytree
from typing import Any

import pytest

from tests.cli.calling import run
from tests.festival import DAY, LINES, PLACES, write_festival

EXAMPLES = Path(__file__).parents[2] / "examples"
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
    assert "worst of any of them" in page


def test_order_and_packing_list_stand_there(page: str) -> None:
    assert "Rig in this order" in page
    assert f"{len(LINES)} × webbing:" in page


def test_without_a_day_the_page_is_that_of_the_files(festival: Path) -> None:
    assert "Plan of the spot" not in run(festival, "audit", ".", *ON[:2], "--format", "html")[1]


def test_the_sound_day_has_nothing_but_its_narrow_corners(festival: Path) -> None:
    """At a shared tree two walk zones come near each other, one line is walked above another; nothing else is said."""
    assert {one["rule"] for one in of_the_day(festival)} <= {"day/fall_zones", "day/crossing"}


def test_a_thin_oak_in_two_lines_is_told_in_both_and_once_for_the_day(tmp_path: Path) -> None:
    """By hand: at right angles √2 · 8.4 kN at 1.35 m bend it as one line of 11.9 kN would."""
    where = write_festival(tmp_path / "thin")
    thin = where / "spot.yaml"
    text = thin.read_text(encoding="utf-8")  # the oak stands first
    thin.write_text(text.replace("girth: 1.4 m", "girth: 1.04 m", 1), encoding="utf-8")
    found = [one for one in of_the_day(where) if one["rule"] == "day/tree_stem"]
    assert sorted(one["at"]["path"] for one in found) == ["line-1.yaml", "line-2.yaml", "spot.yaml"]
    assert {one["at"]["key"] for one in found} == {"chain[0]", "anchors.oak"}
    assert {one["rule"] for one in of_the_day(where)} <= {"day/tree_stem", "day/fall_zones", "day/crossing"}


# The card


@pytest.fixture(scope="module")
def spot(festival: Path) -> dict[str, Any]:
    """The festival as its card has it."""
    (only,) = json.loads(card(festival, "json")[1])["spots"]
    return dict(only)


def card(where: Path, form: str) -> tuple[int, str]:
    status, said, _ = run(where, "card", ".", *ON, "--format", form)
    return status, said


def test_the_card_tells_the_same_in_every_form(festival: Path, spot: dict[str, Any]) -> None:
    assert spot["title"] == "Festival meadow on 2026-05-09: 5 lines"
    words, page = (" ".join(card(festival, form)[1].split()) for form in ("text", "html"))
    assert len(spot["order"]) == len(spot["lines"]) == len(LINES)
    for one in spot["order"]:
        assert one in words.replace("- ", "-")
        assert one.replace("'", "&#x27;") in page


def test_one_step_adds_its_line_to_what_hangs_already(spot: dict[str, Any]) -> None:
    """By hand: 3 kN to the ash, then 3 kN at right angles: √(3² + 3²) = 4.24 kN on the oak."""
    order = " ".join(spot["order"])
    assert order.index("'oak' then bears 3.00 kN at rest") < order.index("'oak' then bears 4.24 kN at rest")


def test_the_packing_list_holds_every_piece_once_and_says_what_two_lines_name(spot: dict[str, Any]) -> None:
    assert sum(int(many.partition(" × ")[0]) for many, _ in spot["packing"]) == sum(
        len(pieces.split(", ")) for _, pieces in spot["packing"]
    )
    assert any(many == f"{len(LINES)} × webbing" for many, _ in spot["packing"])


def test_a_day_with_one_line_has_no_card(festival: Path) -> None:
    status, _, said = run(festival, "card", "line-1.yaml", *ON, "--format", "text")
    assert status == 2
    assert "No two rigs in line-1.yaml stand at one spot on 2026-05-09." in said


def test_the_card_shows_what_is_wrong_with_the_day_once_and_stops(tmp_path: Path) -> None:
    where = write_festival(tmp_path / "thin", girth="1.04 m")
    status, said = card(where, "json")
    faults = json.loads(said)["spots"][0]["faults"]
    assert status == 1
    assert sorted(one["rule"] for one in faults if one["rule"] == "day/tree_stem") == ["day/tree_stem"] * 2
    assert len({one["message"] for one in faults}) == len(faults)


# The example


def test_the_festival_of_the_examples_audits_clean() -> None:
    """Five lines on seven trees, three of which hold two lines, and two lines that cross."""
    status, said, _ = run(EXAMPLES, "audit", "festival", *ON, "--format", "json")
    files = json.loads(said)["files"]
    found = [one for file in files for one in file["findings"]]
    assert status == 0
    assert {(one["kind"], one["signal"]) for one in found} == {("review", "NOTICE")}
    assert sum(file["path"].startswith("examples/festival/rigs/") for file in files) == len(LINES)


@pytest.mark.parametrize(
    ("file", "old", "new", "rule"),
    [
        ("meadow.yaml", "girth: 185 cm", "girth: 104 cm", "day/tree_stem"),
        ("rigs/bridge-line.yaml", "height: 3.2 m", "height: 2 m", "day/crossing"),
        ("rigs/morning-line.yaml", "[2 m, 5.5 m]", "[2 m, 2 m]", "day/fall_zones"),
    ],
)
def test_a_fault_of_the_day_is_told(tmp_path: Path, file: str, old: str, new: str, rule: str) -> None:
    where = tmp_path / "festival"
    copytree(EXAMPLES / "festival", where)
    text = (where / file).read_text(encoding="utf-8")
    assert old in text
    (where / file).write_text(text.replace(old, new), encoding="utf-8")
    assert {one["rule"] for one in of_the_day(where)} == {rule}
