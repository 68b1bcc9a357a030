"""What each library of a run is judged by: its own settings, or the policy that the call names."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import field, replace
from datetime import date
from pathlib import Path

from riglint.findings.library.again import FilesAgain
from riglint.findings.library.examined import Terms
from riglint.findings.library.opened import Libraries
from riglint.findings.library.remembered_files import RememberedFiles
from riglint.findings.remembering.on_shelves import ShelvesBefore
from riglint.loads import Loads
from riglint.policy import DEFAULT, InForce
from riglint.read.library import real
from riglint.records import dataclass
from riglint.rulebook import Rulebook
from riglint.rulekit import Signal
from riglint.settings import Settings, settings_of


@dataclass(slots=True)
class Settled:
    """The settings of each library, read once."""

    book: Rulebook
    on: date
    libraries: Libraries
    named: InForce | None = None  # what the call puts in force everywhere
    keep: Callable[[Loads], object] | None = None
    remedies_from: Signal = Signal.NOTICE
    remembered: RememberedFiles | None = None
    _of: dict[Path, Settings] = field(default_factory=dict)
    _terms: dict[Path, Terms] = field(default_factory=dict)

    def of(self, root: Path) -> Settings:
        """Return the settings of the library that begins at a folder."""
        if root not in self._of:
            library = self.libraries.opened_at(root)
            texts = {real(path): raw for path, raw in self.libraries.texts.items()}
            self._of[root] = settings_of(root, self.book, library.shown_link, texts)
        return self._of[root]

    def force(self, root: Path) -> InForce:
        """Return what the rigs of a library are judged by."""
        return self.of(root).with_policy(self.named)

    def terms(self, root: Path) -> Terms:
        """Return everything that the files of a library are examined with."""
        if root not in self._terms:
            self._terms[root] = Terms(
                self.book, self.on, self.force(root), self.keep, self.remedies_from, self.remembered
            )
        return self._terms[root]

    def on_shelves(self, root: Path, shelves: FilesAgain) -> ShelvesBefore | None:
        """Return the gear lists of a library as they were judged before; None where nothing is remembered."""
        if self.remembered is None or self.keep is None:
            return None
        return self.remembered.on_shelves(self.terms(root), shelves)

    def together(self, kept: Mapping[Path, int]) -> InForce:
        """Return what a report says of all that is in force; rigs are judged by what their own library has.

        Args:
            kept: how many known findings each library keeps.
        """
        forces = [
            _with_count(self.force(root), kept.get(root))
            for root, one in sorted(self._of.items())
            if not one.broken
        ]
        return _together(forces) if forces else DEFAULT if self.named is None else self.named


def _with_count(force: InForce, kept: int | None) -> InForce:
    """Return what is in force, with how many known findings it keeps among what the mark file sets."""
    if kept is None:
        return force
    (mark,) = force.marks
    said = f"{kept} known findings are kept out of the exit status; each stands below."
    return replace(force, marks=(replace(mark, sets=(*mark.sets, said)),))


def _together(forces: Iterable[InForce]) -> InForce:
    """Return one record of several libraries: every change of each, and whatever one of them lacks."""
    first, *others = forces
    marks = tuple(mark for one in (first, *others) for mark in one.marks)
    if all(replace(one, marks=()) == replace(first, marks=()) for one in others):
        return replace(first, marks=marks)
    every = [first, *others]
    named = [one for one in every if one.path is not None]
    return replace(
        first,
        off=frozenset().union(*(one.off for one in every)),
        recalled=frozenset().union(*(one.recalled for one in every)),
        changes=tuple(dict.fromkeys(change for one in every for change in one.changes)),
        title=" and ".join(dict.fromkeys(one.title for one in every)),
        path=", ".join(dict.fromkeys(one.path or "" for one in named)),
        sha256=", ".join(dict.fromkeys(one.sha256 or "" for one in named)),
        emptied=tuple(dict.fromkeys(name for one in every for name in one.emptied)),
        none_left=any(one.none_left for one in every),
        marks=marks,
        units=None,
    )
