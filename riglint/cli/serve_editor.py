"""`riglint serve-editor`: findings in an editor while a file is written, over standard input and output."""

from __future__ import annotations

import argparse
import os
import sys
from importlib.util import find_spec
from typing import BinaryIO

from riglint.cli.call.options import named_policy, rules_of, take_day_and_library, today
from riglint.cli.call.stopping import NOT_DONE, StopError

WITHOUT = 'The editor server needs one more package; install it with: pip install "riglint[editor]"'
CUT_OFF = 1  # what the protocol asks for where an editor leaves without saying so


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    server = commands.add_parser(
        "serve-editor",
        help="show findings in an editor while a file is written",
        description="Serve an editor over standard input and output (Language Server Protocol).",
    )
    take_day_and_library(server)
    server.set_defaults(run=_run)


def _run(call: argparse.Namespace) -> int:
    if find_spec("pygls") is None:
        raise StopError(WITHOUT, NOT_DONE)
    from riglint.editor.open_files import Judging  # noqa: PLC0415 - only this command pays for it
    from riglint.editor.server import serve  # noqa: PLC0415

    book = rules_of(call)
    judging = Judging(book, named_policy(call, book), lambda: today(call), call.root)
    return 0 if serve(judging, *_own_streams()) else CUT_OFF


def _own_streams() -> tuple[BinaryIO, BinaryIO]:
    """Return standard input and output for the protocol alone: what a rule prints goes to standard error."""
    incoming, outgoing = os.fdopen(os.dup(0), "rb"), os.fdopen(os.dup(1), "wb")
    nothing = os.open(os.devnull, os.O_RDONLY)
    os.dup2(nothing, 0)
    os.dup2(2, 1)
    sys.stdout = sys.stderr
    return incoming, outgoing
