"""A remembered answer as bytes: what was looked at, what was seen, what was printed, and a seal over all of it.

Fields are separated by NUL, which no path can hold. It is data: nothing of it is ever run.
"""

from __future__ import annotations

from riglint.remembered.looks import DIGEST, Look, digest

TYPE_CHECKING = False  # as typing has it
if TYPE_CHECKING:
    from collections.abc import Sequence

SHAPE = b"riglint remembers/1\n"
SEAL = 2 * DIGEST  # characters
GIVEN = (0, 1)  # statuses of a call that came to its end
Chunk = tuple[int, bytes]  # 1 for standard output or 2 for standard error, and what went there


class Answer:
    """What a call printed and ended with, and all that it looked at."""

    def __init__(self, status: int, chunks: Sequence[Chunk], looks: dict[Look, bytes]) -> None:
        self.status, self.chunks, self.looks = status, chunks, looks


def packed(key: bytes, answer: Answer) -> bytes:
    """Return an answer as bytes, sealed for the call that it belongs to."""
    head = [
        b"%d" % answer.status,
        b" ".join(b"%d %d" % (stream, len(text)) for stream, text in answer.chunks),
    ]
    for (kind, name), what in answer.looks.items():
        head += [kind, name, what]
    front = b"\0".join(head)
    body = b"%d\n%s%s" % (len(front), front, b"".join(text for _, text in answer.chunks))
    return SHAPE + digest(key, body) + body


def unpacked(key: bytes, raw: bytes) -> Answer | None:
    """Return the answer in a record; None where the record is torn, altered, or of another call."""
    start = len(SHAPE) + SEAL
    if not raw.startswith(SHAPE) or raw[len(SHAPE) : start] != digest(key, raw[start:]):
        return None
    try:
        return _unpacked(raw[start:])
    except (ValueError, IndexError):
        return None


def _unpacked(body: bytes) -> Answer | None:
    size, _, rest = body.partition(b"\n")
    fields = rest[: int(size)].split(b"\0")
    printed = rest[int(size) :]
    numbers = list(map(int, fields[1].split()))
    chunks, at = [], 0
    for stream, length in zip(numbers[::2], numbers[1::2], strict=True):
        chunks.append((stream, printed[at : at + length]))
        at += length
    looks = dict(zip(zip(fields[2::3], fields[3::3], strict=True), fields[4::3], strict=True))
    whole = int(fields[0]) in GIVEN and at == len(printed) and bool(looks)
    return Answer(int(fields[0]), chunks, looks) if whole else None
