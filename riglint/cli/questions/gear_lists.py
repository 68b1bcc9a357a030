"""The gear that `riglint ask` lets people choose from, read from gear lists."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from riglint.asking import AnswerError
from riglint.model.documents.gear import Gear, Shelf
from riglint.model.library import load_file


def gear_of(files: Iterable[tuple[Path, str]]) -> dict[str, Gear]:
    """Return the pieces of some gear lists by name, each list with its path as people write it.

    Raises:
        AnswerError: one cannot be used.
    """
    items: dict[str, Gear] = {}
    for file, shown in files:
        loaded = load_file(file, shown)
        for problem in loaded.problems:
            raise AnswerError(problem.in_one_row(loaded.path))
        if not isinstance(loaded.model, Shelf):
            raise AnswerError(f"{shown} is not a gear list. Name a file that begins with riglint: shelf/1.")
        items.update(loaded.model.items)
    return items
