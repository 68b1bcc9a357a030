"""The card of a day in each of its forms; several spots of one day stand one below the other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict

from riglint.findings import Audit
from riglint.reports.audit.json_report import settings_data
from riglint.reports.day.html import Days, day_card
from riglint.reports.day.text import day_text
from riglint.reports.layout.json_text import json_text
from riglint.reports.layout.spans import Line
from riglint.views.audit.settings_words import settings_in_words
from riglint.views.audit.words import CAUTION_TEXT
from riglint.views.day.content import Day


def day_form(audit: Audit, days: Days, form: str, width: int) -> str | Sequence[Line]:
    """Return the card of one day as `text`, `json` or `html`."""
    beside = f"As of {audit.on}, rulebook {audit.seal}. What each rig says by itself stands in its audit."
    beside = " ".join((beside, *settings_in_words(audit.force)))
    if form == "json":
        return json_text(
            {
                "riglint": "day/1",
                "on": audit.on.isoformat(),
                "day": audit.day.isoformat() if audit.day else None,
                "settings": settings_data(audit.force),
                "spots": [_data(day) for day, _ in days],
                "caution": CAUTION_TEXT,
            }
        )
    if form == "html":
        return day_card(days, beside)
    return [line for day, _ in days for line in day_text(day, beside, width)]


def _data(day: Day) -> dict[str, object]:
    faults = [
        {"rule": one.rule, "signal": one.signal.name, "message": one.message, "do": one.do}
        for one in day.faults
    ]
    return {**asdict(day), "faults": faults}
