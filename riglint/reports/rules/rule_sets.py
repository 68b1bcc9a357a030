"""The rule sets that are installed, as text, JSON or a markdown table."""

from __future__ import annotations

from collections.abc import Iterable

from riglint.house_rules import Installed
from riglint.reports.layout.json_text import json_text
from riglint.reports.layout.spans import Line, labelled, paragraph, plain

NONE = "No rule set is installed beside riglint's own."
NOT_RUN = (
    "None of them has run. A rule set is a program. Naming it with --house-rules means trusting its author."
)


def sets_text(sets: list[Installed], width: int) -> list[Line]:
    """Return the list, laid out for a width."""
    if not sets:
        return paragraph(NONE, width)
    lines: list[Line] = []
    for one in sets:
        lines += paragraph(one.name, width, look="bold")
        lines += labelled("from", f"{one.package} {one.version}", width)
        lines += labelled("rules in", _where(one), width)
    return [*lines, plain(""), *paragraph(NOT_RUN, width)]


def sets_json(sets: Iterable[Installed]) -> str:
    """Return the list as JSON."""
    listed = [
        {
            "name": one.name,
            "package": one.package,
            "version": one.version,
            "folder": str(one.folder) if one.folder else None,
        }
        for one in sets
    ]
    return json_text({"riglint": "rule_sets/1", "installed": listed})


def sets_markdown(sets: list[Installed]) -> str:
    """Return the list as a table."""
    if not sets:
        return f"{NONE}\n"
    rows = [f"| `{one.name}` | {one.package} {one.version} | `{_where(one)}` |" for one in sets]
    return "\n".join(["| rule set | from | rules in |", "|---|---|---|", *rows, "", NOT_RUN, ""])


def _where(one: Installed) -> str:
    return str(one.folder) if one.folder else "nowhere: its package is missing"
