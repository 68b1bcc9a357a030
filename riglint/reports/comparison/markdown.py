"""A comparison as Markdown, for a comment under a proposed change: gravest first, short, what is left out counted."""

from __future__ import annotations

from riglint.findings.variation.comparing import Comparison, Fate, Moved, RigChange
from riglint.reports.comparison.swaps import swaps
from riglint.reports.comparison.words import (
    STATUS,
    ToldChange,
    closing,
    from_to,
    grouped,
    name_in_words,
    ratios_shown,
    reference_in_words,
    swap_in_words,
    to_tell,
    word,
)
from riglint.reports.sheet.markdown import escaped
from riglint.rulekit import first_up
from riglint.views.audit.settings_words import top_of
from riglint.views.audit.words import CAUTION_TEXT, sealed

MOST_ROWS = 25  # of one table of one rig
MOST_CHARACTERS = 50_000  # some hosts cut comments above 65,536


def comparison_markdown(comparison: Comparison) -> str:
    """Return what changed between two sides."""
    head = [f"## What changes for the rigs: {escaped(comparison.old)} → {escaped(comparison.new)}", ""]
    lines = [*head, f"**{closing(comparison)}** As of {comparison.on}, {sealed(comparison.seal)}.", ""]
    lines += [line for one in top_of(comparison.force) for line in (f"**{escaped(one)}**", "")]
    for one in comparison.settings:
        lines += [f"**WARNING** {escaped(one.path)}: {escaped(one.message)}", ""]
    for fate, rows in grouped(comparison).items():
        lines += _group(fate, rows)
    rigs, left = to_tell(comparison), 0
    for rig in rigs:
        block = _rig(rig)
        if sum(map(len, lines)) + sum(map(len, block)) > MOST_CHARACTERS:
            left += 1
            continue
        lines += block
    if left:
        lines += [f"{left} more rigs changed; `--format text` tells all.", ""]
    return "\n".join([*lines, f"> {escaped(CAUTION_TEXT)}", ""])


def _rig(rig: RigChange) -> list[str]:
    title = f" · {escaped(rig.title)}" if rig.title else ""
    lines = [f"### {escaped(rig.path)}{title}", "", f"{STATUS[rig.status]}", ""]
    if rig.references:
        lines += [*(f"- **moved:** {escaped(reference_in_words(one))}" for one in rig.references), ""]
    ratios, more = ratios_shown(rig)
    found, left = swaps(rig)
    lines += [f"- {escaped(swap_in_words(one))}" for one in found] + ([""] if found else [])
    for heading, values in (("force", rig.states), ("ratio", ratios), ("changed in the files", left)):
        if values:
            lines += [f"| {heading} | |", "|---|---|", *_short([_moved(one) for one in values], 2)]
            lines += [f"| {more} | |", ""] if values is ratios and more else [""]
    return lines


def _group(fate: Fate, rows: list[ToldChange]) -> list[str]:
    """Return all findings that came, went or changed alike as a table."""
    if not rows:
        return []
    table = [_finding(one) for one in rows]
    head = ["| word | rig | finding | rule |", "|---|---|---|---|"]
    return [f"### {first_up(fate)} ({len(rows)})", "", *head, *_short(table, 4), ""]


def _finding(told: ToldChange) -> str:
    one = told.change.finding
    strong = "**" if told.change.fate in {"new", "worse"} else ""
    return (
        f"| {strong}{word(told.change)}{strong} | {escaped(told.where)} | {escaped(one.message)} | "
        f"{escaped(one.rule)} |"
    )


def _moved(moved: Moved) -> str:
    return f"| {escaped(name_in_words(moved))} | {escaped(from_to(moved))} |"


def _short(rows: list[str], columns: int) -> list[str]:
    """Return the first rows of a table, and one that counts the others."""
    left = len(rows) - MOST_ROWS
    return rows if left <= 0 else [*rows[:MOST_ROWS], f"| {left} more |" + " |" * (columns - 1)]
