"""How far each value of a rig may move, as text: the calculation sheet turned round."""

from __future__ import annotations

from riglint.findings.variation.ranges import Limits, Range
from riglint.findings.variation.varied_rig import RangeEnd
from riglint.reports.audit.text import policy_lines
from riglint.reports.layout.spans import Line, labelled, paragraph, plain
from riglint.rulekit import first_up
from riglint.views.audit.settings_words import top_of
from riglint.views.audit.words import CAUTION_TEXT, sealed

HOW = (
    "One value is moved at a time, all others stay as they are, and every rule judges the rig again. A range ends "
    "where a rule says more than today at the word {word} or graver; milder findings come sooner. For two values "
    "together, change one in the file and ask again."
)


def limits_text(limits: Limits, width: int) -> list[Line]:
    """Return the ranges of one rig, laid out for a width."""
    lines: list[Line] = [*paragraph(f"Limits: {limits.title}", width, look="bold")]
    lines += paragraph(f"{limits.path}, as of {limits.on}", width)
    for sentence in top_of(limits.force):
        lines += paragraph(sentence, width, look="bold")
    lines += [plain(""), *paragraph(HOW.format(word=limits.stop_at.name), width)]
    if limits.standing:
        words = "; ".join(f"{one.rule} ({one.signal.name}): {one.message}" for one in limits.standing)
        lines += [plain(""), *labelled("today", f"no value below ends this: {words}", width, indent=0)]
    for each in limits.ranges:
        lines += [plain(""), *_range(each, width)]
    if not limits.ranges:
        lines += [plain(""), *paragraph("The file gives no value that could be moved.", width)]
    lines += [plain(""), *paragraph(f"Judged by {sealed(limits.seal)}.", width)]
    return [*lines, *policy_lines(limits.force, width), *paragraph(CAUTION_TEXT, width)]


def _range(each: Range, width: int) -> list[Line]:
    lines = [*paragraph(first_up(each.name), width, look="bold underline")]
    lines += labelled("today", _today(each), width)
    if each.lower is None or each.upper is None:
        return lines + labelled("passes", "no value that was tried", width)
    passes = each.lower.last
    if each.upper.last != passes:
        passes = f"from {passes} to {each.upper.last}"
    lines += labelled("passes", passes, width)
    for edge in (each.lower, each.upper):
        phrases = [f"{one.at.key_text} then {one.new} instead of {one.old}" for one in edge.along]
        lines += labelled("with it", f"at {edge.last} write {'; '.join(phrases)}", width) if phrases else []
    lines += labelled("below", _beyond(each.lower, "down"), width)
    return lines + labelled("above", _beyond(each.upper, "up"), width)


def _today(each: Range) -> str:
    if each.inside:
        kept = sorted({one.rule for one in each.aside})
        return f"{each.now}; whatever this is, these stand: {', '.join(kept)}" if kept else each.now
    return f"{each.now}, which does not pass: {', '.join(sorted({one.rule for one in each.against}))}"


def _beyond(edge: RangeEnd, direction: str) -> str:
    if edge.beyond is None:
        return f"no rule stops it {direction} to {edge.last}; nothing beyond was tried"
    found = edge.beyond
    return f"{found.rule} ({found.signal.name}): {found.message}"
