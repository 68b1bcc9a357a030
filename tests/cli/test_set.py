"""`riglint audit --set`: another value for one run, told in each report; the file stays as it is."""

import json
from pathlib import Path

import pytest

from tests.cli.calling import DAY, SOUND, run, write


@pytest.fixture
def rig(library: Path) -> Path:
    return write(library / "rig.yaml", SOUND)


def test_another_tail_is_judged_and_told_and_the_file_stays(library: Path, rig: Path) -> None:
    status, out, _ = run(
        library, "audit", "rig.yaml", *DAY, "--set", "chain[4].tail=0.1 m", "--stop-at", "CAUTION"
    )
    assert status == 1
    assert "What if: chain[4].tail is 0.1 m (the file says 1 m). The file itself is unchanged." in " ".join(
        out.split()
    )
    assert "tail/webbing" in out
    assert rig.read_text(encoding="utf-8") == SOUND


@pytest.mark.parametrize("form", ["text", "markdown", "html", "json"])
def test_each_form_says_so(library: Path, rig: Path, form: str) -> None:
    _, out, _ = run(
        library, "audit", rig.name, *DAY, "--format", form, "--set", "plan.standing_tension=2.5 kN"
    )
    assert "What if: plan.standing_tension is 2.5 kN" in " ".join(out.replace("\\", "").split())


def test_the_same_as_editing_the_file(library: Path, rig: Path) -> None:
    _, out, _ = run(library, "audit", rig.name, *DAY, "--format", "json", "--set", "chain[4].tail=0.1 m")
    told = json.loads(out)["files"]
    write(rig, SOUND.replace("tail: 1 m,", "tail: 0.1 m,"))
    _, out, _ = run(library, "audit", rig.name, *DAY, "--format", "json")
    assert told == json.loads(out)["files"]


@pytest.mark.parametrize(
    ("said", "says"),
    [
        ("plan.standing_tension", "names no key and value"),
        ("plan.standing_tensio=5 kN", "standing_tension"),
        ("chain[99].tail=1 m", "isn't in this file"),
        ("plan.standing_tension=5", "such as"),
        ("plan.standing_tension=[5", "can't be read as a value"),
    ],
)
def test_what_cannot_be_set_is_told(library: Path, rig: Path, said: str, says: str) -> None:
    status, out, err = run(library, "audit", rig.name, *DAY, "--set", said)
    assert status == 2
    assert says in out + err


def test_one_rig_alone(library: Path, rig: Path) -> None:
    write(library / "other.yaml", SOUND)
    for paths in ((".",), (rig.name, "other.yaml")):
        status, _, err = run(library, "audit", *paths, *DAY, "--set", "plan.standing_tension=5 kN")
        assert (status, "one rig" in err) == (2, True)
    status, _, err = run(library, "audit", rig.name, *DAY, "--set", "plan.wet=true", "--format", "sarif")
    assert (status, "no --set" in err) == (2, True)


@pytest.mark.parametrize("form", ["text", "markdown", "html", "json"])
def test_a_sheet_is_the_one_of_an_edited_file_and_says_so(library: Path, rig: Path, form: str) -> None:
    wanted = ("--set", "plan.standing_tension=2.5 kN")
    status, out, _ = run(library, "sheet", rig.name, *DAY, "--format", form, *wanted)
    says = "What if: plan.standing_tension is 2.5 kN (the file says 3 kN)."
    plain = " ".join(out.replace("\\", "").split())
    assert (status, says in plain) == (0, True)
    assert rig.read_text(encoding="utf-8") == SOUND
    if form == "json":
        write(rig, SOUND.replace("standing_tension: 3 kN", "standing_tension: 2.5 kN"))
        _, edited, _ = run(library, "sheet", rig.name, *DAY, "--format", form)
        assert json.loads(out)["states"] == json.loads(edited)["states"]
        assert json.loads(edited)["what_if"] == []


@pytest.mark.parametrize("form", ["text", "html", "json"])
def test_a_card_says_so_and_has_no_fingerprint_to_check_by(library: Path, rig: Path, form: str) -> None:
    _, plain, _ = run(library, "card", rig.name, *DAY, "--format", form)
    _, out, _ = run(
        library,
        "card",
        rig.name,
        *DAY,
        "--format",
        form,
        "--set",
        "chain[4].tail=0.1 m",
        "--set",
        "plan.wet=true",
    )
    assert "What if" not in plain
    assert "none, what if" in out
    told = " ".join(out.split())
    for says in ("What if: chain[4].tail is 0.1 m (the file says 1 m).", "What if: plan.wet is true"):
        assert says in told, says


def test_a_what_if_page_says_so_on_each_printed_sheet(library: Path, rig: Path) -> None:
    for command in ("sheet", "card"):
        _, plain, _ = run(library, command, rig.name, *DAY, "--format", "html")
        _, out, _ = run(library, command, rig.name, *DAY, "--format", "html", "--set", "plan.wet=true")
        assert ("@top-left" in plain, "@top-left" in out) == (False, True)


def test_a_wrong_key_stops_sheet_and_card(library: Path, rig: Path) -> None:
    for command in ("sheet", "card"):
        status, _, err = run(library, command, rig.name, *DAY, "--set", "chain[99].tail=1 m")
        assert (status, "isn't in this file" in err) == (2, True)


def test_compare_holds_a_rig_against_itself_with_another_value(library: Path, rig: Path) -> None:
    other = ("--set", "plan.standing_tension=2.5 kN")
    status, out, _ = run(library, "compare", rig.name, *other, *DAY, "--format", "json")
    found = json.loads(out)
    write(library / "edited.yaml", SOUND.replace("standing_tension: 3 kN", "standing_tension: 2.5 kN"))
    edited_status, out, _ = run(library, "compare", rig.name, "edited.yaml", *DAY, "--format", "json")
    edited = json.loads(out)
    assert status == edited_status
    for one in (found, edited):
        one.pop("new", None)
    assert json.dumps(found["rigs"]).replace("rig.yaml", "") == json.dumps(edited["rigs"]).replace(
        "edited.yaml", ""
    ).replace("rig.yaml", "")
    _, out, _ = run(library, "compare", rig.name, *other, *DAY)
    assert "rig.yaml with plan.standing_tension=2.5 kN" in " ".join(out.split())
    assert rig.read_text(encoding="utf-8") == SOUND


def test_compare_sets_values_of_a_file_only(library: Path, rig: Path) -> None:
    status, _, err = run(library, "compare", rig.name, ".", *DAY, "--set", "plan.standing_tension=2.5 kN")
    assert status == 2
    assert "needs one rig file" in err
