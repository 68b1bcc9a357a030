"""Streams that pass on what is written to them, and hold a copy."""

from __future__ import annotations

import io
import sys

TYPE_CHECKING = False  # as typing has it
if TYPE_CHECKING:
    from typing import Any, BinaryIO

    from riglint.remembered.records import Chunk

MOST_HELD = 24 << 20  # bytes; a longer report is not remembered


class Copies:
    """What went to both streams, in order."""

    def __init__(self) -> None:
        self.chunks: list[Chunk] = []
        self.size = 0

    def take(self, stream: int, text: bytes) -> None:
        """Hold a copy of what is written; of too much, only how much it was."""
        self.size += len(text)
        if self.size > MOST_HELD:
            self.chunks.clear()
        elif not text.startswith(b"\r"):  # how far the work has come, taken back before its end
            self.chunks.append((stream, text))

    @property
    def whole(self) -> bool:
        """Whether everything is held."""
        return self.size <= MOST_HELD


class _Copying(io.BufferedIOBase):
    """The bytes of a stream on their way."""

    def __init__(self, stream: int, to: BinaryIO, copies: Copies) -> None:
        self.stream, self.to, self.copies = stream, to, copies

    def write(self, raw: Any) -> int:
        text = bytes(raw)
        written = self.to.write(text)
        self.copies.take(self.stream, text)
        return written

    def flush(self) -> None:
        self.to.flush()

    def writable(self) -> bool:
        return True

    def isatty(self) -> bool:
        return self.to.isatty()

    def fileno(self) -> int:
        return self.to.fileno()

    @property
    def closed(self) -> bool:
        return self.to.closed

    def close(self) -> None:
        self.to.close()


def copy_streams() -> Copies:
    """Hold a copy of all that this process prints from now on."""
    copies = Copies()
    for stream, name in ((1, "stdout"), (2, "stderr")):
        text = getattr(sys, name)
        copying: Any = _Copying(stream, text.buffer, copies)
        copied = io.TextIOWrapper(
            copying,
            encoding=text.encoding,
            errors=text.errors,
            line_buffering=text.line_buffering,
            write_through=text.write_through,
        )
        setattr(sys, name, copied)
    return copies
