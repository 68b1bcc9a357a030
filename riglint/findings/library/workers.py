"""Files examined by several workers: threads, processes, or those of a cluster.

Whatever becomes of a worker, each file ends as a record or as a finding that it was not judged.
"""

from __future__ import annotations

import faulthandler
import os
import signal
import sys
import threading
from collections.abc import Callable, Iterator, Mapping, Sequence
from concurrent.futures import BrokenExecutor, Executor, Future, ProcessPoolExecutor
from contextlib import contextmanager, suppress
from dataclasses import replace
from datetime import date
from functools import cache
from multiprocessing import active_children, get_all_start_methods, get_context
from multiprocessing.process import BaseProcess
from pathlib import Path
from types import FrameType

from riglint.findings.crashing import StoppedError, stumbled
from riglint.findings.library.again import TEXT_HELD
from riglint.findings.library.examined import Examined, Parcel, Terms, examine
from riglint.findings.library.opened import Libraries
from riglint.loads import Loads
from riglint.model.what_if import WhatIf
from riglint.policy import InForce
from riglint.records import dataclass
from riglint.rulebook import Rulebook, RuleSet, RuleSetError, load_rulebook
from riglint.rulekit import Signal

CHUNKS = 8, 50  # least and most files that are sent at a time: each gear list among them is then read once
EACH = 8  # tasks at least, where there are files enough, so that no worker waits long for another
ENOUGH_S = 60.0  # for one rig, some hundred times what the slowest takes; a rule that goes on is stopped
LAST_S = 90.0  # for a rule that does not let itself be stopped: its process ends
MEMORY = 4 << 30  # bytes that a worker may ask for


class TakesTooLongError(BaseException):
    """A rule did not come to its end in the time that a rig may take."""


class WorkerLostError(Exception):
    """The process that looked at a file ended before it was done."""


@dataclass(frozen=True, slots=True)
class Task:
    """Some files, and all that a worker needs to examine them."""

    files: tuple[Path, ...]
    sets: tuple[RuleSet, ...]
    seal: str
    on: date
    force: InForce
    keep: Callable[[Loads], object]
    paths: tuple[Path, ...]  # as they were named
    root: Path | None
    start: Path | None
    texts: Mapping[Path, bytes]
    other_values: tuple[WhatIf, ...]
    remedies_from: Signal
    ours: bool = False  # whether the worker is a process that we started, and may end


def tasks_for(files: Sequence[Path], terms: Terms, libraries: Libraries) -> list[Task]:
    """Return the tasks for files, in their order."""
    assert terms.keep is not None  # noqa: S101 - loads are not sent about
    _books[terms.book.seal] = terms.book
    whole = Task(
        (),
        terms.book.sets,
        terms.book.seal,
        terms.on,
        terms.force,
        terms.keep,
        tuple(libraries.paths),
        libraries.root,
        libraries.start,
        dict(libraries.texts),
        libraries.other_values,
        terms.remedies_from,
    )
    size = min(max(len(files) // EACH, CHUNKS[0]), CHUNKS[1])
    return [replace(whole, files=tuple(files[n : n + size])) for n in range(0, len(files), size)]


# In the worker

_books: dict[str, Rulebook] = {}  # by their seals


def examine_all(task: Task) -> Parcel:
    """Examine the files of a task.

    Raises:
        RuleSetError: the worker's rules are not those of the call.
    """
    book = _books.get(task.seal)
    if book is None:
        book = _books[task.seal] = _same_book(task)
    terms = Terms(book, task.on, task.force, task.keep, remedies_from=task.remedies_from)
    libraries = Libraries(task.paths, task.root, task.texts, task.other_values, TEXT_HELD, task.start)
    parcel = Parcel([])
    for file in task.files:
        library = libraries.of(file)
        with _in_time(ours=task.ours):
            found = examine(library, file, terms)
        if found.rig is not None:
            found.rig = replace(found.rig, loads=None)
        parcel.examined.append(found)
    parcel.texts = {root: library.texts() for root, library in libraries.opened.items()}
    return parcel


def _same_book(task: Task) -> Rulebook:
    book = load_rulebook(*task.sets)
    if book.seal != task.seal:
        raise RuleSetError("The rules of a worker are not those of the call. Install the same riglint there.")
    return book


@contextmanager
def _in_time(*, ours: bool) -> Iterator[None]:
    """Stop what takes too long in the block; a process of ours is ended where that is not enough."""
    timed = ours and hasattr(signal, "setitimer") and threading.current_thread() is threading.main_thread()
    if ours:
        faulthandler.dump_traceback_later(LAST_S, exit=True, file=_nowhere())
    if timed:
        signal.signal(signal.SIGALRM, _too_long)
        signal.setitimer(signal.ITIMER_REAL, ENOUGH_S, 1.0)
    try:
        yield
    finally:
        if timed:
            signal.setitimer(signal.ITIMER_REAL, 0.0)
        if ours:
            faulthandler.cancel_dump_traceback_later()


def _too_long(_number: int, _frame: FrameType | None) -> None:
    raise TakesTooLongError(f"it takes more than {ENOUGH_S:g} s")


@cache
def _nowhere() -> int:
    return os.open(os.devnull, os.O_WRONLY)


def _begin() -> None:
    """Set a process of ours up: Ctrl-C is for whoever started it, and memory has an end."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    with suppress(ImportError, OSError, ValueError):
        import resource  # noqa: PLC0415 - not on every system

        resource.setrlimit(resource.RLIMIT_AS, (MEMORY, resource.getrlimit(resource.RLIMIT_AS)[1]))


# With whoever calls


class Processes:
    """Processes of this computer that examine files; new ones take the place of those that a rule has ended."""

    def __init__(self, jobs: int) -> None:
        self.jobs = jobs
        self._others = set(active_children())

    def parcels(self, tasks: Sequence[Task]) -> Iterator[Parcel]:
        """Yield what the files of each task say, in order."""
        left = [replace(task, ours=True) for task in tasks]
        while left:
            done = 0
            try:
                for parcel in self._while_whole(left):
                    done += 1
                    yield parcel
            except BrokenExecutor:
                yield self._one_by_one(left[done])
                done += 1
            left = left[done:]

    def _while_whole(self, tasks: Sequence[Task]) -> Iterator[Parcel]:
        with self._pool(min(self.jobs, len(tasks))) as pool:
            try:
                yield from _in_order(tasks, _futures(pool, tasks))
            except BaseException:
                # Only the pool may cancel them: once its workers end, it stumbles over those that others have.
                pool.shutdown(wait=False, cancel_futures=True)
                for one in self._own():
                    one.kill()
                raise

    def _one_by_one(self, task: Task) -> Parcel:
        """Examine each file in a process of its own, so that one that ends takes no other with it."""
        whole = Parcel([])
        for file in task.files:
            try:
                with self._pool(1) as pool:
                    parcel = pool.submit(examine_all, replace(task, files=(file,))).result()
            except BrokenExecutor:
                error = WorkerLostError("the process that calculated it ended before it was done")
                whole.examined.append(Examined(file, failed=stumbled(_shown(task, file), error)))
                continue
            whole.examined += parcel.examined
            for root, texts in parcel.texts.items():
                whole.texts.setdefault(root, {}).update(texts)
        return whole

    def _pool(self, jobs: int) -> ProcessPoolExecutor:
        # A fork has the rules loaded already; it is not made beside threads, whose locks it would inherit.
        alone = (
            threading.active_count() == 1 and sys.platform == "linux" and "fork" in get_all_start_methods()
        )
        context = get_context("fork" if alone else "spawn")
        return ProcessPoolExecutor(jobs, mp_context=context, initializer=_begin)

    def _own(self) -> set[BaseProcess]:
        return set(active_children()) - self._others


def parcels(executor: Executor, tasks: Sequence[Task]) -> Iterator[Parcel]:
    """Yield what the files of each task say, in order, as an executor has examined them.

    Raises:
        BrokenExecutor: a worker has ended before it was done.
    """
    futures = _futures(executor, tasks)
    try:
        yield from _in_order(tasks, futures)
    finally:
        for future in futures:
            future.cancel()


def _futures(executor: Executor, tasks: Sequence[Task]) -> list[Future[Parcel]]:
    return [executor.submit(examine_all, task) for task in tasks]


def _in_order(tasks: Sequence[Task], futures: Sequence[Future[Parcel]]) -> Iterator[Parcel]:
    for task, future in zip(tasks, futures, strict=True):
        try:
            yield future.result()
        except (BrokenExecutor, StoppedError, KeyboardInterrupt, GeneratorExit):
            raise
        except BaseException as error:  # noqa: BLE001 - whatever it is, each file must be told of
            yield Parcel([Examined(one, failed=stumbled(_shown(task, one), error)) for one in task.files])


def _shown(task: Task, file: Path) -> str:
    libraries = Libraries(task.paths, task.root, task.texts, task.other_values, TEXT_HELD, task.start)
    return libraries.of(file).shown(file)
