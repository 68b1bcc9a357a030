"""Paths with their links resolved, each once in an audit: it asks for those of a thousand files five times each."""

import os
import stat
from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from pathlib import Path

from riglint.remembered import watching

# What a path leads to, and what was looked at on the way; no looks where nobody took note of them.
_known: ContextVar[dict[Path, tuple[Path, watching.Looks | None]] | None] = ContextVar("_known", default=None)


@contextmanager
def resolving_once() -> Iterator[None]:
    """Resolve each path once in the block."""
    before = _known.set({})
    try:
        yield
    finally:
        _known.reset(before)


def resolved(path: Path) -> Path:
    """Return a path with its links resolved; one that cannot be resolved is only made absolute."""
    known, watch = _known.get(), watching.current
    if known is None:
        return _resolved(path)
    found = known.get(path)
    if found is not None and (watch is None or not watch.lacks(found[1])):
        return found[0]
    if found is not None and found[1] is not None:
        watching.again(found[1])
        return found[0]
    looks = watching.part()
    try:
        own = _resolved(path)
    finally:
        if looks is not None:
            watching.part_ends()
    known[path] = own, looks or None
    return own


def _resolved(path: Path) -> Path:
    try:
        return _in_its_folder(path) or path.resolve()
    except (OSError, ValueError, RuntimeError):  # a name too long, a NUL in it, links in a circle
        return path.absolute()


def _in_its_folder(path: Path) -> Path | None:
    """Return a path by what its folder leads to; None where it is a link itself, or has no folder of its own."""
    if not path.name or path.name == os.pardir:
        return None
    own = resolved(path.parent) / path.name
    try:
        return None if stat.S_ISLNK(os.lstat(own).st_mode) else own
    except (OSError, ValueError):
        return None
