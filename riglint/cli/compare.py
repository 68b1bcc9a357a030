"""`riglint compare`: what a change does to forces, ratios and findings."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from typing import TYPE_CHECKING

from riglint.cli.call.options import (
    named_policy,
    rules_of,
    take_day_and_library,
    take_forms,
    take_stop_at,
    today,
)
from riglint.cli.call.other_values import other_values, take_other_values
from riglint.cli.call.output import deliver
from riglint.cli.call.stopping import CALL_WRONG, NOT_DONE, StopError

if TYPE_CHECKING:
    from riglint.findings.variation.comparing import Comparison
    from riglint.model.what_if import WhatIf
    from riglint.read.repository.revisions import Side
    from riglint.reports.layout.spans import Line

ABOUT = (
    "Compares rigs before and after a change. OLD and NEW are files, folders, git revisions or "
    "the word staged. One argument OLD..NEW names two revisions."
)

OTHER_KINDS = ("spot", "shelf", "policy", "library", "known")


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    compare = commands.add_parser("compare", help="what a change does to rigs", description=ABOUT)
    compare.add_argument("old", metavar="OLD", help="file, folder or git revision; or OLD..NEW")
    compare.add_argument(
        "new", nargs="?", default=None, metavar="NEW", help="the same after the change, or: staged"
    )
    take_stop_at(compare, "of a new or worse finding that gives exit status 1")
    take_other_values(compare, "it is of NEW. Without NEW, the values make the new side of OLD")
    take_day_and_library(compare)
    take_forms(compare, "text", "json", "markdown")
    compare.set_defaults(run=_run)


def _run(call: argparse.Namespace) -> int:
    from riglint.read.repository.revisions import NoSideError, opened  # noqa: PLC0415 - only this command pays for it
    from riglint.rulekit import Signal  # noqa: PLC0415

    again = call.old if call.other_values and ".." not in call.old else None
    old, new = _named(call.old, call.new or again)
    try:
        with opened(old) as before, opened(new) as after:
            result = _compared(call, before, after)
    except NoSideError as error:
        raise StopError(str(error), CALL_WRONG) from error
    deliver(call, lambda form, width: _report(result, form, width))
    return result.status(Signal[call.stop_at])


def _named(old: str, new: str | None) -> tuple[str, str]:
    """Return the two sides that a call names.

    Raises:
        StopError: it names one only.
    """
    if new is not None:
        return old, new
    first, dots, second = old.partition("..")
    if not dots or not first or not second or second.startswith("."):
        message = f"'{old}' is one side only. Name OLD and NEW, or OLD..NEW such as main..HEAD."
        raise StopError(message, CALL_WRONG)
    return first, second


def _compared(call: argparse.Namespace, before: Side, after: Side) -> Comparison:
    from riglint.findings import audit  # noqa: PLC0415
    from riglint.findings.settled.changed import changed_settings  # noqa: PLC0415
    from riglint.findings.variation.comparing import compare  # noqa: PLC0415

    book = rules_of(call)
    for broken in book.broken:
        raise StopError(broken.because, NOT_DONE)
    force, on = named_policy(call, book), today(call)
    values = _of_new(call, after)
    sides = [
        audit([one.path], book, on, root=one.root or call.root, force=force, other_values=other)
        for one, other in ((before, ()), (after, values))
    ]
    for one, result in zip((before, after), sides, strict=True):
        if one.path.is_file() and all(file.kind in OTHER_KINDS for file in result.files):
            (file,) = result.files  # a rig taken out and a name typed wrong must not look the same
            raise StopError(f"{file.path} is a {file.kind} document. Name a rig.", CALL_WRONG)
    words = f"{after.words} with {', '.join(call.other_values)}" if values else after.words
    settings = changed_settings(before.path, after.path, book)
    return compare(sides[0], sides[1], (before.path, after.path), (before.words, words), settings)


def _of_new(call: argparse.Namespace, after: Side) -> tuple[WhatIf, ...]:
    """Return the values that NEW is judged with instead of its own.

    Raises:
        StopError: NEW is no file, or they cannot be set there.
    """
    if call.other_values and not after.path.is_file():
        raise StopError(f"--set needs one rig file, and {after.words} is none. Name a rig.", CALL_WRONG)
    return other_values(call.other_values, after.path)


def _report(result: Comparison, form: str, width: int) -> str | Sequence[Line]:
    if form == "json":
        from riglint.reports.comparison.json_report import comparison_json  # noqa: PLC0415

        return comparison_json(result)
    if form == "markdown":
        from riglint.reports.comparison.markdown import comparison_markdown  # noqa: PLC0415

        return comparison_markdown(result)
    from riglint.reports.comparison.text import comparison_text  # noqa: PLC0415

    return comparison_text(result, width)
