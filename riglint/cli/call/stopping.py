"""Exit statuses, how a command stops short of its work, and the last words of a run."""

from __future__ import annotations

import os
import sys
from contextlib import suppress
from typing import TextIO

from riglint.read.problems import row_escaped, visible

CALL_WRONG, NOT_DONE = 2, 3


class StopError(Exception):
    """A command cannot go on: the sentence is for standard error, the status for the caller."""

    def __init__(self, message: str, status: int) -> None:
        super().__init__(message)
        self.status = status


def refusal(error: BaseException) -> str:
    """Return why a file or a stream would not, in the system's words where it has any."""
    return getattr(error, "strerror", None) or str(error)


def lacking(error: ImportError) -> str:
    """Return what to do where riglint finds a part of itself, or a package that it needs, missing or broken."""
    name = (error.name or "").partition(".")[0]
    if name == "riglint":
        return f"The installation is damaged ({error}). Reinstall riglint."
    what = f"the package {name}, which is" if name else "a package that is"
    return (
        f"riglint needs {what} missing or broken here ({error}). "
        "Install riglint again with all that it needs: python -m pip install --force-reinstall riglint"
    )


def complain(sentence: str) -> None:
    """Print a sentence to standard error; where that is closed or full there is nobody to tell."""
    stream: TextIO | None = sys.stderr
    if stream is not None:
        with suppress(OSError, ValueError):
            stream.write("".join(f"{row_escaped(visible(row))}\n" for row in sentence.split("\n")))
            stream.flush()


def delivered() -> bool:
    """Bring out what is still on its way; whether all of standard output got there.

    A stream that takes nothing any more is turned to nowhere, else Python would end with a status of its own.
    """
    arrived = True
    for stream in (sys.stdout, sys.stderr):
        # Of a closed one, what went in before has come out, and what came after was told of.
        if stream is None or stream.closed:
            continue
        try:
            stream.flush()
        except BrokenPipeError:
            arrived = _lost(stream, arrived, "The report was cut off: the reader closed it.")
        except (OSError, ValueError) as error:
            arrived = _lost(stream, arrived, f"The report could not be printed: {refusal(error)}.")
    return arrived


def _lost(stream: TextIO, arrived: bool, sentence: str) -> bool:
    if stream is sys.stdout:
        complain(sentence)
    with suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())
    return arrived and stream is not sys.stdout
