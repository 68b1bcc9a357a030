"""`riglint choose`: what would do in each place is what the audit of that very rig says, and the count has a bound."""

import json
import re
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest
import yaml

from riglint.cli import main
from riglint.findings import load_rig
from riglint.findings.judging import judge
from riglint.findings.variation import trying
from riglint.findings.variation.choosing import MOST_JUDGED, choose
from riglint.findings.variation.least_piece import MOST_SOUGHT
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


def grave(capsys: pytest.CaptureFixture[str], file: Path) -> set[tuple[str, str]]:
    return {one for one in against(capsys, file) if one[1] != "CAUTION"}


def test_the_least_strength_to_look_for_is_the_one_that_the_audit_takes(
    club: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """At 14 kN a line needs 42 kN: three times its standing tension is required, wherever a piece lies in the chain."""
    file, shelf = club / "rigs" / RIG, club / "shelf/park.yaml"
    file.write_text(file.read_text(encoding="utf-8").replace("2.2 kN", "14 kN"), encoding="utf-8")
    before = grave(capsys, file)
    found = chosen(capsys, club)["look_for"]
    assert found["is_least"]
    assert 0 < found["rigs_judged"] <= MOST_SOUGHT
    assert {one["like"]: (one["strength_kN"], one["length_m"]) for one in found["pieces"]} == {
        "PE-15": (42.0, None),
        "P-15": (42.0, None),
    }
    text = shelf.read_text(encoding="utf-8")
    for strength, passes in (("42 kN", True), ("41.5 kN", False)):
        new = text
        for name in ("PE-15", "P-15"):
            line = next(one for one in text.splitlines() if one.strip().startswith(f"{name}:"))
            new = new.replace(line, re.sub(r"mbs: [\d.]+ kN", f"mbs: {strength}", line))
        shelf.write_text(new, encoding="utf-8")
        left = [one for one in grave_parts(capsys, file) if one in {"chain[4]", "chain[5]"}]
        assert (left == []) == passes, (strength, left, before)


def grave_parts(capsys: pytest.CaptureFixture[str], file: Path) -> list[str]:
    main(["audit", str(file), *DAY, "--format", "json"])  # whose exit status is that of the findings
    report = json.loads(capsys.readouterr().out)
    return [
        one["at"]["part"]
        for each in report["files"]
        for one in each["findings"]
        if one["signal"] in {"WARNING", "DANGER"} and one["kind"] == "fail"
    ]


class AsWritten(yaml.SafeDumper):
    """Writes every text without quotes."""

    yaml_implicit_resolvers = {}  # noqa: RUF012 - as its base has it


def changed(shelf: Path, change: Callable[[dict[str, dict[str, str]]], None]) -> None:
    """Write a gear list with other pieces."""
    data = yaml.load(shelf.read_text("utf-8"), Loader=yaml.BaseLoader)  # noqa: S506 - plain texts alone
    change(data["items"])
    text = yaml.dump(data, Dumper=AsWritten, sort_keys=False, allow_unicode=True)
    shelf.write_text(text, encoding="utf-8")


def test_the_least_length_of_a_rope_is_found_too(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    club = club_of(tmp_path, "rigs/17-lake.yaml", "shelf/long.yaml", "spots/lake-bay.yaml")
    file, shelf = club / "rigs/17-lake.yaml", club / "shelf/long.yaml"
    rig = file.read_text("utf-8").replace(", left: 28 m", "")

    def of_length(text: str, *names: str) -> None:
        def shorten(items: dict[str, dict[str, str]]) -> None:
            for name in names:
                items[name]["length"] = text

        changed(shelf, shorten)
        file.write_text(rig.replace("length: 45 m", f"length: {text}"), encoding="utf-8")

    of_length("12 m", "LR-60", "LR-45", "LR-35")
    assert main(["choose", str(file), *DAY, "--format", "json"]) == 0
    found = json.loads(capsys.readouterr().out)["look_for"]
    [rope] = [one for one in found["pieces"] if one["like"] == "LR-45"]
    assert found["is_least"]
    for length, passes in ((rope["length_m"], True), (rope["length_m"] - 0.1, False)):
        of_length(f"{length:.1f} m", "LR-45")
        assert ("chain[8]" not in grave_parts(capsys, file)) == passes, length


def test_where_more_of_anything_helps_nobody_it_says_what_stands(
    club: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    shelf = club / "shelf/park.yaml"
    shelf.write_text(
        re.sub(r"inspected: \S+?([,}])", r"inspected: 2019-01-01\1", shelf.read_text("utf-8")), "utf-8"
    )
    found = chosen(capsys, club)
    assert found["sets"][0]["pieces"] is None
    assert found["look_for"]["pieces"] == []
    assert found["look_for"]["against"]
    assert found["look_for"]["rigs_judged"] <= MOST_SOUGHT
    assert main(["choose", str(club / "rigs" / RIG), *DAY]) == 0
    assert "Stronger or longer pieces don't help" in " ".join(capsys.readouterr().out.split())


def test_gear_of_a_line_without_days_may_be_in_use_and_is_taken_last(
    club: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    other = (club / "rigs" / RIG).read_text(encoding="utf-8")
    other = re.sub(r"  (first_day|days_up): .*\n", "", other).replace("gear: PS-1", "gear: PS-7")
    (club / "rigs/other.yaml").write_text(other, encoding="utf-8")
    found = chosen(capsys, club)
    slings = [one for place in found["places"] if place["now"] == "PS-1" for one in place["tried"]]
    assert {name for one in slings for name in one["perhaps_taken"]} >= {"PS-7"}
    assert all(not one["taken"] for one in slings)
    strongest = found["sets"][1]
    assert "PS-7" not in strongest["pieces"]  # PS-8 and PS-9 are alike, and free
    assert strongest["perhaps_taken"] == {}

    def without_free_slings(items: dict[str, dict[str, str]]) -> None:
        for name in [name for name in items if re.fullmatch(r"P[ST]-\d+", name)]:
            if name not in {"PS-1", "PS-2", "PS-7", "PS-9"}:
                del items[name]

    changed(club / "shelf/park.yaml", without_free_slings)
    assert "PS-7" in chosen(capsys, club)["sets"][1]["perhaps_taken"]
    assert main(["choose", str(club / "rigs" / RIG), *DAY]) == 0
    out = " ".join(capsys.readouterr().out.split())
    assert "may be in use: rigs/other.yaml has" in out


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
