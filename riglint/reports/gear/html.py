"""The gear of a library as a page: each piece with its dates drawn on a line of three years."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from html import escape

from riglint.read.problems import visible
from riglint.reports.drawing.svg import BLUE, GREY, INK, PALE, RED
from riglint.reports.gear.text import days
from riglint.reports.layout.html_page import html_page
from riglint.views.gear.content import GearBook, Piece

WIDE, HIGH, EDGE = 360.0, 22.0, 6.0
BEFORE, AFTER = 365, 2 * 365  # days that a line shows, before and after the day of the page
NONE = "–"
STYLE = """
:root { color-scheme: light; }
body { margin: 0 auto; max-width: 70rem; padding: 1.5rem 1rem 3rem; color: #2b2b2c; background: #ffffff;
  font: 1rem/1.45 system-ui, "Liberation Sans", Arial, sans-serif; overflow-wrap: anywhere; }
h1 { font-size: 1.5rem; line-height: 1.2; margin: 0 0 .3rem; } .wide { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; font-size: .9rem; }
th, td { text-align: left; padding: .25rem .5rem; border-bottom: 1px solid #c6c6c8; vertical-align: middle;
  overflow-wrap: normal; white-space: nowrap; }
td:last-child { white-space: normal; min-width: 14rem; overflow-wrap: anywhere; }
th { border-bottom: 2px solid #2b2b2c; } svg { display: block; width: 16rem; height: auto; }
.now { color: #9b2423; font-weight: 700; } .quiet { font-size: .875rem; color: #55555a; }
.caution { border: 2px solid #2b2b2c; padding: .6rem .8rem; margin-top: 2rem; }
"""
HEADS = ("piece", "kind", "check due", "retires", "dates", "rigs")


def gear_html(book: GearBook) -> str:
    """Return the page, what is due first on top."""
    day = book.day or book.on
    order = sorted(book.pieces, key=lambda one: (not _is_pressing(one, day), one.due or date.max, one.id))
    title = escape(visible(f"Gear of {book.folder}"))
    body = [f"<main><h1>{title}</h1>\n<p class=quiet>As of {day}. {_key()}</p>\n"]
    body += [f"<p>{escape(visible(one))}</p>\n" for one in book.settings]
    body += [f'<p class="now">{escape(visible(one))}</p>\n' for one in (*book.unread, *book.undated)]
    body.append('<div class="wide"><table><tr>' + "".join(f"<th>{one}</th>" for one in HEADS) + "</tr>\n")
    body += [_row(one, day) for one in order]
    body.append(f'</table></div>\n<p class="caution">{escape(book.caution)}</p></main>\n')
    return html_page(title, STYLE, "".join(body))


def _key() -> str:
    return (
        "Each line shows a year before and two years after that day, the upright stroke. "
        "Ring: last check. Disc: next check due. Square: retires. Bar: on a rig."
    )


def _is_pressing(piece: Piece, day: date) -> bool:
    return piece.overdue(day) or piece.too_old(day) or bool(piece.out)


def _row(piece: Piece, day: date) -> str:
    due = str(piece.due or ("not on file" if piece.asked else NONE))
    rigs = "; ".join(f"{use.rig} ({use.stage}, {days(use)})" for use in piece.uses)
    cells = [
        _cell(piece.id),
        _cell(
            piece.kind.replace("_", " ") + (f", out of use: {piece.out}" if piece.out else ""),
            now=bool(piece.out),
        ),
        _cell(f"{due}, overdue" if piece.overdue(day) else due, now=piece.overdue(day)),
        _cell(
            f"{piece.retires}, too old" if piece.too_old(day) else str(piece.retires or NONE),
            now=piece.too_old(day),
        ),
        f"<td>{_drawn(piece, day)}</td>",
        _cell(rigs or NONE),
    ]
    return f"<tr>{''.join(cells)}</tr>\n"


def _cell(text: str, *, now: bool = False) -> str:
    return f"<td{' class=now' if now else ''}>{escape(visible(text))}</td>"


def _drawn(piece: Piece, day: date) -> str:
    """Return the dates of a piece on their line; what lies beyond its ends stands at the end."""
    told = ", ".join(
        f"{words} {one}"
        for words, one in (("last check", piece.checked), ("due", piece.due), ("retires", piece.retires))
        if one
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDE:.0f} {HIGH:.0f}" role="img" '
        f'aria-label="{escape(visible(told or "no dates"))}">{"".join(_marks(piece, day))}</svg>'
    )


def _marks(piece: Piece, day: date) -> Iterator[str]:
    middle = HIGH / 2
    yield f'<path d="M{EDGE} {middle}H{WIDE - EDGE}" stroke="{PALE}" stroke-width="2"/>'
    yield f'<path d="M{_x(day, day):.1f} 2V{HIGH - 2}" stroke="{INK}" stroke-width="1.5"/>'
    for use in piece.uses:
        if use.first is not None:
            left, right = _x(use.first, day), _x(use.last or use.first, day)
            yield (
                f'<rect x="{left - 1:.1f}" y="{middle - 3}" width="{right - left + 2:.1f}" height="6" fill="{GREY}"/>'
            )
    if piece.checked is not None:
        yield _disc(_x(piece.checked, day), f'fill="#fff" stroke="{BLUE}" stroke-width="2"')
    if piece.due is not None:
        yield _disc(_x(piece.due, day), f'fill="{RED if piece.overdue(day) else BLUE}"')
    if piece.retires is not None:
        colour = RED if piece.too_old(day) else INK
        yield f'<rect x="{_x(piece.retires, day) - 4.5:.1f}" y="{middle - 4.5}" width="9" height="9" fill="{colour}"/>'


def _disc(x: float, look: str) -> str:
    return f'<circle cx="{x:.1f}" cy="{HIGH / 2}" r="4.5" {look}/>'


def _x(one: date, day: date) -> float:
    """Return where a day stands across the line, never beyond its ends."""
    share = ((one - day).days + BEFORE) / (BEFORE + AFTER)
    return EDGE + min(max(share, 0.0), 1.0) * (WIDE - 2 * EDGE)
