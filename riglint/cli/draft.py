"""`riglint draft`: prints a commented starting file."""

from __future__ import annotations

import argparse
from pathlib import Path

from riglint.cli.call.output import put_out, there_already, write_new
from riglint.cli.call.stopping import CALL_WRONG, NOT_DONE, StopError
from riglint.cli.drafted_gear import parted
from riglint.cli.filled_draft import filled_in

DRAFTS = Path(__file__).parents[1] / "drafts"
KINDS = (
    "ratchet",
    "tackle",
    "soft_release",
    "longline",
    "lowline",
    "jumpline",
    "slackrope",
    "kids",
    "waterline",
    "midline",
    "highline",
    "spot",
    "shelf",
    "policy",
    "library",
)
FILES = frozenset({"spot", "shelf", "policy", "library"})  # which are no line
ABOUT = (
    "Prints a starting file: a kind of line, a spot, a gear list, a policy or a library's settings. Keys with nothing "
    "behind them need your values. The audit asks for each."
)


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    draft = commands.add_parser("draft", help="a commented starting file", description=ABOUT)
    draft.add_argument("kind", choices=KINDS, metavar="KIND", help=", ".join(KINDS))
    draft.add_argument(
        "--output",
        type=Path,
        default=None,
        metavar="FILE",
        help="write it to a new file; never overwrites one",
    )
    draft.add_argument(
        "--gear-list",
        type=Path,
        default=None,
        metavar="FILE",
        help="write the line's gear to a new gear list, which the draft then refers to; never overwrites one",
    )
    draft.add_argument(
        "--example",
        action="store_true",
        help="with the invented values filled in, to see a whole audit at once",
    )
    draft.set_defaults(run=_run)


def _run(call: argparse.Namespace) -> int:
    try:
        text = (DRAFTS / f"{call.kind}.yaml").read_text(encoding="utf-8")
    except OSError as error:
        raise StopError(f"The draft of a {call.kind} did not come with this riglint.", NOT_DONE) from error
    if call.example and call.kind not in {"policy", "library"}:
        text = filled_in(text)
    if call.gear_list is not None:
        text, shelf = _parted(call, text)
        write_new(call.gear_list, shelf, "gear list")
    if call.output is None:
        put_out(text)
        return 0
    write_new(call.output, text, "draft")
    return 0


def _parted(call: argparse.Namespace, text: str) -> tuple[str, str]:
    """Return the draft and its gear list, unless one of the two files is there already.

    Raises:
        StopError: one is there, both are the same, or the draft is no line.
    """
    if call.kind in FILES:
        message = f"`--gear-list` goes with a line, and {call.kind} is none. Leave it out."
        raise StopError(message, CALL_WRONG)
    for file in (call.gear_list, call.output):
        if file is not None and (file.exists() or file.is_symlink()):
            raise there_already(file)
    if call.output is not None and call.output.absolute() == call.gear_list.absolute():
        raise StopError(f"Draft and gear list can't both be {call.output}. Name two files.", CALL_WRONG)
    return parted(text, call.output, call.gear_list)
