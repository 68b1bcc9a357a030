"""`riglint tick`: walks through what is looked at on site, and writes it into the rig file when you say so."""

from __future__ import annotations

import argparse
from difflib import unified_diff
from pathlib import Path
from typing import TYPE_CHECKING

from riglint.cli.call.options import rules_of, take_day_and_library, today
from riglint.cli.call.output import put_out, replace_file
from riglint.cli.call.stopping import CALL_WRONG, NOT_DONE, StopError
from riglint.cli.call.yes_or_no import typed as _typed
from riglint.cli.call.yes_or_no import yes as _yes
from riglint.cli.one_rig.sheet import computed, take_rig
from riglint.read.problems import visible

if TYPE_CHECKING:
    from riglint.findings.ticking import Box, Done, Signed
    from riglint.policy import InForce
    from riglint.rulekit import Case

ABOUT = (
    "Walks through the boxes of the card. Type y for what you have checked yourself, n or Enter for what is "
    "still to do. At the end you see every line that would change, and decide. Comments, order and all else in "
    "the file stay."
)


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    tick = commands.add_parser("tick", help="tick on site, written into the rig file", description=ABOUT)
    take_rig(tick)
    tick.add_argument(
        "--checks",
        type=Path,
        default=None,
        metavar="FILE",
        help="take the ticks from this file, which the card (`--format html`) saves once it is signed",
    )
    take_day_and_library(tick)
    tick.set_defaults(format="text", output=None, write=[])
    tick.set_defaults(run=_run)


def _run(call: argparse.Namespace) -> int:
    from riglint.findings.ticking import boxes, by_hand, ticked  # noqa: PLC0415 - only the commands that need it pay for it
    from riglint.read.yaml_edit import CannotEditError  # noqa: PLC0415
    from riglint.rulekit import Case  # noqa: PLC0415

    loads, force = computed(call, rules_of(call))
    case = Case(loads, today(call), force.limits, force.recalled)
    raw = _read(call.rig)
    text = raw.decode("utf-8-sig")
    for sentence in by_hand(case):
        put_out(f"By hand: {sentence}\n")
    seen: str | None = None  # the fingerprint of other files than today's
    if call.checks is not None:
        done, seen = _of_card(case, call, list(boxes(case)))
    else:
        done = _walked(list(boxes(case)))
    if not done:
        put_out("Nothing was ticked. The file is unchanged.\n")
        return 0
    stage = "built" if case.rig.stage == "planned" and _yes("The line stands as planned") else None
    if call.checks is None:
        done = _signed_by(done, case, call)
    try:
        new = ticked(text, done, stage)
        new = ticked(text, done, stage, seen or _fingerprint(call, force, new))
    except CannotEditError as error:
        raise StopError(f"{call.rig}: {error} Nothing was written.", CALL_WRONG) from error
    put_out("\n" + "".join(_diff(call.rig, text, new)) + "\n")
    if not _yes("Write these lines into the file"):
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


def _walked(open_boxes: list[Box]) -> Done:
    """Ask for each box."""
    put_out("Tick only what you have checked yourself. y: done. n or Enter: not yet.\n\n")
    stated = [box for box in open_boxes if box.checked]
    if stated:
        put_out("The file has the checks of these already, and no value yet:\n")
        put_out("".join(f"  {box.words}\n" for box in stated))
    values = stated if stated and _yes("Write the values") else []
    left = [box for box in open_boxes if box not in stated]
    ticks = [box for n, box in enumerate(left, 1) if _yes(f"{n} of {len(left)}  {box.words}")]
    return [(box, None) for box in [*values, *ticks]]


def _signed_by(done: Done, case: Case, call: argparse.Namespace) -> Done:
    """Ask who signs the boxes that no check of the file is about."""
    if all(box.checked for box, _ in done):
        return done
    signed = _signed(case, call)
    return [(box, None if box.checked else signed) for box, _ in done]


def _of_card(case: Case, call: argparse.Namespace, open_boxes: list[Box]) -> tuple[Done, str | None]:
    """Return what a signed card ticks, and its fingerprint if the files have changed since.

    Raises:
        StopError: the card's file cannot be used, or the files have changed and you do not go on.
    """
    from riglint.cli.one_rig.signed_card import signed_card  # noqa: PLC0415

    card = signed_card(call.checks, _read(call.checks), today(call))
    done, left_out = card.ticks(open_boxes)
    for name in left_out:
        put_out(f"No box of this rig waits for {visible(name)}. It is left out.\n")
    for box, signed in done:
        put_out(f"{box.words}: {signed.by}, {signed.day}{f', {signed.tension}' if signed.tension else ''}\n")
    if not done or card.fingerprint in {None, case.fingerprint}:
        return done, None
    put_out(
        f"\nThe files have changed since the card was made: {visible(str(card.fingerprint))} then, "
        f"{case.fingerprint} now. Check that each line above still means what was looked at.\n"
    )
    if not _yes("Go on"):
        raise StopError("Nothing was written. Make a new card and look again.", CALL_WRONG)
    return done, card.fingerprint


def _fingerprint(call: argparse.Namespace, force: InForce, new: str) -> str | None:
    """Return the fingerprint of the files once the rig has a new text."""
    from riglint.findings import load_rig  # noqa: PLC0415
    from riglint.loads.path.used import fingerprint  # noqa: PLC0415

    loads, _ = load_rig(call.rig, today(call), call.root, force, text=new)
    return fingerprint(loads) if loads is not None else None


def _signed(case: Case, call: argparse.Namespace) -> Signed:
    """Ask who looked and at which tension."""
    from riglint.cli.one_rig.signed_card import ROLE, wrong_tension  # noqa: PLC0415
    from riglint.findings.ticking import Signed  # noqa: PLC0415

    by = _asked("Your role, such as rigger or second person (no name)", "rigger")
    if not ROLE.fullmatch(by):
        raise StopError(
            f"'{visible(by)}' can't be a role. Type words such as second person. Nothing was written.",
            CALL_WRONG,
        )
    planned = case.plan.standing_tension if case.plan else None
    tension = _asked("Tension when you looked", planned.text if planned else "")
    if wrong := wrong_tension(tension):
        raise StopError(f"{wrong} Nothing was written.", CALL_WRONG)
    return Signed(by, today(call), tension or None)


def _asked(words: str, usual: str) -> str:
    return _typed(f"{words}{f' [{usual}]' if usual else ''}: ") or usual


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
