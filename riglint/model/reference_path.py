"""Paths from one file of a library to another: inside the library, and to a file that is there."""

import os
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from riglint.read.library import inside, is_folder
from riglint.read.problems import odd_letters, shown
from riglint.read.spelling import nearest

MOST_FOLDERS = 12  # upward from a file, and into each other; no library is deeper


class WrongPath(NamedTuple):
    """What is wrong with a path: the sentence, what to write, and the path that was meant, where one is near."""

    message: str
    do: str
    meant: tuple[str, ...] = ()


def wrong_path(
    written: str, target: Path, kind: str, root: Path, *, there: bool = False, suggest: bool = True
) -> WrongPath | None:
    """Return what is wrong with a path that a rig names, and what to write; None where it leads to a file.

    `there` says that the file is known though it may not be on the disk; `suggest` looks for the one that was meant.
    """
    near = _near_path if suggest else _nowhere
    if Path(written).is_absolute():
        message = f"{shown(written)} begins at the top of the disk. Expected a path relative to this file."
        return WrongPath(message, "Write it from this file on, such as ../spots/meadow.yaml.")
    if not inside(root, target):
        message = f"{shown(written)} is outside the library. Its root is the folder {shown(root.name)}."
        do = "Move that file into the library, or refer to one that is in it."
        return _meant(near(written, target, root), written, message, do)
    if is_folder(target):
        return WrongPath(
            f"{shown(written)} is a folder. Expected the file of a {kind}.", "Name a file in it."
        )
    if there or os.path.lexists(target):
        return None  # what keeps it from being read, if anything, reading it will say
    message = f"There is no file {shown(written)}."
    do = "Correct the path. It begins at this file's folder."
    return _meant(near(written, target, root), written, message, do)


def _meant(meant: str | None, written: str, message: str, do: str) -> WrongPath:
    """Return what is wrong with a path, with the one that was meant where a file of the library is near."""
    if meant is None:
        return WrongPath(message, do)
    return WrongPath(message, f"Write `{meant}` if you mean that.{odd_letters(written, meant)}", (meant,))


def _nowhere(_written: str, _target: Path, _root: Path) -> None:
    """Stand in for the search: looking for near names in thousands of places takes longer than reading."""


def _near_path(written: str, target: Path, root: Path) -> str | None:
    """Return the path of a file that is there: the same one from another folder above, else one spelt nearly so."""
    steps = Path(written).parts
    named = [step for step in steps if step != ".."]
    own = target.parents[len(steps) - 1]  # the folder of the file that refers to it
    for search in (_same, _nearly):
        for folder in _bases(own, steps.count(".."), root):
            found = search(folder, named)
            if found is not None and inside(root, found):
                return Path(os.path.relpath(found, own)).as_posix()
    return None


def _bases(own: Path, up: int, root: Path) -> Iterator[Path]:
    """Yield the folders that a path may begin in: as many levels up as it says, then each of the library above."""
    levels = [folder for folder in [own, *own.parents][:MOST_FOLDERS] if inside(root, folder)]
    yield from dict.fromkeys([*levels[up : up + 1], *levels])


def _same(folder: Path, steps: list[str]) -> Path | None:
    found = folder.joinpath(*steps)
    return found if _is_file(found) else None


def _nearly(folder: Path, steps: list[str]) -> Path | None:
    """Follow a path with the nearest name where one of its steps is not there."""
    for step in steps[:MOST_FOLDERS]:
        after = folder / step
        if not os.path.lexists(after):
            name = nearest(step, _names_in(folder))
            if name is None:
                return None
            after = folder / name
        folder = after
    return folder if _is_file(folder) else None


def _is_file(path: Path) -> bool:
    try:
        return path.is_file()
    except (OSError, ValueError):  # a name too long
        return False


def _names_in(folder: Path) -> list[str]:
    try:
        return [entry.name for entry in folder.iterdir()]
    except OSError:  # no such folder, or no leave to look into it
        return []
