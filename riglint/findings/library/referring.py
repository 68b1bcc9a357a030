"""Which rigs of a library refer to a spot or a shelf: who must be audited again when one of those changes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path

from riglint.model.load import kind_of
from riglint.read.document import Document
from riglint.read.library import find_documents, is_folder, library_root, read_bytes, real
from riglint.read.yaml_text import read_yaml
from riglint.settings import LeavingOut


def with_referring_rigs(paths: Sequence[Path], root: Path | None, here: Path = Path()) -> list[Path]:
    """Return what is named, and the rigs of its libraries that refer to one of these files or to one that is gone.

    A named file that is gone counts as deleted: it is left out, and the rigs that still refer to it are not. With
    nothing named, the library of the working folder is looked through for references to files that are gone.

    Args:
        paths: files and folders.
        root: where the library begins, if no mark file says so.
        here: the working folder, where nothing is named.
    """
    named = [path for path in paths if is_folder(path) or is_there(path)]
    changed = {real(path) for path in paths if not is_folder(path)}
    libraries = {library_root(path, root): None for path in paths or [here]}
    taken = {real(path) for path in named}
    found = list(named)
    for library in libraries:
        for file in find_documents([library], leave_out=LeavingOut().because).files:
            if real(file) not in taken and _concerned(file, changed):
                taken.add(real(file))
                found.append(_near(file))
    return found


def _concerned(file: Path, changed: set[Path]) -> bool:
    """Whether a rig refers to a changed file, or to one that is gone; also where there is no telling."""
    try:
        return any(one in changed or not is_there(one) for one in referred_by(file))
    except Exception:  # noqa: BLE001 - the audit of that file will say what it stumbles over
        return True


def is_there(path: Path) -> bool:
    """Whether there is such a file; one that there is no telling of is taken to be there: reading it says why."""
    try:
        return path.exists() or path.is_symlink()
    except (OSError, ValueError):
        return True


def _near(file: Path) -> Path:
    """Return a path as a call from the working folder would name it."""
    here = real(Path())
    return file.relative_to(here) if file.is_relative_to(here) else file


def referred_by(file: Path) -> Iterator[Path]:
    """Yield the files that a file refers to; one that cannot be read refers to none."""
    raw, _ = read_bytes(file)
    return referred(raw, file) if raw is not None else iter(())


def referred(raw: bytes, file: Path) -> Iterator[Path]:
    """Yield the files that a rig refers to, without building its model; a file that is no YAML refers to none."""
    for written in refers_to(raw, file.as_posix()):
        yield real(file.parent / written)


def refers_to(raw: bytes, path: str) -> Iterator[str]:
    """Yield what a rig writes of the files that it refers to."""
    document = read_yaml(raw, path)[0]
    if document is not None and kind_of(document)[0] == "rig":
        yield from _written(document)


def _written(document: Document) -> Iterator[str]:
    spot, shelves = document.data.get("spot"), document.data.get("shelf")
    for one in [spot, *(shelves if isinstance(shelves, list) else [shelves])]:
        if isinstance(one, str):
            yield one
