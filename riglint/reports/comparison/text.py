"""A comparison as text."""

from __future__ import annotations

from riglint.findings.variation.comparing import Comparison, FindingChange, Moved, RigChange
from riglint.reports.audit.finding_text import LOOKS
from riglint.reports.comparison.swaps import swaps
from riglint.reports.comparison.words import (
    STATUS,
    closing,
    from_to,
    name_in_words,
    ratios_shown,
    reference_in_words,
    swap_in_words,
    to_tell,
    word,
)
from riglint.reports.layout.spans import Line, labelled, paragraph, plain
from riglint.rulekit import Signal
from riglint.views.audit.settings_words import top_of
from riglint.views.audit.words import CAUTION_TEXT, sealed


def comparison_text(comparison: Comparison, width: int) -> list[Line]:
    """Return what changed between two sides, laid out for a width."""
    heading = f"Compared: {comparison.old} with {comparison.new}, as of {comparison.on}"
    lines: list[Line] = list(paragraph(heading, width, look="bold"))
    for sentence in top_of(comparison.force):
        lines += paragraph(sentence, width, look="bold")
    for rig in to_tell(comparison):
        lines += _rig(rig, width)
    lines += [plain(""), *paragraph(f"Judged by {sealed(comparison.seal)}.", width)]
    lines += paragraph(CAUTION_TEXT, width)
    return lines + paragraph(closing(comparison), width, look="bold")


def _rig(rig: RigChange, width: int) -> list[Line]:
    title = f" · {rig.title}" if rig.title else ""
    lines: list[Line] = [plain(""), *paragraph(f"{rig.path}{title}", width, look="bold underline")]
    lines += paragraph(STATUS[rig.status], width, indent=2, look="dim")
    for changed in rig.findings:
        lines += _finding(changed, width)
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


def _finding(changed: FindingChange, width: int) -> list[Line]:
    look = LOOKS[changed.finding.signal] if changed.fate in {"new", "worse"} else "dim"
    lines = labelled(changed.fate, f"{word(changed)}: {changed.finding.message}", width, label_look=look)
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
