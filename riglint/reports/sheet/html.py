"""The calculation sheet as one page of HTML: no script, nothing fetched, ready to print on A4."""

from __future__ import annotations

from html import escape

from riglint.read.problems import visible
from riglint.reports.drawing.drawings import drawings
from riglint.reports.layout.assumed import assumed_html
from riglint.reports.layout.html_page import html_page
from riglint.reports.layout.units_shown import in_units
from riglint.reports.layout.what_if import style_of, what_if_html
from riglint.views.blocks import Block, Column, Note, Section, Table, Worked, sourced
from riglint.views.sheet.content import Sheet

KEPT_TOGETHER = (
    12  # rows of a table that a page break may not part; a longer one repeats its head on the next page
)

# Every pair of text and ground here has a contrast of at least 4.5 : 1.
STYLE = """
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 60rem; padding: 1.5rem 1rem 3rem; color: #2b2b2c; background: #ffffff;
  font: 1rem/1.45 system-ui, "Liberation Sans", Arial, sans-serif; overflow-wrap: anywhere; }
h1 { font-size: 1.6rem; line-height: 1.2; margin: 0 0 .3rem; }
h2 { font-size: 1.2rem; margin: 2.2rem 0 .6rem; padding-bottom: .2rem; border-bottom: 2px solid #2b2b2c; }
p { margin: .3rem 0; }
.stake { border-left: .4rem solid #2b2b2c; padding: .3rem .8rem; margin: .8rem 0; }
.open { border: 2px dashed #9b2423; padding: .5rem .8rem; }
.caution { border: 2px solid #2b2b2c; padding: .6rem .8rem; margin-top: 2rem; }
.quiet { color: #55555a; font-size: .875rem; }
figure { margin: 1.2rem 0; }
figcaption { font-size: .875rem; color: #55555a; }
figcaption b { color: #2b2b2c; }
svg { display: block; width: 100%; height: auto; }
.wide { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; margin: .6rem 0 .2rem;
  font-variant-numeric: tabular-nums; font-size: .9rem; }
th, td { text-align: right; padding: .25rem .5rem; border-bottom: 1px solid #c6c6c8; vertical-align: bottom; }
th { border-bottom: 2px solid #2b2b2c; font-weight: 600; overflow-wrap: normal; }
th:first-child, td:first-child { text-align: left; min-width: 8rem; }
td { white-space: nowrap; } td:first-child { white-space: normal; }
th:first-child, td:first-child { position: sticky; left: 0; background: #ffffff; }
.line { border-bottom: 1px solid #c6c6c8; padding: .45rem 0; break-inside: avoid; }
.line .what { display: flex; justify-content: space-between; gap: 1rem; align-items: baseline; }
.line .what b { font-weight: 600; }
.line .result { font-weight: 700; white-space: nowrap; font-variant-numeric: tabular-nums; }
.sum { font-family: ui-monospace, "Liberation Mono", monospace; font-size: .875rem; }
dl { display: grid; grid-template-columns: minmax(6rem, 9rem) 1fr; gap: .2rem .8rem;
  font-size: .9rem; margin: .6rem 0; }
dt { font-weight: 600; } dd { margin: 0; }
.short { display: none; }
@media screen and (max-width: 34rem) {
  .short { display: inline; } .long { display: none; }
  body { padding: 1rem .75rem 2rem; }
  dl { grid-template-columns: 1fr; } dd { margin-bottom: .3rem; }
  th, td { padding: .25rem .25rem; font-size: .8rem; }
  th:first-child, td:first-child { min-width: 5rem; }
  .drawing { overflow-x: auto; } .drawing svg { min-width: 34rem; }
}
@page { size: A4; margin: 15mm 14mm 16mm;
  @bottom-right { content: counter(page) " / " counter(pages); font: 8pt "Liberation Sans", Arial, sans-serif; } }
@media print {
  body { max-width: none; padding: 0; font-size: 9.5pt; orphans: 3; widows: 3; }
  h2 { break-after: avoid; margin-top: 1.2rem; } figure, .wide, tr, dl, .stake, .open, .caution { break-inside: avoid; }
  .tall { break-inside: auto; } .wide + .quiet { break-before: avoid; }
  th:first-child, td:first-child { position: static; }
  thead { display: table-header-group; } .wide, .drawing { overflow: visible; }
  .quiet, figcaption { color: #2b2b2c; font-size: 8pt; } table, dl { font-size: 8.5pt; } .sum { font-size: 8.5pt; }
}
"""


def safe(text: str) -> str:
    """Return text from a file as HTML prints it: no markup, nothing hidden."""
    return escape(visible(in_units(text)))


def sheet_html(sheet: Sheet) -> str:
    """Return the calculation sheet of one rig as a page of its own, with its drawings."""
    sections = "\n".join(_section(section) for section in sheet.sections)
    missing = f"not computed for want of: {'; '.join(sheet.missing)}"
    words = f'<p class="open"><b>Open:</b> {safe(missing)}</p>\n' if sheet.missing else ""
    return html_page(
        f"Calculation sheet: {safe(sheet.title)}",
        style_of(STYLE, sheet.what_if),
        f"<header>\n<h1>Calculation sheet: {safe(sheet.title)}</h1>\n"
        f'<p class="quiet">{safe(sheet.beside)}</p>\n'
        f"{what_if_html(sheet.what_if)}"
        f"{''.join(f'<p>{safe(one)}</p>' for one in sheet.settings)}"
        f'<p class="stake"><b>Consequence</b> – {safe(sheet.at_stake)}</p>\n{words}'
        f"{assumed_html(sheet.assumed, 2)}</header>\n<main>\n"
        + "\n".join(drawings(sheet))
        + f"\n{sections}\n</main>\n"
        f'<footer><p class="caution">{safe(sheet.caution)}</p></footer>\n',
    )


def _section(section: Section) -> str:
    parts = [f"<section>\n<h2>{safe(section.title)}</h2>"]
    notes: list[Note] = []
    for block in section.blocks:
        if isinstance(block, Note):
            notes.append(block)
            continue
        parts += _notes(notes)
        notes = []
        parts.append(_block(block))
    return "\n".join([*parts, *_notes(notes), "</section>"])


def _notes(notes: list[Note]) -> list[str]:
    if not notes:
        return []
    rows = "".join(f"<dt>{safe(one.label)}</dt><dd>{safe(one.text)}</dd>\n" for one in notes)
    return [f"<dl>\n{rows}</dl>"]


def _block(block: Block) -> str:
    if isinstance(block, Table):
        return _table(block)
    return _worked(block) if isinstance(block, Worked) else ""


def _worked(line: Worked) -> str:
    steps = [step for step in (line.symbol, line.formula, line.working) if step]
    shown = safe(" = ".join([*steps, line.result]))
    inputs = safe("; ".join(one.text for one in line.inputs))
    below = f'<p class="quiet">{inputs}</p>' if inputs else ""
    return (
        f'<div class="line"><div class="what"><span><b>{safe(line.label)}</b> {safe(line.words)}</span>'
        f'<span class="result">{safe(line.result)}</span></div><p class="sum">{shown}</p>{below}'
        f'<p class="quiet">Source: {safe(sourced(line.source))}</p></div>'
    )


def _heading(column: Column) -> str:
    """Return the long heading, and the short one for a narrow screen; what it means stands below the table."""
    short = f"{column.label} [{column.unit}]" if column.unit else column.label
    if short == column.heading:
        return safe(short)
    return f'<span class="long">{safe(column.heading)}</span><span class="short">{safe(short)}</span>'


def _table(table: Table) -> str:
    heads = "".join(f'<th scope="col">{_heading(column)}</th>' for column in table.columns)
    rows = "".join(
        "<tr>" + "".join(f"<td>{safe(cell)}</td>" for cell in row) + "</tr>\n" for row in table.rows
    )
    caption = f'<p class="quiet">{safe(table.caption)}</p>' if table.caption else ""
    label = safe(f"table by {table.columns[0].heading}")
    tall = " tall" if len(table.rows) > KEPT_TOGETHER else ""
    wide = f'<div class="wide{tall}" role="group" tabindex="0" aria-label="{label}">'
    return f"{wide}<table><thead><tr>{heads}</tr></thead><tbody>\n{rows}</tbody></table></div>{caption}"
