"""`riglint gear`: what is due, what retires, who uses a piece, what a day needs."""

import csv
import io
import json
from pathlib import Path

import pytest

from tests.cli.calling import BROKEN, DAY, SOUND, run, write

BAD = "rigs/bad.yaml"
DATED = SOUND.replace("  days_up: 1\n", "  days_up: 1\n  first_day: 2026-05-02\n")


@pytest.fixture
def rigs(library: Path) -> Path:
    write(library / "rigs/a.yaml", DATED)
    return library


def gear(library: Path, *more: str) -> tuple[int, str]:
    status, out, _ = run(library, "gear", ".", *more)
    return status, out


def told(library: Path, *more: str) -> dict[str, dict[str, object]]:
    _, out = gear(library, "--format", "json", *more)
    return {one["id"]: one for one in json.loads(out)["pieces"]}


def edited(library: Path, old: str, new: str) -> None:
    assert old in DATED
    write(library / "rigs/a.yaml", DATED.replace(old, new, 1))


def test_the_check_is_due_a_year_after_the_last_one_and_overdue_the_day_after(rigs: Path) -> None:
    """A competent person checks it at least once a year: EN 365 practice."""
    piece = told(rigs, *DAY)["SH-1"]
    due = str(piece["due"])
    assert int(due[:4]) == int(str(piece["checked"])[:4]) + 1
    assert due[4:] == str(piece["checked"])[4:]
    assert told(rigs, "--on", due)["SH-1"]["overdue"] is False
    after = f"{due[:-2]}{int(due[-2:]) + 1:02}"
    assert told(rigs, "--on", after)["SH-1"]["overdue"] is True
    assert gear(rigs, *DAY)[0] == 0
    status, out = gear(rigs, "--on", after)
    assert (status, "overdue" in out) == (1, True)


def test_textile_retires_and_steel_does_not(rigs: Path) -> None:
    pieces = told(rigs, *DAY)
    webbing = pieces["W-1"]
    assert str(webbing["retires"]) > "2026"
    assert pieces["SH-1"]["retires"] is None
    _, out = gear(rigs, *DAY)
    assert out.index("To retire") < out.index(str(webbing["retires"])[:7], out.index("To retire"))


def test_the_audit_and_the_list_agree_which_pieces_are_overdue(rigs: Path) -> None:
    on = ("--on", "2027-05-02")
    _, out, _ = run(rigs, "audit", ".", *on, "--format", "json")
    found = [one for file in json.loads(out)["files"] for one in file["findings"]]
    audited = {one["message"].split()[3] for one in found if one["rule"] == "gear/inspection"}
    assert audited == {name for name, one in told(rigs, *on).items() if one["overdue"]}
    assert audited


def test_one_piece_with_the_rigs_that_use_it(rigs: Path) -> None:
    _, out = gear(rigs, *DAY, "--piece", "SH-1")
    assert "rigs/a.yaml, planned, 2026-05-02" in out
    status, _, err = run(rigs, "gear", ".", *DAY, "--piece", "SH1")
    assert (status, "Do you mean SH-1?" in err) == (2, True)


def test_a_day_has_what_is_planned_for_it_and_what_stands(rigs: Path) -> None:
    assert "SH-1" in told(rigs, *DAY, "--day", "2026-05-02")
    assert not told(rigs, *DAY, "--day", "2026-05-03")
    edited(rigs, "stage: planned", "stage: built")
    on = ("--on", "2026-05-20")
    assert "SH-1" in told(rigs, *on, "--day", "2026-05-20")  # it still stands, whatever was planned
    _, out = gear(rigs, *DAY, "--day", "2026-05-02")
    assert "[ ] SH-1" in out
    assert "Pack for rigs/a.yaml" in out


@pytest.mark.parametrize(
    ("left_out", "day"), [("  first_day: 2026-05-02\n", "2026-05-02"), ("  days_up: 1\n", "2026-05-03")]
)
def test_a_rig_that_does_not_say_its_days_is_told_and_not_left_out_in_silence(
    rigs: Path, left_out: str, day: str
) -> None:
    _, out = gear(rigs, *DAY, "--day", day)
    assert "say its days" not in out
    edited(rigs, left_out, "")
    _, out = gear(rigs, *DAY, "--day", day)
    assert "rigs/a.yaml doesn't say its days" in " ".join(out.split())


def test_a_file_that_cannot_be_read_is_told_and_hides_no_other(rigs: Path) -> None:
    write(rigs / BAD, BROKEN)
    for form in ("text", "csv", "json"):
        status, out = gear(rigs, *DAY, "--format", form)
        assert (status, BAD in out, "SH-1" in out) == (2, True, True)


def test_a_spreadsheet_runs_no_name(rigs: Path) -> None:
    write(rigs / "rigs/a.yaml", DATED.replace("SH-1", '"=SH-1"'))
    _, out = gear(rigs, *DAY, "--format", "csv")
    cells = [cell for row in csv.reader(io.StringIO(out)) for cell in row]
    assert not [cell for cell in cells if cell.startswith("=")]
    assert len(cells) > len("piece")


def test_a_file_is_no_library(rigs: Path) -> None:
    status, _, err = run(rigs, "gear", "rigs/a.yaml")
    assert (status, "no folder" in err) == (2, True)
