"""A club's own files inside the page: rigs, spots, gear lists and policies; data only."""

from __future__ import annotations

from pathlib import Path
from typing import TypedDict

from riglint.page.materials import MissingPartError
from riglint.read.file_names import MARK
from riglint.read.library import find_documents

MOST_BYTES = 2_000_000


class LibraryData(TypedDict):
    """The files by name, as the page reads them."""

    name: str
    files: dict[str, str]


def library_data(folder: Path | None) -> LibraryData:
    """Return the documents of a folder that are ours, by their paths in it; rules, which are code, stay out.

    Raises:
        MissingPartError: it is no folder, or a file in it cannot be read.
    """
    if folder is None:
        return {"name": "", "files": {}}
    if not folder.is_dir():
        raise MissingPartError(f"{folder} is not a folder. Name the folder that holds the library.")
    files: dict[str, str] = {}
    mark = folder / MARK  # with what the library sets
    for file in [*find_documents([folder]).files, *([mark] if mark.is_file() else [])]:
        try:
            files[file.relative_to(folder).as_posix()] = file.read_bytes().decode("utf-8-sig")
        except (OSError, ValueError) as error:
            raise MissingPartError(f"{file} cannot be put into the page: {error}.") from error
    if sum(map(len, files.values())) > MOST_BYTES:
        raise MissingPartError(f"The library {folder} is larger than 2 MB. Name a smaller folder.")
    return {"name": folder.resolve().name, "files": files}
