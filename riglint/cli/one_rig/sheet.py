"""`riglint sheet`: prints the calculation sheet of a rig."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from riglint.cli.call.options import (
    in_force,
    rules_of,
    settle_units,
    take_day_and_library,
    take_forms,
    take_units,
    today,
)
from riglint.cli.call.other_values import other_values, take_other_values
from riglint.cli.call.output import deliver
from riglint.cli.call.stopping import CALL_WRONG, NOT_DONE, StopError

if TYPE_CHECKING:
    from riglint.loads import Loads
    from riglint.model.what_if import WhatIf
    from riglint.policy import InForce
    from riglint.reports.layout.spans import Line
    from riglint.rulebook import Rulebook
    from riglint.views.sheet.content import Sheet


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    sheet = commands.add_parser(
        "sheet", help="the calculation sheet of a rig", description="Print the calculation sheet."
    )
    take_rig(sheet)
    take_other_values(sheet)
    take_day_and_library(sheet)
    take_units(sheet)
    take_forms(sheet, "text", "json", "markdown", "html")
    sheet.set_defaults(run=_run)


def take_rig(command: argparse.ArgumentParser, what: str = "a rig file") -> None:
    """Let a command be told its one rig."""
    command.add_argument("rig", type=Path, metavar="RIG", help=what)


def computed(
    call: argparse.Namespace, book: Rulebook, values: tuple[WhatIf, ...] = ()
) -> tuple[Loads, InForce]:
    """Return the rig that a call names, computed with `values` instead of its own, and what is in force.

    Raises:
        StopError: it cannot be read, or the policy or a rule set cannot be used.
    """
    for broken in book.broken:
        raise StopError(broken.because, NOT_DONE)
    force = in_force(call, book, call.rig)
    return loaded(call, force, values), force


def loaded(call: argparse.Namespace, force: InForce, values: tuple[WhatIf, ...] = ()) -> Loads:
    """Return the rig that a call names, computed with `values` instead of its own.

    Raises:
        StopError: it cannot be read.
    """
    from riglint.findings import load_rig  # noqa: PLC0415

    try:
        loads, problems = load_rig(call.rig, today(call), call.root, force, values)
    except Exception as error:
        what = f"{type(error).__name__}: {error}"
        raise StopError(f"riglint could not calculate {call.rig.as_posix()} ({what}).", NOT_DONE) from error
    if loads is None:
        raise StopError("\n".join(problems), CALL_WRONG)
    return loads


def _run(call: argparse.Namespace) -> int:
    from riglint.findings import other_values_in_words  # noqa: PLC0415 - only the commands that need it pay for it
    from riglint.findings.library.beside import shared_with_others  # noqa: PLC0415
    from riglint.views.sheet.build import build_sheet  # noqa: PLC0415

    book = rules_of(call)
    values = other_values(call.other_values, call.rig)
    loads, force = computed(call, book, values)
    moved = other_values_in_words(call.rig, values)
    shared, unread = shared_with_others(call.rig, loads, today(call), call.root, force)
    content = build_sheet(loads, today(call), force, book.seal, moved, shared=shared, unread=unread)
    settle_units(call, force)
    deliver(call, lambda form, width: _report(content, form, width))
    return 0


def _report(content: Sheet, form: str, width: int) -> str | Sequence[Line]:
    if form == "json":
        from riglint.reports.sheet.json_report import sheet_json  # noqa: PLC0415

        return sheet_json(content)
    if form == "markdown":
        from riglint.reports.sheet.markdown import sheet_markdown  # noqa: PLC0415

        return sheet_markdown(content)
    if form == "html":
        from riglint.reports.sheet.html import sheet_html  # noqa: PLC0415

        return sheet_html(content)
    from riglint.reports.sheet.text import sheet_text  # noqa: PLC0415

    return sheet_text(content, width)
