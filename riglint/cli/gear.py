"""`riglint gear`: what of a library's gear is due, what retires, where a piece is used, what a day needs."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from riglint.cli.call.options import day_of, in_force, rules_of, take_day_and_library, take_forms, today
from riglint.cli.call.output import deliver
from riglint.cli.call.stopping import CALL_WRONG, NOT_DONE, StopError

if TYPE_CHECKING:
    from riglint.findings.library.gear_keeping import WholeLibrary
    from riglint.reports.layout.spans import Line
    from riglint.views.gear.content import GearBook

ABOUT = (
    "Lists the gear of a library: which checks are due by month, what retires when, and which rigs use it. --piece "
    "shows one piece. --day shows what is booked on a day, as a packing list. Exit status 1 means that a piece shown "
    "is overdue, too old or out of use; 2 that a file could not be read."
)


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    gear = commands.add_parser("gear", help="what gear is due, used and booked", description=ABOUT)
    gear.add_argument("library", type=Path, metavar="LIBRARY", help="a folder of rigs and gear lists")
    gear.add_argument("--piece", default=None, metavar="NAME", help="one piece, such as SH-7")
    gear.add_argument("--day", type=day_of, default=None, metavar="DATE", help="what is booked on a day")
    take_day_and_library(gear)
    take_forms(gear, "text", "csv", "json", "html")
    gear.set_defaults(run=_run)


def _run(call: argparse.Namespace) -> int:
    from riglint.findings.library.gear_keeping import read_whole_library  # noqa: PLC0415 - only the commands that need it pay
    from riglint.read.library import is_folder  # noqa: PLC0415 - it needs yaml, whose lack is told in words
    from riglint.views.gear.build import build_gear_book  # noqa: PLC0415

    if not is_folder(call.library):
        raise StopError(
            f"{call.library.as_posix()} is no folder. Name the folder of your library.", CALL_WRONG
        )
    book = rules_of(call)
    for broken in book.broken:
        raise StopError(broken.because, NOT_DONE)
    force = in_force(call, book, call.library)
    whole = read_whole_library(call.library, today(call), call.root, force)
    found = build_gear_book(whole, book, force, call.library.as_posix(), piece=call.piece, day=call.day)
    if call.piece is not None and not found.pieces and call.day is None:
        raise StopError(
            f"No gear list here has a piece {call.piece!r}.{_near(call.piece, whole)}", CALL_WRONG
        )
    deliver(call, lambda form, width: _report(found, form, width))
    return CALL_WRONG if found.unread else int(found.attention)


def _near(name: str, whole: WholeLibrary) -> str:
    from riglint.read.spelling import nearest  # noqa: PLC0415

    near = nearest(name, [one.item.id for one in whole.library.gear])
    return f" Do you mean {near}?" if near else ""


def _report(found: GearBook, form: str, width: int) -> str | Sequence[Line]:
    if form == "html":
        from riglint.reports.gear.html import gear_html  # noqa: PLC0415

        return gear_html(found)
    if form == "text":
        from riglint.reports.gear.text import gear_text  # noqa: PLC0415

        return gear_text(found, width)
    from riglint.reports.gear.tables import gear_csv, gear_json  # noqa: PLC0415

    return gear_csv(found) if form == "csv" else gear_json(found)
