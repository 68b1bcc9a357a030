"""Files as they stand on the disk, in a revision of a git repository, or staged there."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import field
from pathlib import Path, PurePosixPath
from tempfile import TemporaryDirectory

from riglint.read.library import real
from riglint.read.repository import git_objects
from riglint.read.repository.git_objects import STAGED, Entry, GitError, tell_of
from riglint.records import dataclass
from riglint.remembered import watching
from riglint.remembered.watching import aside


class NoSideError(Exception):
    """What the call names cannot be looked at: one sentence."""


@dataclass(frozen=True, slots=True)
class Side:
    """One side of a comparison, as files on the disk."""

    words: str  # as the call names it
    path: Path  # a file or a folder
    root: Path | None = None  # where the library begins, for files that were taken out of a repository


@contextmanager
def opened(text: str) -> Iterator[Side]:
    """Give a file, a folder, a git revision or the word `staged` as files; those of git last as long as the block.

    Raises:
        NoSideError: it is none of these, or git cannot give it.
    """
    if os.path.lexists(text):
        yield Side(text, Path(text))
        return
    with taken_out(text) as files:
        yield Side(text, files.here, files.root)


@dataclass(frozen=True, slots=True)
class TakenOut:
    """The files of a revision, or the staged ones, in a folder of their own: all of them, or those that were put."""

    top: Path  # of the repository
    root: Path  # the same folder, as files taken out, in a folder made for them
    here: Path  # the working folder, as files taken out
    listing: bytes  # as git gives it
    entries: tuple[Entry, ...]
    _there: set[Entry] = field(default_factory=set)

    def path(self, named: Path) -> Path:
        """Return where a file or folder of the repository is, taken out; one that lies elsewhere stays as it is."""
        whole = Path(os.path.abspath(named))  # noqa: PTH100 - a link in the repository is meant, not what it leads to
        for one in (whole, real(whole.parent) / whole.name):
            if one.is_relative_to(self.top):
                return self.root / one.relative_to(self.top)
        return named

    def put(self, some: Iterable[Entry]) -> list[Entry]:
        """Put some of the files there, as they are stored; return those that were not there yet.

        Raises:
            NoSideError: git cannot give them.
        """
        new = [one for one in dict.fromkeys(some) if one not in self._there]
        self._there.update(new)
        watching.forget({os.fsencode(f"{self.root}/{one.path}") for one in new})
        with aside():
            try:
                git_objects.put(self.top, new, self.root)
            except GitError as error:
                raise NoSideError(str(error)) from error
        return new

    def was_enough(self) -> bool:
        """Whether nothing was looked at that would look otherwise if every file were put there."""
        names = watching.looked_at(os.fsencode(self.root))
        if names is None:
            return False
        with aside():
            lacking = [os.fsdecode(name) for name in names if not os.path.lexists(name)]
        below = tuple(f"{os.path.relpath(name, self.root)}/" for name in lacking)
        return not any(f"{one.path}/".startswith(below) for one in self.entries)

    def put_all(self) -> None:
        """Put every file there.

        Raises:
            NoSideError: git cannot give them.
        """
        self.put(self.entries)


@contextmanager
def taken_out(text: str) -> Iterator[TakenOut]:
    """Give the files of a git revision, or those that are staged; they last as long as the block.

    Raises:
        NoSideError: there is no such revision, or git cannot give it.
    """
    with listed(text) as files:
        files.put_all()
        yield files


@contextmanager
def listed(text: str) -> Iterator[TakenOut]:
    """Give the files of a git revision, or those that are staged, none of them put there yet.

    Raises:
        NoSideError: there is no such revision, or git cannot give it.
    """
    with aside():
        top, below = _repository(text)
    listing, entries = _entries(text, top)
    with aside():
        folder = TemporaryDirectory(prefix="riglint-")
        root = Path(folder.name).resolve() / (
            top.name or "repository"
        )  # reports call a library by its folder
        here = root / below
    watching.take_out(os.fsencode(root.parent))
    try:
        with aside():
            (root / ".git").mkdir(
                parents=True
            )  # the top of a repository: no library begins above it, here as there
            here.mkdir(parents=True, exist_ok=True)
        yield TakenOut(top, root, here, listing, tuple(entries))
    finally:
        with aside():
            folder.cleanup()


def _entries(text: str, top: Path) -> tuple[bytes, list[Entry]]:
    """Return the files of a revision or of what is staged, as git lists them and those that an audit can look at.

    Raises:
        NoSideError: git cannot give them.
    """
    with aside():
        commit = None if text == STAGED else _commit(text, top)
        try:
            listing = git_objects.rows(top, commit)
            found = git_objects.entries(listing, in_index=commit is None)
        except GitError as error:
            raise NoSideError(str(error)) from error
    tell_of(text, top, listing if commit is None else commit.encode())
    return listing, found


def differing(old: str, staged: TakenOut) -> set[PurePosixPath] | None:
    """Return the files that an audit can look at and that are staged otherwise than in a revision; None without it."""
    try:
        with aside():
            commit = git_objects.commit(old, staged.top)
            before = git_objects.as_staged(git_objects.rows(staged.top, commit))
            changed = b"\0".join(before ^ set(staged.listing.split(b"\0")))
            found = git_objects.entries(changed, in_index=True)
    except GitError:
        tell_of(old, staged.top, b"")
        return None  # before the first commit
    tell_of(old, staged.top, commit.encode())
    return {one.path for one in found}


def _repository(text: str) -> tuple[Path, Path]:
    """Return the top of the repository around here, and where we stand in it."""
    here = Path.cwd().resolve()
    try:
        top = git_objects.top_around(here)
        return top, here.relative_to(top)
    except (GitError, ValueError):  # the last: its settings put the files elsewhere
        raise NoSideError(
            f"'{text}' is not a file or folder, and there is no git repository here to look it up in."
        ) from None


def _commit(text: str, top: Path) -> str:
    try:
        return git_objects.commit(text, top)
    except GitError:
        raise NoSideError(
            f"'{text}' is not a file, a folder or a revision of this repository. '{STAGED}' means "
            "the staged files."
        ) from None
