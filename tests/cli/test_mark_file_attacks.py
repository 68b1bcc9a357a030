"""Ways to make a red rig green through the mark file of its library: each must end loud."""

import contextlib
import os
from pathlib import Path

import pytest

from tests.cli.calling import QUIET, SOUND, write
from tests.cli.test_library_settings import judged, said

RED = SOUND.replace("standing_tension: 3 kN", "standing_tension: 30 kN")  # a DANGER by several rules
SPOT = "riglint: spot/1\n" + "\n".join(
    row[2:] for row in SOUND[SOUND.index("spot:") : SOUND.index("shelf:")].splitlines()[1:]
)
OFF = "riglint: policy/1\ntitle: x\noff:\n  - {rule: ratio/peak, because: x}\n"


@pytest.fixture
def club(library: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    write(library / "rigs/red.yaml", RED)
    monkeypatch.chdir(library)
    assert judged("rigs")[0] == 1
    return library


# What the mark file holds, and what the error must say.
BROKEN = {
    "an unknown key": ("riglint: library/1\npolcy: p.yaml\n", "Write `policy`"),
    "a word to stop at": ("riglint: library/1\nstop_at: DANGER\n", "--stop-at"),
    "house rules": ("riglint: library/1\nhouse_rules: [rules]\n", "--house-rules"),
    "findings accepted for every rig": ("riglint: library/1\naccepted: []\n", "Accept findings in the rig"),
    "rules turned off in it": ("riglint: library/1\nrules: []\n", "A policy turns rules off"),
    "another version": ("riglint: library/2\n", "version '2'"),
    "another kind": ("riglint: policy/1\ntitle: x\n", "Expected an empty file or a library document"),
    "no kind": ("policy: p.yaml\n", "riglint"),
    "free text": ("This is our library.\n", "riglint: library/1"),
    "no YAML": ("riglint: library/1\n\tpolicy: p.yaml\n", "tab"),
    "a key twice": ("riglint: library/1\nunits: both\nunits: metric\n", "twice"),
    "a policy that is gone": ("riglint: library/1\npolicy: club/gone.yaml\n", "There is no file"),
    "a policy outside": ("riglint: library/1\npolicy: ../p.yaml\n", "outside the library"),
    "a policy by its whole path": ("riglint: library/1\npolicy: /etc/p.yaml\n", "top of the disk"),
    "a policy that is a folder": ("riglint: library/1\npolicy: rigs\n", "is a folder"),
    "a rig for a policy": ("riglint: library/1\npolicy: rigs/red.yaml\n", "Expected a policy"),
    "everything left out": (
        "riglint: library/1\nleave_out: [{path: '*', because: x}]\n",
        "leave out the whole library",
    ),
    "the folder itself left out": ("riglint: library/1\nleave_out: [{path: ., because: x}]\n", "'.'"),
    "something outside left out": ("riglint: library/1\nleave_out: [{path: ../x, because: x}]\n", "'..'"),
    "signs without a meaning": ("riglint: library/1\nleave_out: [{path: '**/*', because: x}]\n", "**"),
    "left out without a reason": ("riglint: library/1\nleave_out: [{path: rigs}]\n", "because"),
    "left out for a reason of spaces": (
        "riglint: library/1\nleave_out: [{path: rigs, because: ' '}]\n",
        "words",
    ),
    "an unknown unit": ("riglint: library/1\nunits: imperal\n", "Write `imperial`"),
}


@pytest.mark.parametrize("name", BROKEN)
def test_a_broken_mark_file_ends_with_the_error_status_and_judges_nothing(club: Path, name: str) -> None:
    text, needle = BROKEN[name]
    write(club.parent / "p.yaml", OFF)
    write(club / "rig-library", text)
    status, report = judged("rigs/red.yaml", "--if-any")
    assert status == 2
    assert all(not one["judged"] for one in report["files"] if one["path"].startswith("rigs"))
    told = [f"{one['message']} {one['do']}" for file in report["files"] for one in file["findings"]]
    assert any(needle in one for one in told), told
    status, text = said("sheet", "rigs/red.yaml", *QUIET[:2])
    assert status == 2
    assert needle in text


def test_no_command_falls_back_on_the_standard_limits(club: Path) -> None:
    write(club / "rig-library", "riglint: library/1\nstop_at: DANGER\n")
    for call in (("rigs",), (".", "--if-any"), ("rigs", "--jobs", "2")):
        assert judged(*call)[0] == 2, call
    for command in ("card", "limits", "choose"):
        status, text = said(command, "rigs/red.yaml", *QUIET[:2])
        assert status == 2
        assert "rig-library, line 2" in text
    _, text = said("audit", ".", *QUIET[:2])
    assert "Begin with rig-library" in " ".join(text.split())
    assert said("compare", "rigs", "rigs", *QUIET[:2])[0] == 2
    assert said("gear", ".", *QUIET[:2])[0] == 2


def test_a_policy_named_by_the_mark_file_that_turns_rules_off_is_told_and_empties_nothing_in_silence(
    club: Path,
) -> None:
    rules = [row for row in said("rulebook", "--format", "text")[1].split() if row.count("/") == 1]
    families = {"ratio", "peak"}
    rows = "".join(
        f"  - {{rule: {one}, because: x}}\n" for one in dict.fromkeys(rules) if one.split("/")[0] in families
    )
    write(club / "p.yaml", f"riglint: policy/1\ntitle: x\noff:\n{rows}")
    write(club / "rig-library", "riglint: library/1\npolicy: p.yaml\n")
    status, report = judged("rigs", "--stop-at", "DANGER")
    assert status == 2
    assert "Loosened: ratio/peak from on to off" in " ".join(report["settings"][0]["sets"])


def test_a_link_for_a_mark_file_is_refused_where_it_leads_out(club: Path) -> None:
    mark = club / "rig-library"
    mark.unlink()
    mark.symlink_to(write(club.parent / "elsewhere", "riglint: library/1\n"))
    status, report = judged("rigs")
    assert status == 2
    assert "leads outside the library" in report["files"][0]["findings"][0]["message"]
    mark.unlink()
    mark.symlink_to(club / "gone")
    assert judged("rigs")[0] == 2


def test_a_link_for_a_policy_is_refused_where_it_leads_out(club: Path) -> None:
    (club / "p.yaml").symlink_to(write(club.parent / "p.yaml", OFF))
    write(club / "rig-library", "riglint: library/1\npolicy: p.yaml\n")
    status, report = judged("rigs")
    assert status == 2
    assert "outside the library" in str(report)


def test_a_mark_file_that_cannot_be_read_or_never_ends_stops_the_audit(club: Path) -> None:
    mark = club / "rig-library"
    mark.unlink()
    os.mkfifo(mark)
    assert judged("rigs")[0] == 2
    mark.unlink()
    write(mark, "# nothing\n" * 300_000)
    assert judged("rigs")[0] == 2
    if os.geteuid():
        write(mark, "riglint: library/1\n")
        mark.chmod(0)
        assert judged("rigs")[0] == 2


def test_leaving_out_every_rig_is_a_warning_even_where_nothing_need_be_there(club: Path) -> None:
    write(club / "rig-library", "riglint: library/1\nleave_out: [{path: 'r*', because: x}]\n")
    for call in ((".",), (".", "--if-any")):
        status, report = judged(*call)
        assert status == 1, call
        assert "none of its rigs is judged" in str(report)


def test_a_file_that_the_hook_names_is_judged_though_the_library_leaves_it_out(club: Path) -> None:
    write(club / "rig-library", "riglint: library/1\nleave_out: [{path: rigs/red.yaml, because: x}]\n")
    status, report = judged("rigs/red.yaml", "--if-any", "--with-rigs", "--stop-at", "DANGER")
    assert status == 1
    assert "is judged, since the call names it" in str(report)


def test_settings_in_a_file_of_another_name_set_nothing_and_say_so(club: Path) -> None:
    for name in ("rig-library.yaml", "rig-library.txt", "settings.yaml"):
        write(club / name, "riglint: library/1\npolicy: p.yaml\n")
        status, report = judged(".")
        assert status == 2, name
        assert "Call it" in str(report)
        (club / name).unlink()


def test_a_library_that_lies_inside_is_not_left_out_by_the_one_around_it(club: Path) -> None:
    write(club / "guests/rig-library", "")
    write(club / "guests/red.yaml", RED)
    write(club / "rig-library", "riglint: library/1\nleave_out: [{path: guests, because: x}]\n")
    _, report = judged(".")
    assert "guests/red.yaml" in [one["path"] for one in report["files"] if one["judged"]]


def test_a_broken_library_hides_no_other(club: Path) -> None:
    write(club / "guests/rig-library", "nonsense")
    write(club / "guests/red.yaml", RED)
    status, report = judged(".")
    assert status == 2
    files = {one["path"]: one for one in report["files"]}
    assert files["rigs/red.yaml"]["judged"]
    assert not files["guests/red.yaml"]["judged"]


def test_no_folder_above_and_no_setting_of_the_environment_names_a_mark_file(
    club: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write(club.parent / "rig-library", "riglint: library/1\nleave_out: [{path: library, because: x}]\n")
    monkeypatch.setenv("RIGLINT_LIBRARY", str(club.parent))
    with contextlib.chdir(club):
        status, report = judged(".")
    assert status == 1
    assert "rigs/red.yaml" in [one["path"] for one in report["files"] if one["judged"]]


def test_days_on_which_nothing_stands_take_no_finding_of_a_day_away(club: Path) -> None:
    write(club / "spots/meadow.yaml", SPOT)
    for name in ("one", "two"):
        rig = SOUND[: SOUND.index("spot:")] + "spot: ../spots/meadow.yaml\n" + SOUND[SOUND.index("shelf:") :]
        rig = rig.replace("plan:\n", "plan:\n  first_day: 2026-05-03\n", 1)
        write(club / f"rigs/{name}.yaml", rig.replace("title: ", f"title: {name} ", 1))
    (club / "rigs/red.yaml").unlink()
    status, report = judged(".", "--stop-at", "WARNING")
    together = [one for f in report["files"] for one in f["findings"] if len(one["rigs"]) > 1]
    assert together
    write(club / "rig-library", "riglint: library/1\ndays: [2026-04-01]\n")
    status, report = judged(".", "--stop-at", "WARNING")
    assert status == 1
    assert "`days` leaves that day out" in str(report)
    write(club / "rig-library", "riglint: library/1\ndays: [2026-05-03]\n")
    _, report = judged(".", "--stop-at", "WARNING")
    assert "`days` leaves that day out" not in str(report)
    assert together == [one for f in report["files"] for one in f["findings"] if len(one["rigs"]) > 1]
