"""The card for the tree as text: for a phone's terminal or a pipe, 40 to 80 columns."""

from __future__ import annotations

from collections.abc import Sequence

from riglint.findings import Finding
from riglint.reports.audit.finding_text import LOOKS
from riglint.reports.card.words import accepted_in_words, asked_in_words, finding_in_words
from riglint.reports.layout.spans import Line, Span, labelled, paragraph, plain
from riglint.views.assumed import TITLE as ASSUMED
from riglint.views.audit.verdict import Verdict
from riglint.views.card.content import Card, Fact, Row, Step

WIDEST = 80


def card_text(card: Card, width: int) -> list[Line]:
    """Return the card of one rig, laid out for a width."""
    width = min(width, WIDEST)
    what_if = [line for one in card.what_if for line in paragraph(one, width, look="bold")]
    lines: list[Line] = [*paragraph(card.title, width, look="bold"), *_answer(card.answer, width)]
    lines += paragraph(card.spot, width) if card.spot else []
    lines += paragraph(f"{card.path}, as of {card.on}, {card.limits}", width)
    lines += paragraph(f"fingerprint of the files: {card.fingerprint}", width)
    lines += what_if
    lines += [line for one in card.settings for line in paragraph(one, width)]
    lines += labelled("consequence", card.at_stake, width, indent=0)
    lines += _first(card, width)
    lines += _facts("Line", card.line, width) + _facts("Read the tension", card.reading, width)
    lines += _facts("Haul and letting down", card.haul, width)
    lines += _facts(ASSUMED, [Fact("-", f"{one.label}: {one.text}") for one in card.assumed], width)
    lines += _title("Chain")
    for row in card.chain:
        lines += _row(row, width)
    for n, step in enumerate(card.work, 1):
        lines += _step(n, step, width)
    lines += _title("Stop when")
    for one in card.stop:
        lines += labelled("-", one, width, indent=1)
    lines += _facts("Emergency", card.emergency, width) + _facts("Pack", card.pack, width)
    lines += _facts("Sign", card.sign, width)
    for one in card.policy:
        lines += paragraph(one, width)
    return [*lines, plain(""), *what_if, *paragraph(card.caution, width)]


def _title(words: str) -> list[Line]:
    return [plain(""), (Span(words, "bold underline"),)]


def _answer(answer: Verdict, width: int) -> list[Line]:
    """Return the answer first: the word, the reason and the next step."""
    look = "bold" if answer.signal is None else LOOKS[answer.signal]
    return [
        *labelled(answer.word, answer.sentence, width, indent=0, look="bold", label_look=look),
        *labelled("next", answer.next_step, width, indent=0),
        plain(""),
    ]


def _first(card: Card, width: int) -> list[Line]:
    """Return what comes before the figures: faults, open fields, what was not judged."""
    lines: list[Line] = []
    lines += _findings("", (*card.faults, *card.others), width)
    lines += _findings("Fill in first:", card.open, width)
    for one in card.not_judged:
        lines += paragraph(f"Not judged: {one}", width)
    if card.missing:
        lines += paragraph(f"Not computed for want of: {'; '.join(card.missing)}", width)
    for finding in card.accepted:
        lines += paragraph(accepted_in_words(finding), width)
    return lines


def _findings(title: str, findings: Sequence[Finding], width: int) -> list[Line]:
    lines = paragraph(title, width) if title and findings else []
    for one in findings:
        lines += labelled(
            one.signal.name, finding_in_words(one), width, indent=1, label_look=LOOKS[one.signal]
        )
    return lines


def _facts(title: str, facts: Sequence[Fact], width: int) -> list[Line]:
    if not facts:
        return []
    return [
        *_title(title),
        *(line for one in facts for line in labelled(one.label, one.text, width, indent=1)),
    ]


def _row(row: Row, width: int) -> list[Line]:
    text = ", ".join(one for one in (row.take, asked_in_words(row)) if one)
    words = f"{row.words}: {text}" if text else row.words
    column = f"{row.number:>2}" if row.number else "  "
    rows = paragraph(words, width - 4)
    return [(Span(f" {column if n == 0 else '  '} "), *line[1:]) for n, line in enumerate(rows)]


def _step(number: int, step: Step, width: int) -> list[Line]:
    lines = _title(f"{number} {step.title}")
    for tick in step.ticks:
        who = "2nd person: " if tick.second else ""
        rows = paragraph(f"{who}{tick.words}", width - 5)
        lines += [(Span(" [ ] " if n == 0 else "     "), *line[1:]) for n, line in enumerate(rows)]
    return lines
