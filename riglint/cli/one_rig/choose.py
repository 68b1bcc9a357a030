"""`riglint choose`: prints which pieces of the gear list would do in each place of a rig."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from typing import TYPE_CHECKING

from riglint.cli.call.options import rules_of, status_in_force, take_day_and_library, take_forms, today
from riglint.cli.call.output import deliver
from riglint.cli.one_rig.sheet import computed, take_rig

if TYPE_CHECKING:
    from riglint.findings.variation.choosing import Choosing
    from riglint.reports.layout.spans import Line


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    choose = commands.add_parser(
        "choose",
        help="which pieces of the gear list would do in each place",
        description="Prints which pieces of the rig's gear lists would do in each place, judged by every rule: their "
        "ratios, what each is short of, what other lines have on that day, and the lightest and strongest whole set.",
    )
    take_rig(choose)
    take_day_and_library(choose)
    take_forms(choose, "text", "json")
    choose.set_defaults(run=_run)


def _run(call: argparse.Namespace) -> int:
    from riglint.findings.library.gear_keeping import read_whole_library  # noqa: PLC0415 - only the commands that need it pay
    from riglint.findings.variation.choosing import choose  # noqa: PLC0415
    from riglint.read.library import library_root  # noqa: PLC0415

    book = rules_of(call)
    loads, force = computed(call, book)
    root = library_root(call.rig, call.root or call.rig.parent)
    others = [case.file for case in read_whole_library(root, today(call), call.root, force).library.rigs]
    found = choose(loads, book, force, others)
    deliver(call, lambda form, width: _report(found, form, width))
    return status_in_force(force)


def _report(found: Choosing, form: str, width: int) -> str | Sequence[Line]:
    if form == "json":
        from riglint.reports.choose.json_report import choose_json  # noqa: PLC0415

        return choose_json(found)
    from riglint.reports.choose.text import choose_text  # noqa: PLC0415

    return choose_text(found, width)
