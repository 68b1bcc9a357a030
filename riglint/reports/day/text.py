"""A day at one spot as text: for a terminal or a pipe."""

from __future__ import annotations

from collections.abc import Iterable

from riglint.reports.audit.finding_text import LOOKS
from riglint.reports.layout.spans import Line, Span, labelled, paragraph, plain
from riglint.views.audit.words import CAUTION_TEXT
from riglint.views.day.content import Day

WIDEST = 80


def day_text(day: Day, beside: str, width: int) -> list[Line]:
    """Return the card of a day, laid out for a width."""
    width = min(width, WIDEST)
    lines = [*paragraph(day.title, width, look="bold"), *paragraph(beside, width)]
    for fault in day.faults:
        lines += labelled(fault.signal.name, f"{fault.message} {fault.do}", width, look=LOOKS[fault.signal])
    rows = (
        f"{one.title}, {one.ends}: {one.standing} kN standing, wind up to {one.wind} km/h, crew of {one.crew}"
        for one in day.lines
    )
    lines += _list("Lines", rows, width, "-")
    lines += _list("Rig in this order, let down in the reverse", day.order, width, "")
    lines += _list("Keep clear meanwhile", day.meanwhile, width, "-")
    lines += _list("Stop", day.wind, width, "-")
    lines += _list("Look at each anchor before the first line and after each one", day.anchors, width, "[ ]")
    lines += _list("Pack", (f"{many}: {pieces}" for many, pieces in day.packing), width, "[ ]")
    for one in day.sums:
        more = [f"all at their worst at once: {one.all_at_once} kN"]
        more += [f"{line} at its worst, the others at rest: {size} kN" for line, size in one.one_at_its_worst]
        lines += _list(f"'{one.anchor}' in {', '.join(one.lines)}", [one.working, *more], width, "-")
    for name in day.not_added:
        lines += paragraph(f"'{name}' cannot be added up: a value is missing, see the findings.", width)
    return [*lines, plain(""), *paragraph(CAUTION_TEXT, width)]


def _list(title: str, words: Iterable[str], width: int, mark: str) -> list[Line]:
    """Return a list under its title, numbered where it has no mark; nothing where it is empty."""
    rows = list(words)
    if not rows:
        return []
    lines: list[Line] = [plain(""), (Span(title, "bold underline"),)]
    for n, one in enumerate(rows, 1):
        lines += labelled(mark or f"{n}.", one, width, indent=1)
    return lines
