"""`riglint audit`: judges rig files and folders."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from riglint.cli.call.arguments import refuse_options_among
from riglint.cli.call.options import (
    SIGNALS,
    day_of,
    in_force,
    rules_of,
    take_day_and_library,
    take_forms,
    today,
)
from riglint.cli.call.output import deliver
from riglint.cli.call.progress import progress_on
from riglint.cli.call.stopping import CALL_WRONG, StopError

if TYPE_CHECKING:
    from riglint.findings import Audit
    from riglint.model.what_if import WhatIf
    from riglint.reports.layout.spans import Line
    from riglint.rulebook import Rulebook
    from riglint.rulekit import Signal


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    audit = commands.add_parser(
        "audit", help="audit rig files and folders", description="Audit rig files and folders."
    )
    audit.add_argument("paths", nargs="*", type=Path, metavar="PATH", help="files or folders")
    audit.add_argument(
        "--stop-at", choices=SIGNALS, default="WARNING", help="least signal word that gives exit status 1"
    )
    audit.add_argument("--if-any", action="store_true", help="having nothing to audit is no error")
    take_day_and_library(audit)
    audit.add_argument(
        "--set",
        dest="other_values",
        action="append",
        default=[],
        metavar="KEY=VALUE",
        help="judge one rig with another value, such as plan.standing_tension='5 kN'; the file stays as it is",
    )
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
        help="audit the rigs of the library too that refer to a named spot or shelf, or to a file that is gone",
    )
    audit.add_argument(
        "--leave-out",
        choices=("accepted",),
        default=None,
        help="leave accepted findings out of every form of the report, for hosts that would count them",
    )
    take_forms(audit, "text", "json", "sarif", "junit", "markdown", "html")
    audit.set_defaults(run=_run)


def _run(call: argparse.Namespace) -> int:
    from riglint.findings import audit  # noqa: PLC0415 - only the commands that need it pay for it
    from riglint.rulekit import Signal  # noqa: PLC0415

    if not call.paths and not call.if_any and not call.with_rigs:
        message = "Name the rig files or folders to audit, such as: riglint audit rigs/"
        raise StopError(message, CALL_WRONG)
    refuse_options_among(call.paths)
    book = rules_of(call)
    force = in_force(call, book)
    paths = call.paths
    if call.with_rigs:
        from riglint.findings.referring import with_referring_rigs  # noqa: PLC0415

        paths = with_referring_rigs(paths, call.root)
    other_values = _other_values(call)
    with progress_on(sys.stderr) as progress:
        result = audit(
            paths,
            book,
            today(call),
            root=call.root,
            force=force,
            sift_named=call.if_any,
            day=call.day,
            progress=progress,
            other_values=other_values,
        )
    nothing = call.if_any and result.nothing_found
    stop_at = Signal[call.stop_at]
    shown = result.without_accepted() if call.leave_out else result
    # A file that was asked for is written all the same: what stood there before is about other rigs.
    deliver(call, lambda form, width: _report(shown, book, stop_at, form, width), printed=not nothing)
    return 0 if nothing else result.status(stop_at)


def _other_values(call: argparse.Namespace) -> tuple[WhatIf, ...]:
    """Return the values to judge a rig with instead of its own.

    Raises:
        StopError: they cannot be set, or not in one rig alone, or a form is asked for that is kept as a record.
    """
    if not call.other_values:
        return ()
    from riglint.model.library import load_file  # noqa: PLC0415
    from riglint.model.what_if import WhatIfError, what_if, with_values  # noqa: PLC0415

    if len(call.paths) != 1 or not call.paths[0].is_file() or call.with_rigs:
        raise StopError("--set changes values of one rig. Name that rig file alone.", CALL_WRONG)
    if {call.format, *(form for form, _ in call.write)} & {"sarif", "junit"}:
        raise StopError("sarif and junit say what a file is, so they take no --set.", CALL_WRONG)
    try:
        values = tuple(what_if(one) for one in call.other_values)
        document = load_file(call.paths[0], call.paths[0].as_posix()).document
        if document is not None:
            with_values(document, values)
    except WhatIfError as error:
        raise StopError(str(error), CALL_WRONG) from error
    return values


def _report(result: Audit, book: Rulebook, stop_at: Signal, form: str, width: int) -> str | Sequence[Line]:
    if form == "sarif":
        from riglint.reports.audit.sarif import audit_sarif  # noqa: PLC0415

        return audit_sarif(result, book, stop_at)
    if form == "junit":
        from riglint.reports.audit.junit import audit_junit  # noqa: PLC0415

        return audit_junit(result, stop_at)
    if form == "markdown":
        from riglint.reports.audit.markdown import audit_markdown  # noqa: PLC0415

        return audit_markdown(result, stop_at)
    if form == "json":
        from riglint.reports.audit.json_report import audit_json  # noqa: PLC0415

        return audit_json(result)
    if form == "html":
        from riglint.reports.audit.html import audit_html  # noqa: PLC0415

        return audit_html(result)
    from riglint.reports.audit.text import audit_text  # noqa: PLC0415

    return audit_text(result, width)
