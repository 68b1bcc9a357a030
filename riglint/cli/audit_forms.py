"""The report of an audit in each of its forms."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from riglint.cli.call.output import Report
    from riglint.findings import Audit
    from riglint.remembered.pieces import Pieces
    from riglint.rulebook import Rulebook
    from riglint.rulekit import Signal


def audit_report(
    call: argparse.Namespace, result: Audit, book: Rulebook, form: str, width: int, *, here: Path
) -> Report:
    """Return the report in one form, as text or as lines that a terminal may colour."""
    from riglint.rulekit import Signal  # noqa: PLC0415

    if form == "text":
        from riglint.reports.audit.text import audit_passages  # noqa: PLC0415

        known = _known(call, width)
        return audit_passages(result, width, known, brief=call.brief, everything=call.all)
    if form == "markdown":
        from riglint.reports.audit.markdown import audit_markdown  # noqa: PLC0415

        return audit_markdown(result, Signal[call.stop_at])
    if form == "html":
        from riglint.reports.audit.html import audit_html  # noqa: PLC0415

        return audit_html(result)
    if form == "lines":
        from riglint.reports.audit.lines import audit_lines  # noqa: PLC0415

        return audit_lines(result, here)
    return _for_programs(result, book, Signal[call.stop_at], form)


def _known(call: argparse.Namespace, width: int) -> Pieces | None:
    """Return the passages of the last report of this form; None where nothing is remembered."""
    from riglint.findings.library.remembered_files import program  # noqa: PLC0415
    from riglint.remembered import watching  # noqa: PLC0415
    from riglint.remembered.pieces import Pieces  # noqa: PLC0415

    watch = watching.current
    running = program(watch) if watch is not None and not watch.spoilt else b""
    if not running:
        return None
    colour = sys.stdout is not None and not sys.stdout.closed and sys.stdout.isatty()
    form = (width, call.brief, call.all, call.units, colour)
    places = (Path.cwd(), call.paths, call.revision)
    return Pieces(running, *(repr(one).encode("utf-8", "surrogatepass") for one in (form, places)))


def _for_programs(result: Audit, book: Rulebook, stop_at: Signal, form: str) -> Report:
    if form == "json":
        from riglint.reports.audit.json_report import json_of  # noqa: PLC0415

        return json_of(result)
    if form in {"sarif", "sarif-hosts"}:
        from riglint.reports.audit.sarif import audit_sarif  # noqa: PLC0415

        return audit_sarif(result, book, stop_at, hosts=form == "sarif-hosts")
    if form == "junit":
        from riglint.reports.audit.junit import audit_junit  # noqa: PLC0415

        return audit_junit(result, stop_at)
    return _for_hosts(result, stop_at, form)


def _for_hosts(result: Audit, stop_at: Signal, form: str) -> str:
    from riglint.reports.audit.lines import audit_github, audit_gitlab  # noqa: PLC0415

    return audit_gitlab(result) if form == "gitlab" else audit_github(result, stop_at)
