"""What of a call are options, and what are names: a file's name never becomes an option.

Names come from wherever a commit, a folder or another program has them, and somebody may have given a file the name of
an option that names code, a policy or an output.
"""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Iterable, Sequence
from typing import Any, NoReturn

from riglint.cli.call.stopping import CALL_WRONG, StopError
from riglint.cli.call.terminal import Formatter
from riglint.read.problems import one_line

NAMES_FOLLOW = "--"
NO_VALUE = "a value must follow it"
LACKING = "the following arguments are required: "  # as argparse says it


class LeavingCall(SystemExit):
    """The parser has answered a call itself: help, version, or what is wrong with it."""


class Parser(argparse.ArgumentParser):
    """A parser that says in a sentence what is wrong with a call.

    It takes no shortened options: half a name is too easily somebody else's file.
    """

    def __init__(self, **settings: Any) -> None:
        usual: dict[str, Any] = {"allow_abbrev": False, "exit_on_error": False, "formatter_class": Formatter}
        super().__init__(**usual | settings)

    def parse_known_args(self, args: Any = None, namespace: Any = None) -> tuple[Any, list[str]]:
        """Take a call apart; each command does so with its own words.

        Raises:
            StopError: it can't be read. The sentence says why, with the nearest right spelling.
        """
        try:
            call, unread = super().parse_known_args(args, namespace)
        except argparse.ArgumentError as wrong:
            why = NO_VALUE if wrong.message.startswith("expected") else wrong.message
            self.error(f"{wrong.argument_name}: {why}" if wrong.argument_name else why)
        if unread:
            self.error(self._of_unread(unread))
        return call, unread

    def error(self, message: str) -> NoReturn:
        """Refuse a call.

        Raises:
            StopError: always.
        """
        lacking = message.removeprefix(LACKING)
        message = message if lacking == message else f"{self.prog} needs {lacking}"
        full = message if message.endswith((".", "?")) else f"{message}."
        raise StopError(f"{one_line(full)} `{self.prog} --help` lists what it takes.", CALL_WRONG)

    def _check_value(self, action: argparse.Action, value: Any) -> None:
        if action.choices is not None and value not in action.choices:
            known = [str(one) for one in action.choices]
            name = "/".join(action.option_strings) or action.metavar
            sentence = f"{name} can't be '{value}'.{_meant(str(value), known)} Expected: {', '.join(known)}"
            raise argparse.ArgumentError(None, sentence)

    def _of_unread(self, words: Sequence[str]) -> str:
        """Return the sentence on the first word that the command can't take."""
        option = next((one.partition("=")[0] for one in words if one.startswith("-")), None)
        if option:
            return f"'{option}' is no option of {self.prog}.{_meant(option, self._option_string_actions)}"
        if any(one.nargs == "*" for one in self._get_positional_actions()):
            return f"'{words[0]}' comes after an option. Write all names together, at the end"
        return f"'{words[0]}' is one name too many for {self.prog}"

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
    wrong = f"'{one_line(word)}' is no command of riglint.{_meant(word, commands)}"
    raise StopError(f"{wrong} The commands are: {', '.join(commands)}.", CALL_WRONG)


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


def _meant(word: str, known: Iterable[str]) -> str:
    from riglint.read.spelling import nearest  # noqa: PLC0415 - only a call that goes no further pays for it

    suggestion = nearest(word, known)
    return f" Did you mean '{suggestion}'?" if suggestion else ""


def _ambiguous(name: str) -> str:
    return (
        f"'{name}' is an option, and a file here is called the same. "
        f"Write -- before the first file name, or rename that file."
    )
