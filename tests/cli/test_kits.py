"""Rigs written short: pieces by their names, kits of a gear list, legs in ranges. They are judged as if written out."""

import json
from pathlib import Path
from typing import Any

import pytest

from riglint.cli import main
from tests.cli.calling import DAY

ORDINARY = Path(__file__).parents[2] / "examples/ordinary"
KITS = """kits:
  near bag: [PP-1, {gear: PS-1, hitch: choke}, PH-1]
  far bag: [PP-2, {gear: PS-2, hitch: basket}, PH-2]
  both: [{kit: near bag}, PE-15]
"""
SHORT = """chain:
  - {at: swing, height: 0.9 m}
  - {kit: both}
  - P-15
  - {gear: RT-1}
  - {kit: far bag, reversed: true}
  - {part: anchor, at: sandpit, height: 0.9 m}
"""


@pytest.fixture
def club(tmp_path: Path) -> Path:
    """Return the folder of a club whose gear list has kits, with one rig written out and one written short."""
    (tmp_path / "rig-library").touch()
    shelf = (ORDINARY / "shelf/park.yaml").read_text(encoding="utf-8")
    (tmp_path / "shelf.yaml").write_text(shelf + KITS, encoding="utf-8")
    spot = (ORDINARY / "spots/playground-lawn.yaml").read_text(encoding="utf-8")
    (tmp_path / "spot.yaml").write_text(spot, encoding="utf-8")
    rig = (ORDINARY / "rigs/01-beginner-set.yaml").read_text(encoding="utf-8")
    rig = rig.replace("../spots/playground-lawn.yaml", "spot.yaml").replace(
        "../shelf/park.yaml", "shelf.yaml"
    )
    before, _, rest = rig.partition("chain:")
    after = rest[rest.index("checks:") :]
    (tmp_path / "long.yaml").write_text(rig, encoding="utf-8")
    (tmp_path / "short.yaml").write_text(before + SHORT + after, encoding="utf-8")
    return tmp_path


def changed(file: Path, old: str, new: str) -> None:
    text = file.read_text(encoding="utf-8")
    assert old in text
    file.write_text(text.replace(old, new), encoding="utf-8")


def findings(capsys: pytest.CaptureFixture[str], *paths: Path) -> list[dict[str, Any]]:
    main(["audit", *map(str, paths), *DAY, "--format", "json"])  # whose exit status is that of the findings
    report = json.loads(capsys.readouterr().out)
    return [one for file in report["files"] for one in file["findings"]]


def test_a_short_rig_is_judged_as_if_written_out(club: Path, capsys: pytest.CaptureFixture[str]) -> None:
    said = [
        [(one["rule"], one["signal"], one["message"], one["value"], one["at"]["part"]) for one in found]
        for found in (findings(capsys, club / "long.yaml"), findings(capsys, club / "short.yaml"))
    ]
    assert sorted(said[0], key=str) == sorted(said[1], key=str)
    assert len(said[0]) > 2


def test_a_fault_in_a_kit_is_told_once_where_it_stands_with_every_rig(
    club: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (club / "second.yaml").write_bytes((club / "short.yaml").read_bytes())
    changed(club / "shelf.yaml", "hitch: choke", "hitch: straight")
    [found] = [
        one
        for one in findings(capsys, club / "short.yaml", club / "second.yaml")
        if one["rule"] == "anchor/hitch"
    ]
    assert (found["at"]["path"], found["at"]["key"]) == ("shelf.yaml", "kits.near bag[1].hitch")
    assert found["rigs"] == ["second.yaml", "short.yaml"]
    text = (club / "shelf.yaml").read_text(encoding="utf-8").splitlines()
    assert "near bag" in text[found["at"]["line"] - 1]


def test_what_a_kit_leaves_out_is_asked_for_in_the_kit(
    club: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    changed(club / "shelf.yaml", "{gear: PS-1, hitch: choke}", "{part: sling, hitch: choke}")
    asked = [one for one in findings(capsys, club / "short.yaml") if one["kind"] == "open"]
    assert {(one["at"]["path"], one["at"]["key"]) for one in asked} == {
        ("shelf.yaml", "kits.near bag[1].gear")
    }


def test_what_a_call_adds_stands_in_the_rig(club: Path, capsys: pytest.CaptureFixture[str]) -> None:
    changed(club / "shelf.yaml", "kits:\n", "kits:\n  sling: [{gear: PS-1, hitch: choke}]\n")
    changed(
        club / "short.yaml", "{kit: both}", "PP-1\n  - {kit: sling, hitch: straight}\n  - PH-1\n  - PE-15"
    )
    [found] = [one for one in findings(capsys, club / "short.yaml") if one["rule"] == "anchor/hitch"]
    assert (found["at"]["path"], found["at"]["key"]) == ("short.yaml", "chain[2].hitch")


ERRORS = [
    ("{kit: both}", "{kit: bothh}", "'bothh' is no kit", "Write both"),
    ("{kit: both}", "{kit: P-15}", "'P-15' is a webbing, not a kit", "Write P-15 alone"),
    ("- P-15", "- both", "'both' is a kit, not a piece of gear", "Write {kit: both}"),
    ("- P-15", "- P-16", "'P-16' is in no gear list", "Write the nearest name there"),
    ("- P-15", "- PT-1", "'PT-1' is a rope, which can be several parts", "Say which, such as {part: sling"),
    ("{kit: both}", "{kit: both, hitch: choke}", "This kit has 2 parts", "Write it in the kit"),
    ("{kit: both}", "{kit: both, part: sling}", "A kit has its own parts", "Leave part out"),
    ("reversed: true", "reversed: yes", "Expected true or false, found 'yes'", "Write true"),
    ("{kit: both}", "{kit: [both]}", "Expected the name of a kit", "{kit: tree bag}"),
]


@pytest.mark.parametrize("named", ["- RA", "- {part: puller, gear: RB}"])
def test_a_run_of_letters_is_told_to_count_numbers(
    club: Path, capsys: pytest.CaptureFixture[str], named: str
) -> None:
    changed(club / "shelf.yaml", "  RT-1:", "  RA to RB: {kind: puller, form: ratchet}\n  RT-1:")
    changed(club / "short.yaml", "- P-15", named)
    found = [one for one in findings(capsys, club / "short.yaml") if one["rule"].startswith("file/")]
    assert [
        ("is in no gear list" in one["message"], "a run counts numbers" in one["do"]) for one in found
    ] == [(True, True)]


@pytest.mark.parametrize("error", ERRORS, ids=lambda error: error[1])
def test_errors_name_what_is_meant(
    club: Path, capsys: pytest.CaptureFixture[str], error: tuple[str, str, str, str]
) -> None:
    old, new, message, do = error
    changed(club / "short.yaml", old, new)
    found = [one for one in findings(capsys, club / "short.yaml") if one["rule"].startswith("file/")]
    assert len(found) == 1
    assert message in found[0]["message"]
    assert do in found[0]["do"]
    assert found[0]["at"]["path"] == "short.yaml"


@pytest.mark.parametrize("inside", ["{kit: both}", "{legs: [{to: swing, chain: [{kit: both}]}]}"])
def test_a_kit_that_holds_itself_is_told_in_its_gear_list(
    club: Path, capsys: pytest.CaptureFixture[str], inside: str
) -> None:
    changed(club / "shelf.yaml", "near bag: [PP-1,", f"near bag: [{inside},")
    found = [one for one in findings(capsys, club / "short.yaml") if "holds itself" in one["message"]]
    assert {(one["at"]["path"], one["at"]["key"]) for one in found} == {
        ("shelf.yaml", "kits.near bag"),
        ("shelf.yaml", "kits.both"),
    }
    assert main(["audit", str(club / "short.yaml"), *DAY]) == 2


def two_lists(club: Path, first: str, second: str) -> None:
    """Let the short rig call a kit of two gear lists, beside its own list."""
    for name, kits in (("a", first), ("b", second)):
        (club / f"{name}.yaml").write_text(
            f"riglint: shelf/1\nitems: {{}}\nkits: {{{kits}}}\n", encoding="utf-8"
        )
    changed(club / "short.yaml", "shelf: [shelf.yaml]", "shelf: [shelf.yaml, a.yaml, b.yaml]")
    changed(club / "short.yaml", "{kit: both}", "{kit: here}")


def wrong(club: Path, capsys: pytest.CaptureFixture[str]) -> list[str]:
    """Return what is wrong with the call of a kit, which keeps the rig from being judged."""
    found = [one for one in findings(capsys, club / "short.yaml") if one["at"]["path"] == "short.yaml"]
    assert main(["audit", str(club / "short.yaml"), *DAY]) == 2
    assert {one["rule"].partition("/")[0] for one in found} == {"file"}
    return [one["message"] for one in found]


def test_kits_that_hold_each_other_over_two_gear_lists_are_told_where_they_are_called(
    club: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    two_lists(club, "here: [{kit: there}]", "there: [{kit: here}]")
    assert wrong(club, capsys) == ["The kit 'here' holds itself, so it never ends."]


def test_a_kit_of_one_name_in_two_gear_lists_is_told(club: Path, capsys: pytest.CaptureFixture[str]) -> None:
    two_lists(club, "here: [PP-1, {gear: PS-1, hitch: choke}, PH-1, PE-15]", "here: [PE-15]")
    assert wrong(club, capsys) == [
        "Two gear lists (`shelf`) have a kit 'here', so nobody knows which is meant."
    ]


def test_kits_that_double_over_and_over_end_with_a_sentence(
    club: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    doubling = ", ".join(f"k{n}: [{{kit: k{n + 1}}}, {{kit: k{n + 1}}}]" for n in range(60))
    two_lists(club, f"here: [{{kit: k0}}], {doubling}", "k60: [PE-15]")
    assert wrong(club, capsys) == ["The kits of this rig come to more than 1000 parts."]


def test_a_wrong_word_in_a_kit_is_told_once_in_its_gear_list(
    club: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    changed(club / "shelf.yaml", "hitch: choke", "hitch: chok")
    found = findings(capsys, club / "short.yaml")
    assert [(one["at"]["path"], one["at"]["key"]) for one in found] == [
        ("shelf.yaml", "kits.near bag[1].hitch")
    ]


def test_the_sheet_says_which_parts_come_from_a_kit(club: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["sheet", str(club / "short.yaml"), *DAY]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "parts 2 to 4: kit near bag, shelf.yaml:" in said
    assert "part 5: kit both, shelf.yaml:" in said
    assert "parts 8 to 10: kit far bag, shelf.yaml:" in said


LEGS = """    legs:
      - {to: left, chain: [{part: sling, gear: HT-1, hitch: basket}]}
      - {to: left, chain: [{part: sling, gear: HT-2, hitch: basket}]}
"""


@pytest.mark.parametrize(
    "legs",
    [
        "    legs: [{to: left, chain: [{part: sling, gear: HT-1 to HT-2, hitch: basket}]}]\n",
        "    legs: [{to: left, chain: [{gear: HT-1 to HT-2, hitch: basket}]}]\n",
    ],
)
def test_legs_in_a_range_are_judged_as_if_written_out(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], legs: str
) -> None:
    (tmp_path / "rig-library").touch()
    text = (
        (ORDINARY / "rigs/18-midline.yaml")
        .read_text(encoding="utf-8")
        .replace("../spots/", "")
        .replace("../shelf/", "")
    )
    for name in ("spots/hollow-way.yaml", "shelf/high.yaml"):
        (tmp_path / Path(name).name).write_bytes((ORDINARY / name).read_bytes())
    (tmp_path / "out.yaml").write_text(text, encoding="utf-8")
    assert LEGS in text
    (tmp_path / "range.yaml").write_text(text.replace(LEGS, legs), encoding="utf-8")
    said = [
        [(one["rule"], one["message"], one["at"]["part"]) for one in findings(capsys, tmp_path / name)]
        for name in ("out.yaml", "range.yaml")
    ]
    assert sorted(said[0], key=str) == sorted(said[1], key=str)
    assert said[0]
    changed(tmp_path / "range.yaml", "to: left, chain: [{", "to: n1 to n3, chain: [{")
    found = [one for one in findings(capsys, tmp_path / "range.yaml") if one["rule"] == "file/value"]
    assert [one["message"][:24] for one in found] == ["'n1 to n3' counts 3. Ran", "'HT-1 to HT-2' counts 2."]
