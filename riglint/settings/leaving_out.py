"""What a library leaves out of its audits: files and folders by name, counted and told of, never what a call names."""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from dataclasses import field
from fnmatch import fnmatchcase
from pathlib import Path, PurePosixPath

from riglint.model.documents.library_file import LeaveOutRow, LibraryFile
from riglint.read.document import Document
from riglint.read.file_names import MARK, MARKS
from riglint.read.library import library_root, real
from riglint.read.problems import Problem, shown
from riglint.records import dataclass
from riglint.settings.reading import read_mark, sets_nothing, understood


def wrong_rows(document: Document, rows: Sequence[LeaveOutRow]) -> list[Problem]:
    """Return what is wrong with the paths that a library leaves out."""
    found = []
    for n, row in enumerate(rows):
        wrong = _wrong(row.path)
        if wrong is not None:
            key = ("leave_out", n, "path")
            found.append(Problem("file/value", document.place(key), f"leave_out[{n}].path", *wrong))
    return found


def _wrong(path: str) -> tuple[str, str] | None:
    names = path.rstrip("/").split("/")
    do = "Write a path from the mark file on, such as drafts/ or rigs/old-*.yaml."
    if path.startswith("/") or "\\" in path:
        return f"{shown(path)} is no path inside the library.", do
    if any(name in {"", ".", ".."} for name in names):
        return f"{shown(path)} has an empty name, '.' or '..' in it.", do
    if any("**" in name or "[" in name or "!" in name for name in names):
        return f"{shown(path)} holds signs with no meaning here. Only * and ? stand for letters.", do
    if not any(letter.isalnum() for letter in path):
        return (
            f"{shown(path)} would leave out the whole library.",
            "Name the folders to leave out one by one.",
        )
    return None


@dataclass(slots=True)
class LeavingOut:
    """What the libraries of one call leave out; each mark file is read once."""

    texts: Mapping[Path, bytes] = field(default_factory=dict)
    _rows: dict[Path, tuple[LeaveOutRow, ...]] = field(default_factory=dict)  # by the top of a library
    _tops: dict[Path, Path] = field(default_factory=dict)  # of the library of each folder
    _real: dict[Path, Path] = field(default_factory=dict)  # of each folder, with its links resolved

    def because(self, path: Path) -> str | None:
        """Return why a file or folder, or one around it in the same library, is left out; None if it is not."""
        folder = self._real.get(path.parent) or self._real.setdefault(path.parent, real(path.parent))
        top = self._top(folder)
        rows = self._rows_of(top)
        if not rows or any(os.path.lexists(path / mark) for mark in MARKS):  # a library of its own
            return None
        own = PurePosixPath((folder / path.name).relative_to(top).as_posix())
        return next((_in_words(row) for row in rows if matches(row.path, own)), None)

    def _top(self, folder: Path) -> Path:
        if folder not in self._tops:
            self._tops[folder] = library_root(folder, None)
        return self._tops[folder]

    def _rows_of(self, top: Path) -> tuple[LeaveOutRow, ...]:
        if top not in self._rows:
            read = read_mark(top, self.texts)
            raw = read.raw if read is not None else None
            rows: tuple[LeaveOutRow, ...] = ()
            if raw is not None and not sets_nothing(raw):
                document, form, _ = understood(raw, MARK, LibraryFile, "library")
                if document is not None and form is not None and not wrong_rows(document, form.leave_out):
                    rows = tuple(form.leave_out)
            self._rows[top] = rows
        return self._rows[top]


def matches(pattern: str, path: PurePosixPath) -> bool:
    """Whether a path from the top of a library is meant by a pattern, or lies in a folder that is."""
    names = pattern.rstrip("/").split("/")
    return len(path.parts) >= len(names) and all(
        fnmatchcase(name, one) for name, one in zip(path.parts, names, strict=False)
    )


def _in_words(row: LeaveOutRow) -> str:
    return f"{MARK} leaves out {row.path}: {row.because}"
