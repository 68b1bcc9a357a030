"""The gear of a library as text: by month, by piece, or as the packing list of a day."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from datetime import date
from itertools import groupby

from riglint.reports.layout.spans import Line, Span, labelled, paragraph, plain
from riglint.views.gear.content import GearBook, Piece, Use


def gear_text(book: GearBook, width: int) -> list[Line]:
    """Return what the keeper of a gear list asked for, laid out for a width."""
    lines: list[Line] = [*paragraph(_title(book), width, look="bold")]
    for one in book.settings:
        lines += paragraph(one, width)
    for one in book.unread:
        lines += labelled("not read", one, width, indent=0, label_look="bold")
    for rig in book.undated:
        lines += labelled(
            "no day",
            f"The plan of {rig} doesn't say its days, so its gear may be needed too.",
            width,
            indent=0,
        )
    if book.day is not None:
        lines += _packing(book, book.day, width)
    elif book.piece is not None:
        lines += [line for one in book.pieces for line in _piece(one, book.on, width)]
    else:
        lines += _by_month("Checks due", book, width, _due)
        lines += _by_month("To retire", book, width, _retires)
        lines += _rigs(book.pieces, width)
    return [*lines, plain(""), *paragraph(book.caution, width)]


def _title(book: GearBook) -> str:
    if book.day is not None:
        return f"Gear booked on {book.day}, {book.folder}"
    return f"Gear of {book.folder}, as of {book.on}" + (f": {book.piece}" if book.piece else "")


def _head(words: str) -> list[Line]:
    return [plain(""), (Span(words, "bold underline"),)]


def _due(one: Piece, on: date) -> str | None:
    """Return under which head a piece stands among the checks; None where it is asked for none."""
    if not one.asked or one.out:
        return None
    if one.due is None:
        return " no check on file"
    return " overdue" if one.due < on else f"{one.due:%Y-%m}"


def _retires(one: Piece, on: date) -> str | None:
    if one.out or not one.ages:
        return None
    if one.retires is None:
        return " no date on file"
    return " too old now" if one.retires < on else f"{one.retires:%Y-%m}"


def _names(pieces: Sequence[Piece]) -> list[str]:
    """Return what to call each piece: by its list too where two lists have one name."""
    often = Counter(one.id for one in pieces)
    return [f"{one.id} ({one.listed_in})" if often[one.id] > 1 else one.id for one in pieces]


def _by_month(
    title: str, book: GearBook, width: int, head: Callable[[Piece, date], str | None]
) -> list[Line]:
    names = _names(book.pieces)
    rows = sorted(
        (at, names[n]) for n, one in enumerate(book.pieces) if (at := head(one, book.on)) is not None
    )
    lines = _head(title)
    for at, group in groupby(rows, key=lambda row: row[0]):
        urgent = at.startswith(" ")
        label = "bold" if urgent else ""
        lines += labelled(at.strip(), ", ".join(row[1] for row in group), width, indent=1, label_look=label)
    return lines if rows else [*lines, *paragraph("Nothing.", width, indent=1)]


def _rigs(pieces: Sequence[Piece], width: int) -> list[Line]:
    """Return which pieces each rig takes, then those that are out of use."""
    names = _names(pieces)
    used = sorted({(use.rig, names[n]) for n, one in enumerate(pieces) for use in one.uses})
    lines = _head("Used in") if used else []
    for rig, rows in groupby(used, key=lambda row: row[0]):
        lines += paragraph(f"{rig}: {', '.join(row[1] for row in rows)}", width, indent=1)
    out = [f"{names[n]}, {one.out}" for n, one in enumerate(pieces) if one.out]
    return [*lines, *_head("Out of use"), *paragraph("; ".join(out), width, indent=1)] if out else lines


def _piece(one: Piece, on: date, width: int) -> list[Line]:
    lines = [*_head(f"{one.id}, {one.kind}, {one.listed_in}")]
    facts = [("checked", str(one.checked or "no check on file")), ("due", state(one, on))]
    if one.ages:
        facts.append(("retires", str(one.retires or "no date on file")))
    for label, text in facts:
        lines += labelled(label, text, width, indent=1)
    uses = one.uses or ()
    for use in uses:
        lines += labelled("used in", f"{use.rig}, {use.stage}, {days(use)}", width, indent=1)
    return lines if uses else [*lines, *labelled("used in", "no rig", width, indent=1)]


def state(one: Piece, on: date) -> str:
    """Return what must happen to a piece before it may be rigged on a day, in a few words."""
    if one.out:
        return f"out of use: {one.out}"
    phrases = []
    if one.overdue(on):
        phrases.append(f"check overdue since {one.due}" if one.due else "no check on file")
    elif one.asked and one.due is not None:
        phrases.append(f"check by {one.due}")
    if one.too_old(on):
        phrases.append(f"too old since {one.retires}")
    return ", ".join(phrases) or "no check asked for"


def days(use: Use) -> str:
    """Return the days of a rig."""
    if use.first is None:
        return "no first day"
    if use.last is None:
        return f"from {use.first}, nobody says until when"
    return str(use.first) if use.first == use.last else f"{use.first} to {use.last}"


def _packing(book: GearBook, day: date, width: int) -> list[Line]:
    """Return a packing list: rig by rig, a box before each piece, then what two rigs count on."""
    rows = sorted((use.rig, one.listed_in, one.id, one) for one in book.pieces for use in one.uses)
    lines: list[Line] = []
    for rig, group in groupby(rows, key=lambda row: row[0]):
        lines += _head(f"Pack for {rig}")
        for _, listed_in, name, one in group:
            look = "bold" if one.out or one.overdue(day) or one.too_old(day) else ""
            words = f"{one.kind}, {listed_in}, {state(one, day)}"
            lines += labelled(f"[ ] {name}", words, width, indent=1, look=look)
    twice = [
        f"{one.id} ({', '.join(use.rig for use in one.uses)})" for one in book.pieces if len(one.uses) > 1
    ]
    if twice:
        lines += [*_head("In two rigs at once"), *paragraph("; ".join(twice), width, indent=1)]
    return lines or [plain(""), *paragraph("No rig is planned or up on this day.", width)]
