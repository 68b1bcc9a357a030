"""How far a long audit has come, and what is left, on one line of a terminal, gone before the report is printed."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from math import ceil
from time import monotonic
from typing import TextIO

from riglint.cli.call.terminal import columns

WAIT_S = 1.0  # a run that is over by then shows nothing
LEAST_PAUSE_S = 0.1  # between two lines; more often nobody can read
LEAST_DONE = (
    10  # files before anybody can tell how long the others take; with several jobs they come in parcels
)
ROUNDED_S = 5  # what is left; files take their own time each, so nobody knows it closer
MINUTE_S = 60
Progress = Callable[[int, int, int], None]


@contextmanager
def progress_on(stream: TextIO | None, clock: Callable[[], float] = monotonic) -> Iterator[Progress | None]:
    """Give what is to be told of files done, all files, and findings so far; None where nobody would see it.

    One plain line without colour, so NO_COLOR asks for nothing else; a terminal that is `dumb` cannot take it back.
    """
    if stream is None or not stream.isatty() or os.environ.get("TERM") == "dumb":
        yield None
        return
    line = _StatusLine(stream, clock)
    try:
        yield line.tell
    finally:
        line.clear()


class _StatusLine:
    """The line as it stands there."""

    def __init__(self, stream: TextIO, clock: Callable[[], float]) -> None:
        self.stream, self.clock = stream, clock
        self.began = clock()
        self.next_at = self.began + WAIT_S
        self.width = 0

    def tell(self, done: int, files: int, findings: int) -> None:
        now = self.clock()
        if now < self.next_at or done == files:
            return
        self.next_at = now + LEAST_PAUSE_S
        line = f"{done} of {files} files audited, {findings} finding{'' if findings == 1 else 's'} so far"
        if done >= LEAST_DONE:
            line += f", {_in_words((now - self.began) * (files - done) / done)} left"
        line = line[: max(0, columns() - 1)]  # a line that wraps could not be taken back
        self.stream.write(f"\r{line.ljust(self.width)}")
        self.stream.flush()
        self.width = len(line)

    def clear(self) -> None:
        if self.width:
            self.stream.write(f"\r{' ' * self.width}\r")
            self.stream.flush()
            self.width = 0


def _in_words(seconds: float) -> str:
    """Return a time as far as it can be known, never less than it is."""
    rounded_s = ROUNDED_S * ceil(seconds / ROUNDED_S)
    if rounded_s < MINUTE_S:
        return f"about {rounded_s} s"
    return f"about {ceil(seconds / MINUTE_S)} min"
