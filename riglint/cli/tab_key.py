"""`riglint tab-key`: prints a script with which a shell completes our commands, options and words."""

from __future__ import annotations

import argparse
from collections.abc import Mapping
from functools import partial

from riglint.cli.call.output import put_out
from riglint.cli.call.tab_scripts import SCRIPTS, Offered, Taken

ABOUT = (
    "Prints a script for your shell. Once the shell has read it, the Tab key completes commands, options, "
    'their words and file names. In bash or zsh, put eval "$(riglint tab-key SHELL)" into the start file.'
)


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    tab = commands.add_parser("tab-key", help="let your shell complete commands with Tab", description=ABOUT)
    tab.add_argument("shell", choices=tuple(SCRIPTS), metavar="SHELL", help=", ".join(SCRIPTS))
    tab.set_defaults(run=partial(_run, commands))


def _run(commands: argparse._SubParsersAction[argparse.ArgumentParser], call: argparse.Namespace) -> int:
    helps = {str(one.dest): one.help or "" for one in commands._choices_actions}  # noqa: SLF001 - argparse has no other way
    put_out(SCRIPTS[call.shell](_offered(commands.choices, helps)))
    return 0


def _offered(commands: Mapping[str, argparse.ArgumentParser], helps: Mapping[str, str]) -> list[Offered]:
    """Return what each command takes."""
    return [_of_one(name, parser, helps.get(name, "")) for name, parser in commands.items()]


def _of_one(name: str, parser: argparse.ArgumentParser, said: str) -> Offered:
    options, words = [], _rules() if name == "rulebook" else ()
    for action in parser._actions:  # noqa: SLF001 - argparse has no other way
        if action.option_strings:
            options.append(Taken(tuple(action.option_strings), _words(action), takes=action.nargs != 0))
        else:
            words = _words(action) or words
    return Offered(name, said, tuple(options), words)


def _words(action: argparse.Action) -> tuple[str, ...]:
    return tuple(map(str, action.choices or ()))


def _rules() -> tuple[str, ...]:
    """Return the ids of our own rules."""
    from riglint.rulebook import load_rulebook  # noqa: PLC0415 - only this command pays for it

    return tuple(load_rulebook().rules)
