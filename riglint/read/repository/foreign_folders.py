"""Which folders below a library are somebody else's: hidden, ignored by git, installed, built, or other people's code.

Each is told of with its reason, and no file of it is looked at. In a repository, nothing that git tracks is left out
but what is hidden; where git cannot be asked, more is looked at, never less. A folder that is a library or a
repository of its own is never passed over because the one around it ignores it.
"""

from __future__ import annotations

import os
from dataclasses import field
from pathlib import Path

from riglint.read.file_names import GIT, MARK
from riglint.read.repository import git_objects
from riglint.read.repository.git_objects import GitError
from riglint.records import dataclass
from riglint.remembered.looks import digest
from riglint.remembered.watching import aside, tell

HIDDEN = "it is hidden"
IGNORED = "git ignores it"
ENVIRONMENT = "it is a virtual environment"
OWN_PACKAGE = "it is an installation of riglint"
INSTALLED = "it holds installed packages"
BUILT = "a build wrote it"
VENDORED = "it holds code of other projects"
PACKAGE = "riglint"
ALWAYS = {
    "site-packages": INSTALLED,
    "dist-packages": INSTALLED,
    "node_modules": INSTALLED,
    "__pycache__": BUILT,
}
# These names alone say little: a club may keep plans in `build`. A build's recipe must lie beside them.
BESIDE_RECIPE = {"build": BUILT, "dist": BUILT, "target": BUILT, "vendor": VENDORED, "third_party": VENDORED}
RECIPES = frozenset(
    {
        "pyproject.toml",
        "setup.py",
        "setup.cfg",
        "package.json",
        "go.mod",
        "Cargo.toml",
        "composer.json",
        "Gemfile",
        "CMakeLists.txt",
        "Makefile",
        "pom.xml",
        "build.gradle",
    }
)


def repository_of(folder: Path) -> Path | None:
    """Return the top of the repository around a folder, if there is one."""
    tops = (one for one in (folder, *folder.parents) if os.path.lexists(one / GIT))
    return next(tops, None)


@dataclass(frozen=True, slots=True)
class _Git:
    """What git says of a repository; where it cannot be asked, `known` is false."""

    known: bool
    tracked: frozenset[Path] = frozenset()  # files, and all folders around them
    ignored: frozenset[Path] = frozenset()  # folders


@dataclass(slots=True)
class ForeignFolders:
    """The folders of one walk that are not the library's own."""

    start: Path  # the folder that is named, links resolved
    _asked: dict[Path, _Git] = field(default_factory=dict)
    _named: bool = False  # whether the named folder lies in a foreign one: then all of it is wanted

    def __post_init__(self) -> None:
        """Look once at the folders around the named one."""
        top = repository_of(self.start)
        around = [one for one in (self.start, *self.start.parents) if top is None or one != top]
        below = [one for one in around if top is None or one.is_relative_to(top)]
        self._named = any(_by_signs(one) is not None for one in below)

    def because(self, folder: Path) -> str | None:
        """Return why a folder, links resolved, is not looked at; None if it is."""
        if folder.name.startswith("."):
            return HIDDEN
        top = repository_of(folder.parent)
        git = self._git(top) if top is not None else _Git(known=True)
        if self._named or not git.known or folder in git.tracked:
            return None
        marked = any(os.path.lexists(folder / mark) for mark in (GIT, MARK))
        return _by_signs(folder) or (IGNORED if folder in git.ignored and not marked else None)

    def _git(self, top: Path) -> _Git:
        if top not in self._asked:
            self._asked[top] = _ask(top, self.start)
        return self._asked[top]


def _ask(top: Path, start: Path) -> _Git:
    """Ask git what it tracks and ignores below a folder, and tell a watch of the answer."""
    with aside():
        listings = _listings(top, start)
    tell(b"git", b"\n".join((os.fsencode(top), os.fsencode(start))), *listings)
    if not listings:
        return _Git(known=False)
    tracked, ignored = (_paths(top, one) for one in listings)
    around = {folder for parent in {file.parent for file in tracked} for folder in (parent, *parent.parents)}
    return _Git(known=True, tracked=frozenset({*tracked, *around}), ignored=frozenset(ignored))


def asked_again(names: bytes) -> bytes:
    """Return a hash of what git says now, of a repository and a folder as they were told of."""
    top, _, start = names.partition(b"\n")
    if b"\n" in start:  # a folder whose name has a line end in it
        return b""
    return digest(*_listings(Path(os.fsdecode(top)), Path(os.fsdecode(start))))


def _listings(top: Path, start: Path) -> tuple[bytes, ...]:
    """Return what git tracks and what it ignores below a folder; nothing where it cannot be asked.

    Ignored is what the `.gitignore` files of the repository say, not what one machine or one clone ignores: a library
    is judged alike everywhere.
    """
    # From the top: in a hook, the place of the index may be told from there.
    where = (f"--git-dir={top / GIT}", f"--work-tree={top}", "ls-files", "-z")
    others = ("--others", "--ignored", "--directory", "--exclude-per-directory=.gitignore")
    within = start.is_relative_to(top) and start != top
    # A small library may lie in a repository of very many files.
    below = ["--", f":(top,literal){start.relative_to(top).as_posix()}"] if within else []
    try:
        return tuple(git_objects.git(top, *where, *which, *below) for which in (("--cached",), others))
    except GitError:
        return ()


def _paths(top: Path, listing: bytes) -> list[Path]:
    return [top / os.fsdecode(one) for one in listing.split(b"\0") if one]


def _by_signs(folder: Path) -> str | None:
    """Return why a folder is foreign by its name and what lies in it or beside it."""
    name = folder.name
    if name in ALWAYS:
        return ALWAYS[name]
    try:
        if (folder / "pyvenv.cfg").is_file():  # PEP 405
            return ENVIRONMENT
        wanted = name in BESIDE_RECIPE or name == PACKAGE
        beside = {one.name for one in folder.parent.iterdir()} if wanted else set()
    except OSError:
        return None
    if name == PACKAGE and any(one.startswith("riglint-") and one.endswith(".dist-info") for one in beside):
        return OWN_PACKAGE
    return BESIDE_RECIPE.get(name) if RECIPES & beside else None
