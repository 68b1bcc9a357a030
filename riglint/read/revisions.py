"""The two sides of a comparison: a file, a folder, a revision of a git repository, or what is staged there."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

STAGED = "staged"
OURS = ("*.yaml", "*.yml", "*.YAML", "*.YML", "rig-library")  # all that an audit can look at


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
    top, below = _repository(text)
    revision = None if text == STAGED else _commit(text, top)
    with TemporaryDirectory(prefix="riglint-") as folder:
        root = Path(folder).resolve()
        _check_out(top, revision, root)
        path = root / below
        path.mkdir(parents=True, exist_ok=True)
        yield Side(text, path, root)


def _repository(text: str) -> tuple[Path, Path]:
    """Return the top of the repository around here, and where we stand in it."""
    here = Path.cwd().resolve()
    try:
        top = Path(os.fsdecode(_git(here, "rev-parse", "--show-toplevel").rstrip(b"\n"))).resolve()
    except NoSideError:
        raise NoSideError(
            f"'{text}' is no file or folder, and here is no git repository to look it up in."
        ) from None
    return top, here.relative_to(top)


def _commit(text: str, top: Path) -> str:
    try:
        named = _git(top, "rev-parse", "--verify", "--quiet", "--end-of-options", f"{text}^{{commit}}")
    except NoSideError:
        raise NoSideError(
            f"'{text}' is no file, no folder and no revision of this repository; '{STAGED}' is what is staged."
        ) from None
    return named.decode().strip()


def _check_out(top: Path, revision: str | None, folder: Path) -> None:
    """Put the files that an audit can look at into a folder, as a revision or the index has them."""
    index: dict[str, str] = {}
    if revision is not None:  # an index of its own: the user's stays as it is
        index = {"GIT_INDEX_FILE": str(folder / ".index")}
        _git(top, "read-tree", revision, environment=index)
    names = _git(top, "ls-files", "-z", "--", *OURS, environment=index)
    _git(top, "checkout-index", "-z", "--stdin", f"--prefix={folder}{os.sep}", given=names, environment=index)
    (folder / ".index").unlink(missing_ok=True)


def _git(where: Path, *call: str, given: bytes = b"", environment: dict[str, str] | None = None) -> bytes:
    try:
        done = subprocess.run(  # noqa: S603 - the call is ours; what the user named stands behind --end-of-options
            ["git", "-C", str(where), *call],  # noqa: S607 - the user's own git
            env=os.environ | (environment or {}),
            input=given,
            capture_output=True,
            check=False,
        )
    except OSError as error:
        raise NoSideError(f"git cannot be run: {error.strerror}.") from error
    if done.returncode:
        said = done.stderr.decode(errors="replace").strip().splitlines()
        raise NoSideError(f"git {call[0]} failed: {said[0] if said else 'without a word'}.")
    return done.stdout
