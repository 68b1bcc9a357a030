"""Pieces of an answer that were made before, each kept under a hash of everything that it was made of.

So of a library in which one rig was changed, the report is copied but for that rig. A piece under another hash is never
taken, and one that is not there is made: what is kept here can be out of date for nobody.
"""

from __future__ import annotations

from zlib import compress, decompress

from riglint.remembered import QUICK, store, watching
from riglint.remembered.looks import digest

TYPE_CHECKING = False  # as typing has it
if TYPE_CHECKING:
    from collections.abc import Callable

SHAPE = b"riglint pieces/1\n"
NAME = b".pieces"  # at the end of the name of the file that holds them


class Pieces:
    """The pieces of one answer, and those of the answer before it."""

    def __init__(self, *of: bytes) -> None:
        """Fetch what is kept.

        Args:
            of: whatever decides a piece and is the same for all of them: program, form, width.
        """
        self._name = digest(*of) + NAME
        with watching.aside():
            raw = store.fetch(self._name)
        self._before = _unpacked(self._name, raw) if raw is not None else {}
        self._now: dict[bytes, bytes] = {}

    def get(self, key: bytes) -> str | None:
        """Return the piece that is kept under a hash."""
        known = self._before.get(key)
        if known is None:
            return None
        self._now[key] = known
        return known.decode()

    def put(self, key: bytes, piece: str) -> None:
        """Keep a piece under a hash for the next time; without a hash it is not kept."""
        try:
            if key:
                self._now[key] = piece.encode()
        except UnicodeEncodeError:  # half a letter that stands in a file
            return

    def text(self, key: bytes, make: Callable[[], str]) -> str:
        """Return the piece that is kept under a hash, or make it."""
        known = self.get(key)
        if known is None:
            known = make()
            self.put(key, known)
        return known

    def keep(self) -> None:
        """Keep the pieces of this answer for the next one."""
        if self._now.keys() == self._before.keys():
            return
        with watching.aside():
            store.keep(self._name, _packed(self._name, self._now))


def _packed(name: bytes, pieces: dict[bytes, bytes]) -> bytes:
    head = b"".join(b"%s %d\n" % (key, len(text)) for key, text in pieces.items())
    body = compress(b"%d\n%s%s" % (len(head), head, b"".join(pieces.values())), QUICK)
    return SHAPE + digest(name, body) + b"\n" + body


def _unpacked(name: bytes, raw: bytes) -> dict[bytes, bytes]:
    """Return the pieces in a record; none where it is torn, altered, or of another answer."""
    seal, _, body = raw.removeprefix(SHAPE).partition(b"\n")
    if not raw.startswith(SHAPE) or seal != digest(name, body):
        return {}
    length, _, rest = decompress(body).partition(b"\n")
    at, found = int(length), {}
    for row in rest[:at].splitlines():
        key, size = row.split()
        end = at + int(size)
        found[key] = rest[at:end]
        at = end
    return found
