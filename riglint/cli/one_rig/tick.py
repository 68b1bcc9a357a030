"""`riglint tick`: walks through what is looked at on site, and writes it into the rig file when you say so."""

from __future__ import annotations

import argparse
import re
from difflib import unified_diff
from pathlib import Path
from typing import TYPE_CHECKING

from riglint.cli.call.options import rules_of, take_day_and_library, today
from riglint.cli.call.output import put_out, replace_file
from riglint.cli.call.stopping import CALL_WRONG, NOT_DONE, StopError
from riglint.cli.call.yes_or_no import typed, yes
from riglint.cli.one_rig.sheet import computed, take_rig
from riglint.read.problems import visible

if TYPE_CHECKING:
    from riglint.findings.ticking import Box, Signed
    from riglint.rulekit import Case

ROLE = re.compile(r"[A-Za-zÀ-ž][A-Za-z0-9À-ž ._-]{0,60}")
ABOUT = (
    "Walks through the boxes of the card. Type y for what you have checked yourself, n or Enter for what is "
    "still to do. At the end you see every line that would change, and decide. Comments, order and all else in "
    "the file stay."
)


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    tick = commands.add_parser("tick", help="tick on site, written into the rig file", description=ABOUT)
    take_rig(tick)
    take_day_and_library(tick)
    tick.set_defaults(format="text", output=None, write=[])
    tick.set_defaults(run=_run)


def _run(call: argparse.Namespace) -> int:
    from riglint.findings.ticking import boxes, ticked  # noqa: PLC0415 - only the commands that need it pay for it
    from riglint.read.yaml_edit import CannotEditError  # noqa: PLC0415
    from riglint.rulekit import Case  # noqa: PLC0415

    loads, force = computed(call, rules_of(call))
    case = Case(loads, today(call), force.limits, force.recalled)
    raw = _read(call.rig)
    text = raw.decode("utf-8-sig")
    done = _walked(list(boxes(case)))
    stage = "built" if done and case.rig.stage == "planned" and yes("The line stands as planned") else None
    if not done:
        put_out("Nothing was ticked. The file is unchanged.\n")
        return 0
    try:
        new = ticked(text, done, _signed(case, call), stage)
    except CannotEditError as error:
        raise StopError(f"{call.rig}: {error} Nothing was written.", CALL_WRONG) from error
    put_out("\n" + "".join(_diff(call.rig, text, new)) + "\n")
    if not yes("Write these lines into the file"):
        put_out("Nothing was written.\n")
        return 0
    _write(call.rig, raw, new)
    put_out(f"Written to {call.rig.as_posix()}. Audit it again: riglint audit {call.rig.as_posix()}\n")
    return 0


def _read(file: Path) -> bytes:
    try:
        return file.read_bytes()
    except OSError as error:
        raise StopError(f"{file} cannot be read: {error.strerror}.", CALL_WRONG) from error


def _walked(open_boxes: list[Box]) -> list[Box]:
    put_out("Tick only what you have checked yourself. y: done. n or Enter: not yet.\n\n")
    return [box for n, box in enumerate(open_boxes, 1) if yes(f"{n} of {len(open_boxes)}  {box.words}")]


def _signed(case: Case, call: argparse.Namespace) -> Signed:
    """Ask who looked and at which tension."""
    from riglint.findings.ticking import Signed  # noqa: PLC0415
    from riglint.read.quantity import QuantityError, parse_quantity  # noqa: PLC0415

    by = _asked("Your role, such as rigger or second person (no name)", "rigger")
    if not ROLE.fullmatch(by):
        raise StopError(
            f"'{visible(by)}' can't be a role. Type words such as second person. Nothing was written.",
            CALL_WRONG,
        )
    planned = case.plan.standing_tension if case.plan else None
    tension = _asked("Tension when you looked", planned.text if planned else "")
    try:
        tension and parse_quantity(tension, "force")
    except QuantityError as error:
        raise StopError(f"{error.message} {error.do} Nothing was written.", CALL_WRONG) from None
    return Signed(by, today(call), tension or None)


def _asked(words: str, usual: str) -> str:
    return typed(f"{words}{f' [{usual}]' if usual else ''}: ") or usual


def _diff(file: Path, old: str, new: str) -> list[str]:
    lines = unified_diff(
        old.splitlines(), new.splitlines(), file.as_posix(), file.as_posix(), lineterm="", n=1
    )
    return [visible(one) + "\n" for one in lines]


def _write(file: Path, raw: bytes, new: str) -> None:
    """Put the new text in the file's place, unless somebody else has changed the file meanwhile."""
    mark = b"\xef\xbb\xbf" if raw.startswith(b"\xef\xbb\xbf") else b""
    if _read(file) != raw:
        raise StopError(f"{file} has changed meanwhile. Nothing was written; start again.", CALL_WRONG)
    try:
        replace_file(mark + new.encode("utf-8"), file.resolve())
    except OSError as error:
        raise StopError(f"{file} cannot be written: {error.strerror}.", NOT_DONE) from error
