"""The calculation sheet as Markdown, for a page that people review together."""

from __future__ import annotations

import re

from riglint.read.problems import visible
from riglint.reports.layout.units_shown import in_units
from riglint.views.assumed import TITLE as ASSUMED
from riglint.views.assumed import in_sentences
from riglint.views.blocks import Block, Note, Section, Table, Worked, sourced
from riglint.views.sheet.content import Sheet

_SPECIAL = re.compile(r"([\\`*_\[\]#|~$])")


def escaped(text: str) -> str:
    r"""Return text that Markdown prints as it stands; no name in a file can make a link, a heading or markup.

    >>> escaped("a|b <i> [x](y)")
    'a\\|b &lt;i&gt; \\[x\\](y)'
    """
    plain = (
        visible(in_units(" ".join(text.split())))
        .replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
    )
    return _SPECIAL.sub(r"\\\1", plain).replace("://", ":&#47;&#47;")


def sheet_markdown(sheet: Sheet) -> str:
    """Return the calculation sheet of one rig."""
    lines = [f"# Calculation sheet: {escaped(sheet.title)}", "", escaped(sheet.beside), ""]
    what_if = [line for one in sheet.what_if for line in (f"**{escaped(one)}**", "")]
    lines += what_if
    lines += [line for one in sheet.settings for line in (escaped(one), "")]
    lines += [f"**Consequence:** {escaped(sheet.at_stake)}", ""]
    if sheet.assumed:
        lines += [f"## {ASSUMED}", "", *(f"- {escaped(one)}" for one in in_sentences(sheet.assumed)), ""]
    for section in sheet.sections:
        lines += _section(section)
    if sheet.missing:
        lines += [f"**Open:** not computed for want of: {escaped('; '.join(sheet.missing))}", ""]
    return "\n".join([*lines, *what_if, f"> {escaped(sheet.caution)}", ""])


def _section(section: Section) -> list[str]:
    lines = [f"## {escaped(section.title)}", ""]
    for block in section.blocks:
        rows = _block(block)
        if isinstance(block, Table) and lines[-1] != "":
            lines.append("")
        lines += rows
    return lines if lines[-1] == "" else [*lines, ""]


def _block(block: Block) -> list[str]:
    if isinstance(block, Table):
        return _table(block)
    if isinstance(block, Note):
        return [f"- *{escaped(block.label)}*: {escaped(block.text)}"]
    return _worked(block)


def _worked(line: Worked) -> list[str]:
    steps = [step for step in (line.symbol, line.formula, line.working) if step]
    shown = "".join(f"{escaped(step)} = " for step in steps)
    rows = [f"- **{escaped(line.label)}** {escaped(line.words)}: {shown}**{escaped(line.result)}**"]
    if line.inputs:
        rows.append(f"  - with {escaped('; '.join(one.text for one in line.inputs))}")
    return [*rows, f"  - source: {escaped(sourced(line.source))}"]


def _table(table: Table) -> list[str]:
    heads = [escaped(column.heading) for column in table.columns]
    lines = [f"| {' | '.join(heads)} |", f"| --- |{' ---: |' * (len(heads) - 1)}"]
    lines += [f"| {' | '.join(escaped(cell) for cell in row)} |" for row in table.rows]
    return [*lines, "", *([escaped(table.caption), ""] if table.caption else [])]
