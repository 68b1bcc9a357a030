"""`riglint card`: one page to print or to read on a phone at the tree."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from typing import TYPE_CHECKING

from riglint.cli.call.options import (
    day_of,
    named_policy,
    rules_of,
    settle_units,
    take_day_and_library,
    take_forms,
    take_stop_at,
    take_units,
    today,
)
from riglint.cli.call.other_values import other_values, take_other_values
from riglint.cli.call.output import deliver
from riglint.cli.call.stopping import CALL_WRONG, StopError
from riglint.cli.one_rig.sheet import computed, take_rig

if TYPE_CHECKING:
    from riglint.reports.layout.spans import Line
    from riglint.rulebook import Rulebook
    from riglint.views.card.content import Card

ABOUT = (
    "Prints one page for the tree: chain, tension and how to read it, pulley system, checklist, "
    "when to stop. For paper, write --format html --output card.html and open it in a browser. "
    "Print it on A4 without scaling, or save it as PDF. On a phone, tick and sign it there: `riglint tick --checks` "
    "takes what it saves."
)


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    card = commands.add_parser("card", help="one page of a rig for the tree", description=ABOUT)
    take_rig(card, "a rig file; with --day a folder of rigs")
    card.add_argument(
        "--day", type=day_of, default=None, metavar="DATE", help="the card of all lines of a spot on one day"
    )
    take_other_values(card)
    take_stop_at(card, "that gives exit status 1")
    take_day_and_library(card)
    take_units(card)
    take_forms(card, "text", "json", "html")
    card.set_defaults(run=_run)


def _run(call: argparse.Namespace) -> int:
    from riglint.findings import audit  # noqa: PLC0415 - only the commands that need it pay for it
    from riglint.rulekit import Signal  # noqa: PLC0415
    from riglint.views.card.build import build_card  # noqa: PLC0415

    book = rules_of(call)
    if call.day is not None:
        if call.other_values:
            raise StopError(
                "`--set` changes one rig, and `--day` takes several. Leave one of them out.", CALL_WRONG
            )
        return _of_a_day(call, book)
    values = other_values(call.other_values, call.rig)
    loads, _ = computed(call, book, values)
    result = audit(
        [call.rig], book, today(call), root=call.root, force=named_policy(call, book), other_values=values
    )
    content = build_card(loads, result, book)
    settle_units(call, result.force)
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


def _of_a_day(call: argparse.Namespace, book: Rulebook) -> int:
    """Deliver the card of a day, of the first spot on which several lines stand.

    Raises:
        StopError: no two lines stand together on that day.
    """
    from riglint.findings import audit  # noqa: PLC0415
    from riglint.reports.day.card import day_form  # noqa: PLC0415
    from riglint.rulekit import Signal  # noqa: PLC0415
    from riglint.views.day.build import days_of  # noqa: PLC0415

    force = named_policy(call, book)
    result = audit([call.rig], book, today(call), root=call.root, force=force, day=call.day)
    days = days_of(result)
    if not days:
        message = (
            f"No two rigs in {call.rig.as_posix()} stand at one spot on {call.day}. Name a folder of rigs."
        )
        raise StopError(message, CALL_WRONG)
    settle_units(call, result.force)
    deliver(call, lambda form, width: day_form(result, days, form, width))
    return result.status(Signal[call.stop_at])
