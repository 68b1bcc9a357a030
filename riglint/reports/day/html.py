"""A day at one spot as a part of the audit's page, and as a card of its own for the board at the meadow."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from riglint.reports.day.plan import plan_drawing
from riglint.reports.layout.html_page import html_page
from riglint.reports.sheet.html import safe
from riglint.views.audit.words import CAUTION_TEXT
from riglint.views.day.content import SOURCE, Day, SumOfDay
from riglint.views.day.plan import SitePlan

Days = Sequence[tuple[Day, SitePlan | None]]
STYLE = """
.day { border-top: 4px solid #2b2b2c; margin: 1.6rem 0 0; padding-top: .4rem; }
.day h2 { margin: .4rem 0 .8rem; border: 0; }
.day h3 { margin: 1.2rem 0 .3rem; }
.day .cols { display: grid; grid-template-columns: repeat(auto-fit, minmax(19rem, 1fr)); gap: 0 2rem; }
.day figure { margin: 0; max-width: 30rem; } .day svg { display: block; width: 100%; height: auto; }
.day table { border-collapse: collapse; width: 100%; font-variant-numeric: tabular-nums; }
.day th, .day td { text-align: right; padding: .2rem .4rem; border-bottom: 1px solid #c6c6c8; overflow-wrap: normal; }
.day th { border-bottom: 2px solid #2b2b2c; font-weight: 600; vertical-align: bottom; }
.day th:first-child, .day td:first-child { text-align: left; padding-left: 0; white-space: normal; }
.day ol, .day ul { margin: .2rem 0; padding-left: 1.4rem; list-style: revert; }
.day ul.boxes { padding-left: 0; list-style: none; }
.day ul.boxes li { display: flex; gap: .5em; }
.day .box { flex: none; width: .85em; height: .85em; margin-top: .3em; border: 1.5px solid #2b2b2c; }
.day li { margin: .2rem 0; break-inside: avoid; }
.day .piece { white-space: nowrap; }
.day .sum { font-size: .875rem; margin: 0 0 .5rem; }
.day .fault { border: 2px solid #2b2b2c; padding: .3rem .6rem; margin: .4rem 0; }
@media print { .day .cols { grid-template-columns: 1fr 1fr; } .day figure, .day section { break-inside: avoid; } }
"""
CARD_STYLE = (
    """
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 60rem; padding: 1rem; color: #2b2b2c; background: #ffffff;
  font: 1rem/1.4 system-ui, "Liberation Sans", Arial, sans-serif; overflow-wrap: anywhere; }
h1 { font-size: 1rem; font-weight: 600; margin: 0; color: #55555a; }
h2 { font-size: 1.4rem; line-height: 1.2; } h3 { font-size: 1.05rem; } p { margin: .3rem 0; }
figcaption, .quiet { font-size: .875rem; color: #55555a; } figcaption b { color: #2b2b2c; }
.caution { border: 2px solid #2b2b2c; padding: .5rem .8rem; margin-top: 1rem; }
@page { size: A4; margin: 13mm 14mm; }
@media print { body { max-width: none; padding: 0; font-size: 9.5pt; } .quiet, figcaption { color: #2b2b2c; } }
"""
    + STYLE
)


def days_html(days: Days) -> str:
    """Return the days of an audit as parts of a page."""
    return "".join(_day(n, *one) for n, one in enumerate(days, 1))


def _day(number: int, day: Day, plan: SitePlan | None) -> str:
    parts = [
        f'<section class="day">\n<h2>{safe(day.title)}</h2>',
        *(
            f'<p class="fault"><b>{one.signal.name}</b> {safe(one.message)} {safe(one.do)}</p>'
            for one in day.faults
        ),
        '<div class="cols">',
        _part("", plan_drawing(plan, f"day{number}-plan")) if plan else "",
        _part("Lines", _lines(day)),
        _part(
            "Rig in this order",
            _items(day.order, "ol") + '<p class="quiet">Let down in the reverse order.</p>',
        ),
        _part("Keep clear meanwhile", _items(day.meanwhile, "ul")),
        _part("Stop", _items(day.wind, "ul")),
        _part("Look at each anchor before the first line and after each one", _boxes(day.anchors)),
        _part("Pack", _packing(day)),
        _part("Anchors in more than one line", "".join(map(_sum, day.sums)) + _not_added(day)),
        "</div>\n</section>\n",
    ]
    return "\n".join(one for one in parts if one)


def day_card(days: Days, beside: str) -> str:
    """Return the card of a day as a page to print."""
    return html_page(
        safe("; ".join(day.title for day, _ in days)),
        CARD_STYLE,
        f"<header><h1>Lines that stand together</h1></header>\n<main>\n{days_html(days)}</main>\n"
        f'<footer><p class="quiet">{safe(beside)}</p>'
        f'<p class="caution">{safe(CAUTION_TEXT)}</p></footer>\n',
    )


def _part(title: str, body: str) -> str:
    if not body:
        return ""
    head = f"<h3>{safe(title)}</h3>\n" if title else ""
    return f"<section>\n{head}{body}</section>"


def _items(words: Iterable[str], kind: str) -> str:
    rows = "".join(f"<li>{safe(one)}</li>\n" for one in words)
    return f"<{kind}>\n{rows}</{kind}>\n" if rows else ""


def _boxes(words: Iterable[str]) -> str:
    rows = "".join(
        f'<li><span class="box" aria-hidden="true"></span><span>{safe(one)}</span></li>\n' for one in words
    )
    return f'<ul class="boxes">\n{rows}</ul>\n' if rows else ""


def _packing(day: Day) -> str:
    """Return the list of gear; the name of a piece is never parted by the end of a row."""
    rows = []
    for many, pieces in day.packing:
        named = ", ".join(f'<span class="piece">{safe(one)}</span>' for one in pieces.split(", "))
        rows.append(
            f'<li><span class="box" aria-hidden="true"></span><span>{safe(many)}: {named}</span></li>\n'
        )
    return f'<ul class="boxes">\n{"".join(rows)}</ul>\n' if rows else ""


def _table(heads: tuple[str, ...], rows: Iterable[tuple[str, ...]]) -> str:
    head = "".join(f'<th scope="col">{safe(one)}</th>' for one in heads)
    body = "".join("<tr>" + "".join(f"<td>{safe(one)}</td>" for one in row) + "</tr>\n" for row in rows)
    return f"<table><thead><tr>{head}</tr></thead><tbody>\n{body}</tbody></table>\n"


def _lines(day: Day) -> str:
    rows = [(f"{one.title}, {one.ends}", one.standing, one.wind, one.crew) for one in day.lines]
    return _table(("line", "standing [kN]", "wind [km/h]", "crew"), rows)


def _sum(one: SumOfDay) -> str:
    rows = [
        ("worst of any of them", one.worst),
        ("all at their worst at once", one.all_at_once),
        *((f"{line} at its worst, the others at rest", size) for line, size in one.one_at_its_worst),
    ]
    return (
        _table((f"'{one.anchor}': {', '.join(one.lines)}", "kN"), rows)
        + f'<p class="sum">{safe(one.working)}</p>\n'
    )


def _not_added(day: Day) -> str:
    items = "".join(
        f"<p>'{safe(name)}' cannot be added up: a value is missing, see the findings.</p>\n"
        for name in day.not_added
    )
    return items + (f'<p class="quiet">Source: {SOURCE}</p>\n' if day.sums else "")
