"""The folder in which answers are kept: one file each, whole or not there, never so many that they fill a disk.

Whatever goes wrong here costs time and nothing else, so no error leaves this module.
"""

from __future__ import annotations

import os
import stat
import sys
from time import time

MOST_BYTES = 200 << 20  # of all files together; between two looks for room a few more may come
MOST_FILES = 50_000
OFTEN = 200  # files that are kept between two looks for room
LARGE = 256 << 10  # bytes; for a larger file there is a look each time
MOST_OF_ONE = 32 << 20
LEFT_OVER_S = 3600.0  # a file begun longer ago belongs to a process that has ended
BEGUN = b".begun"
_kept = 0
OTHERS_MAY_WRITE = stat.S_IWGRP | stat.S_IWOTH


def folder() -> bytes | None:
    """Return where answers are kept, in the user's folder for what may be deleted; None where there is none."""
    told = os.environ.get("XDG_CACHE_HOME", "")  # XDG Base Directory Specification: only a whole path counts
    if os.path.isabs(told):
        return os.fsencode(os.path.join(told, "riglint"))
    home = os.environ.get("HOME", "")
    if not os.path.isabs(home):
        return None
    usual = os.path.join("Library", "Caches") if sys.platform == "darwin" else ".cache"
    return os.fsencode(os.path.join(home, usual, "riglint"))


def fetch(name: bytes) -> bytes | None:
    """Return what is kept under a name; None where there is nothing, or where others may have written it."""
    place = folder()
    if place is None or not _ours(place):
        return None
    try:
        opened = os.open(_file(place, name), os.O_RDONLY | os.O_NOFOLLOW | os.O_NONBLOCK | os.O_CLOEXEC)
    except OSError:
        return None
    try:
        seen = os.fstat(opened)
        if not stat.S_ISREG(seen.st_mode) or not _only_ours(seen) or seen.st_size > MOST_OF_ONE:
            return None
        return os.read(opened, MOST_OF_ONE)
    except OSError:
        return None
    finally:
        os.close(opened)


def keep(name: bytes, raw: bytes) -> bool:
    """Keep something under a name; whether it is kept now."""
    global _kept  # noqa: PLW0603 - of this process
    place = folder()
    if place is None or len(raw) > MOST_OF_ONE:
        return False
    begun = _file(place, b"%s.%d" % (name, os.getpid())) + BEGUN
    try:
        os.makedirs(place, mode=0o700, exist_ok=True)
        if not _ours(place):
            return False
        # A hook keeps two files: to look through thousands each time would cost it more than it saves.
        if _more(_file(place, name), len(raw)) > LARGE or (_kept + os.getpid()) % OFTEN == 0:
            _make_room(place, len(raw))
        _kept += 1
        _write(begun, raw)
        os.replace(begun, _file(place, name))
    except OSError:
        _drop(begun)
        return False
    return True


def used(name: bytes) -> None:
    """Note that something was of use: what was not for the longest time goes first."""
    place = folder()
    if place is not None:
        try:
            os.utime(_file(place, name))
        except OSError:
            return


def _file(place: bytes, name: bytes) -> bytes:
    return place + b"/" + name


def _ours(place: bytes) -> bool:
    """Whether a folder is one, and nobody else may write there."""
    try:
        seen = os.lstat(place)
    except OSError:
        return False
    return stat.S_ISDIR(seen.st_mode) and _only_ours(seen)


def _only_ours(seen: os.stat_result) -> bool:
    return seen.st_uid == os.geteuid() and not seen.st_mode & OTHERS_MAY_WRITE


def _write(file: bytes, raw: bytes) -> None:
    opened = os.open(file, os.O_WRONLY | os.O_CREAT | os.O_TRUNC | os.O_NOFOLLOW | os.O_CLOEXEC, 0o600)
    try:
        left = memoryview(raw)
        while left:
            left = left[os.write(opened, left) :]
    finally:
        os.close(opened)


def _make_room(place: bytes, size: int) -> None:
    """Take out what was not of use for the longest time until there is room for so many bytes."""
    with os.scandir(place) as entries:
        files = [(entry.stat(follow_symlinks=False), entry) for entry in entries]
    for seen, entry in files:
        if entry.name.endswith(BEGUN) and seen.st_mtime < time() - LEFT_OVER_S:
            _drop(entry.path)
    kept = sorted(
        (seen.st_mtime, seen.st_size, entry.path) for seen, entry in files if stat.S_ISREG(seen.st_mode)
    )
    whole, count = sum(bytes_ for _, bytes_, _ in kept) + size, len(kept) + 1
    for _, bytes_, path in kept:
        if whole <= MOST_BYTES and count <= MOST_FILES:
            return
        _drop(path)
        whole, count = whole - bytes_, count - 1


def _more(file: bytes, size: int) -> int:
    """Return how much more room a file takes than the one in whose place it comes, bytes."""
    try:
        return size - os.lstat(file).st_size
    except OSError:
        return size


def _drop(file: bytes) -> None:
    try:
        os.unlink(file)
    except OSError:
        return
