"""What the mark file of a library sets, or everything that keeps it from being used: then nothing is judged there."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from datetime import date
from hashlib import sha256
from pathlib import Path

from riglint.model.documents.library_file import LeaveOutRow, LibraryFile
from riglint.policy import DEFAULT, InForce, Mark, load_policy, policy_from
from riglint.read.document import Document
from riglint.read.file_names import MARK
from riglint.read.library import real
from riglint.read.problems import Problem
from riglint.read.repository.foreign_folders import repository_of
from riglint.records import dataclass
from riglint.rulebook import Rulebook
from riglint.settings.known_file import NOTHING_KNOWN, Known, load_known
from riglint.settings.leaving_out import wrong_rows
from riglint.settings.reading import NO_TEXTS, read_mark, referred, sets_nothing, understood

HASH = 12  # letters of a hash that people compare


@dataclass(frozen=True, slots=True)
class Settings:
    """What one library sets. With anything under `broken`, none of its rigs may be judged."""

    root: Path
    force: InForce = DEFAULT  # with what the mark file sets in words, for reports
    known: Known = NOTHING_KNOWN
    leave_out: tuple[LeaveOutRow, ...] = ()
    days: tuple[date, ...] = ()
    broken: tuple[tuple[str, Problem], ...] = ()  # each with the path of its file

    @property
    def mark(self) -> Mark | None:
        """The mark file that was read; None where the library has none."""
        return self.force.marks[0] if self.force.marks else None

    def with_policy(self, named: InForce | None) -> InForce:
        """Return what rigs are judged by where a call names a policy: the call wins, and the report says so."""
        if named is None:
            return self.force
        if self.mark is None:
            return named
        instead = "The call names a policy, which counts instead of the library's." if self.force.path else ""
        sets = tuple(one for one in self.mark.sets if one not in _policy_sets(self.force))
        mark = replace(self.mark, sets=(*([instead] if instead else []), *sets))
        return replace(named, marks=(mark,), units=self.force.units)


def settings_of(
    root: Path,
    book: Rulebook,
    shown: Callable[[Path], str] = Path.as_posix,
    texts: Mapping[Path, bytes] = NO_TEXTS,
) -> Settings:
    """Return what the library that begins at a folder sets for every audit of it.

    Only the mark file in that very folder is read, never one above it.

    Args:
        root: where the library begins, as `library_root` says.
        book: the rules whose limits a policy names.
        shown: how a file is named to people.
        texts: files by their whole path that are taken from here and not from the disk, as an editor holds them.
    """
    read = read_mark(root, texts)
    if read is None:
        return Settings(root)
    path = shown(root / MARK)
    if read.raw is None:
        return _broken(root, Mark(path, ""), [(path, one) for one in read.problems])
    mark = Mark(path, sha256(read.raw).hexdigest(), tuple(_nearer(root, shown)))
    if sets_nothing(read.raw):
        return Settings(root, replace(DEFAULT, marks=(mark,)))
    document, form, problems = understood(read.raw, path, LibraryFile, "library")
    if document is None or form is None:
        return _broken(root, mark, [(path, one) for one in problems])
    return _MarkReader(root, document, form, book, shown, texts).settings(mark)


@dataclass(slots=True)
class _MarkReader:
    """Reads what a mark file names."""

    root: Path
    document: Document
    form: LibraryFile
    book: Rulebook
    shown: Callable[[Path], str]
    texts: Mapping[Path, bytes]

    def settings(self, mark: Mark) -> Settings:
        """Return the settings, or all that is wrong with them."""
        form = self.form
        force, wrong = self._policy()
        known, more = self._known()
        broken = [(mark.path, one) for one in wrong_rows(self.document, form.leave_out)]
        broken += wrong + more
        if broken:
            return _broken(self.root, mark, broken)
        sets = (*mark.sets, *_policy_sets(force), *self._sets(known))
        force = replace(force, marks=(replace(mark, sets=sets),), units=form.units)
        return Settings(self.root, force, known, tuple(form.leave_out), tuple(form.days))

    def _policy(self) -> tuple[InForce, list[tuple[str, Problem]]]:
        if self.form.policy is None:
            return DEFAULT, []
        file, wrong = self._named("policy", self.form.policy, "policy")
        if wrong:
            return DEFAULT, wrong
        path, held = self.shown(file), self.texts.get(real(file))
        force, problems = (
            policy_from(held, path, self.book) if held is not None else load_policy(file, self.book, path)
        )
        return force or DEFAULT, [(path, one) for one in problems]

    def _known(self) -> tuple[Known, list[tuple[str, Problem]]]:
        if self.form.known is None:
            return NOTHING_KNOWN, []
        file, wrong = self._named("known", self.form.known, "known")
        if wrong:
            return NOTHING_KNOWN, wrong
        path = self.shown(file)
        known, problems = load_known(file, path, self.book, self.texts.get(real(file)))
        return known, [(path, one) for one in problems]

    def _named(self, key: str, written: str, kind: str) -> tuple[Path, list[tuple[str, Problem]]]:
        wrong = referred(self.document, key, written, kind, self.root)
        return self.root / written, [(self.document.path, wrong)] if wrong is not None else []

    def _sets(self, known: Known) -> Iterator[str]:
        for row in self.form.leave_out:
            yield f"It leaves out {row.path}, because {row.because}."
        if known.path is not None:
            yield f"It knows {len(known.rows)} findings ({known.path}, sha256 {known.sha256[:HASH]})."
        if self.form.days:
            days = ", ".join(map(str, sorted(self.form.days)))
            yield f"Lines are added up on these days only: {days}."
        if self.form.units is not None:
            yield f"Units are {self.form.units}."


def _broken(root: Path, mark: Mark, wrong: list[tuple[str, Problem]]) -> Settings:
    """Return settings that nothing may be judged by."""
    return Settings(root, replace(DEFAULT, marks=(mark,)), broken=tuple(wrong))


def _policy_sets(force: InForce) -> tuple[str, ...]:
    """Say which policy a mark file names, and each thing that it loosens."""
    if force.path is None:
        return ()
    tightened = sum(not one.loosens for one in force.changes)
    loosened = [one for one in force.changes if one.loosens]
    named = f"Its policy is {force.title} ({force.path}, sha256 {(force.sha256 or '')[:HASH]})"
    return (
        f"{named}: {tightened} values tightened, {len(loosened)} loosened.",
        *(f"Loosened: {one.name} from {one.old} to {one.new}, because {one.because}." for one in loosened),
    )


def _nearer(root: Path, shown: Callable[[Path], str]) -> Iterator[str]:
    """Say that a library lies inside another one, whose settings do not hold in it."""
    top = repository_of(root)
    for folder in root.parents:
        if top is not None and not folder.is_relative_to(top):
            return
        if (folder / MARK).is_file():
            yield f"This folder is a library of its own: {shown(folder / MARK)} sets nothing here."
            return
