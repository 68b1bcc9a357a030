"""A comparison as text."""

from __future__ import annotations

from riglint.findings.variation.comparing import Comparison, Moved, RigChange, Turned
from riglint.reports.audit.finding_text import LOOKS
from riglint.reports.comparison.swaps import swaps
from riglint.reports.comparison.words import (
    STATUS,
    closing,
    from_to,
    reference_told,
    swap_told,
    to_tell,
    told_name,
    told_ratios,
    word,
)
from riglint.reports.layout.spans import Line, labelled, paragraph, plain
from riglint.rulekit import Signal
from riglint.views.audit.words import CAUTION_TEXT, sealed, unfit_policy


def comparison_text(comparison: Comparison, width: int) -> list[Line]:
    """Return what changed between two sides, laid out for a width."""
    heading = f"Compared: {comparison.old} with {comparison.new}, as of {comparison.on}"
    lines: list[Line] = list(paragraph(heading, width, look="bold"))
    for sentence in unfit_policy(comparison.force):
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
    for turned in rig.findings:
        lines += _finding(turned, width)
    for one in rig.references:
        lines += labelled("moved", reference_told(one), width, label_look=LOOKS[Signal.WARNING])
    lines += _values("Forces", rig.states, width)
    ratios, more = told_ratios(rig)
    lines += _values("Strength ÷ worst load, least first", ratios, width)
    lines += paragraph(more, width, indent=4, look="dim") if more else []
    found, left = swaps(rig)
    if found:
        lines += [plain(""), *paragraph("Gear", width, indent=2, look="bold")]
        lines += [row for one in found for row in paragraph(swap_told(one), width, indent=4)]
    return lines + _values("Changed in the files", left, width)


def _finding(turned: Turned, width: int) -> list[Line]:
    look = LOOKS[turned.finding.signal] if turned.fate in {"new", "worse"} else "dim"
    lines = labelled(turned.fate, f"{word(turned)}: {turned.finding.message}", width, label_look=look)
    if turned.fate in {"new", "worse"}:
        lines += labelled("", turned.finding.do, width, look="dim")
    return lines + labelled("", turned.finding.rule, width, look="dim")


def _values(heading: str, values: list[Moved], width: int) -> list[Line]:
    if not values:
        return []
    lines: list[Line] = [plain(""), *paragraph(heading, width, indent=2, look="bold")]
    for moved in values:
        lines += paragraph(f"{told_name(moved)}: {from_to(moved)}", width, indent=4)
    return lines
