"""What several commands take: the day, the library, the policy, the rules, and where the report goes."""

from __future__ import annotations

import argparse
import gc
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from riglint.cli.call.stopping import CALL_WRONG, NOT_DONE, StopError, complain

if TYPE_CHECKING:
    from riglint.policy import InForce
    from riglint.rulebook import Rulebook, RuleSet

SELDOM = 10_000, 5, 3  # objects between two looks for garbage, and how many looks make a longer one
LONGEST_NUMBER = 6  # digits; more are a slip
SIGNALS = ("NOTICE", "CAUTION", "WARNING", "DANGER")


def take_forms(command: argparse.ArgumentParser, *forms: str) -> None:
    """Let a command be asked for its report in these forms; the first is the one that it gives unasked."""
    command.add_argument("--format", choices=forms, default=forms[0], help="form of the report")
    command.add_argument(
        "--output", type=Path, default=None, metavar="FILE", help="write the report to a file"
    )
    command.add_argument(
        "--write",
        action="append",
        default=[],
        type=_form_and_file(forms),
        metavar="FORMAT=FILE",
        help="write the report in one more form to a file; repeat it for more",
    )
    command.add_argument(
        "--afresh",
        action="store_true",
        help="work everything out again, whatever is remembered of earlier calls",
    )


def take_stop_at(command: argparse.ArgumentParser, what: str, words: tuple[str, ...] = SIGNALS) -> None:
    """Let a command be told the lowest signal word that ends a run or a search; `what` says which."""
    command.add_argument(
        "--stop-at", choices=words, type=str.upper, default="WARNING", help=f"lowest signal word {what}"
    )


def take_units(command: argparse.ArgumentParser) -> None:
    """Let a command be asked for figures in feet, pounds and miles an hour."""
    command.add_argument(
        "--units",
        choices=("metric", "imperial", "both"),
        default=None,
        help="imperial: feet and lbf, with m and kN beside them; both: the other way round (text, markdown, html)",
    )


def settle_units(call: argparse.Namespace, force: InForce) -> None:
    """Take the units that a library sets where the call names none."""
    call.units = call.units or force.units or "metric"


def take_day_and_library(command: argparse.ArgumentParser) -> None:
    """Let a command be told the day to judge by, where the library begins, and a policy."""
    command.add_argument(
        "--on",
        type=day_of,
        default=None,
        metavar="DATE",
        help="the day for ages and dates, such as 2026-05-02",
    )
    command.add_argument("--root", type=Path, default=None, metavar="DIR", help="where the library begins")
    command.add_argument("--policy", type=Path, default=None, metavar="FILE", help="a club's policy file")
    take_house_rules(command)


def take_house_rules(command: argparse.ArgumentParser) -> None:
    """Let a command be told to use rules beside our own."""
    command.add_argument(
        "--house-rules",
        action="append",
        default=[],
        metavar="DIR-or-NAME",
        help="a folder of rules, or an installed rule set, to judge with too; its code runs with your rights",
    )


def today(call: argparse.Namespace) -> date:
    """Return the day to judge by."""
    day: date = call.on or date.today()  # noqa: DTZ011 - the day where the rig stands
    return day


def rules_of(call: argparse.Namespace) -> Rulebook:
    """Return the rules to judge by; a command that takes no house rules has riglint's own.

    Raises:
        StopError: our own did not load whole, or a rule set of that name is not there.
    """
    from riglint.rulebook import RuleSetError, load_rulebook  # noqa: PLC0415

    named = getattr(call, "house_rules", [])
    try:
        book = call.book if call.book is not None and not named else load_rulebook(*_house_rules(named))
    except RuleSetError as error:
        raise StopError(str(error), NOT_DONE) from error
    _collecting()
    if book.differs:
        from riglint.views.audit.words import difference_in_words  # noqa: PLC0415 - only under development

        complain(difference_in_words(book.differs))
    return book


def _collecting() -> None:
    """Look for garbage from now on, seldom: what is there already stays, and a rig leaves little behind."""
    gc.freeze()
    gc.set_threshold(*SELDOM)
    gc.enable()


def _house_rules(named: list[str]) -> list[RuleSet]:
    if not named:
        return []
    from riglint.house_rules import NoRuleSetError, find_rule_sets  # noqa: PLC0415

    try:
        return find_rule_sets(named)
    except NoRuleSetError as error:
        raise StopError(str(error), CALL_WRONG) from error


def in_force(call: argparse.Namespace, book: Rulebook, rig: Path) -> InForce:
    """Return what one rig, or one library, is judged by: the named policy, else what its library sets.

    Args:
        call: the call.
        book: the rules.
        rig: the rig's file, or the folder of its library.

    Raises:
        StopError: the policy or the library's mark file cannot be used; the sentence says all that is wrong.
    """
    from riglint.read.library import is_folder, library_root  # noqa: PLC0415 - it needs yaml, whose lack is told in words
    from riglint.read.repository.report_paths import paths_start  # noqa: PLC0415
    from riglint.settings import settings_of  # noqa: PLC0415

    top = library_root(rig, call.root or (rig if is_folder(rig) else None))
    start = paths_start([top])
    settings = settings_of(
        top, book, lambda file: (file.relative_to(start) if file.is_relative_to(start) else file).as_posix()
    )
    if settings.broken:
        raise StopError("\n".join(one.in_one_row(path) for path, one in settings.broken), CALL_WRONG)
    return settings.with_policy(named_policy(call, book))


def named_policy(
    call: argparse.Namespace, book: Rulebook, content: Callable[[Path], Path] = lambda path: path
) -> InForce | None:
    """Return what the named policy puts in force; None where the call names none, so that each library has its own.

    Args:
        call: the call.
        book: the rules.
        content: where the content of a named file is taken from.

    Raises:
        StopError: it cannot be used; the sentence says all that is wrong with it.
    """
    from riglint.policy import load_policy  # noqa: PLC0415

    if call.policy is None:
        return None
    force, problems = load_policy(content(call.policy), book, call.policy.as_posix())
    if force is None:
        file = call.policy.as_posix()
        sentences = [
            f"{file} line {problem.place.line}: {problem.message} {problem.do}" for problem in problems
        ]
        raise StopError("\n".join(sentences), CALL_WRONG)
    return force


def status_in_force(force: InForce) -> int:
    """Return the exit status of a report that rules say nothing in but what is in force."""
    if force.none_left:
        return NOT_DONE
    return CALL_WRONG if force.emptied else 0


def day_of(text: str) -> date:
    """Return the day that a call names; errors as argparse takes them."""
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(
            f"'{text}' is not a date; write year-month-day, such as 2026-05-02"
        ) from None


def whole_number(text: str, least: int, most: int) -> int | None:
    """Return the whole number that a call names; None where that is no number, or outside what may be."""
    if not text.isascii() or not text.isdecimal() or len(text) > LONGEST_NUMBER:
        return None
    return int(text) if least <= int(text) <= most else None


def _form_and_file(forms: tuple[str, ...]) -> Callable[[str], tuple[str, Path]]:
    def split(text: str) -> tuple[str, Path]:
        form, _, file = text.partition("=")
        if form not in forms or not file:
            raise argparse.ArgumentTypeError(
                f"'{text}' is not a form and a file; write one of {', '.join(forms)}, '=' and a "
                f"file, such as {forms[-1]}=report.{forms[-1]}"
            )
        return form, Path(file)

    return split
