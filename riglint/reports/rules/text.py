"""The rulebook as text: every rule in a list, or one rule in full."""

from __future__ import annotations

from riglint.hazards import PHASES, for_the_eyes
from riglint.model.values.ratios import PEAK
from riglint.reports.layout.spans import Line, labelled, paragraph, plain
from riglint.reports.rules.rule_words import (
    AT_STAKE,
    CONSEQUENCES,
    PART_CLASSES,
    checks,
    example_words,
    examples_of,
    eyes_words,
    families,
    graded,
    limit_words,
    open_without,
    prevented,
    scale,
    sourced,
    sources,
    words_at,
)
from riglint.rulebook import Rulebook
from riglint.rulekit import Rule
from riglint.views.audit.words import CAUTION_TEXT
from riglint.views.figures import number

VERDICTS = (("sound", "passes"), ("faulty", "found"), ("review", "to look at"))


def rulebook_text(book: Rulebook, width: int) -> list[Line]:
    """Return the list of all rules, with the scales that they are read by."""
    lines: list[Line] = list(
        paragraph(f"The rulebook: {len(book.rules)} rules, {book.seal}", width, look="bold")
    )
    lines += [plain(""), *paragraph("Signal words (after ANSI Z535.4 and ISO 3864-2)", width, look="bold")]
    for name, meaning in scale():
        lines += labelled(name, meaning, width)
    lines += [plain(""), *paragraph("Consequence of a failure", width, look="bold")]
    for word, meaning in AT_STAKE.items():
        lines += labelled(word, meaning, width)
    for family, rules in families(book).items():
        lines += [plain(""), *paragraph(family, width, look="bold underline")]
        for rule_id, rule in rules.items():
            lines += paragraph(rule_id, width, indent=2, look="bold")
            lines += paragraph(f"{rule.title}.", width, indent=4)
            lines += paragraph(_words(rule), width, indent=4, look="dim")
    lines += [plain(""), *_ratios(width), plain(""), *_eyes(width), plain("")]
    return lines + paragraph(CAUTION_TEXT, width) + paragraph(_more(), width)


def found_text(found: Rulebook, word: str, width: int) -> list[Line]:
    """Return the list of the rules that a word leads to."""
    rules = "1 rule" if len(found.rules) == 1 else f"{len(found.rules)} rules"
    lines: list[Line] = list(paragraph(f"{rules} for '{word}'", width, look="bold"))
    for rule_id, rule in found.rules.items():
        lines += paragraph(rule_id, width, indent=2, look="bold")
        lines += paragraph(f"{rule.title}.", width, indent=4)
        lines += paragraph(_words(rule), width, indent=4, look="dim")
    return [*lines, plain(""), *paragraph(CAUTION_TEXT, width), *paragraph(_more(), width)]


def rule_text(rule_id: str, rule: Rule, width: int) -> list[Line]:
    """Return one rule in full."""
    lines: list[Line] = [*paragraph(f"{rule_id}: {rule.title}", width, look="bold")]
    lines += labelled("checks", checks(rule), width)
    lines += labelled("looks at", rule.each.words, width)
    lines += labelled("why", rule.why, width)
    lines += labelled("formula", rule.formula, width)
    lines += labelled("words", "; ".join(filter(None, (_words(rule), graded(rule)))), width)
    for one in prevented(rule):
        lines += labelled("prevents", f"{one.what} ({one.id})", width)
    for limit in rule.limits:
        lines += [plain(""), *paragraph(f"{rule_id}.{limit.name}", width, indent=2, look="bold")]
        lines += labelled("limit", limit_words(limit), width, indent=4)
    if sources(rule):
        lines += [plain("")]
    for source in sources(rule):
        lines += labelled("source", sourced(source), width)
    lines += [plain(""), *paragraph("Examples, run as tests", width, look="bold")]
    for verdict, label in VERDICTS:
        for example in examples_of(rule, verdict):
            lines += labelled(label, example_words(example), width)
    if open_without(rule):
        lines += labelled("open", f"without {', '.join(open_without(rule))}", width)
    return [*lines, plain(""), *paragraph(CAUTION_TEXT, width)]


def _eyes(width: int) -> list[Line]:
    lines: list[Line] = list(paragraph("Look at these on site", width, look="bold"))
    for phase, hazards in for_the_eyes().items():
        lines += paragraph(PHASES[phase], width, indent=2, look="bold")
        for one in hazards:
            lines += paragraph(eyes_words(one), width, indent=4)
    return lines


def _words(rule: Rule) -> str:
    return ", ".join(f"{consequence} {word.name}" for consequence, word in words_at(rule).items())


def _more() -> str:
    return "For one rule in full: riglint rulebook tail/webbing. A club's policy can change each limit."


def _ratios(width: int) -> list[Line]:
    """Return the table of required ratios, as blocks that fit a narrow screen."""
    heading = "Required ratios: strength in place over the force in the worst peak"
    lines: list[Line] = list(paragraph(heading, width, look="bold"))
    for name, row in PEAK.items():
        at = ((one, row.at(one)) for one in CONSEQUENCES)
        row_words = ", ".join(f"{one} {'–' if ratio is None else number(ratio)}" for one, ratio in at)
        lines += paragraph(f"{name} ({PART_CLASSES.get(name, name)})", width, indent=2)
        lines += paragraph(f"{row_words}; {sourced(row.source)}", width, indent=4, look="dim")
    return lines
