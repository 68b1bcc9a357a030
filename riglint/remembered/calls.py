"""Which calls may be answered from memory, and all that a call is: its words, and the process that it runs in."""

from __future__ import annotations

import os
import sys
from time import localtime

from riglint.remembered.looks import digest

TYPE_CHECKING = False  # as typing has it
if TYPE_CHECKING:
    from collections.abc import Sequence

OPTION, VARIABLE = "--afresh", "RIGLINT_AFRESH"
# They read and print. Whichever writes a file all the same, or starts a program, is noticed and not kept.
COMMANDS = frozenset(
    {"audit", "card", "choose", "compare", "gauge", "gear", "limits", "plot", "rulebook", "sheet"}
)
# Standard input cannot be looked at again; rules of somebody else's may do anything.
NEVER = ("-", OPTION, "--as", "--house-rules")
WRITING = (
    "--output",
    "--write",
)  # a call that writes files does so each time; what it found in each rig may be known
# What Python, git, the terminal and the packages that we use read of the environment, or may read in a later release.
VARIABLES = frozenset(
    {
        "CLICOLOR",
        "COLORTERM",
        "COLUMNS",
        "FORCE_COLOR",
        "HOME",
        "LANG",
        "LANGUAGE",
        "LINES",
        "NO_COLOR",
        "PATH",
        "TERM",
        "TZ",
        "XDG_CONFIG_HOME",
    }
)
# Git tells them to its hooks, at other moments otherwise; nothing that we ask git rests on them.
OF_A_COMMIT = ("GIT_AUTHOR_", "GIT_COMMITTER_")
FAMILIES = ("DYLD_", "GIT_", "JUPYTER_", "LC_", "LD_", "PYDANTIC_", "PYTHON", "RIGLINT_", "TTY_", "_PYTHON")


def may_be_remembered(arguments: Sequence[str]) -> bool:
    """Whether a call only reads and prints, as far as its words say."""
    return files_may_be_remembered(arguments) and not _named(arguments, WRITING)


def files_may_be_remembered(arguments: Sequence[str]) -> bool:
    """Whether what a call finds in each file may be remembered, as far as its words say."""
    if not arguments or arguments[0] not in COMMANDS or os.environ.get(VARIABLE) or os.name != "posix":
        return False
    return not _named(arguments, NEVER)


def _named(arguments: Sequence[str], options: tuple[str, ...]) -> bool:
    return any(word.partition("=")[0] in options for word in arguments)


def moment() -> tuple[object, ...]:
    """Return what may change while a call runs: the day where this machine is, and the terminal's size."""
    return (localtime()[:3], [_stream(number) for number in range(3)])


def key(arguments: Sequence[str]) -> bytes:
    """Return a hash of a call and of the process that it runs in.

    Raises:
        OSError: the working folder is gone.
    """
    process = (
        moment(),
        os.getcwd(),
        sys.version,
        sys.executable,
        sys.flags,
        sys.warnoptions,
        sys.path,
        [(name, value) for name, value in sorted(os.environ.items()) if _counts(name)],
        [(one.encoding, one.errors) for one in (sys.stdout, sys.stderr)],
    )
    words = b"\0".join(map(os.fsencode, arguments))
    return digest(words, repr(process).encode(errors="surrogateescape"))


def _counts(name: str) -> bool:
    return name in VARIABLES or (name.startswith(FAMILIES) and not name.startswith(OF_A_COMMIT))


def _stream(number: int) -> tuple[bool, int, int]:
    """Return whether a stream is a terminal, and how wide and high."""
    try:
        size = os.get_terminal_size(number)
    except OSError:
        return os.isatty(number), 0, 0
    return True, size.columns, size.lines
