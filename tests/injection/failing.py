"""Lets one thing fail at a time while this process audits, and holds what comes out to what came out without it."""

from __future__ import annotations

import io
import json
import os
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager, redirect_stderr, redirect_stdout
from pathlib import Path
from types import CodeType, FrameType
from typing import Any, NamedTuple, NoReturn

from riglint.cli import main
from tests.cli.calling import CHECKOUT, DAY

OURS = (str(CHECKOUT / "riglint"), str(CHECKOUT / "rules"))
MECHANICS = (str(CHECKOUT / "riglint" / "mechanics"),)
# What the interpreter tells of before it does it; a hook that raises keeps it from being done (sys.addaudithook).
TOUCHES = {"open", "os.scandir", "os.listdir", "os.rename", "os.chmod", "os.remove", "tempfile.mkstemp"}
Error = Callable[[], BaseException]


class Said(NamedTuple):
    """What one run gave."""

    status: int
    out: str
    err: str


def audited(*more: str) -> Said:
    """Audit the current folder in this process."""
    out, err = io.StringIO(), io.StringIO()
    with redirect_stdout(out), redirect_stderr(err):
        status = guarded(["audit", ".", *DAY, "--format", "json", *more])
    return Said(status, out.getvalue(), err.getvalue())


def guarded(call: list[str]) -> int:
    """Run as the command does, whose last guard turns what gets out into a sentence and 3."""
    try:
        return main(call)
    except BaseException as error:  # noqa: BLE001 - `riglint.cli.run` catches as much
        sys.stderr.write(f"riglint could not do its work: {type(error).__name__}\n")
        return 3


def not_failed_closed(whole: Said, said: Said) -> str:
    """Return what is wrong with a run in which something failed; nothing if it failed closed."""
    # The interpreter itself tells of what fails while a generator that nobody asks any more is cleared away.
    if said[:2] == whole[:2] and (not said.err or said.err.startswith("Exception ignored in: <generator")):
        return ""  # it could be done without
    # A trial of a remedy that fails is one that does not pass: the advice asks for more, what was found stays.
    if said.status == whole.status and not said.err and verdicts(said) == verdicts(whole):
        return ""
    if said.status not in {2, 3}:
        return f"status {said.status} with another report"
    if not said.out:
        return "" if said.err.strip() else "neither a report nor a sentence"
    before, now = by_path(whole), by_path(said)
    told = [one for found in now.values() for one in found if one["crashed"] or one["kind"] == "open"]
    if not told and not said.err.strip():
        return "nothing says what failed"
    spoilt = {path for path in before if names(before[path]) - names(now.get(path, []))}
    return f"findings of {', '.join(sorted(spoilt))} are hidden" if len(spoilt) > 1 else ""


def by_path(said: Said) -> dict[str, list[dict[str, Any]]]:
    return {file["path"]: file["findings"] for file in json.loads(said.out)["files"]}


def verdicts(said: Said) -> dict[str, list[tuple[object, ...]]]:
    """Return every finding of every file: rule, kind, word, place, value."""
    return {path: [verdict(one) for one in found] for path, found in by_path(said).items()}


def verdict(one: dict[str, Any]) -> tuple[object, ...]:
    return one["rule"], one["kind"], one["signal"], one["at"]["line"], one["at"]["key"], one["message"]


def names(found: list[dict[str, Any]]) -> set[tuple[str, str]]:
    """Return rule and place of findings; without those that need all rigs of a library."""
    return {
        (one["rule"], one["at"]["key"]) for one in found if not one["rule"].startswith(("library/", "day/"))
    }


# Files


class Touch:
    """Counts how often something in a folder is touched, and lets one of these times fail. One for a process."""

    def __init__(self) -> None:
        self.folder, self.number, self.fails = "", 0, -1
        sys.addaudithook(self._hook)  # there is no taking it out again; without a folder it does nothing

    def _hook(self, event: str, given: tuple[Any, ...]) -> None:
        if not self.folder or event not in TOUCHES or not given or not isinstance(given[0], (str, Path)):
            return
        if Path(os.path.abspath(given[0])).is_relative_to(self.folder):  # noqa: PTH100 - links stay
            self.number += 1
            if self.number == self.fails:
                raise OSError(5, "Input/output error")

    @contextmanager
    def failing(self, folder: Path, number: int) -> Iterator[None]:
        self.folder, self.number, self.fails = str(folder), 0, number
        try:
            yield
        finally:
            self.folder = ""


# Functions


def functions_called(within: tuple[str, ...], run: Callable[[], Said]) -> tuple[list[CodeType], Said]:
    """Return every function of some folders that a run calls, in the order of their first calls."""
    seen: dict[CodeType, None] = {}

    def note(frame: FrameType, event: str, _given: object) -> None:
        if event == "call" and frame.f_code.co_filename.startswith(within):
            seen.setdefault(frame.f_code)

    said = _profiled(note, run)
    return list(seen), said


def with_failing(code: CodeType, error: Error, run: Callable[[], Said], *, at: int = 1) -> Said:
    """Return what a run gives where one call of a function throws."""
    calls = 0

    def fail(frame: FrameType, event: str, _given: object) -> None:
        nonlocal calls
        if event == "call" and frame.f_code is code:
            calls += 1
            if calls == at:
                _throw(error())

    return _profiled(fail, run)


def _throw(error: BaseException) -> NoReturn:
    raise error  # out of the profiler, which ends with it, and so out of the function that was called


def _profiled(watch: Callable[[FrameType, str, Any], None], run: Callable[[], Said]) -> Said:
    sys.setprofile(watch)
    try:
        return run()
    finally:
        sys.setprofile(None)


def shown(code: CodeType) -> str:
    return f"{Path(code.co_filename).relative_to(CHECKOUT).as_posix()} {code.co_qualname}"
