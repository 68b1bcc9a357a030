"""`riglint choose`: what would do in each place is what the audit of that very rig says, and the count has a bound."""

import json
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from riglint.cli import main
from riglint.findings import load_rig
from riglint.findings.judging import judge
from riglint.findings.variation import trying
from riglint.findings.variation.choosing import MOST_JUDGED, choose
from riglint.policy import DEFAULT
from riglint.rulebook import Rulebook, load_rulebook
from tests.cli.calling import DAY, club_of

RIG = "01-beginner-set.yaml"


@pytest.fixture
def club(tmp_path: Path) -> Path:
    """Return a club with one rig, its gear list and its spot."""
    return club_of(tmp_path, f"rigs/{RIG}", "shelf/park.yaml", "spots/playground-lawn.yaml")


@pytest.fixture(scope="module")
def book() -> Rulebook:
    return load_rulebook()


def chosen(capsys: pytest.CaptureFixture[str], club: Path) -> dict[str, Any]:
    assert main(["choose", str(club / "rigs" / RIG), *DAY, "--format", "json"]) == 0
    found: dict[str, Any] = json.loads(capsys.readouterr().out)
    return found


def against(capsys: pytest.CaptureFixture[str], file: Path) -> set[tuple[str, str]]:
    """Return what an audit has against a rig, at CAUTION or graver."""
    main(["audit", str(file), *DAY, "--format", "json"])  # whose exit status is that of the findings
    report = json.loads(capsys.readouterr().out)
    return {
        (one["rule"], one["signal"])
        for each in report["files"]
        for one in each["findings"]
        if one["kind"] != "review" and one["signal"] != "NOTICE"
    }


@pytest.mark.parametrize(
    ("place", "part"), [("P-15", "chain[5]"), ("PE-15", "chain[4]"), ("RT-1", "chain[6]")]
)
def test_each_piece_does_as_the_audit_of_that_rig_says(
    club: Path, capsys: pytest.CaptureFixture[str], place: str, part: str
) -> None:
    [found] = [one for one in chosen(capsys, club)["places"] if one["part"] == part]
    file = club / "rigs" / RIG
    text = file.read_text(encoding="utf-8")
    today = against(capsys, file)
    seen = set()
    for one in found["tried"]:
        file.write_text(text.replace(f"gear: {place}}}", f"gear: {one['names'][0]}}}"), encoding="utf-8")
        new = against(capsys, file) - today
        assert one["does"] == (new == set()), (one, new)
        seen.add(one["does"])
    assert len(found["tried"]) > 3
    if place != "RT-1":
        assert seen == {True, False}


def test_a_whole_set_passes_together_each_piece_once(club: Path, capsys: pytest.CaptureFixture[str]) -> None:
    found = chosen(capsys, club)
    file = club / "rigs" / RIG
    text, today = file.read_text(encoding="utf-8"), against(capsys, file)
    for one in found["sets"]:
        assert len(set(one["pieces"])) == len(one["pieces"]) == len(found["places"])
        new = text
        for place, piece in zip(found["places"], one["pieces"], strict=True):
            new = new.replace(f"gear: {place['now']}}}", f"gear: @{piece}}}").replace(
                f"gear: {place['now']},", f"gear: @{piece},"
            )
        file.write_text(new.replace("@", ""), encoding="utf-8")
        assert against(capsys, file) - today == set()
        file.write_text(text, encoding="utf-8")


def test_where_nothing_would_do_it_says_what_to_look_for(
    club: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = club / "rigs" / RIG
    file.write_text(file.read_text(encoding="utf-8").replace("2.2 kN", "14 kN"), encoding="utf-8")
    sets = chosen(capsys, club)["sets"]
    assert [one["pieces"] for one in sets] == [None, None]
    assert all(one["against"] and any(each["do"] for each in one["against"]) for one in sets)
    assert main(["choose", str(file), *DAY]) == 0
    assert "No set of these pieces passes every rule" in " ".join(capsys.readouterr().out.split())


def test_what_another_line_has_that_day_is_named_and_not_taken(
    club: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    other = (club / "rigs" / RIG).read_text(encoding="utf-8")
    for old, new in (("P-15}", "P-12}"), ("PS-2", "PS-9"), ("PS-1", "PS-8")):
        other = other.replace(f"gear: {old}", f"gear: {new}")
    (club / "rigs/other.yaml").write_text(other, encoding="utf-8")
    found = chosen(capsys, club)
    slings = [one for place in found["places"] if place["now"] == "PS-1" for one in place["tried"]]
    assert {name: line for one in slings for name, line in one["taken"].items()} == {
        "PS-8": "rigs/other.yaml",
        "PS-9": "rigs/other.yaml",
    }
    assert all(not {"PS-8", "PS-9"} & set(one["pieces"] or ()) for one in found["sets"])


def test_a_list_of_300_kinds_is_judged_in_a_bounded_number_of_rigs(
    club: Path, book: Rulebook, monkeypatch: pytest.MonkeyPatch
) -> None:
    webbing = "  X-{n}: {{kind: webbing, material: polyester, width: 50 mm, mbs: {n} kN, length: 15 m}}\n"
    shelf = club / "shelf/park.yaml"
    more = "".join(webbing.format(n=n) for n in range(30, 330))
    shelf.write_text(shelf.read_text(encoding="utf-8") + more, encoding="utf-8")
    loads, problems = load_rig(club / "rigs" / RIG, date(2026, 5, 2), None, DEFAULT, ())
    assert loads is not None, problems
    counted = []

    def counting(*given: Any, **named: Any) -> Any:
        counted.append(1)
        return judge(*given, **named)

    monkeypatch.setattr(trying, "judge", counting)
    found = choose(loads, book, DEFAULT, most=80)
    assert len(counted) == found.judged <= 80 <= MOST_JUDGED
    [place] = [one for one in found.choices if one.place.name == "P-15"]
    assert place.tried[0].names
    assert place.not_tried > 200


def test_alike_pieces_are_judged_once(club: Path, book: Rulebook) -> None:
    shelf = club / "shelf/park.yaml"
    more = "  X-1 to X-90: {kind: shackle, material: steel, shape: bow, wll: 2 t, pin: screw, inspected: 2026-03-28}\n"
    loads, _ = load_rig(club / "rigs" / RIG, date(2026, 5, 2), None, DEFAULT, ())
    assert loads is not None
    before = choose(loads, book, DEFAULT).judged
    shelf.write_text(shelf.read_text(encoding="utf-8") + more, encoding="utf-8")
    loads, _ = load_rig(club / "rigs" / RIG, date(2026, 5, 2), None, DEFAULT, ())
    assert loads is not None
    assert choose(loads, book, DEFAULT).judged - before <= 4
