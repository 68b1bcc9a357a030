"""Reads files out of a git repository as objects: nothing is checked out, and nothing that its settings name is run.

A repository's own settings may name programs (filters, a watcher of files, hooks, transports), and whoever made the
repository chose them. Objects are read as they are stored, so no filter has a say; what git itself might start on the
way is switched off in every call.
"""

from __future__ import annotations

import os
from pathlib import Path, PurePosixPath
from typing import IO

from riglint.read.decoding import MAX_BYTES
from riglint.read.file_names import MARK, YAML, may_be_misnamed
from riglint.records import dataclass

LINK, FILE = "120000", ("100644", "100755")
# Stronger than the settings of a repository; an empty value is off in every version of git.
SETTINGS = (
    "core.fsmonitor=",
    "core.hooksPath=/dev/null",
    "core.sshCommand=false",
    "core.gitProxy=",
    "core.alternateRefsCommand=false",
    "core.askPass=",
    "core.pager=cat",
    "credential.helper=",
    "protocol.allow=never",
)
ENVIRONMENT = {
    "GIT_ALLOW_PROTOCOL": "none",  # an object that is not here is missing; nobody is asked for it
    "GIT_NO_LAZY_FETCH": "1",
    "GIT_NO_REPLACE_OBJECTS": "1",  # what is compared is what the revision holds
    "GIT_OPTIONAL_LOCKS": "0",
    "GIT_TERMINAL_PROMPT": "0",
    "GIT_PAGER": "cat",
}
NO_NAMES = frozenset({b"", b".", b"..", b".git"})  # of a folder or file below a repository's top
FLUSH = 1 << 16  # bytes read at a time of what is too large


class GitError(Exception):
    """Git cannot give what is asked: one sentence."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One file of a revision or of the index: its place, and the object that holds it."""

    path: PurePosixPath
    mode: str
    name: str


def git(where: Path, *call: str) -> bytes:
    """Return what git answers.

    Raises:
        GitError: it cannot be run, or refuses.
    """
    import subprocess  # noqa: PLC0415 - only where there is a repository to ask

    try:
        done = subprocess.run(  # noqa: S603 - what the user named stands behind --end-of-options
            _call(where, *call),
            env=_environment(),
            stdin=subprocess.DEVNULL,
            capture_output=True,
            check=False,
        )
    except OSError as error:
        raise GitError(f"git cannot be run: {error.strerror}.") from error
    if done.returncode:
        lines = done.stderr.decode(errors="replace").strip().splitlines()
        raise GitError(f"git {call[0]} failed: {lines[0] if lines else 'without a word'}.")
    return done.stdout


def entries(top: Path, revision: str | None) -> list[Entry]:
    """Return the files of a revision, or of the index where it is None, that an audit can look at, and all links.

    Raises:
        GitError: git cannot give them, or one lies where no file of a repository can.
    """
    if revision is None:
        rows = git(top, "ls-files", "-z", "--stage", "--full-name").split(b"\0")
    else:
        rows = git(top, "ls-tree", "-r", "-z", "--full-tree", revision).split(b"\0")
    found = [_entry(row, in_index=revision is None) for row in rows if row]
    return [one for one in found if one.mode == LINK or (one.mode in FILE and _wanted(one.path))]


def put(top: Path, found: list[Entry], folder: Path) -> None:
    """Write objects into a folder, links last, so that no file is written through one. Of large ones the beginning.

    Raises:
        GitError: an object is missing, or two files have one name.
    """
    try:
        _put(top, found, folder)
    except OSError as error:
        raise GitError(f"git cannot be read from: {error.strerror}.") from error


def _put(top: Path, found: list[Entry], folder: Path) -> None:
    import subprocess  # noqa: PLC0415

    with subprocess.Popen(  # noqa: S603 - the call is ours, whole
        _call(top, "cat-file", "--batch"),
        env=_environment(),
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
    ) as running:
        asked, answers = running.stdin, running.stdout
        assert asked is not None  # noqa: S101 - both are pipes
        assert answers is not None  # noqa: S101
        for one in sorted(found, key=lambda entry: entry.mode == LINK):
            asked.write(f"{one.name}\n".encode())
            asked.flush()
            _place(folder / one.path, one, _object(answers, one))
        asked.close()


def _call(where: Path, *call: str) -> list[str]:
    switched_off = [part for one in SETTINGS for part in ("-c", one)]
    return ["git", *switched_off, "-C", str(where), *call]


def _environment() -> dict[str, str]:
    return os.environ | ENVIRONMENT


def _entry(row: bytes, *, in_index: bool) -> Entry:
    head, _, path = row.partition(b"\t")
    words = head.decode().split()
    place = PurePosixPath(os.fsdecode(path))
    if NO_NAMES & set(path.lower().split(b"/")):
        raise GitError(f"'{place}' is no place for a file of a repository; nothing of it is read.")
    if in_index and words[2] != "0":
        raise GitError(f"'{place}' is in conflict; settle that first.")
    return Entry(place, words[0], words[1] if in_index else words[2])


def _wanted(path: PurePosixPath) -> bool:
    # An editor may have saved a rig as low.yaml.txt: the walk through the folder tells of it.
    return path.suffix.lower() in YAML or path.name == MARK or may_be_misnamed(path)


def _object(answers: IO[bytes], one: Entry) -> bytes:
    """Return an object as it is stored, or its beginning where it is larger than any file that is read."""
    words = answers.readline().split()
    if len(words) != len(("name", "type", "size")) or words[1] != b"blob":
        raise GitError(f"The repository here does not hold the content of '{one.path}'.")
    size = int(words[2])
    raw = answers.read(min(size, MAX_BYTES + 1))
    left = size - len(raw) + len(b"\n")
    while left > 0:
        got = len(answers.read(min(left, FLUSH)))
        if not got:
            raise GitError(f"git ended before the end of '{one.path}'.")
        left -= got
    return raw


def _place(file: Path, one: Entry, raw: bytes) -> None:
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        if one.mode == LINK:
            file.symlink_to(os.fsdecode(raw))
        else:
            with file.open("xb") as stream:
                stream.write(raw)
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or error
        raise GitError(f"'{one.path}' cannot be taken out of the repository: {reason}.") from error
