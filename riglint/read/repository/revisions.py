"""Files as they stand on the disk, in a revision of a git repository, or staged there."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path, PurePosixPath
from tempfile import TemporaryDirectory

from riglint.read.library import real
from riglint.read.repository import git_objects
from riglint.read.repository.git_objects import GitError
from riglint.records import dataclass

STAGED = "staged"


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
    """The files of a revision, or the staged ones, in a folder of their own."""

    top: Path  # of the repository
    root: Path  # the same folder, as files taken out
    here: Path  # the working folder, as files taken out

    def path(self, named: Path) -> Path:
        """Return where a file or folder of the repository is, taken out; one that lies elsewhere stays as it is."""
        whole = Path(os.path.abspath(named))  # noqa: PTH100 - a link in the repository is meant, not what it leads to
        for one in (whole, real(whole.parent) / whole.name):
            if one.is_relative_to(self.top):
                return self.root / one.relative_to(self.top)
        return named


@contextmanager
def taken_out(text: str) -> Iterator[TakenOut]:
    """Give the files of a git revision, or those that are staged; they last as long as the block.

    Raises:
        NoSideError: there is no such revision, or git cannot give it.
    """
    top, below = _repository(text)
    revision = None if text == STAGED else _commit(text, top)
    with TemporaryDirectory(prefix="riglint-") as folder:
        root = Path(folder).resolve()
        (root / ".git").mkdir()  # the top of a repository: no library begins above it, here as there
        try:
            git_objects.put(top, git_objects.entries(top, revision), root)
        except GitError as error:
            raise NoSideError(str(error)) from error
        here = root / below
        here.mkdir(parents=True, exist_ok=True)
        yield TakenOut(top, root, here)


def differing(old: str, new: str, top: Path) -> set[PurePosixPath] | None:
    """Return the files that an audit can look at and that differ between two revisions; None without an old one.

    Raises:
        NoSideError: git cannot give the new one.
    """
    try:
        before = git_objects.entries(top, _commit(old, top))
    except (GitError, NoSideError):
        return None  # before the first commit
    try:
        after = git_objects.entries(top, None if new == STAGED else _commit(new, top))
    except GitError as error:
        raise NoSideError(str(error)) from error
    return {one.path for one in set(before) ^ set(after)}


def _repository(text: str) -> tuple[Path, Path]:
    """Return the top of the repository around here, and where we stand in it."""
    here = Path.cwd().resolve()
    try:
        top = Path(os.fsdecode(git_objects.git(here, "rev-parse", "--show-toplevel").rstrip(b"\n"))).resolve()
        return top, here.relative_to(top)
    except (GitError, ValueError):  # the last: its settings put the files elsewhere
        raise NoSideError(
            f"'{text}' is not a file or folder, and there is no git repository here to look it up in."
        ) from None


def _commit(text: str, top: Path) -> str:
    try:
        named = git_objects.git(
            top, "rev-parse", "--verify", "--quiet", "--end-of-options", f"{text}^{{commit}}"
        )
    except GitError:
        raise NoSideError(
            f"'{text}' is not a file, a folder or a revision of this repository. '{STAGED}' means "
            "the staged files."
        ) from None
    return named.decode().strip()
