"""`riglint rulebook`: lists the rules, or prints one in full."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from riglint.cli.call.options import rules_of, take_forms, take_house_rules
from riglint.cli.call.output import deliver
from riglint.cli.call.stopping import CALL_WRONG, NOT_DONE, StopError, complain

if TYPE_CHECKING:
    from riglint.reports.layout.spans import Line
    from riglint.rulebook import Rulebook


def add(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    book = commands.add_parser(
        "rulebook",
        help="what every rule checks, and why",
        description="List every rule, or print one: what it checks, why, its limits and their sources.",
    )
    book.add_argument(
        "rule",
        nargs="?",
        default=None,
        metavar="RULE",
        help="a rule such as tail/webbing, a family such as tail, or a word to search for",
    )
    book.add_argument(
        "--installed", action="store_true", help="list installed rule sets, without running them"
    )
    take_house_rules(book)
    take_forms(book, "text", "json", "markdown", "policy", "sources")
    book.set_defaults(run=_run)


def _run(call: argparse.Namespace) -> int:
    asked = {call.format, *(form for form, _ in call.write)}
    if asked & {"policy", "sources"} and (call.rule is not None or call.installed):
        raise StopError(
            "`policy` and `sources` are forms of the whole rulebook: no rule and no `--installed` with them.",
            CALL_WRONG,
        )
    if call.installed:
        return _installed(call)
    book = rules_of(call)
    if call.rule is None or call.rule in book.rules:
        deliver(call, lambda form, width: _report(book, call.rule, form, width))
    else:
        found = _meant(book, call.rule)
        deliver(call, lambda form, width: _listed(found, call.rule, form, width))
    for broken in book.broken:
        complain(f"{broken.name}: {broken.because}")
    return NOT_DONE if book.broken else 0


def _meant(book: Rulebook, word: str) -> Rulebook:
    """Return the rules of a family, else those that a word stands in.

    Raises:
        StopError: there are none.
    """
    from riglint.reports.rules.searching import family, holding  # noqa: PLC0415

    found = family(book, word) or holding(book, word)
    if found:
        return replace(book, rules=found)
    from riglint.read.spelling import nearest  # noqa: PLC0415

    suggestion = nearest(word, [*book.rules, *(name.partition("/")[0] for name in book.rules)])
    do = f"Nearest to it: {suggestion}." if suggestion else "`riglint rulebook` lists them all."
    raise StopError(
        f"'{word}' is not a rule. No family has that name, and no rule speaks of it. {do}", CALL_WRONG
    )


def _listed(found: Rulebook, word: str, form: str, width: int) -> str | Sequence[Line]:
    if form == "text":
        from riglint.reports.rules.text import found_text  # noqa: PLC0415

        return found_text(found, word, width)
    return _report(found, None, form, width)


def _installed(call: argparse.Namespace) -> int:
    from riglint.house_rules import installed  # noqa: PLC0415
    from riglint.reports.rules.rule_sets import sets_json, sets_markdown, sets_text  # noqa: PLC0415

    if call.rule is not None or call.house_rules:
        raise StopError("`--installed` lists rule sets. It takes no rule and no house rules.", CALL_WRONG)
    sets = installed()
    forms = {"json": sets_json, "markdown": sets_markdown}
    deliver(call, lambda form, width: forms[form](sets) if form in forms else sets_text(sets, width))
    return 0


def _report(book: Rulebook, one: str | None, form: str, width: int) -> str | Sequence[Line]:
    if form == "json":
        from riglint.reports.rules.json_report import rulebook_json  # noqa: PLC0415

        return rulebook_json(book, one)
    if form == "policy":
        from riglint.reports.rules.default_policy import default_policy  # noqa: PLC0415

        return default_policy(book)
    if form == "sources":
        from riglint.reports.rules.bibliography import bibliography_page  # noqa: PLC0415

        return bibliography_page(book)
    if form == "markdown":
        from riglint.reports.rules.pages import rulebook_page  # noqa: PLC0415
        from riglint.reports.rules.rule_page import rule_page  # noqa: PLC0415

        return rulebook_page(book) if one is None else rule_page(one, book.rules[one], book)
    from riglint.reports.rules.text import rule_text, rulebook_text  # noqa: PLC0415

    return rulebook_text(book, width) if one is None else rule_text(one, book.rules[one], width)
