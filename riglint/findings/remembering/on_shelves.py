"""What the rules for gear lists said of each list before: as long as list and rigs are the same, they say it again.

Of the rigs that use a list, such rules ask little. Whatever more one of them asks, its list is judged each time.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager

from riglint.findings.library.across_rigs import LibraryRun
from riglint.findings.library.again import FilesAgain, Recent
from riglint.findings.library.as_record import NoRecordError, Records
from riglint.records import dataclass
from riglint.remembered.looks import digest
from riglint.remembered.pieces import Pieces
from riglint.rulekit import Case
from riglint.rulekit.facts import consequence, planned
from riglint.rulekit.library import ShelfInUse

TOLD = (consequence, planned)  # of a rig: all that such rules may ask, and be remembered


@dataclass(frozen=True, slots=True)
class ShelvesBefore:
    """The gear lists of one library as they were judged before."""

    pieces: Pieces
    shelves: FilesAgain
    recent: Recent
    records: Records

    def say_again(self, shelf: ShelfInUse, runs: Sequence[LibraryRun]) -> bool:
        """Let each rule say of a gear list what it said before; whether that is known."""
        known = self.pieces.get(self._key(shelf))
        if known is None:
            return False
        try:
            said = self.records.value(known.encode())
        except (ValueError, TypeError, KeyError):
            return False
        if len(said) != len(runs):
            return False
        for run, found in zip(runs, said, strict=True):
            run.found += found if not run.crashed else []
        return True

    @contextmanager
    def judging(self, shelf: ShelfInUse, runs: Sequence[LibraryRun]) -> Iterator[None]:
        """Keep what the rules say of a gear list in the block, where it rests on nothing more than that is told by."""
        before = [len(run.found) for run in runs]
        self.recent.asked.clear()
        yield
        said = [run.found[number:] for run, number in zip(runs, before, strict=True)]
        if not self.recent.asked <= set(TOLD) or any(run.crashed for run in runs):
            return
        try:
            self.pieces.put(self._key(shelf), self.records.text(said).decode())
        except (NoRecordError, ValueError):
            return

    def _key(self, shelf: ShelfInUse) -> bytes:
        """Return a hash of a gear list and of what is told of the rigs that use it; empty without its text."""
        text = self.shelves.text_of(shelf.number) if shelf.number is not None else None
        if text is None:
            return b""
        users = sorted((name, [_told(case) for case in rigs]) for name, rigs in shelf.used.items())
        told = repr((shelf.path, shelf.library.day, users)).encode("utf-8", "surrogatepass")
        return digest(text, told)


def _told(case: Case) -> tuple[object, ...]:
    return tuple(case.fact(one) for one in TOLD)
