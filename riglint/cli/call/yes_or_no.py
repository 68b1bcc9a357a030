"""What a command asks before it writes: a question, and what is typed; without an answer nothing is written."""

from __future__ import annotations

import sys

from riglint.cli.call.output import put_out
from riglint.cli.call.stopping import CALL_WRONG, StopError

YES, NO = frozenset({"y", "yes"}), frozenset({"n", "no", ""})


def yes(words: str) -> bool:
    """Ask until the answer is yes or no.

    Raises:
        StopError: the answers ended.
    """
    while True:
        answer = typed(f"{words}? [y/n] ").lower()
        if answer in YES | NO:
            return answer in YES
        put_out("Type y or n.\n")


def typed(words: str) -> str:
    """Return what is typed after a question.

    Raises:
        StopError: the answers ended.
    """
    put_out(words)
    sys.stdout.flush()
    line = sys.stdin.readline()
    if not line:
        raise StopError("The answers ended. Nothing was written.", CALL_WRONG)
    if not sys.stdin.isatty():
        put_out("\n")
    return line.strip()
