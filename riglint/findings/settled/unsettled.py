"""What a library's own settings keep from being judged: each such file is told of, and none looks as if it passed."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from riglint.findings.finding import FileResult, Finding, NotJudged, Where
from riglint.findings.library.auditor import Auditor
from riglint.findings.library.unreadable import unread
from riglint.model.values.sources import OWN
from riglint.read.file_names import MARK
from riglint.read.library import FoundDocuments, real
from riglint.rulekit import Signal

WHY = "Settings that can't be used, or hide every rig, would leave a library that nobody has judged."


def without_broken(files: list[Path], found: FoundDocuments, auditor: Auditor) -> list[Path]:
    """Return the files that can be judged; add each other one, and what is wrong with its library's settings."""
    kept, libraries = [], auditor.libraries
    for root in {libraries.root_of(one) for one in (*found.left_out, *found.refused, *found.passed_over)}:
        _say_broken(root, auditor)
    for file in files:
        root = libraries.root_of(file)
        if not _say_broken(root, auditor):
            kept.append(file)
        elif real(file) not in auditor.results:
            _not_judged(file, root, auditor)
    return kept


def _say_broken(root: Path, auditor: Auditor) -> bool:
    """Whether the settings of a library cannot be used; add what is wrong with them, once."""
    library = auditor.libraries.opened_at(root)
    broken = auditor.settled.of(root).broken
    for path, problem in broken:
        file = library.file(path)
        home = auditor.results.setdefault(file, FileResult(path, None, judged=False, file=file))
        finding = unread(path, problem)
        if finding not in home.findings:
            home.findings.append(finding)
    return bool(broken)


def _not_judged(file: Path, root: Path, auditor: Auditor) -> None:
    library = auditor.libraries.opened_at(root)
    mark = library.shown_link(root / MARK)
    gap = NotJudged(f"the settings in {mark} cannot be used", len(auditor.book.rules))
    auditor.results[real(file)] = FileResult(
        library.shown(file), None, not_judged=[gap], judged=False, file=real(file)
    )


def say_passed_over(found: FoundDocuments, auditor: Auditor) -> None:
    """Say where a call names what a library leaves out, and where a library leaves out all that it has."""
    libraries = auditor.libraries
    for path, because in found.named_anyway.items():
        root = libraries.root_of(path)
        message = (
            f"{libraries.opened_at(root).shown_link(path)} is judged, since the call names it. {because}."
        )
        _add(root, Signal.NOTICE, message, "Nothing, if you meant to judge it.", auditor)
    judged = {libraries.root_of(file) for file in found.files}
    for root in _libraries_of(found.passed_over, auditor) - judged:
        message = f"{MARK} leaves out all that was looked at in this library, so none of its rigs is judged."
        _add(root, Signal.WARNING, message, "Take the path out of `leave_out`, or name the rigs.", auditor)


def _libraries_of(paths: Iterable[Path], auditor: Auditor) -> set[Path]:
    return {auditor.libraries.root_of(path.parent) for path in paths}


def _add(root: Path, signal: Signal, message: str, do: str, auditor: Auditor) -> None:
    """Add what is said of a library's settings, where its mark file stands."""
    path = auditor.libraries.opened_at(root).shown_link(root / MARK)
    file = root / MARK
    home = auditor.results.setdefault(file, FileResult(path, "library", file=file))
    at = Where(path, 1, 1, "leave_out")
    home.findings.append(Finding("file/library", signal, "fail", message, WHY, do, at, OWN))
