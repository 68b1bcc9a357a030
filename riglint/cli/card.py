"""`riglint card`: one page to print or to read on a phone at the tree."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from typing import TYPE_CHECKING

from riglint.cli.call.options import SIGNALS, rules_of, take_day_and_library, take_forms, today
from riglint.cli.call.other_values import other_values, take_other_values
from riglint.cli.call.output import deliver
from riglint.cli.sheet import computed, take_rig

if TYPE_CHECKING:
    from riglint.reports.layout.spans import Line
    from riglint.views.card.content import Card

ABOUT = (
    "Prints one page for the tree: chain, tension and how to read it, pulley system, checklist, "
    "when to stop. For paper, write --format html --output card.html and open it in a browser. "
    "Print it on A4 without scaling, or save it as PDF."
)


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    card = commands.add_parser("card", help="one page of a rig for the tree", description=ABOUT)
    take_rig(card)
    take_other_values(card)
    card.add_argument(
        "--stop-at",
        choices=SIGNALS,
        type=str.upper,
        default="WARNING",
        help="lowest signal word that gives exit status 1",
    )
    take_day_and_library(card)
    take_forms(card, "text", "json", "html")
    card.set_defaults(run=_run)


def _run(call: argparse.Namespace) -> int:
    from riglint.findings import audit  # noqa: PLC0415 - only the commands that need it pay for it
    from riglint.rulekit import Signal  # noqa: PLC0415
    from riglint.views.card.build import build_card  # noqa: PLC0415

    book = rules_of(call)
    values = other_values(call.other_values, call.rig)
    loads, force = computed(call, book, values)
    result = audit([call.rig], book, today(call), root=call.root, force=force, other_values=values)
    content = build_card(loads, result, book)
    deliver(call, lambda form, width: _report(content, form, width))
    return result.status(Signal[call.stop_at])


def _report(content: Card, form: str, width: int) -> str | Sequence[Line]:
    if form == "json":
        from riglint.reports.card.json_report import card_json  # noqa: PLC0415

        return card_json(content)
    if form == "html":
        from riglint.reports.card.html import card_html  # noqa: PLC0415

        return card_html(content)
    from riglint.reports.card.text import card_text  # noqa: PLC0415

    return card_text(content, width)
