"""How far an audit has come: a line on a terminal that is gone before the report; nothing anywhere else.

What a terminal shows is worked out from the bytes as POSIX terminals do it: a carriage return goes back to the first
column, and what is written then stands over what was there.
"""

import io
import os
import pty
import subprocess
from pathlib import Path

import pytest

from riglint.cli.call.progress import progress_on
from tests.cli.calling import DAY, SOUND, command, environment, run, write
from tests.cli.test_audit_command import read_all


class Terminal(io.StringIO):
    """A stream that says it is a terminal."""

    def isatty(self) -> bool:
        return True


class Clock:
    """Seconds that pass when told to."""

    now = 0.0

    def __call__(self) -> float:
        return self.now


def screen(written: str) -> list[str]:
    """Return the lines that stand on a terminal in the end."""
    lines = []
    for line in written.replace("\r\n", "\n").split("\n"):
        cells: list[str] = []
        for piece in line.split("\r"):
            cells[: len(piece)] = piece
        lines.append("".join(cells).rstrip())
    return lines


def test_it_says_files_done_and_findings_and_goes_away() -> None:
    stream, clock = Terminal(), Clock()
    with progress_on(stream, clock) as progress:
        assert progress is not None
        clock.now = 1.5
        progress(3, 40, 1)
        assert screen(stream.getvalue()) == ["3 of 40 files audited, 1 finding so far"]
        clock.now = 1.55
        progress(4, 40, 100)  # too soon to be read
        assert screen(stream.getvalue()) == ["3 of 40 files audited, 1 finding so far"]
        clock.now = 2.0
        progress(10, 40, 100)
        assert screen(stream.getvalue()) == ["10 of 40 files audited, 100 findings so far, about 10 s left"]
    assert screen(stream.getvalue()) == [""]
    assert "\x1b" not in stream.getvalue()


def test_a_long_wait_is_told_in_minutes() -> None:
    stream, clock = Terminal(), Clock()
    with progress_on(stream, clock) as progress:
        assert progress is not None
        clock.now = 10.0
        progress(10, 70, 0)  # 60 s at that speed
        assert screen(stream.getvalue()) == ["10 of 70 files audited, 0 findings so far, about 1 min left"]
        clock.now = 20.0
        progress(20, 201, 0)  # 181 s
        assert screen(stream.getvalue()) == ["20 of 201 files audited, 0 findings so far, about 4 min left"]


def test_a_fast_run_and_a_single_file_show_nothing() -> None:
    stream, clock = Terminal(), Clock()
    with progress_on(stream, clock) as progress:
        assert progress is not None
        clock.now = 0.9
        progress(1, 2, 0)
        clock.now = 5.0
        progress(1, 1, 0)
    assert stream.getvalue() == ""


def test_it_is_gone_after_an_error_too() -> None:
    stream, clock = Terminal(), Clock()

    def stumble() -> None:
        with progress_on(stream, clock) as progress:
            assert progress is not None
            clock.now = 2.0
            progress(1, 2, 0)
            raise RuntimeError

    with pytest.raises(RuntimeError):
        stumble()
    assert "1 of 2 files" in stream.getvalue()
    assert screen(stream.getvalue()) == [""]


def test_no_terminal_or_a_dumb_one_gets_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    with progress_on(io.StringIO()) as progress:
        assert progress is None
    monkeypatch.setenv("TERM", "dumb")
    with progress_on(Terminal()) as progress:
        assert progress is None


def errors_on_a_terminal(where: Path, report: Path, *arguments: str, **more: str) -> str:
    """Run the command, its report into a file, and return what it wrote on a pseudo-terminal as standard error."""
    ours, its = pty.openpty()
    with report.open("wb") as out:  # a pipe would fill while the terminal is read
        running = subprocess.Popen(
            command(*arguments),
            cwd=where,
            env=environment(TERM="xterm-256color", **more),
            stdin=subprocess.DEVNULL,
            stdout=out,
            stderr=its,
        )
    os.close(its)
    said = b"".join(read_all(ours)).decode()
    os.close(ours)
    running.wait(timeout=60)
    return said


@pytest.fixture
def many(library: Path) -> Path:
    for n in range(160):
        write(library / f"rig-{n:03}.yaml", SOUND)
    return library


def test_a_long_audit_on_a_terminal_shows_it_and_the_report_is_the_same(many: Path, tmp_path: Path) -> None:
    call = ("audit", ".", *DAY, "--format", "json")
    report = tmp_path / "report.json"
    said = errors_on_a_terminal(many, report, *call, NO_COLOR="1")
    assert "of 160 files audited" in said
    assert "\x1b" not in said
    assert screen(said) == [""]
    _, piped, complaint = run(many, *call, TERM="xterm-256color")
    assert complaint == ""
    assert piped == report.read_text(encoding="utf-8")
