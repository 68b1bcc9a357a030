"""What a call looked at, one look at a time, and what it saw there: bytes, so that two looks can be compared.

Every kind of look has one function. It is asked while an answer is worked out and again before the answer is used.
"""

from __future__ import annotations

import os
import stat
from _blake2 import blake2b  # hashlib would load all of OpenSSL for it

TYPE_CHECKING = False  # as typing has it; importing that would take longer than a whole look
if TYPE_CHECKING:
    from collections.abc import Callable

DIGEST = 32  # bytes of a hash
MOST_BYTES = 64 << 20  # of one file; an answer that rests on more is not kept
Look = tuple[bytes, bytes]  # its kind, and the path or the words that it goes by


class NoTellingError(Exception):
    """What stands there cannot be compared: a pipe, a device, or more than can be read in a moment."""


def digest(*parts: bytes) -> bytes:
    """Return one hash of several texts; where one ends and the next begins counts."""
    whole = blake2b(digest_size=DIGEST)
    for part in parts:
        whole.update(b"%d:" % len(part))
        whole.update(part)
    return whole.hexdigest().encode()


def sorted_digest(names: list[bytes]) -> bytes:
    """Return one hash of names, whatever their order."""
    return digest(*sorted(names))


def hashed(raw: bytes) -> bytes:
    """Return what is seen of a file that holds these bytes."""
    return blake2b(raw, digest_size=DIGEST).hexdigest().encode()


def content(path: bytes) -> bytes:
    """Return a hash of all bytes of a file.

    Raises:
        OSError: it cannot be opened.
        NoTellingError: it is no ordinary file, or too large.
    """
    opened = os.open(
        path, os.O_RDONLY | os.O_NONBLOCK | os.O_CLOEXEC
    )  # a pipe would be waited for without end
    try:
        if not stat.S_ISREG(os.fstat(opened).st_mode):
            raise NoTellingError
        whole, left = blake2b(digest_size=DIGEST), MOST_BYTES
        while chunk := os.read(opened, 1 << 20):
            left -= len(chunk)
            if left < 0:
                raise NoTellingError
            whole.update(chunk)
        return whole.hexdigest().encode()
    finally:
        os.close(opened)


def code(path: bytes) -> bytes:
    """Return the marks of a program file: the last of them changes with each write and cannot be set back."""
    seen = os.stat(path)
    return b"%d %d %d %d %d" % (
        seen.st_dev,
        seen.st_ino,
        seen.st_size,
        seen.st_mtime_ns,
        seen.st_ctime_ns,
    )


def names(folder: bytes) -> bytes:
    """Return a hash of the names in a folder, with what each of them is."""
    with os.scandir(folder) as entries:
        return sorted_digest([b"%s %s" % (_kind(entry), entry.name) for entry in entries])


def _kind(entry: os.DirEntry[bytes]) -> bytes:
    if entry.is_symlink():
        return b"link"
    return b"folder" if entry.is_dir(follow_symlinks=False) else b"file"


def _there(path: bytes) -> bytes:
    return b"%d" % os.stat(path).st_mode


def _itself(path: bytes) -> bytes:
    return b"%d" % os.lstat(path).st_mode


KINDS: dict[bytes, Callable[[bytes], bytes]] = {
    b"content": content,
    b"code": code,
    b"names": names,
    b"there": _there,  # through links
    b"itself": _itself,  # a link, not what it leads to
    b"link": os.readlink,
}


def seen(kind: bytes, name: bytes) -> bytes:
    """Return what is seen there now; a refusal of the system is seen as well.

    Raises:
        NoTellingError: there is no comparing it.
    """
    try:
        return KINDS[kind](name)
    except OSError as error:
        return refused(error)


def refused(error: OSError) -> bytes:
    """Return how a refusal of the system is noted."""
    return b"refused %d" % (error.errno or 0)
