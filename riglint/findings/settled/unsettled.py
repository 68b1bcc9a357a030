"""What a library's own settings keep from being judged: each such file is told of, and none looks as if it passed."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import NamedTuple

from riglint.findings.finding import FileResult, Finding, NotJudged, Where
from riglint.findings.library.auditor import Auditor
from riglint.findings.library.unreadable import unread
from riglint.model.values.sources import OWN
from riglint.read.file_names import MARK
from riglint.read.library import FoundDocuments, real
from riglint.rulekit import Signal
from riglint.rulekit.together import companies

WHY = "Settings that can't be used, or hide every rig, would leave a library that nobody has judged."


class _SaidOfSettings(NamedTuple):
    """What is said of one key of a mark file."""

    key: str
    signal: Signal
    message: str
    do: str


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
        said = _SaidOfSettings("leave_out", Signal.NOTICE, message, "Nothing, if you meant to judge it.")
        _add(root, auditor, said)
    judged = {libraries.root_of(file) for file in found.files}
    for root in _libraries_of(found.passed_over, auditor) - judged:
        message = f"{MARK} leaves out all that was looked at in this library, so none of its rigs is judged."
        do = "Take the path out of `leave_out`, or name the rigs."
        _add(root, auditor, _SaidOfSettings("leave_out", Signal.WARNING, message, do))


def say_other_days(auditor: Auditor) -> None:
    """Say where rigs stand together on a day that their library leaves out: nothing adds them up there."""
    for root, cases in auditor.rigs.items():
        days = auditor.settled.of(root).days
        if not days or auditor.day is not None:
            continue
        told = {frozenset(one.paths) for one in companies(cases, auditor.on, days)}
        for one in companies(cases, auditor.on):
            if len(one.cases) > 1 and not any(frozenset(one.paths) <= company for company in told):
                when = f"on {one.day}" if one.day is not None else "on any day"
                message = f"{len(one.cases)} rigs stand together {when}, and `days` leaves that day out."
                said = _SaidOfSettings("days", Signal.WARNING, message, "Write that day under `days`.")
                _add(root, auditor, said)


def _libraries_of(paths: Iterable[Path], auditor: Auditor) -> set[Path]:
    return {auditor.libraries.root_of(path.parent) for path in paths}


def _add(root: Path, auditor: Auditor, said: _SaidOfSettings) -> None:
    """Add what is said of a library's settings, where its mark file stands."""
    path = auditor.libraries.opened_at(root).shown_link(root / MARK)
    file = root / MARK
    home = auditor.results.setdefault(file, FileResult(path, "library", file=file))
    at = Where(path, 1, 1, said.key)
    home.findings.append(Finding("file/library", said.signal, "fail", said.message, WHY, said.do, at, OWN))
