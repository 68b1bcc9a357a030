"""`riglint known`: writes the file of known findings of a library from its audit, once somebody has said yes."""

from __future__ import annotations

import argparse
import os
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from riglint.cli.call.options import (
    day_of,
    named_policy,
    rules_of,
    take_day_and_library,
    take_stop_at,
    today,
)
from riglint.cli.call.output import put_out, replace_file
from riglint.cli.call.stopping import CALL_WRONG, NOT_DONE, StopError
from riglint.cli.call.yes_or_no import yes

if TYPE_CHECKING:
    from riglint.findings import Audit
    from riglint.findings.settled.taking_on import TakenOn
    from riglint.rulebook import Rulebook

STANDARD = "known.yaml"
ABOUT = (
    "Audits a library and shows what stops it today. If you say yes, it writes each into the file of known findings. "
    "From then on only what is new or worse stops. A DANGER, an open question and a file that "
    "cannot be read are never known."
)


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    known = commands.add_parser("known", help="keep what a library has had for a while", description=ABOUT)
    known.add_argument("library", type=Path, metavar="LIBRARY", help="the folder of the library")
    known.add_argument("--role", required=True, help="your role, such as gear keeper (no name)")
    known.add_argument("--reason", required=True, help="why these findings are kept for now")
    known.add_argument(
        "--until",
        type=day_of,
        required=True,
        metavar="DATE",
        help="the last day; a year from today at the most",
    )
    take_stop_at(known, "of a finding that is taken on")
    take_day_and_library(known)
    known.set_defaults(format="text", output=None, write=[])
    known.set_defaults(run=_run)


def _run(call: argparse.Namespace) -> int:
    from riglint.findings import audit  # noqa: PLC0415 - only the commands that need it pay for it
    from riglint.findings.settled.taking_on import SignedFor, known_text, take_on  # noqa: PLC0415
    from riglint.read.library import is_folder, library_root  # noqa: PLC0415
    from riglint.rulekit import Signal  # noqa: PLC0415

    if not is_folder(call.library):
        raise StopError(f"{call.library} is no folder. Name the folder of your library.", CALL_WRONG)
    _refuse_signed(call, today(call))
    book, top = rules_of(call), library_root(call.library, call.root or call.library)
    result = audit([top], book, today(call), root=call.root, force=named_policy(call, book))
    _refuse_unread(result)
    signed = SignedFor(call.role, call.reason, today(call), call.until)
    taken = take_on(result, top, frozenset(book.rules), Signal[call.stop_at], signed)
    file = _file(top, book)
    _show(taken, len(taken.entries) - len(taken.new))
    if not taken.entries and not file.exists():
        put_out("There is nothing to keep. Nothing was written.\n")
        return 0
    there = file.exists()
    question = (
        f"Write {file.name} anew with these {len(taken.entries)}" if there else f"Write them into {file.name}"
    )
    before = file.read_bytes() if there else b""
    if not yes(question):
        put_out("Nothing was written.\n")
        return 0
    _write(file, before, known_text(taken.entries))
    named = f"Name it in rig-library: known: {file.relative_to(top).as_posix()}"
    put_out(f"Written to {os.path.relpath(file)}. {named}\n")
    return 0


def _refuse_signed(call: argparse.Namespace, on: date) -> None:
    """Refuse an end or a role that no entry can have.

    Raises:
        StopError: it is one.
    """
    from riglint.findings.accepting import LONGEST  # noqa: PLC0415

    if not on <= call.until <= on + LONGEST:
        message = f"--until {call.until} is no day from {on} to {on + LONGEST}. Nobody can answer for longer."
        raise StopError(message, CALL_WRONG)
    for name in ("role", "reason"):
        if not any(letter.isalnum() for letter in getattr(call, name)):
            raise StopError(f"--{name} holds no words. Say who or why, in a few words.", CALL_WRONG)


def _refuse_unread(result: Audit) -> None:
    """Refuse to take findings on where some were not looked for.

    Raises:
        StopError: a file could not be judged, or nothing was found.
    """
    if result.refused or result.nothing_found or not result.whole:
        files = ", ".join(result.refused) or "the library"
        message = f"Not everything could be judged: {files}. Correct that first. Nothing was written."
        raise StopError(message, CALL_WRONG)


def _file(top: Path, book: Rulebook) -> Path:
    """Return where the known findings of a library stand: where its mark file says, else under the standard name."""
    from riglint.settings import settings_of  # noqa: PLC0415

    path = settings_of(top, book).known.path
    return Path(path) if path is not None else top / STANDARD


def _show(taken: TakenOn, kept: int) -> None:
    if kept:
        put_out(f"{kept} findings are known already and stay as they are.\n")
    for one in taken.new:
        put_out(f"{one.signal.name:<9} {one.at.path} line {one.at.line}: {one.message} ({one.rule})\n")
    for one in taken.never:
        put_out(
            f"NEVER     {one.at.path} line {one.at.line}: {one.signal.name}, {one.message} ({one.rule})\n"
        )
    put_out(f"{len(taken.new)} to take on, {len(taken.never)} that nobody can keep.\n")


def _write(file: Path, before: bytes, text: str) -> None:
    """Put the text in the file's place, unless somebody else has changed the file meanwhile."""
    try:
        if (file.read_bytes() if file.exists() else b"") != before:
            raise StopError(f"{file} has changed meanwhile. Nothing was written; start again.", CALL_WRONG)
        replace_file(text.encode("utf-8"), file)
    except OSError as error:
        raise StopError(f"{file} cannot be written: {error.strerror}.", NOT_DONE) from error
