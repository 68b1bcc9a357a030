"""A comparison as text."""

from __future__ import annotations

from riglint.findings.variation.comparing import Comparison, Fate, Moved, RigChange
from riglint.reports.audit.finding_text import LOOKS
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
from riglint.reports.layout.spans import Line, labelled, paragraph, plain
from riglint.rulekit import Signal, first_up
from riglint.views.audit.settings_words import top_of
from riglint.views.audit.words import CAUTION_TEXT, sealed


def comparison_text(comparison: Comparison, width: int) -> list[Line]:
    """Return what changed between two sides, laid out for a width."""
    heading = f"Compared: {comparison.old} with {comparison.new}, as of {comparison.on}"
    lines: list[Line] = list(paragraph(heading, width, look="bold"))
    for sentence in top_of(comparison.force):
        lines += paragraph(sentence, width, look="bold")
    for one in comparison.settings:
        lines += labelled("WARNING", f"{one.path}: {one.message}", width, label_look=LOOKS[Signal.WARNING])
    for fate, rows in grouped(comparison).items():
        lines += _group(fate, rows, width)
    for rig in to_tell(comparison):
        lines += _rig(rig, width)
    lines += [plain(""), *paragraph(f"Judged by {sealed(comparison.seal)}.", width)]
    lines += paragraph(CAUTION_TEXT, width)
    return lines + paragraph(closing(comparison), width, look="bold")


def _rig(rig: RigChange, width: int) -> list[Line]:
    title = f" · {rig.title}" if rig.title else ""
    lines: list[Line] = [plain(""), *paragraph(f"{rig.path}{title}", width, look="bold underline")]
    lines += paragraph(STATUS[rig.status], width, indent=2, look="dim")
    for one in rig.references:
        lines += labelled("moved", reference_in_words(one), width, label_look=LOOKS[Signal.WARNING])
    lines += _values("Forces", rig.states, width)
    ratios, more = ratios_shown(rig)
    lines += _values("Strength ÷ worst load, least first", ratios, width)
    lines += paragraph(more, width, indent=4, look="dim") if more else []
    found, left = swaps(rig)
    if found:
        lines += [plain(""), *paragraph("Gear", width, indent=2, look="bold")]
        lines += [row for one in found for row in paragraph(swap_in_words(one), width, indent=4)]
    return lines + _values("Changed in the files", left, width)


def _group(fate: Fate, rows: list[ToldChange], width: int) -> list[Line]:
    """Return all findings that came, went or changed alike."""
    if not rows:
        return []
    lines = [plain(""), *paragraph(f"{first_up(fate)} ({len(rows)})", width, look="bold")]
    return lines + [line for one in rows for line in _finding(one, width)]


def _finding(told: ToldChange, width: int) -> list[Line]:
    changed = told.change
    look = LOOKS[changed.finding.signal] if changed.fate in {"new", "worse"} else "dim"
    words = f"{told.where}: {changed.finding.message}"
    lines = labelled(word(changed), words, width, label_look=look)
    if changed.fate in {"new", "worse"}:
        lines += labelled("", changed.finding.do, width, look="dim")
    return lines + labelled("", changed.finding.rule, width, look="dim")


def _values(heading: str, values: list[Moved], width: int) -> list[Line]:
    if not values:
        return []
    lines: list[Line] = [plain(""), *paragraph(heading, width, indent=2, look="bold")]
    for moved in values:
        lines += paragraph(f"{name_in_words(moved)}: {from_to(moved)}", width, indent=4)
    return lines
