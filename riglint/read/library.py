"""Which files are ours, and where the library begins that they may refer within."""

import codecs
import os
import re
import stat
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Literal

from riglint.read.decoding import MAX_BYTES
from riglint.read.problems import Place, Problem, shown
from riglint.read.spelling import nearest

MARKS = (".git", "rig-library")
HEAD_BYTES = 65_536  # of a foreign file, enough to see its first keys
LIKENESS = 0.8  # of a misspelt `riglint`; lower would take foreign files that begin with `lint` or `rigging`

_KEY = re.compile(r"""(?:---\s+)?(?:\{\s*)?(["']?)(?P<key>[^\s"'#{}\[\],:-][^"'#{}\[\],:]*)\1\s*:(?:\s|$)""")
_SKIPPED = re.compile(r"\s*(?:#.*)?$|%|---\s*(?:#.*)?$|\{\s*$")


@dataclass(slots=True)
class Found:
    """The files to read, how many were left out as not ours, and those that look like ours but are not."""

    files: list[Path] = field(default_factory=list)
    left_out: int = 0
    near_misses: dict[Path, Problem] = field(default_factory=dict)


def library_root(path: Path, named: Path | None) -> Path:
    """Return the folder that a file's references must stay within, links resolved.

    It is the nearest folder upward from the file that holds `.git` or `rig-library`; else the folder named on
    the command line when the file is in it; else the file's own folder.
    """
    own = real(path)
    own = own if is_folder(own) else own.parent
    for folder in (own, *own.parents):
        if any(os.path.lexists(folder / mark) for mark in MARKS):
            return folder
    if named is not None and inside(named, own):
        return real(named)
    return own


def real(path: Path) -> Path:
    """Return a path with its links resolved; one that cannot be resolved is only made absolute."""
    try:
        return path.resolve()
    except (OSError, ValueError, RuntimeError):  # a name too long, a NUL in it, links in a circle
        return path.absolute()


def is_folder(path: Path) -> bool:
    """Whether a path is a folder that can be reached."""
    try:
        return path.is_dir()
    except (OSError, ValueError):
        return False


def inside(root: Path, path: Path) -> bool:
    """Whether a path, links resolved, is in a folder or is that folder. A path that cannot be is not."""
    try:
        return path.resolve().is_relative_to(real(root))
    except (OSError, ValueError, RuntimeError):  # a name too long, a NUL in it, links in a circle
        return False


def find_documents(paths: Sequence[Path], *, sift_named: bool = False) -> Found:
    """Return the files to read among what the command line names.

    Of a folder, its `*.yaml` and `*.yml` files that are ours, sorted, hidden folders left out. Files named
    directly are taken as they are, present or not; with `sift_named` they are chosen like those of a folder.
    A file that cannot be looked into is taken: reading it will say why. No file is taken twice.
    """
    found = Found()
    seen: set[Path] = set()
    for path in paths:
        named = not is_folder(path)
        for file in [path] if named else sorted(_yaml_files(path, found)):
            own = real(file)
            if own in seen:
                continue
            seen.add(own)
            if named and not sift_named:
                found.files.append(file)
            else:
                _sort_in(found, file)
    return found


def _sort_in(found: Found, file: Path) -> None:
    if _is_pipe_or_device(file):
        found.left_out += 1  # reading it might never end
        return
    head = _head(file)
    verdict = "yes" if head is None else is_ours(head)
    if verdict == "yes":
        found.files.append(file)
    elif verdict == "near miss" and head is not None:
        found.near_misses[file] = _near_miss(head)
    else:
        found.left_out += 1


def _is_pipe_or_device(file: Path) -> bool:
    try:
        return not stat.S_ISREG(file.stat().st_mode)
    except (OSError, ValueError):
        return False


def _yaml_files(folder: Path, found: Found) -> Iterator[Path]:
    def refused(error: OSError) -> None:
        message = f"The folder cannot be looked into: {error.strerror}."
        found.near_misses[Path(error.filename)] = _unreadable(message, "Put its permissions right.")

    for here, folders, files in os.walk(folder, onerror=refused):
        folders[:] = [name for name in folders if not name.startswith(".")]
        yield from (Path(here, name) for name in files if name.lower().endswith((".yaml", ".yml")))


def _head(file: Path) -> bytes | None:
    """Return the first bytes of a file, or None where there is no looking into it."""
    try:
        with file.open("rb") as stream:
            return stream.read(HEAD_BYTES)
    except (OSError, ValueError):
        return None


def read_bytes(path: Path) -> tuple[bytes | None, list[Problem]]:
    """Return the bytes of a file, never much more than the reader accepts, or the problem with reading it."""
    try:
        if is_folder(path):
            return None, [_unreadable("This is a folder; a file is expected.", "Name a file in it.")]
        if path.exists() and not path.is_file():  # a pipe would be waited for without end
            return None, [_unreadable("This is no ordinary file.", "Name a YAML file.")]
        with path.open("rb") as stream:
            return stream.read(MAX_BYTES + 1), []
    except FileNotFoundError:
        return None, [_unreadable("There is no such file.", "Correct the path.")]
    except (OSError, ValueError) as error:
        reason = (error.strerror if isinstance(error, OSError) else None) or "its name cannot be used"
        message = f"The file cannot be read: {reason}."
        return None, [_unreadable(message, "Put the file's name, link or permissions right.")]


def _unreadable(message: str, do: str) -> Problem:
    return Problem("file/readable", Place(1, 1), "", message, do)


def is_ours(head: bytes) -> Literal["yes", "no", "near miss"]:
    """Whether a file that begins with these bytes is ours: `riglint` is its first key.

    `$schema`, comments, blank lines, a byte order mark and `---` may precede. A near miss has the key
    misspelt or further down, or has a top-level `chain` without it.
    """
    first = True
    for _, key in _top_keys(head):
        if key == "riglint" and first:
            return "yes"
        if key in ("riglint", "chain") or (first and nearest(key, ["riglint"], likeness=LIKENESS)):
            return "near miss"
        first = first and key == "$schema"
    return "no"


def _near_miss(head: bytes) -> Problem:
    """Say why a file that looks like ours is not read."""
    keys = list(_top_keys(head))
    place, key = next(item for item in keys if item[1] != "$schema")
    if any(other == "riglint" for _, other in keys):
        place, key = next(item for item in keys if item[1] == "riglint")
        message = "riglint stands below other keys, so the file is not read; it was expected as the first."
        return Problem("file/kind", place, key, message, "Move this line to the top of the file.")
    if nearest(key, ["riglint"], likeness=LIKENESS):
        message = f"The first key is {shown(key)}, so the file is not read; riglint was expected."
        return Problem("file/kind", place, key, message, "Write riglint for it.")
    place, key = next(item for item in keys if item[1] == "chain")
    message = "The file holds a chain but does not begin with the key riglint, so it is not read."
    return Problem("file/kind", place, key, message, "Begin the file with the line riglint: rig/1.")


def _top_keys(head: bytes) -> Iterator[tuple[Place, str]]:
    """Yield the keys at the left margin with their places, without reading the file as YAML."""
    encoding = "utf-16" if head.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)) else "utf-8"
    text = head.decode(encoding, errors="replace").removeprefix("\ufeff")
    flow = False
    for number, line in enumerate(re.split(r"\r\n|\n|\r", text), 1):
        flow = flow or line.startswith("{")
        if _SKIPPED.match(line):
            continue
        key = _KEY.match(line.lstrip() if flow else line)
        if key:
            yield Place(number, line.find(key["key"]) + 1), key["key"].strip()
            if flow:  # below the first key there is no telling which brackets are open
                return
