"""Paths from one file of a library to another: inside the library, and to a file that is there."""

import os
from pathlib import Path

from riglint.read.library import inside, is_folder
from riglint.read.problems import odd_letters, shown
from riglint.read.spelling import nearest


def wrong_path(
    written: str, target: Path, kind: str, root: Path, *, there: bool = False
) -> tuple[str, str] | None:
    """Return what is wrong with a path that a rig names, and what to write; None where it leads to a file.

    `there` says that the file is known though it may not be on the disk.
    """
    if Path(written).is_absolute():
        message = f"{shown(written)} begins at the top of the disk. Expected a path relative to this file."
        return message, "Write it from this file on, such as ../spots/meadow.yaml."
    if not inside(root, target):
        message = f"{shown(written)} is outside the library. Its root is the folder {shown(root.name)}."
        return message, "Move that file into the library, or refer to one that is in it."
    if is_folder(target):
        return f"{shown(written)} is a folder. Expected the file of a {kind}.", "Name a file in it."
    if there or os.path.lexists(target):
        return None  # what keeps it from being read, if anything, reading it will say
    suggestion = nearest(target.name, _names_in(target.parent))
    do = f"Write `{Path(written).with_name(suggestion).as_posix()}` if you mean that." if suggestion else ""
    do += odd_letters(target.name, suggestion) if suggestion else ""
    return (
        f"There is no file {shown(written)}.",
        do or "Correct the path. It begins at this file's folder.",
    )


def _names_in(folder: Path) -> list[str]:
    try:
        return [entry.name for entry in folder.iterdir()]
    except OSError:  # no such folder, or no leave to look into it
        return []
