"""The gear of a library for other programs: one row or one object a piece."""

from __future__ import annotations

import csv
import io
from typing import Any

from riglint.read.problems import visible
from riglint.reports.gear.text import days
from riglint.reports.layout.json_text import json_text
from riglint.views.gear.content import GearBook, Piece, Use

HEADS = (
    "piece",
    "listed_in",
    "kind",
    "checked",
    "due",
    "overdue",
    "retires",
    "too_old",
    "out_of_use",
    "rigs",
)
FORMULA = ("=", "+", "-", "@")  # what a spreadsheet would run


def gear_csv(book: GearBook) -> str:
    """Return one row a piece; files that could not be read come first, each in a row of its own."""
    out = io.StringIO()
    rows = csv.writer(out, lineterminator="\n")
    rows.writerow(HEADS)
    for kind, pieces in (("settings", book.settings), ("not read", book.unread), ("no days", book.undated)):
        for one in pieces:
            rows.writerow(["", _cell(one), kind, *[""] * (len(HEADS) - 3)])
    for piece in book.pieces:
        rows.writerow([_cell(one) for one in _row(book, piece)])
    return out.getvalue()


def _row(book: GearBook, one: Piece) -> list[str]:
    day = book.day or book.on
    return [
        one.id,
        one.listed_in,
        one.kind,
        str(one.checked or ""),
        str(one.due or ""),
        "yes" if one.overdue(day) else "no",
        str(one.retires or ""),
        "yes" if one.too_old(day) else "no",
        one.out,
        "; ".join(f"{use.rig} ({use.stage}, {days(use)})" for use in one.uses),
    ]


def _cell(text: str) -> str:
    """Return text that a spreadsheet shows and never runs."""
    shown = visible(text)
    return f"'{shown}" if shown.startswith(FORMULA) else shown


def gear_json(book: GearBook) -> str:
    """Return the gear as JSON; days are ISO dates."""
    day = book.day or book.on
    data = {
        "riglint": "gear/1",
        "library": book.folder,
        "on": book.on.isoformat(),
        "piece": book.piece,
        "day": book.day.isoformat() if book.day else None,
        "settings": list(book.settings),
        "not_read": list(book.unread),
        "no_days": list(book.undated),
        "pieces": [
            {
                "id": one.id,
                "listed_in": one.listed_in,
                "kind": one.kind,
                "checked": str(one.checked) if one.checked else None,
                "due": str(one.due) if one.due else None,
                "overdue": one.overdue(day),
                "retires": str(one.retires) if one.retires else None,
                "too_old": one.too_old(day),
                "out_of_use": one.out or None,
                "rigs": [_use(use) for use in one.uses],
            }
            for one in book.pieces
        ],
        "caution": book.caution,
    }
    return json_text(data)


def _use(use: Use) -> dict[str, Any]:
    return {
        "path": use.rig,
        "stage": use.stage,
        "first_day": str(use.first) if use.first else None,
        "last_day": str(use.last) if use.last else None,
    }
