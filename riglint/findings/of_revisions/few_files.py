"""Which few files of a revision an audit of single files and of the rigs around them looks at.

A commit changes few files of a library. What each other file refers to is remembered by the name of the object that
holds it, so that only what is judged has to be taken out of the repository.
"""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import field
from pathlib import Path
from typing import Any

from riglint.findings.library.referring import is_there, refers_to
from riglint.findings.library.remembered_files import program
from riglint.read.decoding import MAX_BYTES
from riglint.read.file_names import MARK, YAML
from riglint.read.library import is_folder, library_root, real
from riglint.read.looks import look
from riglint.read.repository.git_objects import LINK, Entry, GitError, contents
from riglint.read.repository.revisions import NoSideError, TakenOut
from riglint.read.yaml_text import read_yaml
from riglint.records import dataclass
from riglint.remembered import store, watching
from riglint.remembered.looks import digest
from riglint.remembered.records import Answer, packed, unpacked
from riglint.remembered.watching import aside
from riglint.settings import LeavingOut
from riglint.settings.reading import sets_nothing

OF_A_LIBRARY = b".refers"  # at the end of the name of a record
Refers = list[str] | None  # what a file of ours refers to; None where there is no telling


@dataclass(slots=True)
class FewFiles:
    """The files of one revision, and what each of them refers to."""

    content: TakenOut
    refers: dict[str, Refers]  # of the files of ours, by the object that holds each
    at: dict[str, Entry] = field(init=False)  # by their whole path, taken out

    def __post_init__(self) -> None:
        """Know each file by its path."""
        root = self.content.root.as_posix()
        self.at = {f"{root}/{one.path}": one for one in self.content.entries}

    def with_referring_rigs(self, paths: Sequence[Path], root: Path | None) -> list[Path]:
        """Return the same as where every file is taken out: what is named, and the rigs that need another look.

        They are put there, with what they refer to.
        """
        changed = {path.as_posix() for path in paths}
        found = {path.as_posix(): path for path in paths if path.as_posix() in self.at}
        for library in {library_root(path, root): None for path in paths or [self.content.here]}:
            for file in self._ours_below(library):
                if file not in found and self._concerned(file, changed):
                    found[file] = Path(file)
        self.content.put(self._looked_at(found.values()))
        return list(found.values())

    def _looked_at(self, files: Iterable[Path]) -> list[Entry]:
        """Return some files, and what they refer to."""
        wanted = set()
        for file in map(Path.as_posix, files):
            wanted.add(file)
            for written in self.refers.get(self.at[file].name) or () if file in self.at else ():
                wanted.add(_beside(file, written))
        return [self.at[one] for one in sorted(wanted) if one in self.at]

    def begin(self, paths: Sequence[Path], more: Sequence[Path]) -> None:
        """Put the marks of libraries there, what their settings name, the named files, and what these refer to."""
        marks = [one for one in self.content.entries if one.path.name == MARK]
        self.content.put([*marks, *self._looked_at([*paths, *more])])
        for mark in marks:
            waiting = [mark] if self.refers.get(_key(mark), []) is None else []
            while waiting:
                new = self._named_in(self.content.root / waiting.pop().path, self.content.root / mark.path)
                waiting += self.content.put(new)

    def _named_in(self, file: Path, mark: Path) -> list[Entry]:
        """Return the files whose paths stand in a file, as seen from a mark file."""
        texts = {_beside(mark.as_posix(), text) for text in _texts_in(file)}
        return [self.at[one] for one in sorted(texts) if one in self.at]

    def _ours_below(self, library: Path) -> Iterator[str]:
        """Yield the files of ours in a library: not in hidden folders, and not in those that it leaves out."""
        sieve, begin = self._sieve(), library.as_posix()
        looked_into = {begin: True}

        def goes_into(folder: str) -> bool:
            if folder not in looked_into:
                around, _, name = folder.rpartition("/")
                looked_into[folder] = goes_into(around) and not name.startswith(".") and not sieve(folder)
            return looked_into[folder]

        for file, one in self.at.items():
            ours = one.name in self.refers and file.startswith(f"{begin}/") and file.lower().endswith(YAML)
            if ours and goes_into(file.rpartition("/")[0]) and not sieve(file):
                yield file

    def _sieve(self) -> Callable[[str], bool]:
        """Return whether libraries leave out a file or folder: their marks are all that it rests on."""
        marks = [one for one in self.content.entries if one.path.name == MARK]
        if all(self.refers.get(_key(one), []) == [] for one in marks):
            return lambda _path: False
        leaving_out = LeavingOut()

        def leaves_out(path: str) -> bool:
            with aside():
                return leaving_out.because(Path(path)) is not None

        return leaves_out

    def _concerned(self, file: str, changed: set[str]) -> bool:
        """Whether a rig refers to a changed file, or to one that is gone; also where there is no telling."""
        refers = self.refers[self.at[file].name]
        if refers is None:
            return True
        for written in refers:
            whole = _beside(file, written)
            if whole in changed:
                return True
            if whole not in self.at:
                one = real(Path(file).parent / written)
                if one.as_posix() in changed or not is_there(one):
                    return True
        return False


def few_files(content: TakenOut, paths: Sequence[Path]) -> FewFiles | None:
    """Return the files of a revision and what they refer to; None where all have to be taken out to tell.

    So it is with links, with folders that are named, and where names that differ may mean one file.

    Raises:
        NoSideError: git cannot give them.
    """
    watch = watching.current
    linked = any(one.mode == LINK for one in content.entries)
    inside = all(path.is_relative_to(content.root) and not is_folder(path) for path in paths)
    if watch is None or watch.spoilt or linked or not inside or sys.platform != "linux":
        return None
    name = digest(program(watch), os.fsencode(content.top)) + OF_A_LIBRARY if program(watch) else b""
    with watch:
        known = _recalled(name) if name else {}
        refers = _looked_up(content, known)
        if name and refers != known:
            text = json.dumps(refers).encode()
            store.keep(name, packed(name, Answer(0, [(1, text)], {(b"git", b""): b""})))
    return FewFiles(content, {one: found[0] for one, found in refers.items() if found})


Known = dict[
    str, list[Refers]
]  # by the object that holds a file; nothing is listed of a file that is not ours


def _recalled(name: bytes) -> Known:
    raw = store.fetch(name)
    answer = unpacked(name, raw) if raw is not None else None
    known: Known = json.loads(answer.chunks[0][1]) if answer is not None else {}
    return known


def _looked_up(content: TakenOut, known: Known) -> Known:
    """Return what each file that is there refers to: as it is known, or as it is read now."""
    read = [one for one in content.entries if one.path.name == MARK or one.path.name.lower().endswith(YAML)]
    new = [one for one in read if _key(one) not in known]
    try:
        found = {_key(one): _refers(one, raw) for one, raw in contents(content.top, new)}
    except GitError as error:
        raise NoSideError(str(error)) from error
    return {key: found[key] if key in found else known[key] for key in map(_key, read)}


def _key(one: Entry) -> str:
    """Return what a file is known by: a mark and a YAML file may hold the same."""
    return f"{MARK} {one.name}" if one.path.name == MARK else one.name


def _refers(one: Entry, raw: bytes) -> list[Refers]:
    if one.path.name == MARK:
        return [] if sets_nothing(raw) else [None]
    if look(raw[:MAX_BYTES]).verdict != "yes":
        return []
    try:
        return [list(refers_to(raw, ""))]
    except Exception:  # noqa: BLE001 - the audit of that file will say what it stumbles over
        return [None]


def _beside(file: str, written: str) -> str:
    """Return a path that stands in a file, as a whole one; empty for one that no file can have."""
    return (
        ""
        if "\0" in written
        else os.path.normpath(written if written.startswith("/") else f"{file.rpartition('/')[0]}/{written}")
    )


def _texts_in(file: Path) -> Iterator[str]:
    """Yield every text of a YAML file; nothing of one that cannot be read."""
    document = read_yaml(file.read_bytes(), "")[0]
    waiting: list[Any] = [document.data] if document is not None else []
    while waiting:
        one = waiting.pop()
        if isinstance(one, str):
            yield one
        else:
            waiting += one.values() if isinstance(one, dict) else one if isinstance(one, list) else ()
