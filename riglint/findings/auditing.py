"""Audits files and folders: every rig with what it refers to, one list of findings a file."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import date
from itertools import groupby
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING

from riglint.findings.crashing import StoppedError, stoppable
from riglint.findings.finding import Audit, LeftOut
from riglint.findings.library.again import TEXT_HELD
from riglint.findings.library.auditor import Auditor
from riglint.findings.library.examined import Examined, examine
from riglint.findings.library.opened import Libraries
from riglint.findings.settled.by_library import Settled
from riglint.findings.settled.knowing import keep_known
from riglint.findings.settled.unsettled import say_other_days, say_passed_over, without_broken
from riglint.loads import Loads
from riglint.loads.assumed import loads_of
from riglint.model.library import Library, load_file
from riglint.model.references import resolve
from riglint.model.what_if import WhatIf
from riglint.policy import DEFAULT, InForce
from riglint.read.library import FoundDocuments, find_documents, library_root, real
from riglint.read.repository.report_paths import paths_start
from riglint.read.resolving import resolving_once
from riglint.rulebook import Rulebook
from riglint.rulekit import Signal
from riglint.settings import LeavingOut

if TYPE_CHECKING:
    from concurrent.futures import Executor

    from riglint.findings.library.remembered_files import RememberedFiles
    from riglint.findings.library.workers import Processes


@resolving_once()
def audit(
    paths: Sequence[Path],
    book: Rulebook,
    on: date,
    *,
    root: Path | None = None,
    force: InForce | None = None,
    sift_named: bool = False,
    texts: Mapping[Path, bytes] = MappingProxyType({}),
    day: date | None = None,
    progress: Callable[[int, int, int], None] | None = None,
    other_values: tuple[WhatIf, ...] = (),
    keep: Callable[[Loads], object] | None = None,
    workers: Executor | Processes | None = None,
    keep_what_is_done: bool = False,
    remedies_from: Signal | None = None,
    remembered: RememberedFiles | None = None,
) -> Audit:
    """Audit files and folders: every rig with what it refers to.

    Args:
        paths: files and folders.
        book: the rules to run.
        on: the day to judge by.
        root: where the library begins, if no mark file says so.
        force: limits, words and values as a policy that the call names leaves them; None takes what each library's
            mark file sets.
        sift_named: leave out files that are not ours even where they are named one by one.
        texts: files by their whole path that are taken from here and not from the disk, as an editor holds them.
        day: the one day on which rigs are looked at together; None looks at every day.
        progress: told after each file how many are done, how many there are, and the findings so far.
        other_values: values that rigs are judged with instead of their own.
        keep: what to keep of each rig's loads, which are then let go and computed again for whoever asks; None holds
            all loads.
        workers: who examines the files; None examines one after the other here. Needs `keep`.
        remedies_from: the lowest word at which remedies are looked for, which takes half the time; None takes WARNING
            where a folder is named, else NOTICE.
        remembered: what is remembered of files that were examined before; None examines every one.
        keep_what_is_done: whether Ctrl-C ends the audit with what is done, instead of throwing it away.
    """
    leaving_out = LeavingOut({real(path): raw for path, raw in texts.items()})
    found = find_documents(
        paths, sift_named=sift_named, root=root, texts=texts, leave_out=leaving_out.because
    )
    libraries = Libraries(paths, root, texts, other_values, None if keep is None else TEXT_HELD)
    libraries.start = paths_start({libraries.root_of(one) for one in _places(found)})
    if remedies_from is None:
        remedies_from = Signal.WARNING if any(one.is_dir() for one in paths) else Signal.NOTICE
    settled = Settled(book, on, libraries, force, keep, remedies_from, remembered)
    auditor = Auditor(book, on, settled, libraries, day, keep)
    auditor.let_go.know(remembered.kinds if remembered is not None else ())
    # Sorted, whatever order they were named in.
    files = without_broken(sorted(found.files, key=real), found, auditor)
    missing: list[Path] = []
    try:
        with stoppable() as go_on:
            for done, one in enumerate(_examined(files, auditor, libraries, workers), 1):
                auditor.take(libraries.of(one.file), one)
                go_on()
                if progress is not None:
                    progress(done, len(files), auditor.findings)
            auditor.audit_libraries()
            auditor.audit_alone()
    except StoppedError:
        missing = [file for file in files if real(file) not in auditor.results]
        if (
            not keep_what_is_done or not missing
        ):  # with no file to name, nothing in the report would tell of it
            raise
        auditor.stop(missing)
    auditor.refuse(found)
    say_passed_over(found, auditor)
    say_other_days(auditor)
    left_out = tuple(
        LeftOut(libraries.of(file.parent).shown_link(file), because)
        for file, because in sorted(found.left_out.items())
    )
    kept = keep_known(auditor)
    results = auditor.sorted_results()
    told = settled.together(kept)
    rules = len(book.rules) - len(told.off)
    return Audit(
        on,
        results,
        left_out,
        _folders_in_words(found, libraries),
        not results,
        rules,
        told,
        book.house,
        not book.broken,
        seal=book.seal,
        day=day,
        differs=book.differs,
        what_if=other_values_in_words(files[0], other_values) if files else (),
        not_looked_at=len(missing),
        remedies_from=remedies_from,
    )


def _examined(
    files: Sequence[Path], auditor: Auditor, libraries: Libraries, workers: Executor | Processes | None
) -> Iterator[Examined]:
    """Yield what each file says, in order."""
    if workers is None or auditor.keep is None or not auditor.book.can_be_sent:
        for file in files:
            library = libraries.of(file)
            yield examine(library, file, auditor.settled.terms(library.root))
        return
    # Not at the top: a call without workers does not pay for them, and a browser has no processes.
    from riglint.findings.library.workers import Processes, parcels, tasks_for  # noqa: PLC0415

    tasks = [
        task
        for root, here in groupby(files, key=libraries.root_of)  # each library has terms of its own
        for task in tasks_for(list(here), auditor.settled.terms(root), libraries)
    ]
    found = workers.parcels(tasks) if isinstance(workers, Processes) else parcels(workers, tasks)
    for parcel in found:
        for root, texts in parcel.texts.items():
            libraries.opened_at(root).know(texts)
        yield from parcel.examined


def _places(found: FoundDocuments) -> Iterator[Path]:
    """Yield each file to read, and once each folder that holds anything else that was seen."""
    yield from found.files
    yield from {file.parent for file in (*found.left_out, *found.refused)}


def _folders_in_words(found: FoundDocuments, libraries: Libraries) -> tuple[LeftOut, ...]:
    return tuple(
        LeftOut(f"{libraries.of(folder.parent).shown_link(folder)}/", because)
        for folder, because in sorted(found.folders.items())
    )


def other_values_in_words(path: Path, other_values: tuple[WhatIf, ...]) -> tuple[str, ...]:
    """Say which values are taken instead of those of a rig file."""
    document = load_file(path, "").document if other_values else None
    return tuple(one.sentence(document) for one in other_values)


def load_rig(
    path: Path,
    on: date,
    root: Path | None,
    force: InForce = DEFAULT,
    other_values: tuple[WhatIf, ...] = (),
    *,
    text: str | None = None,
) -> tuple[Loads | None, list[str]]:
    """Return one rig computed, with `other_values` instead of its own, or sentences that say why it cannot be.

    A `text` is read as if it stood in the file.
    """
    top = library_root(path, root)
    library = Library(top, other_values, start=paths_start([top]))
    loaded = library.load(path) if text is None else library.take(path, text.encode())
    if loaded.kind not in {None, "rig"}:
        return None, [f"{loaded.path} is a {loaded.kind} document; name a rig."]
    rig, problems, broken = resolve(library, path)
    wrong = [(loaded.path, problem) for problem in problems]
    wrong += [(other.path, problem) for other in broken for problem in other.problems]
    if rig is None:
        return None, [one.in_one_row(where) for where, one in wrong]
    return loads_of(rig, force.values, on), []
