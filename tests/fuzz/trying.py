"""Runs an input and says what is wrong with what comes out."""

from __future__ import annotations

import io
import json
import re
import subprocess
import threading
from collections.abc import Iterator
from contextlib import chdir, contextmanager, redirect_stderr, redirect_stdout, suppress
from pathlib import Path
from typing import Any

from riglint import rulebook
from riglint.cli import main
from riglint.cli.call.arguments import LeavingCall
from tests.editor.client import Editor
from tests.fuzz.making import Input

PERSON = ("-c", "user.name=Rigger", "-c", "user.email=rigger@example.org", "-c", "core.hooksPath=/dev/null")
COMMANDING = re.compile(r"(?m)^(::|##\[)")


@contextmanager
def loaded_once() -> Iterator[None]:
    """Load the rules once for all inputs: it takes most of the time of a run."""
    load, book = rulebook.load_rulebook, rulebook.load_rulebook()
    setattr(rulebook, "load_rulebook", lambda *_house: book)  # noqa: B010 - a function is put in its place
    try:
        yield
    finally:
        setattr(rulebook, "load_rulebook", load)  # noqa: B010


def wrong_with(given: Input, folder: Path) -> str:
    """Return what is wrong with what comes of an input, run in an empty folder; nothing if all is well."""
    if "messages" in given:
        return _talked(given["messages"])
    (folder / "rig-library").touch()
    for commit in given.get("commits", ()):
        _put(folder, commit)
        _commit(folder)
    for setting, value in given.get("settings", {}).items():
        subprocess.run(["git", "config", setting, value], cwd=folder, check=True)
    files = _put(folder, given["files"])
    before = {path: path.read_bytes() for path in files}
    with chdir(folder):
        status, out, err = _run(given["call"])
    changed = [path.name for path, raw in before.items() if path.read_bytes() != raw]
    if changed:
        return f"{changed} written over"
    if (folder / "ran").exists():
        return "a setting of the repository was run"
    return _not_right(given["call"], status, out, err)


def _put(folder: Path, files: dict[str, str]) -> list[Path]:
    there = []
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(text.encode("latin-1"))
        there.append(path)
    return there


def _commit(folder: Path) -> None:
    for call in (("init", "-q"), ("add", "-A"), ("commit", "-q", "--allow-empty", "-m", "x")):
        subprocess.run(["git", *PERSON, *call], cwd=folder, check=True, capture_output=True)


def _run(call: list[str]) -> tuple[int, str, str]:
    out, err = io.StringIO(), io.StringIO()
    with redirect_stdout(out), redirect_stderr(err):
        try:
            status = main(call)
        except LeavingCall as leaving:
            status = int(leaving.code or 0)
    return status, out.getvalue(), err.getvalue()


def _not_right(call: list[str], status: int, out: str, err: str) -> str:
    if status not in {0, 1, 2} and not err.startswith("The report cannot be written"):
        return f"status {status}: {err[:200] or 'a rule crashed'}"
    if "Traceback" in out + err or "riglint could not" in err:
        return f"a traceback or as good as one: {err[:200]}"
    # A no-break space is seen; the other keeps names from being markup.
    ours = {"\n", "\xa0", *("\u200b" if "markdown" in call else "")}
    odd = sorted({letter for letter in out + err if not letter.isprintable()} - ours)
    if odd:
        return f"unseen characters in what is said: {odd}"
    if COMMANDING.search(out) and "json" not in call:
        return "a row begins like a command"
    if status == 2 and not out and not err:
        return "2 without a word"
    audits = call[:1] == ["audit"] and call[-1] in {".", "json", "low.yaml"}
    return _report(status, json.loads(out)) if audits and "json" in call and out else ""


def _report(status: int, report: dict[str, Any]) -> str:
    files = report["files"]
    crashed = [one["message"] for file in files for one in file["findings"] if one["crashed"]]
    if crashed:
        return str(crashed[0])
    if status == 0 and not any(file["judged"] for file in files):
        return "0, and nothing was judged"
    unread = [file["path"] for file in files if not file["judged"]]
    return f"0, and {unread} not judged" if status == 0 and unread else ""


LONGEST_S = 120.0  # for one input; a server that says nothing for so long hangs
_editors: list[Editor] = []
_drains: list[threading.Thread] = []


def _talked(messages: list[dict[str, Any]]) -> str:
    """Send messages, then ask something: whoever answers is alive. A server that died is replaced."""
    if not _editors:
        _editors.append(Editor())
        # What it complains of is read all the time, else it would wait for us once the pipe is full.
        _drains.append(threading.Thread(target=_drained, args=(_editors[0],), daemon=True))
        _drains[0].start()
    editor = _editors[0]
    editor.guard.cancel()  # that of the whole conversation; each input has its own
    editor.guard = threading.Timer(LONGEST_S, editor.process.kill)
    editor.guard.start()
    try:
        for number, message in enumerate(messages):
            asks = message["method"].endswith(("hover", "codeAction", "noSuchThing"))
            editor.send({**message, "id": f"fuzz-{number}"} if asks else message)
        uri = Path("/nowhere/last.yaml").as_uri()
        where = {"textDocument": {"uri": uri}, "position": {"line": 0, "character": 0}}
        editor.ask("textDocument/hover", where)
    except (AssertionError, OSError) as error:
        leave_editor()
        return f"the server is gone: {error}"
    return ""


def _drained(editor: Editor) -> None:
    assert editor.process.stderr is not None
    for _ in editor.process.stderr:
        pass


def leave_editor() -> None:
    """End the server, if one was started."""
    while _editors:
        editor = _editors.pop()
        editor.process.kill()
        editor.process.wait()
        editor.guard.cancel()
        _drains.pop().join()
        for stream in (editor.process.stdin, editor.process.stdout, editor.process.stderr):
            if stream is not None:
                with suppress(OSError):  # what was still to be sent has no reader any more
                    stream.close()
