"""The command line: reads the call, runs one command, prints, and says by its exit status how it went."""

from __future__ import annotations

import argparse
import io
import os
import sys
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

from riglint import __version__

if TYPE_CHECKING:
    from riglint.findings import Audit
    from riglint.loads import Loads
    from riglint.policy import InForce
    from riglint.reports.layout import Line
    from riglint.rulebook import Rulebook

SIGNALS = ("NOTICE", "CAUTION", "WARNING", "DANGER")
CALL_WRONG, NOT_DONE = 2, 3


class NotWrittenError(Exception):
    """The report could not be put where it was wanted."""


def run() -> NoReturn:
    """Run the command and leave with its exit status; nothing gets out as a traceback."""
    status = NOT_DONE
    for stream in (sys.stdout, sys.stderr):  # a letter that a terminal does not know must not cost the report
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")
    try:
        status = main(sys.argv[1:])
        sys.stdout.flush()
    except BrokenPipeError:  # the reader of our output went away: nobody to tell
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    except KeyboardInterrupt:
        print("Stopped before it was done.", file=sys.stderr)  # noqa: T201
    except Exception as error:  # noqa: BLE001 - an uncaught error would end with status 1 and pose as a finding
        message = f"riglint could not do its work: {type(error).__name__}: {error}"
        print(message, file=sys.stderr)  # noqa: T201
    sys.exit(status)


def main(arguments: Sequence[str]) -> int:
    """Run one call and return its exit status: 0 quiet, 1 findings, 2 unread or wrong call, 3 not done."""
    call = _parser().parse_args(arguments)
    try:
        command: int = call.run(call)
    except NotWrittenError as error:
        print(error, file=sys.stderr)  # noqa: T201
        return NOT_DONE
    return command


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="riglint",
        description="Checks slackline rig files before tension goes on: what the rig will see, and what is wrong.",
        epilog="A calculation is no inspection: competent people, makers and local rules come first.",
    )
    parser.add_argument("--version", action="version", version=f"riglint {__version__}")
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")
    audit = commands.add_parser(
        "audit", help="audit rig files and folders", description="Audit rig files and folders."
    )
    audit.add_argument("paths", nargs="*", type=Path, metavar="PATH", help="files or folders")
    audit.add_argument("--format", choices=("text", "json"), default="text", help="form of the report")
    audit.add_argument(
        "--stop-at", choices=SIGNALS, default="WARNING", help="least signal word that gives exit status 1"
    )
    audit.add_argument("--if-any", action="store_true", help="having nothing to audit is no error")
    _shared(audit)
    audit.set_defaults(run=_audit)
    sheet = commands.add_parser(
        "sheet", help="the calculation sheet of a rig", description="Print the calculation sheet."
    )
    sheet.add_argument("rig", type=Path, metavar="RIG", help="a rig file")
    forms = ("text", "json", "markdown", "html")
    sheet.add_argument("--format", choices=forms, default="text", help="form of the sheet")
    _shared(sheet)
    sheet.set_defaults(run=_sheet)
    _rulebook_parser(commands)
    return parser


def _rulebook_parser(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    book = commands.add_parser(
        "rulebook",
        help="what every rule checks, and why",
        description="List every rule, or print one: what it checks, why, its limits and their sources.",
    )
    book.add_argument("rule", nargs="?", default=None, metavar="RULE", help="a rule, such as tail/webbing")
    book.add_argument(
        "--format", choices=("text", "json", "markdown"), default="text", help="form of the page"
    )
    _output(book)
    book.set_defaults(run=_rulebook)


def _shared(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "--on", type=_day, default=None, metavar="DATE", help="the day to judge by, such as 2026-05-02"
    )
    command.add_argument("--root", type=Path, default=None, metavar="DIR", help="where the library begins")
    command.add_argument("--policy", type=Path, default=None, metavar="FILE", help="a club's policy file")
    _output(command)


def _output(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "--output", type=Path, default=None, metavar="FILE", help="write the report to a file"
    )


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(
            f"'{text}' is no date; write year-month-day, such as 2026-05-02"
        ) from None


def _today(call: argparse.Namespace) -> date:
    day: date = call.on or date.today()  # noqa: DTZ011 - the day where the rig stands
    return day


def _audit(call: argparse.Namespace) -> int:
    from riglint.findings import audit  # noqa: PLC0415 - only the commands that need it pay for it
    from riglint.rulebook import RuleSetError, load_rulebook  # noqa: PLC0415
    from riglint.rulekit import Signal  # noqa: PLC0415

    if not call.paths and not call.if_any:
        return _wrong_call("Name the rig files or folders to audit, such as: riglint audit rigs/")
    try:
        book = load_rulebook()
    except RuleSetError as error:
        print(error, file=sys.stderr)  # noqa: T201
        return NOT_DONE
    force = _in_force(call, book)
    if force is None:
        return CALL_WRONG
    result = audit(call.paths, book, _today(call), root=call.root, force=force, sift_named=call.if_any)
    if call.if_any and result.nothing_found:
        return 0
    _print_audit(result, call)
    return result.status(Signal[call.stop_at])


def _in_force(call: argparse.Namespace, book: Rulebook) -> InForce | None:
    """Return what the named policy puts in force; None, with its problems told, where it cannot be used."""
    from riglint.policy import DEFAULT, load_policy  # noqa: PLC0415

    if call.policy is None:
        return DEFAULT
    force, problems = load_policy(call.policy, book)
    for problem in problems:
        where = f"{call.policy.as_posix()} line {problem.place.line}"
        print(f"{where}: {problem.message} {problem.do}", file=sys.stderr)  # noqa: T201
    return force


def _print_audit(result: Audit, call: argparse.Namespace) -> None:
    if call.format == "json":
        from riglint.reports.as_json import audit_json  # noqa: PLC0415

        _write(audit_json(result), call.output)
        return
    from riglint.reports.text import audit_text  # noqa: PLC0415

    _show(audit_text(result, _width(call.output)), call.output)


def _sheet(call: argparse.Namespace) -> int:
    from riglint.findings import load_rig  # noqa: PLC0415
    from riglint.rulebook import RuleSetError, load_rulebook  # noqa: PLC0415

    try:
        force = _in_force(call, load_rulebook())
    except RuleSetError as error:
        print(error, file=sys.stderr)  # noqa: T201
        return NOT_DONE
    if force is None:
        return CALL_WRONG
    loads, problems = load_rig(call.rig, _today(call), call.root, force)
    if loads is None:
        for problem in problems:
            print(problem, file=sys.stderr)  # noqa: T201
        return CALL_WRONG
    _print_sheet(loads, force, call)
    return 0


def _print_sheet(loads: Loads, force: InForce, call: argparse.Namespace) -> None:
    from riglint.reports.sheet_build import build_sheet  # noqa: PLC0415

    content = build_sheet(loads, _today(call), force)
    if call.format == "json":
        from riglint.reports.sheet_json import sheet_json  # noqa: PLC0415

        _write(sheet_json(loads, content), call.output)
    elif call.format == "markdown":
        from riglint.reports.sheet_markdown import sheet_markdown  # noqa: PLC0415

        _write(sheet_markdown(content), call.output)
    elif call.format == "html":
        from riglint.reports.drawings import drawings  # noqa: PLC0415
        from riglint.reports.sheet_html import sheet_html  # noqa: PLC0415

        _write(sheet_html(content, drawings(loads)), call.output)
    else:
        from riglint.reports.sheet import sheet_text  # noqa: PLC0415

        _show(sheet_text(content, _width(call.output)), call.output)


def _rulebook(call: argparse.Namespace) -> int:
    from riglint.read.spelling import nearest  # noqa: PLC0415
    from riglint.rulebook import RuleSetError, load_rulebook  # noqa: PLC0415

    try:
        book = load_rulebook()
    except RuleSetError as error:
        print(error, file=sys.stderr)  # noqa: T201
        return NOT_DONE
    if call.rule is not None and call.rule not in book.rules:
        guess = nearest(call.rule, book.rules)
        do = f"Nearest to it: {guess}." if guess else "`riglint rulebook` lists them all."
        return _wrong_call(f"'{call.rule}' is no rule. {do}")
    _print_rulebook(book, call)
    return 0


def _print_rulebook(book: Rulebook, call: argparse.Namespace) -> None:
    if call.format == "json":
        from riglint.reports.rulebook_json import rulebook_json  # noqa: PLC0415

        _write(rulebook_json(book, call.rule), call.output)
    elif call.format == "markdown":
        from riglint.reports.rulebook_page import rule_page, rulebook_page  # noqa: PLC0415

        one = call.rule
        _write(rulebook_page(book) if one is None else rule_page(one, book.rules[one]), call.output)
    else:
        from riglint.reports.rulebook import rule_text, rulebook_text  # noqa: PLC0415

        width, one = _width(call.output), call.rule
        lines = rulebook_text(book, width) if one is None else rule_text(one, book.rules[one], width)
        _show(lines, call.output)


def _wrong_call(message: str) -> int:
    print(message, file=sys.stderr)  # noqa: T201
    return CALL_WRONG


def _width(output: Path | None) -> int:
    from shutil import get_terminal_size  # noqa: PLC0415

    from riglint.reports.layout import NARROWEST, WIDEST  # noqa: PLC0415

    columns = 80 if output is not None else get_terminal_size((80, 24)).columns
    return max(NARROWEST, min(columns, WIDEST))


def _show(lines: Sequence[Line], output: Path | None) -> None:
    """Print laid-out lines; on a terminal with colour, elsewhere the same characters without."""
    from riglint.reports.layout import characters  # noqa: PLC0415

    if output is not None or not sys.stdout.isatty() or "NO_COLOR" in os.environ:
        _write(characters(lines), output)
        return
    from rich.console import Console  # noqa: PLC0415 - only where there is something to colour
    from rich.text import Text  # noqa: PLC0415

    console = Console(highlight=False, soft_wrap=True)
    for line in lines:
        console.print(Text.assemble(*((span.text, span.look) for span in line)))


def _write(text: str, output: Path | None) -> None:
    """Write to a file whole or not at all, or to standard output."""
    if output is None:
        sys.stdout.write(text)
        return
    half = output.with_name(output.name + ".part")
    try:
        half.write_text(text, encoding="utf-8", errors="backslashreplace", newline="\n")
        half.replace(output)
    except OSError as error:
        half.unlink(missing_ok=True)
        raise NotWrittenError(f"The report cannot be written to {output}: {error.strerror}.") from error
