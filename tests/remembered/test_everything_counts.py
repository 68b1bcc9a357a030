"""Whatever a call opens, lists or asks for is among what its answer rests on.

Seen from outside, by a hook and by functions of our own (PEP 578: `open`, `os.listdir`, `os.scandir`; names that are
only asked for raise no event), put in before any of riglint is loaded.
"""

import json
import os
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from riglint.remembered.calls import _counts
from riglint.remembered.looks import Look
from riglint.remembered.modules import COARSEST_NS
from riglint.remembered.records import unpacked
from tests.cli.calling import DAY, environment, git
from tests.remembered.asking import Memory
from tests.remembered.conftest import RIG

WITNESS = """
import json, os, posix, sys
seen, inside = [], []

def callers():
    frame, names = sys._getframe(3), []
    while frame is not None:
        names.append((frame.f_code.co_filename, frame.f_code.co_name))
        frame = frame.f_back
    return names

def take(what, name):
    if inside or isinstance(name, int):
        return
    inside.append(1)
    by = callers()
    # What the front door does before and after the call, and the look that is noted, are no looks of the call.
    door = any(file.endswith("front.py") and function in ("_keep", "_give_again") for file, function in by)
    # Nor is what memory does for itself: it looks again, at its own folder and at the program's files.
    own = ("remembered/looks.py", "remembered/modules.py", "remembered/store.py")
    noting = any(file.endswith(own) for file, _ in by)
    nearest = next(file for file, _ in by if not file.endswith("remembered/watching.py"))
    if not door and not noting:
        seen.append([what, os.fsdecode(name if name is not None else "."), "importlib" in nearest, by[:4]])
    inside.pop()

def hook(event, given):
    if event == "open" and isinstance(given[0], (str, bytes)):
        take("open", given[0])
    elif event in ("os.listdir", "os.scandir"):
        take("names", given[0])

def noting(name):
    real = getattr(posix, name)
    def asked(path, *given, **named):
        take(name, path)
        return real(path, *given, **named)
    setattr(posix, name, asked)
    setattr(os, name, asked)

for name in ("stat", "lstat", "readlink", "access"):
    noting(name)
read = os._Environ.__getitem__
environment = set()
def got(self, name):
    # The key takes the variables that count; git is handed all of them, and reads its own.
    if not any(file.endswith(("remembered/calls.py", "git_objects.py")) for file, _ in callers()):
        environment.add(name)
    return read(self, name)
os._Environ.__getitem__ = got
sys.addaudithook(hook)
leave = os._exit
def left(status):
    inside.append(1)
    with open(os.environ["TOLD"], "w") as out:
        json.dump([seen, sorted(environment)], out)
    leave(status)
os._exit = left
sys.argv = ["riglint", *sys.argv[2:]]
from riglint.front import run
run()
"""


def cold_run(memory: Memory, tmp_path: Path) -> tuple[list[Any], list[str], dict[Look, bytes]]:
    """Return what a witness saw of a call that nothing was remembered of, and what is kept of that call."""
    program, told = tmp_path / "witness.py", tmp_path / "told.json"
    program.write_text(WITNESS, "utf-8")
    memory.fill()  # so that all modules are compiled and settled
    for record in memory.records():
        record.unlink()
    os.utime(program, (1, 1))
    time.sleep(COARSEST_NS / 1e9 + 0.1)
    kept = environment(XDG_CACHE_HOME=str(memory.cache), RIGLINT_AFRESH="", TOLD=str(told)) | memory.more
    done = subprocess.run(
        [sys.executable, str(program), "--", *memory.call],
        cwd=memory.where,
        env=kept,
        capture_output=True,
        check=False,
    )
    assert done.returncode in {0, 1}, done.stderr.decode()
    (record,) = memory.records()
    answer = unpacked(record.name.encode(), record.read_bytes())
    assert answer is not None
    return *json.loads(told.read_text("utf-8")), answer.looks


def lacking(seen: list[Any], looks: dict[Look, bytes]) -> Iterator[str]:
    """Yield what was looked at and is not kept; of modules, Python asks for many names, and tells of each later."""
    kept = {os.fsdecode(name) for _, name in looks}
    assert any(kind == b"modules" for kind, _ in looks)
    for what, name, importing, *by in seen:
        compiled = "__pycache__" in name or name.endswith((".so", ".pth"))
        pythons = name.startswith(str(Path(os.__file__).parent)) and importing
        if (
            name not in kept
            and not compiled
            and not pythons
            and not (importing and what != "open")
            and name != os.devnull
        ):
            yield f"{what} {name} {by}"


def test_everything_that_a_hook_looks_at_counts(memory: Memory, club: Path, tmp_path: Path) -> None:
    """What is taken out of git lies in a folder of the call's own; what git lists stands for it."""
    git(club, "init", "-q")
    git(club, "add", "-A")
    room = tmp_path / "room"
    room.mkdir()
    memory.more = {"TMPDIR": str(room)}
    memory.call = ["audit", "--revision", "staged", "--if-any", "--with-rigs", *DAY, "--", RIG]
    seen, _, looks = cold_run(memory, tmp_path)
    assert any(name.startswith(str(room)) and name.endswith(RIG) for _, name, *_ in seen)
    outside = [one for one in seen if not one[1].startswith(f"{room}/")]
    assert list(lacking(outside, looks)) == []
    assert {name for kind, name in looks if kind == b"revision"} == {b"staged", b"HEAD"}
    assert not [name for _, name in looks if name.startswith(os.fsencode(f"{room}/riglint-"))]


@pytest.mark.parametrize(
    "call", ["audit rig", "audit folder", "audit git", "sheet", "limits", "card", "gear", "compare", "text"]
)
def test_everything_that_is_looked_at_counts(memory: Memory, club: Path, tmp_path: Path, call: str) -> None:
    calls = {
        "audit folder": ["audit", ".", *DAY, "--format", "html"],
        "audit git": ["audit", ".", *DAY],
        "sheet": ["sheet", RIG, *DAY],
        "limits": ["limits", RIG, *DAY],
        "card": ["card", RIG, *DAY],
        "gear": ["gear", ".", *DAY],
        "compare": ["compare", "rigs", "spots", *DAY],
        "text": ["audit", RIG, *DAY, "--with-rigs", "--if-any"],
    }
    memory.call = calls.get(call, memory.call)
    if call == "audit git":
        git(club, "init", "-q")
    seen, variables, looks = cold_run(memory, tmp_path)
    kinds = {what for what, *_ in seen}
    assert {"open", "lstat", "stat"} <= kinds  # the witness sees something
    assert list(lacking(seen, looks)) == []
    assert (b"content", os.fsencode(RIG)) in looks or any(
        name.endswith(os.fsencode(RIG)) for _, name in looks
    )
    assert any(name.endswith(b"rules/tail/webbing.py") for kind, name in looks if kind == b"code")
    assert any(name.endswith(b"riglint/cli/__init__.py") for kind, name in looks if kind == b"code")
    assert any(name.endswith(b"pydantic/main.py") for kind, name in looks if kind == b"code")
    assert [one for one in variables if not _counts(one) and one not in {"TOLD", "XDG_CACHE_HOME"}] == []
