"""The libraries that the audited files belong to, each opened once."""

from __future__ import annotations

from collections.abc import Mapping, MutableMapping, Sequence
from dataclasses import field
from pathlib import Path

from riglint.findings.let_go.texts import TextsLetGo
from riglint.model.library import Library
from riglint.model.what_if import WhatIf
from riglint.read.library import is_folder, library_root, real
from riglint.records import dataclass


@dataclass(slots=True)
class Libraries:
    """The libraries that files belong to, each opened once."""

    paths: Sequence[Path]
    root: Path | None
    texts: Mapping[Path, bytes]
    other_values: tuple[WhatIf, ...] = ()
    most: int | None = None  # files of each that are held as they were understood; None holds all
    start: Path | None = None  # of the paths in reports
    opened: dict[Path, Library] = field(default_factory=dict)
    folders: tuple[Path, ...] = field(init=False)
    _tops: dict[tuple[Path, Path | None], Path] = field(
        default_factory=dict
    )  # of the folders that were asked about
    _roots: dict[Path, Path] = field(default_factory=dict)  # of the files that were asked about

    def __post_init__(self) -> None:
        """Look once which of the paths are folders: a hook may name a thousand files."""
        self.folders = tuple(path for path in self.paths if is_folder(path))

    def root_of(self, file: Path) -> Path:
        """Return where the library of a file begins."""
        if file not in self._roots:
            folders = (path for path in self.folders if file.is_relative_to(path))
            named, own = self.root or next(folders, None), real(file)
            here = own if is_folder(own) else own.parent, named
            if here not in self._tops:  # every file of a folder belongs to one library
                self._tops[here] = library_root(own, named)
            self._roots[file] = self._tops[here]
        return self._roots[file]

    def of(self, file: Path) -> Library:
        """Return the library of a file."""
        return self.opened_at(self.root_of(file))

    def opened_at(self, base: Path) -> Library:
        """Return the library that begins at a folder."""
        if base not in self.opened:
            kept: MutableMapping[Path, bytes] = {} if self.most is None else TextsLetGo()
            self.opened[base] = Library(base, self.other_values, self.start, self.most, kept=kept)
            for path, raw in self.texts.items():
                if path.is_relative_to(base):
                    self.opened[base].take(path, raw)
        return self.opened[base]
