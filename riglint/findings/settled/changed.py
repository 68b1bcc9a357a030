"""What a change does to the settings of libraries: a mark file that is new, nearer, other or gone is always told.

Whoever judges a change sees the rigs that it makes green; the settings that do so must not pass unseen beside them.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from riglint.findings.finding import Audit, FileResult, Finding, Where
from riglint.model.values.sources import OWN
from riglint.read.file_names import MARK
from riglint.read.library import is_folder, library_root, real
from riglint.read.repository.foreign_folders import ForeignFolders
from riglint.records import dataclass
from riglint.rulebook import Rulebook
from riglint.rulekit import Signal
from riglint.settings import Settings, settings_of

WHY = "Settings decide how every rig of the library is judged. A rig must not turn green unseen beside them."
DO = "Have a second person read what it sets before it counts for everybody."
DO_IN_HOOK = (
    "Have a second person read `riglint compare HEAD staged`. "
    "Then commit it by itself: `git commit --no-verify`."
)
DO_FIRST = "Have a second person read the mark file. Then commit it by itself: `git commit --no-verify`."


@dataclass(frozen=True, slots=True)
class Changed:
    """What became of the settings of one library, in one sentence."""

    path: str  # of its mark file
    message: str
    at: Path | None = None  # the mark file itself, where it is there
    do: str = DO


@dataclass(frozen=True, slots=True)
class _SettingsThere:
    """The settings that hold at one place, and how many folders above it their mark file stands."""

    settings: Settings
    above: int

    @property
    def mark(self) -> str | None:
        """The hash of the mark file; None without one."""
        return self.settings.mark.sha256 if self.settings.mark is not None else None


def changed_settings(old: Path | None, new: Path, book: Rulebook) -> list[Changed]:
    """Return what differs between the settings of two states of a folder, or of one file.

    Args:
        old: the folder or file before; None where there was nothing.
        new: the same afterwards.
        book: the rules whose limits policies name.
    """
    before = _standing(old, book) if old is not None else {}
    after = _standing(new, book)
    told = []
    for place in sorted(before.keys() | after.keys()):
        message = _change(before.get(place), after.get(place))
        if message is not None:
            now = after.get(place)
            at = now.settings.root / MARK if now is not None and now.mark is not None else None
            told.append(Changed((Path(place) / MARK).as_posix(), message, at))
    return told


def with_changes(audit: Audit, changes: list[Changed]) -> Audit:
    """Return an audit that holds each change of settings as a WARNING, in the mark file that it is about."""
    if not changes:
        return audit
    files = list(audit.files)
    for one in changes:
        where = Where(one.path, 1, 1, "")
        found = Finding("file/library", Signal.WARNING, "fail", one.message, WHY, one.do, where, OWN)
        n = next((n for n, file in enumerate(files) if file.path == one.path), None)
        if n is None:
            files.append(FileResult(one.path, "library", findings=[found], file=one.at))
        else:
            files[n] = replace(files[n], findings=[found, *files[n].findings])
    return replace(audit, files=sorted(files, key=lambda file: file.path), nothing_found=False)


def _standing(base: Path, book: Rulebook) -> dict[str, _SettingsThere]:
    """Return the settings that hold at a file or folder, and those of each library below it, by their place."""
    folder = base if is_folder(base) else base.parent
    found = {"": _at(folder, book)}
    for below in _marked_below(base) if is_folder(base) else ():
        if below != folder:
            found[below.relative_to(folder).as_posix()] = _at(below, book)
    return found


def _at(folder: Path, book: Rulebook) -> _SettingsThere:
    root = library_root(folder, folder)
    above = len(folder.resolve().parts) - len(root.parts)
    return _SettingsThere(
        settings_of(root, book, lambda file: Path(os.path.relpath(file, root)).as_posix()), above
    )


def _marked_below(folder: Path) -> Iterator[Path]:
    """Yield the folders below one that hold a mark file; foreign folders hold none of ours."""
    foreign = ForeignFolders(real(folder))
    for here, folders, files in os.walk(folder):
        whole = real(Path(here))
        folders[:] = sorted(name for name in folders if foreign.because(whole / name) is None)
        if MARK in files:
            yield Path(here)


def _change(old: _SettingsThere | None, new: _SettingsThere | None) -> str | None:
    """Say what a change does to the settings of one place; None where they stay as they were."""
    was = old.mark if old is not None else None
    if new is not None and new.settings.broken:
        path, problem = new.settings.broken[0]
        return f"The mark file can't be used. {problem.in_one_row(path)}"
    if new is None or new.mark is None:
        return "The mark file is gone, and with it all that it set." if was is not None else None
    said = " ".join(new.settings.mark.sets) if new.settings.mark is not None else ""
    sets = f" {said}" if said else " It sets nothing."
    if old is None or was is None:
        return f"The mark file is new here.{sets}"
    if new.above < old.above and new.settings.root != old.settings.root:
        return f"The mark file is nearer than the one that held here before.{sets}"
    if new.mark != was:
        return f"The mark file has changed.{sets}"
    return _named_files(old.settings, new.settings)


def _named_files(old: Settings, new: Settings) -> str | None:
    """Say what changed in the files that an unchanged mark file names."""
    said = []
    if new.force.sha256 != old.force.sha256:
        looser = [one for one in new.force.changes if one.loosens and one not in old.force.changes]
        loosened = "; ".join(
            f"{one.name} from {one.old} to {one.new}, because {one.because}" for one in looser
        )
        said.append(f"The policy {new.force.path} has changed. Loosened now: {loosened or 'nothing'}.")
    taken = [row for row, _ in new.known.rows if row not in [one for one, _ in old.known.rows]]
    if taken:
        said.append(
            f"{new.known.path} takes on {len(taken)} more known {'finding' if len(taken) == 1 else 'findings'}."
        )
    return " ".join(said) or None
