"""How the tests call the command: in a process of its own, or in theirs."""

import json
import os
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from riglint.cli import main
from riglint.testing import BASELINES

CHECKOUT = Path(__file__).parents[2]
ORDINARY = CHECKOUT / "examples/ordinary"
SOUND = (BASELINES / "low.yaml").read_text(encoding="utf-8")
SHORT_TAIL = SOUND.replace("tail: 1 m,", "tail: 0.1 m,")
BROKEN = SOUND.replace("hitch: basket", "hich: basket", 1)
ESCAPE = re.compile(r"\x1b\[[0-9;]*m")
DAY = ("--on", "2026-05-02")
# Rules are not what is tested here, so only a DANGER may stop a sound rig.
QUIET = (*DAY, "--stop-at", "DANGER")


def write(file: Path, text: str) -> Path:
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(text, encoding="utf-8")
    return file


def club_of(folder: Path, *names: str) -> Path:
    """Copy files of the ordinary examples into a club of their own; return its folder."""
    (folder / "rig-library").touch()
    for name in names:
        (folder / name).parent.mkdir(exist_ok=True)
        (folder / name).write_bytes((ORDINARY / name).read_bytes())
    return folder


def git(where: Path, *call: str, given: bytes | None = None) -> str:
    """Run git in a folder as somebody invented; return what it prints."""
    person = ("-c", "user.name=Rigger", "-c", "user.email=rigger@example.org")
    done = subprocess.run(
        ["git", "-C", str(where), *person, *call], check=True, capture_output=True, input=given
    )
    return done.stdout.decode().strip()


def commit(where: Path, message: str) -> None:
    """Commit all that stands in a repository."""
    git(where, "add", "-A")
    git(where, "commit", "-q", "-m", message)


def environment(**more: str) -> dict[str, str]:
    leave_out = {"COLUMNS", "NO_COLOR", "TERM", "PYTHONIOENCODING"}
    kept = {name: value for name, value in os.environ.items() if name not in leave_out}
    found_first = os.pathsep.join(filter(None, (str(CHECKOUT), os.environ.get("PYTHONPATH"))))
    return kept | {"PYTHONPATH": found_first} | more


def command(*arguments: str | Path) -> list[str]:
    return [sys.executable, "-m", "riglint", *map(str, arguments)]


def run(where: Path, *arguments: str | Path, **more: str) -> tuple[int, str, str]:
    """Run the command in a folder; return its status, what it printed and what it complained of."""
    call = command(*arguments)
    done = subprocess.run(
        call, cwd=where, env=environment(**more), stdin=subprocess.DEVNULL, capture_output=True, check=False
    )
    out, err = done.stdout.decode(), done.stderr.decode()
    assert "Traceback" not in out + err
    return done.returncode, out, err


def run_here(capsys: pytest.CaptureFixture[str], *arguments: str | Path) -> tuple[int, dict[str, Any]]:
    """Run the command in this process and return its status and its JSON report."""
    status = main(["audit", *map(str, arguments), *DAY, "--format", "json"])
    said = capsys.readouterr()
    assert said.err == ""
    report: dict[str, Any] = json.loads(said.out)
    return status, report


def by_path(report: dict[str, Any]) -> dict[str, Any]:
    return {file["path"]: file for file in report["files"]}


def problems(file: dict[str, Any]) -> list[str]:
    return [f"{one['message']} {one['do']}" for one in file["findings"] if one["rule"].startswith("file/")]
