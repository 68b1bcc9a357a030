"""Takes known findings out of the exit status, each by itself, and tells which is worse, gone or has run out."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import field, replace
from pathlib import Path

from riglint.findings.accepting import LONGEST, is_bearable
from riglint.findings.finding import FileResult, Finding, Where
from riglint.findings.identity import FaultFigures, Identity, identity, is_worse, measured, part_names
from riglint.findings.library.auditor import Auditor
from riglint.model.documents.known_file import KnownRow
from riglint.model.library import Library
from riglint.model.values.sources import OWN
from riglint.read.problems import Place
from riglint.records import dataclass
from riglint.rulekit import Signal
from riglint.settings.known_file import Known

WHY = "A known finding is kept only as it was when somebody took it on, and only until its day."


def keep_known(auditor: Auditor) -> dict[Path, int]:
    """Mark the findings that each library knows; return how many it kept, by where the library begins.

    Whatever is worse than its entry says, or whose entry has run out, counts as if it were not known. A DANGER, an
    open question and a crash always count.
    """
    kept: dict[Path, int] = {}
    by_root: dict[Path, list[tuple[Path, FileResult]]] = {}
    for root, library in list(auditor.libraries.opened.items()):
        known = auditor.settled.of(root).known
        if known.path is not None:
            by_root = by_root or _by_root(auditor)
            keeping = _Keeping(auditor, library, known, by_root.get(root, []))
            keeping.keep()
            kept[root] = keeping.kept
    return kept


def _by_root(auditor: Auditor) -> dict[Path, list[tuple[Path, FileResult]]]:
    """Return the results by where their library begins."""
    found: dict[Path, list[tuple[Path, FileResult]]] = {}
    for file, result in auditor.results.items():
        root = auditor.libraries.root_of(file)
        if file.is_relative_to(root):
            found.setdefault(root, []).append((file, result))
    return found


def may_be_known(finding: Finding, book_rules: frozenset[str]) -> bool:
    """Whether a finding can be known: one of a rule, and one that somebody may answer for."""
    return finding.counts and finding.rule in book_rules and is_bearable(finding) and not finding.crashed


def found_in(result: FileResult, file: str) -> Iterator[tuple[int, Identity]]:
    """Yield what each finding of a file is known by, with its number; the file as seen from the top of its library."""
    names = part_names(result.computed)
    for n, one in enumerate(result.findings):
        yield n, identity(one, file, names)


def rigs_from(top: Path, finding: Finding, file_of: Callable[[str], Path]) -> tuple[str, ...]:
    """Return the rigs that a fault of a shared file touches, from the top of the library on."""
    return tuple(sorted(from_top(top, file_of(one)) for one in finding.rigs))


def from_top(top: Path, file: Path) -> str:
    """Return the path of a file from the top of its library on: the same from wherever it is audited."""
    return (file.relative_to(top) if file.is_relative_to(top) else file).as_posix()


@dataclass(slots=True)
class _Keeping:
    """The known findings of one library, laid beside what was found."""

    auditor: Auditor
    library: Library
    known: Known
    results: list[tuple[Path, FileResult]]
    kept: int = 0
    left: dict[Identity, list[tuple[KnownRow, Place]]] = field(default_factory=dict)

    def keep(self) -> None:
        """Mark what is known, and tell of every entry that keeps nothing."""
        for row, place in self.known.rows:
            self.left.setdefault(_identity_of(row), []).append((row, place))
        files = {row.file for row, _ in self.known.rows}
        seen = set()
        for whole, result in self.results:
            file = from_top(self.library.root, whole)
            seen.add(file)
            if file in files:
                self._keep_in(result, file)
        for rows in self.left.values():
            for row, place in rows:
                self._gone(row, place, audited=row.file in seen)

    def _keep_in(self, result: FileResult, file: str) -> None:
        rules = frozenset(self.auditor.book.rules)
        found = [(n, name) for n, name in found_in(result, file) if name in self.left]
        # The gravest first, so that a milder one never takes its entry.
        found.sort(key=lambda one: -result.findings[one[0]].signal)
        for n, name in found:
            finding = result.findings[n]
            if not may_be_known(finding, rules) or not self.left[name]:
                continue
            row, place = self.left[name].pop(0)
            problem = self._problem(row, finding)
            if problem is None:
                result.findings[n] = replace(finding, accepted=row)
                self.kept += 1
            else:
                self._say(place, Signal.WARNING, *problem)

    def _problem(self, row: KnownRow, finding: Finding) -> tuple[str, str] | None:
        """Say why an entry does not keep the finding that it means; None where it does."""
        what, on = _called(row), self.auditor.on
        if row.since > on:
            return f"{what} is taken on only on {row.since}, which is still to come.", "Correct the date."
        if row.until < on:
            return (
                f"{what} ran out on {row.until}.",
                "Correct the fault, or look at it again and take it on anew.",
            )
        if row.until - on > LONGEST:
            last = on + LONGEST
            return (
                f"{what} is kept until {row.until}. Nobody can answer for more than a year.",
                f"Write {last} at the latest under `until`, and look again then.",
            )
        then = FaultFigures(Signal[row.word], row.value, row.limit)
        more = sorted(set(rigs_from(self.library.root, finding, self.library.file)) - set(row.rigs))
        if is_worse(measured(finding), then):
            return (
                f"{what} is worse than when it was taken on.",
                "Correct it. Somebody has to look at it again.",
            )
        if more:
            return f"{what} touches a rig more than when it was taken on: {', '.join(more)}.", "Correct it."
        return None

    def _gone(self, row: KnownRow, place: Place, *, audited: bool) -> None:
        """Tell that an entry has nothing to keep any more, where that can be told."""
        if not audited and (self.library.root / row.file).exists():
            return
        self._say(place, Signal.NOTICE, f"{_called(row)} is gone.", "Take the entry out.")

    def _say(self, place: Place, signal: Signal, message: str, do: str) -> None:
        path = self.known.path or ""
        file = self.library.file(path)
        home = self.auditor.results.setdefault(file, FileResult(path, "known", file=file))
        at = Where(path, place.line, place.column, "known")
        home.findings.append(Finding("file/known", signal, "fail", message, WHY, do, at, OWN))


def _identity_of(row: KnownRow) -> Identity:
    return Identity(row.rule, row.kind, row.file, row.place or "", row.part or "", row.cause)


def _called(row: KnownRow) -> str:
    of = f" of {row.part}" if row.part else ""
    return f"The known finding {row.rule}{of} in {row.file}"
