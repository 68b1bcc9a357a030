"""The command line: reads the call, runs one command, prints, and says by its exit status how it went.

One module a command; each adds its own options and runs itself.
"""

from __future__ import annotations

import argparse
import gc
import io
import os
import sys
from collections.abc import Callable, Sequence
from contextlib import suppress
from importlib import import_module
from os import _exit
from typing import TYPE_CHECKING, NoReturn

from riglint import __version__
from riglint.cli.call.arguments import LeavingCall, Parser, refuse_unknown_command, sorted_out
from riglint.cli.call.output import check_targets
from riglint.cli.call.stopping import CALL_WRONG, NOT_DONE, StopError, complain, delivered, lacking

if TYPE_CHECKING:
    from riglint.rulebook import Rulebook

COMMANDS = (
    "ask",
    "audit",
    "one_rig.sheet",
    "one_rig.limits",
    "one_rig.plot",
    "one_rig.choose",
    "compare",
    "one_rig.card",
    "one_rig.tick",
    "one_rig.gauge",
    "gear",
    "known",
    "draft",
    "examples",
    "schema",
    "rulebook",
    "tab_key",
    "page",
    "serve_editor",
)  # their modules: a call loads that of its command, and help all of them
COMPLETING = "tab_key"  # writes down what each of them takes


def run(delivered_all: Callable[[int], object] = lambda _status: None) -> NoReturn:
    """Run the command and leave with its exit status; nothing gets out as a traceback.

    Args:
        delivered_all: told the exit status once everything is printed.
    """
    status = NOT_DONE
    os.environ["PYDANTIC_DISABLE_PLUGINS"] = "__all__"  # nobody else's code has a say in what a file means
    gc.disable()  # nothing that is imported is ever garbage; it is looked for again once the rules are there
    for stream in (sys.stdout, sys.stderr):  # a letter that a terminal does not know must not cost the report
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")
    try:
        status = main(sys.argv[1:])
    except BrokenPipeError:
        complain("The report was cut off: the reader closed it.")
    except KeyboardInterrupt:
        complain("Stopped before it was done.")
    except LeavingCall as leaving:  # any other SystemExit is no answer of ours
        status = leaving.code if isinstance(leaving.code, int) else CALL_WRONG
    except ImportError as error:
        complain(lacking(error))
    except BaseException as error:  # noqa: BLE001 - an uncaught error would end with status 1 and pose as a finding
        complain(f"riglint could not do its work: {type(error).__name__}: {error}")
    # At once: what a rule has left behind to run at the end must not change the status, nor must a full stream.
    status = status if delivered() else NOT_DONE
    with suppress(BaseException):  # whatever is wrong there must not cost the answer
        delivered_all(status)
    _exit(status)


def main(arguments: Sequence[str], book: Rulebook | None = None) -> int:
    """Run one call and return its exit status: 0 quiet, 1 findings, 2 unread or wrong call, 3 not done.

    Whoever makes several calls in one process may give riglint's own rulebook, loaded once.
    """
    try:
        refuse_unknown_command(arguments, [name_of(one) for one in COMMANDS])
        called = [one for one in COMMANDS if name_of(one) in arguments[:1] and one != COMPLETING]
        parser = _parser(called or COMMANDS)
        call = parser.parse_args(sorted_out(arguments))
        if call.command is None:
            parser.print_help(sys.stderr)
            return CALL_WRONG
        call.book = book
        if hasattr(call, "write"):
            check_targets(call)
        status: int = call.run(call)
    except StopError as stop:
        complain(str(stop))
        return stop.status
    return status


def name_of(command: str) -> str:
    """Return the name of a command: its module's, with a hyphen in it."""
    return command.rpartition(".")[2].replace("_", "-")


def _parser(called: Sequence[str] = COMMANDS) -> argparse.ArgumentParser:
    parser = Parser(
        prog="riglint",
        description="Check slackline rig files before you tension: the loads on the rig, and what is wrong.",
        epilog="A calculation is no inspection: competent people, makers and local rules come first.",
    )
    parser.add_argument("--version", action="version", version=f"riglint {__version__}")
    commands = parser.add_subparsers(dest="command", metavar="COMMAND")
    for command in called:
        import_module(f"riglint.cli.{command}").add(commands)
    return parser
