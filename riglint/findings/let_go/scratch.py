"""An unnamed temporary file that takes what does not fit into memory, and is gone with the process.

Where there is no folder for it, or the disk is full, memory takes it after all: nothing is lost, only room.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from zlib import compress, decompress

from riglint.remembered import QUICK, watching

Taken = int | bytes  # where it stands in the file and how long it is; or the thing itself
LENGTH_BITS = 32  # of these numbers; where it stands takes all others


class Scratch:
    """Texts that are put away and fetched again."""

    def __init__(self) -> None:
        """Open no file before one is needed."""
        self._file: int | None = None  # its number: nothing is told of a file that ends with the process
        self._end = 0
        self._refused = False

    def __del__(self) -> None:
        """Let the file go with whoever wrote it."""
        if self._file is not None:
            os.close(self._file)

    def put(self, text: bytes) -> Taken:
        """Put a text away, and return where it is."""
        return self.put_raw(compress(text, QUICK))

    def put_raw(self, raw: bytes) -> Taken:
        """Put a text away that is compressed already."""
        with watching.aside():  # no answer rests on this file
            return raw if self._refused else self._written(raw)

    def get(self, taken: Taken) -> bytes:
        """Return a text that was put away.

        Raises:
            OSError: the disk does not give it back.
        """
        return decompress(self.get_raw(taken))

    def get_raw(self, taken: Taken) -> bytes:
        """Return a text as it was compressed.

        Raises:
            OSError: the disk does not give it back.
        """
        if isinstance(taken, bytes):
            return taken
        assert self._file is not None  # noqa: S101 - it was written there
        begin, length = taken >> LENGTH_BITS, taken & ((1 << LENGTH_BITS) - 1)
        raw = os.pread(self._file, length, begin)
        if len(raw) < length:
            raise OSError("the temporary file is shorter than what was written to it")
        return raw

    def _written(self, raw: bytes) -> Taken:
        try:
            if self._file is None:
                self._file = _opened()
            os.lseek(self._file, self._end, os.SEEK_SET)
            self._refused = _poured(self._file, raw) < len(raw)
        except OSError:
            self._refused = True
        if self._refused:
            return raw
        begin, self._end = self._end, self._end + len(raw)
        return begin << LENGTH_BITS | len(raw)


def _opened() -> int:
    from tempfile import TemporaryFile  # noqa: PLC0415 - only a large audit pays for it

    with TemporaryFile(buffering=0) as file:
        return os.dup(file.fileno())


def _poured(file: int, raw: bytes) -> int:
    return os.write(file, raw)


class Pages:
    """A long text, put away piece by piece and read again from its beginning."""

    LENGTH = 1 << 16  # characters of a page
    FIRST = 16  # pages that stay in memory: most reports are no longer

    def __init__(self) -> None:
        """Begin with nothing."""
        self._scratch = Scratch()
        self._pages: list[str | Taken] = []
        self._last: list[str] = []
        self._length = 0

    def add(self, text: str) -> None:
        """Put a piece at the end."""
        self._last.append(text)
        self._length += len(text)
        if self._length >= self.LENGTH:
            self._turn()

    def __bool__(self) -> bool:
        """Whether there is any."""
        return bool(self._pages or self._last)

    def __iter__(self) -> Iterator[str]:
        """Yield the text, in pieces of some length."""
        self._turn()
        for page in self._pages:
            yield page if isinstance(page, str) else self._scratch.get(page).decode("utf-8", "surrogatepass")

    def _turn(self) -> None:
        text, self._last, self._length = "".join(self._last), [], 0
        if text and len(self._pages) < self.FIRST:
            self._pages.append(text)
        elif text:
            self._pages.append(self._scratch.put(text.encode("utf-8", "surrogatepass")))
