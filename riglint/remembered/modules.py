"""The program itself: which of its files were run, and what could come in their way.

Python's own modules count by its version; every other module counts by its file, and so does each rule. Marks of a file
hold the time of its last change, which nobody can set back; to read them all would take five times as long.
"""

from __future__ import annotations

import os
import sys

from riglint.remembered.looks import Look, digest, seen

TYPE_CHECKING = False  # as typing has it
if TYPE_CHECKING:
    from collections.abc import Sequence

# A file system may note times only every two seconds; a program file that is younger than the call may be another one.
COARSEST_NS = 2_000_000_000
MARKS = 5  # of a program file; the last is the time of its last change


def program() -> dict[Look, bytes]:
    """Return what is seen of every program file that runs here, and of what could come in its way."""
    files = {os.fsencode(file) for one in list(sys.modules.values()) if (file := _file_of(one))}
    own = os.fsencode(os.path.dirname(os.__file__))
    ours = {file for file in files if not file.startswith(own) or b"-packages" in file}
    tops = b" ".join(sorted({os.fsencode(name.partition(".")[0]) for name in sys.modules}))
    found = {(b"code", file): seen(b"code", file) for file in sorted(ours)}
    return {**found, (b"modules", tops): in_the_way(tops)}


def whole(packages: Sequence[str]) -> dict[Look, bytes]:
    """Return what is seen of every program file of some packages, whether it runs here or not."""
    folders = [os.path.dirname(os.path.abspath(sys.modules[name].__file__ or "")) for name in packages]
    files = (
        os.path.join(folder, name)
        for top in folders
        for folder, _, names in os.walk(top)
        for name in names
        if name.endswith((".py", ".so"))
    )
    return {(b"code", file): seen(b"code", file) for file in map(os.fsencode, files)}


def in_the_way(tops: bytes) -> bytes:
    """Return a hash of all files and folders that Python could take for one of these modules."""
    wanted, found = frozenset(tops.split(b" ")), []
    for folder in map(os.fsencode, sys.path):
        try:
            names = os.listdir(folder or b".")
        except OSError:
            continue
        found += [folder + b"/" + name for name in sorted(names) if name.partition(b".")[0] in wanted]
    return digest(*found)


def settled(looks: dict[Look, bytes], began_ns: int) -> bool:
    """Whether every program file is older than a call: else it may not be the one that was run."""
    marks = (what.split() for (kind, _), what in looks.items() if kind == b"code")
    return all(len(one) == MARKS and int(one[-1]) < began_ns - COARSEST_NS for one in marks)


def _file_of(module: object) -> str:
    file = getattr(module, "__file__", None)
    return file if isinstance(file, str) and file.endswith((".py", ".so")) else ""
