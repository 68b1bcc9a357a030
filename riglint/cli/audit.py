"""`riglint audit`: judges rig files and folders."""

from __future__ import annotations

import argparse
import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from riglint.cli.audit_forms import audit_report
from riglint.cli.call.arguments import refuse_options_among
from riglint.cli.call.content import OnDisk, content_of, take_revision
from riglint.cli.call.options import (
    SIGNALS,
    day_of,
    named_policy,
    rules_of,
    settle_units,
    take_day_and_library,
    take_forms,
    take_stop_at,
    take_units,
    today,
    whole_number,
)
from riglint.cli.call.other_values import other_values, take_other_values
from riglint.cli.call.output import deliver
from riglint.cli.call.progress import progress_on
from riglint.cli.call.stopping import CALL_WRONG, NOT_DONE, StopError, complain, refusal
from riglint.read.decoding import MAX_BYTES

if TYPE_CHECKING:
    from riglint.findings import Audit
    from riglint.findings.library.workers import Processes
    from riglint.findings.of_revisions.few_files import FewFiles
    from riglint.model.what_if import WhatIf
    from riglint.read.repository.revisions import TakenOut
    from riglint.rulebook import Rulebook

MOST_JOBS = 256
STANDARD_INPUT = Path("-")


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    audit = commands.add_parser(
        "audit", help="audit rig files and folders", description="Audit rig files and folders."
    )
    audit.add_argument("paths", nargs="*", type=Path, metavar="PATH", help="files or folders")
    take_stop_at(audit, "that gives exit status 1")
    audit.add_argument("--brief", action="store_true", help="the answer for each rig, and no more (text)")
    audit.add_argument(
        "--all", action="store_true", help="every field to fill in and every check on site (text)"
    )
    audit.add_argument(
        "-q",
        "--quiet",
        action="store_true",
        help="print no report; one sentence where something stops the rig",
    )
    audit.add_argument(
        "--as",
        dest="taken_as",
        type=Path,
        default=None,
        metavar="PATH",
        help="with - as the only PATH: judge standard input as if it stood in this file",
    )
    audit.add_argument(
        "--jobs",
        type=_jobs,
        default=None,
        metavar="N",
        help="judge so many files at a time, each in a process of its own; auto: one for each processor",
    )
    audit.add_argument("--if-any", action="store_true", help="don't fail if there is nothing to audit")
    take_day_and_library(audit)
    take_revision(audit)
    take_other_values(audit)
    audit.add_argument(
        "--day",
        type=day_of,
        default=None,
        metavar="DATE",
        help="look at the lines that stand together on this day only; else at those of every day",
    )
    audit.add_argument(
        "--with-rigs",
        action="store_true",
        help="also audit the rigs of the library that use a named spot or gear list, or a file that is gone",
    )
    audit.add_argument(
        "--leave-out",
        choices=("accepted",),
        default=None,
        help="leave accepted findings out of every form of the report, for hosts that would count them",
    )
    audit.add_argument(
        "--remedies-from",
        choices=SIGNALS,
        type=str.upper,
        default=None,
        help="search for remedies from this signal word up; without it from WARNING for folders, else for all",
    )
    take_units(audit)
    take_forms(
        audit,
        "text",
        "json",
        "sarif",
        "junit",
        "markdown",
        "html",
        "lines",
        "github",
        "gitlab",
        "sarif-hosts",
    )
    audit.set_defaults(run=_run)


def _run(call: argparse.Namespace) -> int:
    from riglint.rulekit import Signal  # noqa: PLC0415 - only the commands that need it pay for it

    if not call.paths and not call.if_any and not call.with_rigs:
        message = "Name the rig files or folders to audit, such as: riglint audit rigs/"
        raise StopError(message, CALL_WRONG)
    refuse_options_among(call.paths)
    book = rules_of(call)
    with content_of(call) as content:
        result = _result(call, book, content)
        nothing = call.if_any and result.nothing_found
        shown = result.without_accepted() if call.leave_out else result
        settle_units(call, result.force)
        # A file that was asked for is written all the same: what stood there before is about other rigs.
        deliver(
            call,
            lambda form, width: audit_report(call, shown, book, form, width, here=content.here),
            printed=not (nothing or call.quiet),
        )
    status = 0 if nothing else result.status(Signal[call.stop_at])
    if result.not_looked_at:
        complain(
            f"Stopped before it was done: {result.not_looked_at} of {result.seen} files were not looked at."
        )
    if call.quiet and status:
        from riglint.views.audit.verdict import verdict_of_all, verdicts  # noqa: PLC0415

        verdict = verdict_of_all(result, verdicts(result))
        complain(f"{verdict.word}: {verdict.sentence}")
    return status


def _result(call: argparse.Namespace, book: Rulebook, content: OnDisk | TakenOut) -> Audit:
    """Return what an audit found: of a revision by a few of its files, where nothing else is looked at."""
    if isinstance(content, OnDisk):
        return _audited(call, book, content)
    few = _few(call, content)
    if few is not None:
        try:
            result = _with_staged_settings(call, book, content, _audited(call, book, content, few))
        except Exception:  # it may come of what is not there
            if content.was_enough():
                raise
        else:
            if content.was_enough():
                return result
    content.put_all()
    return _with_staged_settings(call, book, content, _audited(call, book, content))


def _few(call: argparse.Namespace, content: TakenOut) -> FewFiles | None:
    """Return which few files of a revision a call may need; None where all of them may be."""
    from riglint.findings.of_revisions.few_files import few_files  # noqa: PLC0415 - only a hook pays for it

    return few_files(content, [content.path(one) for one in call.paths])


def _with_staged_settings(
    call: argparse.Namespace, book: Rulebook, content: TakenOut, result: Audit
) -> Audit:
    """Return an audit of what is staged with what that does to the settings of libraries."""
    if call.revision != "staged":
        return result
    from riglint.cli.call.staged_settings import staged_changes  # noqa: PLC0415 - only a hook pays for it
    from riglint.findings.settled.changed import with_changes  # noqa: PLC0415

    return with_changes(result, staged_changes(content, call.policy, book))


def _audited(
    call: argparse.Namespace, book: Rulebook, content: OnDisk | TakenOut, few: FewFiles | None = None
) -> Audit:
    from riglint.findings import audit  # noqa: PLC0415 - only the commands that need it pay for it
    from riglint.findings.library.remembered_files import RememberedFiles  # noqa: PLC0415
    from riglint.rulekit import Signal  # noqa: PLC0415
    from riglint.views.audit.summary import Summary, summary_of_rig  # noqa: PLC0415

    paths, texts = _paths_and_texts(call)
    root = content.path(call.root) if call.root else None
    paths = [content.path(one) for one in paths]
    if few is not None:
        few.begin(paths, [content.path(call.policy)] if call.policy else [])
        paths = few.with_referring_rigs(paths, root) if call.with_rigs else paths
    elif call.with_rigs:
        from riglint.findings.library.referring import with_referring_rigs  # noqa: PLC0415

        paths = with_referring_rigs(paths, root, content.here)
    force = named_policy(call, book, content.path)
    values = _other_values(call)
    with progress_on(sys.stderr) as progress:
        return audit(
            paths,
            book,
            today(call),
            root=root,
            force=force,
            sift_named=call.if_any,
            day=call.day,
            progress=progress,
            other_values=values,
            keep=summary_of_rig,
            workers=_workers(call, book),
            keep_what_is_done=True,
            remedies_from=Signal[call.remedies_from] if call.remedies_from else None,
            remembered=RememberedFiles(
                (Summary,), None if isinstance(content, OnDisk) else content.root.parent
            ),
            texts=texts,
        )


def _jobs(text: str) -> int:
    """Return how many files are judged at a time; errors as argparse takes them."""
    if text == "auto":
        return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
    jobs = whole_number(text, 1, MOST_JOBS)
    if jobs is not None:
        return jobs
    raise argparse.ArgumentTypeError(f"'{text}' is no number of jobs. Write auto, or 1 to {MOST_JOBS}")


def _workers(call: argparse.Namespace, book: Rulebook) -> Processes | None:
    """Return who judges: rules of somebody else's always in a process that may end without ending the audit."""
    jobs = call.jobs or (1 if book.sets else 0)
    if not jobs:
        return None
    from riglint.findings.library.workers import Processes  # noqa: PLC0415 - only a call with workers pays for it

    return Processes(jobs)


def _paths_and_texts(call: argparse.Namespace) -> tuple[list[Path], dict[Path, bytes]]:
    """Return what to audit, and the text of a file that comes in on standard input.

    Raises:
        StopError: `-` and `--as` do not go together as they should.
    """
    if STANDARD_INPUT not in call.paths:
        if call.taken_as is not None:
            raise StopError(
                "--as says where standard input belongs. Write - as the only PATH with it.", CALL_WRONG
            )
        return call.paths, {}
    if len(call.paths) > 1 or call.taken_as is None or call.with_rigs or call.revision:
        message = (
            "To judge standard input, write - as the only PATH and say where the text belongs, "
            "such as: riglint audit - --as rigs/low-line.yaml"
        )
        raise StopError(message, CALL_WRONG)
    from riglint.read.library import is_folder, real  # noqa: PLC0415 - it needs yaml, whose lack is told in words

    if is_folder(call.taken_as):
        message = (
            f"{call.taken_as} is a folder. Write the name of a file after --as, such as rigs/low-line.yaml."
        )
        raise StopError(message, CALL_WRONG)
    return [call.taken_as], {real(call.taken_as): _standard_input()}


def _standard_input() -> bytes:
    """Return what comes in, never much more than a file may hold.

    Raises:
        StopError: nothing can be read there.
    """
    if sys.stdin is None or sys.stdin.closed:
        raise StopError("Standard input is closed, so there is nothing to judge.", NOT_DONE)
    try:
        return sys.stdin.buffer.read(MAX_BYTES + 1)
    except (OSError, ValueError) as error:
        raise StopError(f"Standard input cannot be read: {refusal(error)}.", NOT_DONE) from error


def _other_values(call: argparse.Namespace) -> tuple[WhatIf, ...]:
    """Return the values to judge a rig with instead of its own.

    Raises:
        StopError: they cannot be set, or not in one rig alone, or a form is asked for that is kept as a record.
    """
    if not call.other_values:
        return ()
    if call.revision:
        raise StopError(
            "--set changes values of a rig on the disk. It does not go with --revision.", CALL_WRONG
        )
    if len(call.paths) != 1 or not call.paths[0].is_file() or call.with_rigs:
        raise StopError("--set changes values of one rig. Name that rig file alone.", CALL_WRONG)
    if {call.format, *(form for form, _ in call.write)} & {"sarif", "sarif-hosts", "junit"}:
        raise StopError("sarif and junit say what a file is, so they take no --set.", CALL_WRONG)
    return other_values(call.other_values, call.paths[0])
