"""The calculation sheet as text: what the rig will see, part by part, with formula and source."""

from __future__ import annotations

import textwrap
from itertools import groupby

from riglint.model.values.sources import Source
from riglint.read.problems import visible
from riglint.reports.layout.spans import LABEL, Line, Span, labelled, paragraph, plain
from riglint.views.assumed import TITLE as ASSUMED
from riglint.views.blocks import Block, Note, Section, Table, Worked, sourced
from riglint.views.sheet.content import Sheet


def sheet_text(sheet: Sheet, width: int) -> list[Line]:
    """Return the calculation sheet of one rig, laid out for a width."""
    what_if = [line for one in sheet.what_if for line in paragraph(one, width, look="bold")]
    lines: list[Line] = [*paragraph(f"Calculation sheet: {sheet.title}", width, look="bold")]
    lines += paragraph(sheet.beside, width)
    lines += what_if
    lines += [line for one in sheet.settings for line in paragraph(one, width)]
    lines += labelled("consequence", sheet.at_stake, width, indent=0)
    if sheet.assumed:
        lines += [plain(""), (Span(ASSUMED, "bold underline"),)]
        lines += [row for one in sheet.assumed for row in labelled("-", f"{one.label}: {one.text}", width)]
    for section in sheet.sections:
        lines += _section(section, width)
    if sheet.missing:
        words = f"not computed for want of: {'; '.join(sheet.missing)}"
        lines += [plain(""), *labelled("open", words, width, indent=0)]
    return [*lines, plain(""), *what_if, *paragraph(sheet.caution, width)]


def _section(section: Section, width: int) -> list[Line]:
    lines: list[Line] = [plain(""), (Span(section.title, "bold underline"),)]
    for source, blocks in groupby(section.blocks, key=_source):
        for block in blocks:
            lines += _block(block, width)
        if source is not None:  # said once for the lines that share it
            lines += labelled("source", sourced(source), width)
    return lines


def _source(block: Block) -> Source | None:
    return block.source if isinstance(block, Worked) else None


def _block(block: Block, width: int) -> list[Line]:
    if isinstance(block, Table):
        caption = paragraph(block.caption, width, indent=2) if block.caption else []
        return [*_table(block, width), *caption]
    if isinstance(block, Note):
        return labelled(block.label, block.text, width)
    return _worked(block, width)


def _worked(line: Worked, width: int) -> list[Line]:
    calculation = line.calculation if line.symbol else line.calculation.removeprefix(" = ")
    words = f"{line.words}: {calculation}"
    if len(line.label) >= LABEL:  # a long name stands before its sentence, not in a column of its own
        lines = paragraph(f"{line.label} {words}", width, indent=2)
    else:
        lines = labelled(line.label, words, width)
    if line.inputs:
        lines += labelled("", "; ".join(one.text for one in line.inputs), width, look="dim")
    return lines


def _table(table: Table, width: int) -> list[Line]:
    """Return columns: the first takes what is left and wraps, the others stand right, units below their names."""
    rows = [tuple(visible(cell) for cell in row) for row in table.rows]
    heads = [tuple(one.label for one in table.columns), tuple(one.unit for one in table.columns)]
    everything = [*heads, *rows]
    columns = [max(len(row[n]) for row in everything) for n in range(1, len(table.columns))]
    widest = max(len(row[0]) for row in everything)
    first = max(12, min(widest, width - sum(columns) - 2 * len(columns) - 2))
    lines: list[Line] = []
    for n, row in enumerate(everything):
        look = "dim" if n < len(heads) else ""
        pieces = _first_column(row[0], first, width - 2)
        cells = "".join(f"  {cell:>{column}}" for cell, column in zip(row[1:], columns, strict=True))
        lines += [(Span(f"  {piece}", look),) for piece in pieces[:-1]]
        lines.append((Span(f"  {pieces[-1]:<{first}}{cells}", look),))
    return lines


def _first_column(text: str, first: int, width: int) -> list[str]:
    """Return a cell of the first column in rows; a name too long for it stands above its figures, unbroken."""
    if max((len(word) for word in text.split()), default=0) > first:
        return [*textwrap.wrap(text, width), ""]
    return textwrap.wrap(text, first, break_on_hyphens=False) or [""]
