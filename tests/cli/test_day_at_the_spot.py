"""Several lines at one spot: audited as a folder, for one day or for all."""

import json
from pathlib import Path
from typing import Any

import pytest

from tests.cli.calling import SOUND, run, write
from tests.festival import write_festival

DAY = ("--on", "2026-05-02")


def line(title: str, first_day: str, girth: str = "1.15 m") -> str:
    """The low line under another title on a day; its trees carry one line, not two."""
    text = SOUND.replace("title: Low line between two limes", f"title: {title}", 1)
    text = text.replace("girth: 140 cm", f"girth: {girth}").replace("girth: 130 cm", "girth: 250 cm")
    return text.replace("  days_up: 1", f"  first_day: {first_day}\n  days_up: 1")


def findings(where: Path, *more: str) -> list[dict[str, Any]]:
    report = json.loads(run(where, "audit", ".", *DAY, "--format", "json", *more)[1])
    return [one for file in report["files"] for one in file["findings"] if one["rule"] == "day/tree_stem"]


def test_each_line_is_fine_and_together_they_are_not(library: Path) -> None:
    write(library / "a.yaml", line("First", "2026-05-09"))
    assert findings(library) == []
    write(library / "b.yaml", line("Second", "2026-05-09"))
    found = findings(library)
    assert sorted((one["at"]["path"], one["at"]["key"]) for one in found) == [
        ("a.yaml", "chain[0]"),
        ("a.yaml", "spot.anchors.gate"),
        ("b.yaml", "chain[0]"),
    ]
    assert {one["signal"] for one in found} == {"WARNING"}
    assert all("First 8." in one["message"] and "Second 8." in one["message"] for one in found)


def test_one_day_is_looked_at_where_it_is_named(library: Path) -> None:
    write(library / "a.yaml", line("First", "2026-05-09"))
    write(library / "b.yaml", line("Second", "2026-05-09"))
    assert len(findings(library, "--day", "2026-05-09")) == 3
    assert findings(library, "--day", "2026-05-10") == []
    write(library / "b.yaml", line("Second", "2026-05-10"))
    assert findings(library) == []


def test_a_line_that_names_no_day_counts_for_every_day_and_says_so(library: Path) -> None:
    write(library / "a.yaml", line("First", "2026-05-09"))
    undated = line("Second", "2026-05-09").replace("  first_day: 2026-05-09\n", "")
    write(library / "b.yaml", undated)
    assert all(
        "Second: no day named, so it counts for every day" in one["message"] for one in findings(library)
    )
    assert len(findings(library, "--day", "2027-01-01")) == 0
    assert len(findings(library, "--day", "2026-05-09")) == 3


def test_versions_of_one_plan_are_no_lines_beside_each_other(library: Path) -> None:
    """Two files under one title between the same anchors plan one line: only one of them can be rigged."""
    write(library / "a.yaml", line("First", "2026-05-09"))
    write(library / "a_lower.yaml", line("First", "2026-05-09").replace("height: 1.35 m", "height: 1.3 m"))
    report = json.loads(run(library, "audit", ".", *DAY, "--format", "json")[1])
    told = [one["rule"] for file in report["files"] for one in file["findings"]]
    assert [rule for rule in told if rule.startswith("day/")] == []


def test_beside_another_line_the_version_counts_that_pulls_hardest(library: Path) -> None:
    write(
        library / "a.yaml",
        line("First", "2026-05-09").replace("standing_tension: 3 kN", "standing_tension: 2 kN"),
    )
    write(library / "b.yaml", line("Second", "2026-05-09"))
    write(library / "c.yaml", line("First", "2026-05-09"))
    found = findings(library)
    assert {path for one in found for path in one["rigs"]} == {"b.yaml", "c.yaml"}


def test_versions_on_other_days_each_count_on_their_own(library: Path) -> None:
    write(library / "a.yaml", line("First", "2026-05-09"))
    write(library / "b.yaml", line("Second", "2026-05-16"))
    write(library / "c.yaml", line("First", "2026-05-16"))
    assert {path for one in findings(library) for path in one["rigs"]} == {"b.yaml", "c.yaml"}


def test_a_day_that_is_none_is_refused(library: Path) -> None:
    status, _, err = run(library, "audit", ".", "--day", "saturday")
    assert status == 2
    assert "'saturday' is not a date" in err


def test_a_broken_chain_beside_two_whole_lines_hides_neither(library: Path) -> None:
    """The two are held against each other; what cannot be judged of the third stays open, and no rule crashes."""
    write(library / "a.yaml", line("First", "2026-05-09"))
    broken = line("Second", "2026-05-09")
    last = broken.rindex("  - {part: anchor")
    write(library / "b.yaml", broken[:last] + broken[broken.index("\n", last) + 1 :])
    write(library / "c.yaml", line("Third", "2026-05-09"))
    report = json.loads(run(library, "audit", ".", *DAY, "--format", "json")[1])
    files = {file["path"]: file for file in report["files"]}
    told = [(path, one) for path, file in files.items() for one in file["findings"]]
    assert any(
        "'First'" in one["message"] and "'Third'" in one["message"]
        for _, one in told
        if one["rule"] == "day/crossing"
    )
    assert not any("crashed" in one["message"] for _, one in told)
    # What the day cannot judge stands in the file of the broken line, among the rules that wait there already.
    assert [path for path, one in told if one["kind"] == "open" and "day/crossing" in one["rules"]] == []
    alone = json.loads(run(library, "audit", "b.yaml", *DAY, "--format", "json")[1])["files"][0]
    (before,), (now,) = alone["not_judged"], files["b.yaml"]["not_judged"]
    of_the_day = {one for one in files["b.yaml"]["rules"]["open"] if one.startswith("day/")}
    assert of_the_day == {"day/crossing", "day/fall_zones", "day/one_span"}
    assert now == before | {"rules": before["rules"] + len(of_the_day)}
    assert files["a.yaml"]["not_judged"] == files["c.yaml"]["not_judged"] == []


def test_an_open_question_counts_the_rules_of_the_day(library: Path) -> None:
    """Without users the sum at the shared trees waits too, and the sentence says for how many rules."""
    for name, title in (("a", "First"), ("b", "Second")):
        text = line(title, "2026-05-09")
        start = text.index("  users:")
        write(library / f"{name}.yaml", text[:start] + text[text.index("\n", start) + 1 :])
    report = json.loads(run(library, "audit", ".", *DAY, "--format", "json")[1])
    asked = [
        one
        for file in report["files"]
        for one in file["findings"]
        if one["kind"] == "open" and one["at"]["key"] == "plan.users"
    ]
    assert len(asked) == 2
    for one in asked:
        assert "day/tree_stem" in one["rules"]
        assert f"and {len(one['rules']) - 1} more cannot be judged." in one["message"]


def test_the_sheet_adds_up_what_other_lines_pull_at_the_same_tree(tmp_path: Path) -> None:
    """By hand: two lines of 8.13 kN at right angles make 8.13·√2 = 11.50 kN, with 1.35 m of height 15.52 kNm."""
    spot = write_festival(tmp_path) / "spot.yaml"
    # One file is one spot, with a title or without.
    spot.write_text(
        spot.read_text(encoding="utf-8").replace("title: Festival meadow\n", ""), encoding="utf-8"
    )
    sheet = " ".join(run(tmp_path, "sheet", "line-2.yaml", "--on", "2026-05-02")[1].split())
    oak = sheet[sheet.index("Anchors that other lines share") :]
    assert "F = |Σ T·e| = |8.13 + 8.13|, e along each line in plan = 11.50 kN" in oak
    assert "Morning line at its worst, the others at rest: F_1 = |Σ T·e| = |3.00 + 8.13|" in oak
    assert "M = |Σ T·h·e| = |8.13·1.35 + 8.13·1.35| = 15.52 kNm" in oak
    alone = run(tmp_path, "sheet", "line-3.yaml", "--on", "2026-05-02")[1]
    assert "Anchors that other lines share" not in alone
    # However the other file writes the path of the spot.
    other = tmp_path / "line-1.yaml"
    text = other.read_text(encoding="utf-8")
    assert text.count("spot: spot.yaml") == 1
    other.write_text(text.replace("spot: spot.yaml", 'spot: "spo\\x74.yaml"'), encoding="utf-8")
    assert " ".join(run(tmp_path, "sheet", "line-2.yaml", "--on", "2026-05-02")[1].split()) == sheet


@pytest.mark.parametrize("spoiled", ["use: lowlnie", "use: [lowline"])
def test_the_sheet_names_a_line_of_the_spot_that_it_cannot_add(tmp_path: Path, spoiled: str) -> None:
    write_festival(tmp_path)
    other = tmp_path / "line-1.yaml"
    text = other.read_text(encoding="utf-8")
    assert text.count("use: lowline") == 1
    other.write_text(text.replace("use: lowline", spoiled), encoding="utf-8")
    sheet = " ".join(run(tmp_path, "sheet", "line-2.yaml", "--on", "2026-05-02")[1].split())
    oak = sheet[sheet.index("Anchors that other lines share") :]
    assert "line-1.yaml not added up: riglint cannot read this rig of the same spot. Audit it first." in oak
