"""The texts of the files of a large library: the first ones in memory, all others on the disk."""

from __future__ import annotations

from collections.abc import Iterator, MutableMapping
from pathlib import Path

from riglint.findings.let_go.scratch import Scratch, Taken

MOST_TEXTS = 400  # in memory; a library of so many files writes none to the disk


class TextsLetGo(MutableMapping[Path, bytes]):
    """The compressed texts of files, by their whole path."""

    def __init__(self, most: int = MOST_TEXTS) -> None:
        """Begin with none."""
        self.most = most
        self._taken: dict[Path, Taken] = {}
        self._scratch = Scratch()

    def __getitem__(self, file: Path) -> bytes:
        """Return a text, from wherever it is."""
        return self._scratch.get_raw(self._taken[file])

    def __setitem__(self, file: Path, text: bytes) -> None:
        """Put a text away."""
        self._taken[file] = text if len(self._taken) < self.most else self._scratch.put_raw(text)

    def __delitem__(self, file: Path) -> None:
        """Forget a text; the room that it takes on the disk is not used again."""
        del self._taken[file]

    def __contains__(self, file: object) -> bool:
        """Whether there is a text of a file; none is read for it."""
        return file in self._taken

    def __iter__(self) -> Iterator[Path]:
        """Yield each file."""
        return iter(self._taken)

    def __len__(self) -> int:
        """Return how many there are."""
        return len(self._taken)
