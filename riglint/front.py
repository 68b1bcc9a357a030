"""The front door: a call that was answered before is answered from memory, if nothing that it rests on has changed.

Every other call goes on to the command line, watched. Whatever fails here leads there too, never to a wrong answer.
"""

from __future__ import annotations

import io
import os
import sys
from os import _exit
from time import time_ns

from riglint.remembered import calls, records, store
from riglint.remembered.looks import KINDS, Look, NoTellingError, seen
from riglint.remembered.modules import in_the_way, program, settled

TYPE_CHECKING = False  # importing typing would take longer than a remembered answer
if TYPE_CHECKING:
    from typing import NoReturn

    from riglint.remembered.copying import Copies
    from riglint.remembered.watching import Watch

STOPPED = 3  # exit status
REVISION = b"revision"  # the kind of a look at what git lists
_began, _moment = time_ns(), calls.moment()


def run() -> NoReturn:
    """Answer a call and leave with its exit status."""
    key = None
    try:
        key = _key()
        if key is not None:
            _give_again(key)
    except KeyboardInterrupt:
        sys.stderr.write("Stopped before it was done.\n")
        _exit(STOPPED)
    except Exception:  # noqa: BLE001 - whatever is wrong with what is remembered, the call can still be answered
        key = None
    if key is not None:
        _watched(key)
    if calls.files_may_be_remembered(sys.argv[1:]):
        from riglint.remembered.watching import begin  # noqa: PLC0415

        begin()
    from riglint.cli import run as work  # noqa: PLC0415 - a remembered answer does without it

    work()


def _key() -> bytes | None:
    """Return what this call is kept under, None where it is never kept."""
    streams = (sys.stdout, sys.stderr)
    if not calls.may_be_remembered(sys.argv[1:]) or not all(type(one) is io.TextIOWrapper for one in streams):
        return None
    try:
        return calls.key(sys.argv[1:])
    except (OSError, ValueError):  # the working folder is gone, a stream is closed
        return None


# A call that is known


def _give_again(key: bytes) -> None:
    """Print a remembered answer and leave; come back where there is none, or where something has changed."""
    raw = store.fetch(key)
    answer = records.unpacked(key, raw) if raw is not None else None
    if answer is None or not _unchanged(answer.looks):
        return
    store.used(key)
    # Not through Python's buffers: what a closed or full stream does not take must not wait there.
    try:
        for stream, text in answer.chunks:
            left = memoryview(text)
            while left:
                left = left[os.write(stream, left) :]
    except OSError:
        return  # the command line has the words for it
    _exit(answer.status)


def _unchanged(looks: dict[Look, bytes]) -> bool:
    """Whether all that an answer rests on is as it was."""
    try:
        return all(_seen(kind, name) == what for (kind, name), what in looks.items())
    except NoTellingError:
        return False


def _seen(kind: bytes, name: bytes) -> bytes:
    if kind in KINDS:
        return seen(kind, name)
    if kind == b"modules":
        return in_the_way(name)
    if kind == b"git":
        from riglint.read.repository.foreign_folders import asked_again  # noqa: PLC0415 - only for folders in git

        return asked_again(name)
    if kind == REVISION:
        from riglint.read.repository.git_objects import told_again  # noqa: PLC0415 - only for content of git

        return told_again(name)
    raise NoTellingError


# A call that is not


def _watched(key: bytes) -> None:
    """Let the command line work, watch what it looks at, and keep the answer."""
    from riglint.remembered.copying import copy_streams  # noqa: PLC0415 - a remembered answer does without it
    from riglint.remembered.watching import begin  # noqa: PLC0415

    watch = begin()
    copies = copy_streams()
    from riglint.cli import run as work  # noqa: PLC0415

    work(lambda status: _keep(key, status, watch, copies))


def _keep(key: bytes, status: int, watch: Watch, copies: Copies) -> None:
    """Keep what was answered, if that answer will be the same as long as nothing changes that was looked at."""
    with watch:
        looks = {**watch.lasting(), **program()}
    from_git = not watch.taken_out or any(kind == REVISION for kind, _ in looks)
    answer = records.Answer(status, copies.chunks, looks)
    # What git listed was hashed as it was used; a file was hashed beside its use and is looked at once more.
    files = {one: what for one, what in looks.items() if one[0] != REVISION}
    with watch:
        sound = status in records.GIVEN and not watch.spoilt and copies.whole and settled(looks, _began)
        sound = sound and from_git and not _holds_store(looks) and _moment == calls.moment()
        if sound and _unchanged(files):
            store.keep(key, records.packed(key, answer))


def _holds_store(looks: dict[Look, bytes]) -> bool:
    """Whether answers are kept below a folder that was listed: a library must not hold them, nor tell of them."""
    place = os.path.realpath(store.folder() or b"/")
    listed = (os.path.realpath(name) for kind, name in looks if kind == b"names")
    return any(place.startswith(one.rstrip(b"/") + b"/") for one in listed)
