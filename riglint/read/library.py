"""Which files are ours, and where the library begins that they may refer within."""

import os
import stat
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import field
from pathlib import Path
from types import MappingProxyType

from riglint.read.decoding import MAX_BYTES
from riglint.read.file_names import GIT, MARK, MARKS, YAML, as_yaml, may_be_misnamed
from riglint.read.looks import NOT_OURS, Look, begins_as_ours, look, only_comments
from riglint.read.problems import Place, Problem, shown
from riglint.read.repository.foreign_folders import ForeignFolders
from riglint.read.resolving import resolved
from riglint.records import dataclass

LOOKED_AT = 4096  # bytes of a file of another name
LeaveOut = Callable[[Path], str | None]  # why a library leaves out a file or folder; None where it does not


@dataclass(slots=True)
class FoundDocuments:
    """What was seen: the files to read, those left out and why, and those that look like ours and are not read."""

    files: list[Path] = field(default_factory=list)
    left_out: dict[Path, str] = field(default_factory=dict)
    refused: dict[Path, Problem] = field(default_factory=dict)
    folders: dict[Path, str] = field(default_factory=dict)  # not looked into, and why
    seen: set[Path] = field(default_factory=set)  # links resolved
    texts: Mapping[Path, bytes] = field(default_factory=dict)  # what stands in for files, by their whole path
    passed_over: set[Path] = field(
        default_factory=set
    )  # of all that is left out: what a library leaves out itself
    named_anyway: dict[Path, str] = field(default_factory=dict)  # what it leaves out, and the call names

    def sees(self, file: Path) -> bool:
        """Take note of a file; whether it was not seen before."""
        own = real(file)
        new = own not in self.seen
        self.seen.add(own)
        return new

    def lost(self, results: Collection[Path]) -> list[Path]:
        """Return the files that were seen and are neither among the results nor left out; there must be none."""
        left_out = {real(file) for file in self.left_out}
        return sorted(self.seen - set(results) - left_out)


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
    return resolved(path)


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


def find_documents(
    paths: Sequence[Path],
    *,
    sift_named: bool = False,
    root: Path | None = None,
    texts: Mapping[Path, bytes] = MappingProxyType({}),
    leave_out: LeaveOut = lambda _path: None,
) -> FoundDocuments:
    """Return the files to read among what the command line names, and what becomes of all others that were seen.

    Of a folder, its `*.yaml` and `*.yml` files that are ours, sorted, without foreign folders; links are followed
    inside the library, each folder once, and refused where they lead out of it. Files named directly are taken as
    they are, present or not; with `sift_named` they are chosen like those of a folder. A file that cannot be looked
    into is taken: reading it will say why. No file is taken twice.

    Args:
        paths: files and folders.
        sift_named: whether files that are named one by one are chosen as well.
        root: where the library begins, if no mark file says so.
        texts: files by their whole path that are taken from here and not from the disk.
        leave_out: what libraries leave out by their own settings; never what is named.
    """
    found = FoundDocuments(texts=texts)
    for path in paths:
        wanted = leave_out(path)
        if wanted is not None:
            found.named_anyway[path] = wanted
        if is_folder(path):
            library = library_root(path, root or path)
            sieve = leave_out if wanted is None else _nothing
            for file in sorted(_yaml_files(path, found, library, sieve)):
                _sort_in(found, file, library)
        elif sift_named:
            _sort_in(found, path, library_root(path.parent, root))
        elif found.sees(path):
            found.files.append(path)
    return found


def _nothing(_path: Path) -> None:
    """Leave nothing out of a folder that is named and would be left out itself."""


def _sort_in(found: FoundDocuments, file: Path, root: Path) -> None:
    if not found.sees(file):
        return
    head = found.texts.get(real(file)) if found.texts else None
    if head is None and _is_pipe_or_device(file):
        found.left_out[file] = "it is a pipe or a device"  # reading it might never end
        return
    head = _head(file) if head is None else head
    seen = Look("yes") if head is None else look(head)
    if head is not None and seen.verdict != "no" and file.is_symlink() and not inside(root, file):
        found.refused[file] = _leads_out(file)
    elif seen.verdict == "yes":
        found.files.append(file)
    elif seen.problem is not None:
        found.refused[file] = seen.problem
    elif head is not None and len(head) == MAX_BYTES and only_comments(head):
        message = "The first 2 MB hold comments alone, so nothing that follows is read."
        found.refused[file] = _unreadable(message, "Take comments out, so that the file is below 2 MB.")
    else:
        found.left_out[file] = NOT_OURS if head else "it is empty"


def _leads_out(link: Path) -> Problem:
    message = f"The link {shown(link.name)} leads outside the library, so nothing behind it is read."
    return _unreadable(message, "Put the files themselves into the library, or take the link out.")


def _is_pipe_or_device(file: Path) -> bool:
    try:
        return not stat.S_ISREG(file.stat().st_mode)
    except (OSError, ValueError):
        return False


def _yaml_files(folder: Path, found: FoundDocuments, root: Path, leave_out: LeaveOut) -> Iterator[Path]:
    """Yield the YAML files below a folder, each folder behind it looked into once, links resolved."""
    waiting, taken, foreign = [folder], {real(folder)}, ForeignFolders(real(folder))
    while waiting:
        here = waiting.pop()
        for entry in _entries(here, found):
            path = here / entry.name
            if is_folder(path) if entry.is_symlink() else entry.is_dir():
                own = real(path)
                if own not in taken and _goes_into(entry, path, found, root, foreign):
                    taken.add(own)
                    if not _passed_over(path, found.folders, found, leave_out):
                        waiting.append(path)
            elif entry.name.lower().endswith(YAML):
                if not _passed_over(path, found.left_out, found, leave_out):
                    yield path
            else:
                _take_note(entry, path, found)


def _take_note(entry: os.DirEntry[str], path: Path, found: FoundDocuments) -> None:
    """Tell of a link that leads nowhere, and of a file that is ours but for its name."""
    if entry.is_symlink():
        if not path.exists():
            found.left_out[path] = "it is a link that leads nowhere"
    elif _is_misnamed(path):
        found.refused[path] = _misnamed(path)


def _passed_over(path: Path, among: dict[Path, str], found: FoundDocuments, leave_out: LeaveOut) -> bool:
    """Whether a library leaves a file or folder out itself; take note of it, with the reason."""
    because = leave_out(path)
    if because is None:
        return False
    among[path] = because
    found.passed_over.add(path)
    return True


def _goes_into(
    entry: os.DirEntry[str], path: Path, found: FoundDocuments, root: Path, foreign: ForeignFolders
) -> bool:
    """Whether a folder is looked into; take note of one that is not, except of git's own."""
    because = foreign.because(real(path.parent) / entry.name)
    if because is not None:
        if entry.name != GIT:
            found.folders[path] = because
        return False
    if entry.is_symlink() and not inside(root, path):
        found.refused[path] = _leads_out(path)
        return False
    return True


def _misnamed(file: Path) -> Problem:
    if file.name.lower().startswith(MARK):  # an editor may have put .txt behind it
        message = (
            "The file begins as a document of ours. A library's settings are read from rig-library alone."
        )
        return _unreadable(message, f"Call it {shown(MARK)}, or take it out.")
    message = "The file begins as a rig does, but its name does not end in .yaml, so it is not read."
    return _unreadable(message, f"Call it {shown(as_yaml(file))}.")


def _is_misnamed(file: Path) -> bool:
    """Whether a file is ours but for its name: an editor may have saved it as low.yaml.txt."""
    if file.name == MARK or not may_be_misnamed(file) or _is_pipe_or_device(file):
        return False
    try:
        with file.open("rb") as stream:
            return begins_as_ours(stream.read(LOOKED_AT))
    except (OSError, ValueError):
        return False


def _entries(folder: Path, found: FoundDocuments) -> list[os.DirEntry[str]]:
    try:
        with os.scandir(folder) as entries:
            return list(entries)
    except OSError as error:
        message = f"The folder cannot be looked into: {error.strerror}."
        found.refused[folder] = _unreadable(message, "Correct its permissions.")
        return []


def _head(file: Path) -> bytes | None:
    """Return as much of a file as is ever read, or None where there is no looking into it."""
    try:
        with file.open("rb") as stream:
            return stream.read(MAX_BYTES)
    except (OSError, ValueError):
        return None


def read_bytes(path: Path) -> tuple[bytes | None, list[Problem]]:
    """Return the bytes of a file, never much more than the reader accepts, or the problem with reading it."""
    try:
        if is_folder(path):
            return None, [_unreadable("This is a folder. Expected a file.", "Name a file in it.")]
        if path.exists() and not path.is_file():  # a pipe would be waited for without end
            return None, [_unreadable("This is not an ordinary file.", "Name a YAML file.")]
        with path.open("rb") as stream:
            return stream.read(MAX_BYTES + 1), []
    except FileNotFoundError:
        return None, [_unreadable("There is no such file.", "Correct the path.")]
    except (OSError, ValueError) as error:
        reason = (error.strerror if isinstance(error, OSError) else None) or "its name cannot be used"
        message = f"The file cannot be read: {reason}."
        return None, [_unreadable(message, "Correct the file's name, link or permissions.")]


def _unreadable(message: str, do: str) -> Problem:
    return Problem("file/readable", Place(1, 1), "", message, do)
