"""What of a call are options, and what are names: a file's name never becomes an option.

Names come from wherever a commit, a folder or another program has them, and somebody may have given a file the name of
an option that names code, a policy or an output.
"""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence
from typing import Any, NoReturn

from riglint.cli.call.stopping import CALL_WRONG, StopError
from riglint.cli.call.terminal import Formatter

NAMES_FOLLOW = "--"


class LeavingCall(SystemExit):
    """The parser has answered a call itself: help, version, or what is wrong with it."""


class Parser(argparse.ArgumentParser):
    """A parser that takes no shortened options: half a name is too easily somebody else's file."""

    def __init__(self, **settings: Any) -> None:
        usual: dict[str, Any] = {"allow_abbrev": False, "formatter_class": Formatter}
        super().__init__(**usual | settings)

    def exit(self, status: int = 0, message: str | None = None) -> NoReturn:
        """Leave in a way that can be told from a program of somebody else's that ends us."""
        if message:
            self._print_message(message, sys.stderr)
        raise LeavingCall(status)


def sorted_out(arguments: Sequence[str]) -> list[str]:
    """Return a call in which whatever follows `--` can only be a name.

    Raises:
        StopError: a file is called like one of the options, and no `--` says where the names begin.
    """
    call = list(arguments)
    if NAMES_FOLLOW not in call:
        for one in call:
            if one.startswith("-") and one != "-" and os.path.lexists(one):
                raise StopError(_ambiguous(one), CALL_WRONG)
        return call
    first = call.index(NAMES_FOLLOW)
    # A second -- is a name as well; the parser would take it out.
    names = [f"{os.curdir}{os.sep}{one}" if one == NAMES_FOLLOW else one for one in call[first + 1 :]]
    return [*call[: first + 1], *names]


def refuse_unknown_command(arguments: Sequence[str], commands: Sequence[str]) -> None:
    """Refuse a call whose first word is no command, and name the nearest one.

    Raises:
        StopError: with the commands that there are.
    """
    word = arguments[0] if arguments else ""
    if not word or word.startswith("-") or word in commands:
        return
    from riglint.read.spelling import nearest  # noqa: PLC0415 - only a call that goes no further pays for it

    suggestion = nearest(word, commands)
    meant = f" Did you mean '{suggestion}'?" if suggestion else ""
    message = f"'{word}' is no command of riglint.{meant} The commands are: {', '.join(commands)}."
    raise StopError(message, CALL_WRONG)


def refuse_options_among(names: Sequence[os.PathLike[str]]) -> None:
    """Refuse what stands among the names, looks like an option and is no file: it was meant to do something.

    Raises:
        StopError: with the first of them.
    """
    for name in map(os.fspath, names):
        if name.startswith("-") and name != "-" and not os.path.lexists(name):
            message = (
                f"'{name}' comes after -- among the file names, and there is no such file. Write "
                "options before the --. In a commit hook that is its `entry`."
            )
            raise StopError(message, CALL_WRONG)


def _ambiguous(name: str) -> str:
    return (
        f"'{name}' is an option, and a file here is called the same. "
        f"Write -- before the first file name, or rename that file."
    )
