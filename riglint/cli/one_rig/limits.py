"""`riglint limits`: prints how far each value of a rig may move."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from typing import TYPE_CHECKING

from riglint.cli.call.options import (
    rules_of,
    status_in_force,
    take_day_and_library,
    take_forms,
    take_stop_at,
    today,
)
from riglint.cli.call.output import deliver
from riglint.cli.one_rig.sheet import computed, take_rig

if TYPE_CHECKING:
    from riglint.findings.variation.ranges import Limits
    from riglint.reports.layout.spans import Line

WORDS = ("CAUTION", "WARNING", "DANGER")


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    limits = commands.add_parser(
        "limits",
        help="how far each value of a rig can change",
        description="Prints how far each value of a rig can change, and which rule stops it.",
    )
    take_rig(limits)
    take_stop_at(limits, "that ends a range", WORDS)
    take_day_and_library(limits)
    take_forms(limits, "text", "json")
    limits.set_defaults(run=_run)


def _run(call: argparse.Namespace) -> int:
    from riglint.findings.variation.ranges import limits_of  # noqa: PLC0415 - only the commands that need it pay for it
    from riglint.rulekit import Signal  # noqa: PLC0415

    book = rules_of(call)
    loads, force = computed(call, book)
    found = limits_of(loads, book, today(call), force, Signal[call.stop_at])
    deliver(call, lambda form, width: _report(found, form, width))
    return status_in_force(force)


def _report(found: Limits, form: str, width: int) -> str | Sequence[Line]:
    if form == "json":
        from riglint.reports.limits.json_report import limits_json  # noqa: PLC0415

        return limits_json(found)
    from riglint.reports.limits.text import limits_text  # noqa: PLC0415

    return limits_text(found, width)
