"""`riglint ask`: questions whose answers become a rig file."""

from __future__ import annotations

import argparse
import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from riglint.cli.call.options import in_force, named_policy, rules_of, take_day_and_library, today
from riglint.cli.call.output import deliver, put_out, there_already, write_new
from riglint.cli.call.stopping import CALL_WRONG, StopError

if TYPE_CHECKING:
    from riglint.asking import GearList
    from riglint.cli.questions.dialogue import Replies

ABOUT = (
    "Asks for a rig step by step and writes its file. Enter accepts the value in brackets; ? "
    "means that you don't know, and the audit then asks for it. back returns to the last "
    "question. Under each answer you see if it changes the verdict."
)


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    ask = commands.add_parser("ask", help="questions that end in a rig file and its audit", description=ABOUT)
    ask.add_argument("file", type=Path, metavar="FILE", help="the new rig file; never overwritten")
    ask.add_argument(
        "--gear-list",
        type=Path,
        action="append",
        default=[],
        metavar="FILE",
        help="a gear list to choose pieces from by name; repeat it for more",
    )
    ask.add_argument(
        "--answers",
        type=Path,
        default=None,
        metavar="FILE",
        help="take the answers from a file: one 'name: answer' per line",
    )
    ask.add_argument("--title", default=None, help="name of the rig; standard: its file's name")
    take_day_and_library(ask)
    ask.set_defaults(format="text", output=None, write=[])
    ask.set_defaults(run=_run)


def _run(call: argparse.Namespace) -> int:
    from riglint.asking import rig_document, rig_text  # noqa: PLC0415 - only the commands that need it pay for it
    from riglint.cli.questions.dialogue import ask_all  # noqa: PLC0415
    from riglint.cli.questions.verdict import Verdicts  # noqa: PLC0415
    from riglint.findings import audit  # noqa: PLC0415
    from riglint.reports.audit.text import audit_text  # noqa: PLC0415
    from riglint.rulekit import Signal  # noqa: PLC0415

    _refuse_written(call.file)
    gear = _gear(call)
    title = call.title or call.file.stem.replace("-", " ").replace("_", " ").capitalize()
    book = rules_of(call)
    force = in_force(call, book, call.file)
    verdicts = Verdicts(call.file, call.root, book, force, today(call), title, gear)
    answers = ask_all(_replies(call), gear, verdicts)
    text = rig_text(rig_document(title, answers, gear))
    write_new(call.file, text, "rig")
    put_out(f"\nWrote {call.file.as_posix()}: {text.count(chr(10))} lines. Its audit:\n\n")
    result = audit([call.file], book, today(call), root=call.root, force=named_policy(call, book))
    deliver(call, lambda _, width: audit_text(result, width))
    return result.status(Signal.WARNING)


def _refuse_written(file: Path) -> None:
    if os.path.lexists(file):
        raise there_already(file)
    if not file.parent.is_dir():
        raise StopError(f"The folder {file.parent} isn't there. Make it first.", CALL_WRONG)


def _gear(call: argparse.Namespace) -> GearList:
    """Return the gear of the lists that a call names."""
    from riglint.asking import AnswerError, GearList  # noqa: PLC0415
    from riglint.cli.questions.gear_lists import gear_of  # noqa: PLC0415

    try:
        items = gear_of((path, path.as_posix()) for path in call.gear_list)
    except AnswerError as error:
        raise StopError(str(error), CALL_WRONG) from error
    paths = tuple(Path(os.path.relpath(path, call.file.parent)).as_posix() for path in call.gear_list)
    return GearList(items, paths)


def _replies(call: argparse.Namespace) -> Replies:
    from riglint.cli.questions.dialogue import Recorded, Typed  # noqa: PLC0415

    if call.answers is None:
        return Typed(sys.stdin)
    try:
        text = call.answers.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise StopError(f"The answers in {call.answers} cannot be read: {error}.", CALL_WRONG) from error
    return Recorded(call.answers.as_posix(), text)
