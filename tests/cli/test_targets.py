"""Where a report may go: over no input and over nothing of ours; through links, into pipes and devices; modes stay."""

import json
import os
import stat
import subprocess
from pathlib import Path

import pytest

from tests.cli.calling import CHECKOUT, DAY, QUIET, SOUND, command, environment, run, write

STAYS = "and stays unchanged. Name another file for the report.\n"
SPOT = "riglint: spot/1\nspan: 20 m\nanchors: {}\n"


@pytest.fixture
def rig(library: Path) -> Path:
    return write(library / "a.yaml", SOUND)


def untouched(library: Path, *call: str) -> str:
    """Run a call that must be refused, and see that no file changes, comes or goes."""
    before = {path: path.read_bytes() for path in library.rglob("*") if path.is_file()}
    status, out, err = run(library, *call)
    assert (status, out) == (2, "")
    assert {path: path.read_bytes() for path in library.rglob("*") if path.is_file()} == before
    return err


@pytest.mark.parametrize(
    "call",
    [
        ("sheet", "a.yaml", "--output", "a.yaml"),
        ("sheet", "a.yaml", "--write", "json=./a.yaml"),
        ("sheet", "a.yaml", "--output", "gone/../a.yaml"),
        ("audit", ".", "--output", "a.yaml"),
        ("audit", "a.yaml", "--output", "gone/../set/tail/own.py", "--house-rules", "set"),
        ("audit", "a.yaml", "--output", "again.txt"),
        ("audit", "a.yaml", "--output", "link.txt"),
        ("card", "a.yaml", "--format", "html", "--output", "a.yaml"),
        ("limits", "a.yaml", "--output", "a.yaml"),
        ("compare", "a.yaml", "b.yaml", "--output", "b.yaml"),
        ("gauge", "a.yaml", "--pull", "1 kN", "--output", "a.yaml"),
        ("audit", "a.yaml", "--output", "spot.txt"),
        ("audit", "a.yaml", "--output", "near.txt"),
        ("audit", "a.yaml", "--output", "foreign.YML"),
        ("audit", "a.yaml", "--output", "rig-library"),
        ("audit", "a.yaml", "--policy", "p", "--output", "p"),
        ("audit", "a.yaml", "--house-rules", "set", "--output", "set/tail/own.py"),
        ("rulebook", "--output", "a.yaml"),
    ],
)
def test_nothing_that_is_read_is_written_over(rig: Path, call: tuple[str, ...]) -> None:
    library = rig.parent
    write(library / "b.yaml", SOUND)
    (library / "again.txt").hardlink_to(rig)
    (library / "link.txt").symlink_to("a.yaml")
    write(library / "spot.txt", SPOT)
    write(library / "near.txt", SPOT.replace("riglint", "riglnt"))
    write(library / "foreign.YML", "name: x\n")
    write(library / "p", "no policy of ours")
    write(library / "set/tail/own.py", "")
    assert untouched(library, *call).endswith(STAYS)


def test_a_rule_of_riglint_is_not_written_over(rig: Path) -> None:
    rule = CHECKOUT / "rules/tail/webbing.py"
    before = rule.read_bytes()
    status, _, err = run(rig.parent, "audit", "a.yaml", "--output", str(rule))
    assert (status, err) == (2, f"{rule} belongs to a rule set {STAYS}")
    assert rule.read_bytes() == before


def test_an_earlier_report_is_replaced(rig: Path) -> None:
    for form in ("json", "text", "html", "sarif", "junit", "markdown"):
        for _ in range(2):
            assert run(rig.parent, "audit", "a.yaml", *QUIET, "--format", form, "--output", "r")[0] == 0


@pytest.mark.parametrize("mode", [0o600, 0o640, 0o664, 0o400])
def test_a_file_keeps_its_mode(rig: Path, mode: int) -> None:
    report = write(rig.parent / "r.json", "old")
    report.chmod(mode)
    assert run(rig.parent, "audit", "a.yaml", *QUIET, "--format", "json", "--output", "r.json")[0] == 0
    assert stat.S_IMODE(report.stat().st_mode) == mode
    assert json.loads(report.read_text("utf-8"))["riglint"] == "audit/1"


def test_a_new_file_has_the_mode_that_any_file_has_here(rig: Path) -> None:
    assert run(rig.parent, "audit", "a.yaml", *QUIET, "--output", "r.txt")[0] == 0
    assert (rig.parent / "r.txt").stat().st_mode == write(rig.parent / "other.txt", "").stat().st_mode


@pytest.mark.parametrize("there", [True, False])
def test_a_link_stays_and_what_it_leads_to_is_written(rig: Path, *, there: bool) -> None:
    target = rig.parent.parent / "reports" / "r.txt"
    target.parent.mkdir()
    if there:
        target.write_text("old", encoding="utf-8")
    link = rig.parent / "r.txt"
    link.symlink_to("../reports/r.txt")
    assert run(rig.parent, "audit", "a.yaml", *QUIET, "--output", "r.txt")[0] == 0
    assert link.is_symlink()
    assert target.read_text("utf-8").startswith("Audit of 1 rig")
    assert [path.name for path in target.parent.iterdir()] == ["r.txt"]


def test_links_in_a_circle_are_refused(rig: Path) -> None:
    (rig.parent / "r.txt").symlink_to("r.txt")
    err = untouched(rig.parent, "audit", "a.yaml", "--output", "r.txt")
    assert err.startswith("The report cannot be written to r.txt: ")
    assert (rig.parent / "r.txt").is_symlink()


def test_a_pipe_takes_the_report_and_stays_a_pipe(rig: Path) -> None:
    pipe = rig.parent / "pipe"
    os.mkfifo(pipe)
    with subprocess.Popen(
        command("audit", "a.yaml", *QUIET, "--output", "pipe"), cwd=rig.parent, env=environment()
    ) as running:
        said = pipe.read_text("utf-8")
        assert running.wait(timeout=60) == 0
    assert said.startswith("Audit of 1 rig")
    assert pipe.is_fifo()


def test_devices_take_the_report_and_stay(rig: Path) -> None:
    call = ("audit", "a.yaml", *QUIET)
    printed = run(rig.parent, *call, COLUMNS="80")[1]
    assert run(rig.parent, *call, "--output", "/dev/stdout") == (0, printed, "")
    assert run(rig.parent, *call, "--output", "/dev/null", "--write", "json=/dev/null") == (0, "", "")
    assert Path("/dev/null").is_char_device()


def test_a_full_device_gives_3(rig: Path) -> None:
    status, out, err = run(rig.parent, "audit", "a.yaml", *QUIET, "--output", "/dev/full")
    assert (status, out) == (3, "")
    assert err == "The report cannot be written to /dev/full: No space left on device.\n"


def test_a_form_that_fails_keeps_no_other_back(rig: Path) -> None:
    call = ("audit", "a.yaml", *DAY, "--write", "json=/dev/full", "--write", "markdown=r.md")
    status, out, err = run(rig.parent, *call)
    assert status == 3
    assert out.startswith("Audit of 1 rig")
    assert "/dev/full" in err
    assert (rig.parent / "r.md").exists()


def test_nothing_is_done_before_every_target_is_looked_at(rig: Path) -> None:
    untouched(rig.parent, "audit", "a.yaml", *DAY, "--write", "json=new.json", "--output", "a.yaml")
