"""Reads files out of a git repository as objects: nothing is checked out, and nothing that its settings name is run.

A repository's own settings may name programs (filters, a watcher of files, hooks, transports), and whoever made the
repository chose them. Objects are read as they are stored, so no filter has a say; what git itself might start on the
way is switched off in every call.
"""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from pathlib import Path, PurePosixPath
from typing import IO

from riglint.read.decoding import MAX_BYTES
from riglint.read.file_names import MARK, YAML, may_be_misnamed
from riglint.records import dataclass
from riglint.remembered.looks import digest
from riglint.remembered.watching import tell

STAGED = "staged"
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
ASKED = 48  # objects asked for at a time: their names fit into the smallest pipe, so that nobody waits for the other


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


def top_around(here: Path) -> Path:
    """Return the top of the repository around a folder, links resolved.

    Raises:
        GitError: there is none.
    """
    return Path(os.fsdecode(git(here, "rev-parse", "--show-toplevel").rstrip(b"\n"))).resolve()


def commit(text: str, top: Path) -> str:
    """Return the name of the commit that a text means.

    Raises:
        GitError: there is none.
    """
    named = git(top, "rev-parse", "--verify", "--quiet", "--end-of-options", f"{text}^{{commit}}")
    return named.decode().strip()


def rows(top: Path, revision: str | None) -> bytes:
    """Return the files of a revision, or of the index where it is None, as git lists them.

    Raises:
        GitError: git cannot give them.
    """
    if revision is None:
        return git(top, "ls-files", "-z", "--stage", "--full-name")
    return git(top, "ls-tree", "-r", "-z", "--full-tree", revision)


def as_staged(listing: bytes) -> set[bytes]:
    """Return the rows of a revision as git lists what is staged."""
    parts = (row.partition(b"\t") for row in listing.split(b"\0") if row)
    return {b"%s %s 0\t%s" % (head[:6], head.rsplit(b" ", 1)[1], path) for head, _, path in parts}


def entries(listing: bytes, *, in_index: bool) -> list[Entry]:
    """Return the files of a list that an audit can look at, and all links.

    Raises:
        GitError: one lies where no file of a repository can, or is in conflict.
    """
    found = [_entry(row, in_index=in_index) for row in listing.split(b"\0") if row]
    return [one for one in found if one.mode == LINK or (one.mode in FILE and _wanted(one.path))]


def tell_of(text: str, top: Path, answer: bytes) -> None:
    """Tell a watch what git said of a revision: a commit by its name, or how it lists what is staged.

    The name of an object stands for its content, as it does for git itself.
    """
    tell(b"revision", os.fsencode(text), os.fsencode(top), answer)


def told_again(text: bytes) -> bytes:
    """Return a hash of what git says now of a revision, as it was told of."""
    name = os.fsdecode(text)
    try:
        top = top_around(Path.cwd().resolve())
    except GitError:
        return b""
    try:
        answer = rows(top, None) if name == STAGED else commit(name, top).encode()
    except GitError:
        answer = b""
    return digest(os.fsencode(top), answer)


def put(top: Path, found: Sequence[Entry], folder: Path) -> None:
    """Write objects into a folder, links last, so that no file is written through one. Of large ones the beginning.

    Raises:
        GitError: an object is missing, or two files have one name.
    """
    for one, raw in contents(top, sorted(found, key=lambda entry: entry.mode == LINK)):
        _place(folder / one.path, one, raw)


def contents(top: Path, found: Sequence[Entry]) -> Iterator[tuple[Entry, bytes]]:
    """Yield each file with its content as it is stored; of a large one the beginning.

    Raises:
        GitError: an object is missing, or git cannot be read from.
    """
    try:
        yield from _contents(top, found)
    except OSError as error:
        raise GitError(f"git cannot be read from: {error.strerror}.") from error


def _contents(top: Path, found: Sequence[Entry]) -> Iterator[tuple[Entry, bytes]]:
    import subprocess  # noqa: PLC0415

    if not found:
        return
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
        for first in range(0, len(found), ASKED):
            some = found[first : first + ASKED]
            asked.write("".join(f"{one.name}\n" for one in some).encode())
            asked.flush()
            for one in some:
                yield one, _object(answers, one)
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
