"""Worked out, remembered, and with memory off: the same bytes on both streams and the same status, in every form."""

import os
import pty
import subprocess
import sys
import termios
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from tests.cli.calling import DAY, environment
from tests.remembered.asking import Memory
from tests.remembered.conftest import RIG

FORMS = ("text", "lines", "json", "html", "sarif", "junit", "markdown", "github", "gitlab")


@pytest.mark.parametrize("form", FORMS)
def test_of_every_form(of_folder: Memory, form: str) -> None:
    of_folder.call = ["audit", ".", *DAY, "--stop-at", "NOTICE", "--format", form]
    assert of_folder.fill() == of_folder.afresh()
    of_folder.call += ["--jobs", "2"]
    assert of_folder.ask() == of_folder.afresh()


@pytest.mark.parametrize(
    "call",
    [
        ["sheet", RIG, *DAY],
        ["card", RIG, *DAY, "--format", "html"],
        ["limits", RIG, *DAY],
        ["gauge", "--time", "2.9 s", "--over", "30 m", "--mass-per-metre", "60 g/m"],
        ["gear", ".", *DAY],
        ["rulebook"],
        ["compare", RIG, RIG, *DAY],
        ["audit", RIG, *DAY, "--quiet", "--stop-at", "NOTICE"],
    ],
    ids=" ".join,
)
def test_of_other_commands(memory: Memory, call: list[str]) -> None:
    memory.call = call
    assert memory.fill() == memory.afresh()


def on_a_terminal(memory: Memory, columns: int, **more: str) -> bytes:
    """Call on a terminal of a width, and return what it shows."""
    mine, theirs = pty.openpty()
    termios.tcsetwinsize(theirs, (24, columns))
    kept = environment(XDG_CACHE_HOME=str(memory.cache), RIGLINT_AFRESH="", TERM="xterm-256color") | more
    call = [sys.executable, "-m", "riglint", *memory.call]
    with subprocess.Popen(call, cwd=memory.where, env=kept, stdin=theirs, stdout=theirs, stderr=theirs):
        os.close(theirs)
        shown = b""
        try:
            while more_shown := os.read(mine, 1 << 16):
                shown += more_shown
        except OSError:  # Linux says so at the end of a terminal
            pass
    os.close(mine)
    return shown


def test_on_a_terminal(memory: Memory) -> None:
    memory.call = ["audit", RIG, *DAY, "--stop-at", "NOTICE"]
    off = {"RIGLINT_AFRESH": "1"}
    memory.fill()
    answers = [on_a_terminal(memory, 100) for _ in range(2)]
    assert answers == [on_a_terminal(memory, 100, **off)] * 2
    assert len(memory.records()) == 2
    assert b"\x1b[" in answers[0]
    narrow = on_a_terminal(memory, 50)
    assert narrow == on_a_terminal(memory, 50, **off) != answers[0]
    plain = on_a_terminal(memory, 100, NO_COLOR="1")
    assert plain == on_a_terminal(memory, 100, NO_COLOR="1", **off) != answers[0]


def test_many_at_once(memory: Memory, club: Path) -> None:
    """Calls that all begin with an empty memory, while the rig is edited: none answers what never was so."""
    expected = memory.afresh()

    def ask(_: int) -> tuple[int, bytes, bytes]:
        return Memory(memory.cache, memory.where, memory.call).ask()

    with ThreadPoolExecutor(4) as several:
        assert set(several.map(ask, range(6))) == {expected}
    assert len(memory.records()) == 1  # none is left half written
    memory.fill()
    (club / RIG).write_text((club / RIG).read_text("utf-8").replace("4 kN", "9 kN"), "utf-8")
    with ThreadPoolExecutor(4) as several:
        assert set(several.map(ask, range(6))) == {memory.afresh()} != {expected}
