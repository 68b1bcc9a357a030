"""The card for the tree as one page of HTML: to tick and to sign, nothing fetched; for A4 and for a phone."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

from riglint.findings import Finding
from riglint.reports.audit.blocks_html import verdict_sign
from riglint.reports.card import signing
from riglint.reports.card.style import STYLE
from riglint.reports.card.words import accepted_in_words, finding_in_words
from riglint.reports.drawing.drawings import profile_drawing
from riglint.reports.drawing.haul import BUILD_STYLE, build_html
from riglint.reports.drawing.signs import SYMBOL, sign_html
from riglint.reports.drawing.svg import NARROW
from riglint.reports.layout.assumed import assumed_html
from riglint.reports.layout.html_page import html_page
from riglint.reports.layout.spans import together
from riglint.reports.layout.units_shown import in_units
from riglint.reports.layout.what_if import style_of, what_if_html
from riglint.rulekit import rounded
from riglint.views.audit.verdict import Verdict
from riglint.views.card.content import Card, Fact, Row, Step
from riglint.views.figures import number

CARD_STYLE = BUILD_STYLE + STYLE + signing.STYLE
SECOND = '<b class="second">2nd person</b> '
# Beside the drawing on paper, where its long caption is left out.
LEGEND = '<p class="legend">solid: nobody on it; dashes: the walker\'s feet; dots: bounce in free air</p>'


def safe(text: str) -> str:
    """Return text from a file as HTML prints it: no markup, nothing hidden, no unit parted from its number."""
    return escape(together(in_units(text)))


def card_html(card: Card) -> str:
    """Return the card of one rig as a page of its own, with its profile."""
    drawn = profile_drawing(card.profile, "profile", NARROW) + LEGEND if card.profile else ""
    drawn = f'<section class="profile">{drawn}</section>' if drawn else ""
    return html_page(
        f"Card: {safe(card.title)}",
        style_of(CARD_STYLE, card.what_if),
        f"{SYMBOL}\n"
        f"<header>\n<h1>{safe(card.title)}</h1>\n</header>\n"
        f"<main{signing.card_data(card)}>\n{_answer(card.answer)}{_about(card)}{_first(card)}"
        '<div class="sheet">\n'
        f'<div class="top">\n<div class="chain">{_chain(card.chain)}</div>\n'
        f'<div class="figures">\n{drawn}\n{_facts("Line", card.line)}'
        f"{_facts('Read the tension', card.reading)}{_facts('Haul and letting down', card.haul)}"
        f"{assumed_html(card.assumed, 2)}"
        f"{_stop(card.stop)}{_facts('Emergency', card.emergency)}"
        f'<div class="pack">{_facts("Pack", card.pack)}</div></div>\n</div>\n'
        f'<div class="work">\n{"".join(_step(n, step, card) for n, step in enumerate(card.work, 1))}</div>\n'
        f"{'' if card.what_if else signing.signing_html(card, safe, SECOND)}"
        f'<div class="sign-here">{_facts("Sign", card.sign)}</div>\n'
        f'<div class="caution">{_policy(card.policy)}<p>{safe(card.caution)}</p></div>\n'
        "</div>\n</main>\n",
        "" if card.what_if else signing.script(),
    )


def _about(card: Card) -> str:
    spot = f"<b>{safe(card.spot)}</b> " if card.spot else ""
    return (
        f"<p>{spot}{safe(f'{card.path}, as of {card.on}, {card.limits}')}, "
        f"files <b>{safe(card.fingerprint)}</b></p>\n"
        f"{what_if_html(card.what_if)}{_policy(card.settings)}<p><b>Consequence</b> {safe(card.at_stake)}</p>\n"
    )


def _answer(answer: Verdict) -> str:
    """Return the answer first: the word, the reason and the next step."""
    grave = f" {answer.signal.name.lower()}" if answer.signal is not None else ""
    return (
        f'<section class="first{grave}" aria-label="Answer">\n'
        f'<p class="verdict">{verdict_sign(answer)} {safe(answer.sentence)}</p>\n'
        f"<p><b>Next</b> {safe(answer.next_step)}</p>\n</section>\n"
    )


def _first(card: Card) -> str:
    """Return what comes before the figures: faults, open fields, what was not judged."""
    parts = _findings("", (*card.faults, *card.others))
    parts += _findings("Fill in first", card.open)
    parts += [f"<p><b>Not judged:</b> {safe(one)}</p>" for one in card.not_judged]
    if card.missing:
        parts.append(f"<p><b>Not computed for want of:</b> {safe('; '.join(card.missing))}</p>")
    parts += [f"<p>{safe(accepted_in_words(one))}</p>" for one in card.accepted]
    if not parts:
        return ""
    return (
        '<section class="found" aria-label="Faults and open fields">\n' + "\n".join(parts) + "\n</section>\n"
    )


def _findings(title: str, findings: Sequence[Finding]) -> list[str]:
    rows = [
        f"<li>{sign_html(one.signal, one.kind, beside=False)} {safe(finding_in_words(one))}</li>"
        for one in findings
    ]
    heading = [f"<h2>{title}</h2>"] if title and rows else []
    return [*heading, f"<ul>{''.join(rows)}</ul>"] if rows else []


def _chain(rows: Sequence[Row]) -> str:
    body = "".join(_row(row) for row in rows)
    return (
        '<h2>Chain</h2>\n<table><thead><tr><th scope="col">no.</th><th scope="col">part</th>'
        '<th scope="col">kN</th><th scope="col">ratio/<wbr>asked</th></tr></thead>\n'
        f"<tbody>\n{body}</tbody></table>\n"
    )


def _row(row: Row) -> str:
    taken = "; ".join(filter(None, (row.take, f"ratio of the {row.of}" if row.of else "")))
    take = f' <span class="take">{safe(taken)}</span>' if taken else ""
    ratio = ""
    if row.ratio is not None:
        asked = f"/{number(row.asked)}" if row.asked is not None else ""
        ratio = f"{rounded(row.ratio, 'down')}{asked}" if row.ratio else "not rated"
    short = ' class="short"' if row.short or row.ratio == 0.0 else ""
    words = f"<b>{ratio} short</b>" if row.short and row.ratio else ratio
    piece = "" if row.number else ' class="piece"'
    return (
        f"<tr{short}><td>{row.number}</td><td{piece}><b>{safe(row.words)}</b>{take}</td>"
        f"<td>{number(row.force_kn)}</td><td>{words}</td></tr>\n"
    )


def _facts(title: str, facts: Sequence[Fact]) -> str:
    if not facts:
        return ""
    rows = "".join(f"<dt>{safe(one.label)}</dt><dd>{safe(one.text)}</dd>" for one in facts)
    return f"<section>\n<h2>{title}</h2>\n<dl>{rows}</dl>\n</section>\n"


def _stop(lines: Sequence[str]) -> str:
    rows = "".join(f"<li>{safe(one)}</li>" for one in lines)
    return f'<section class="stop">\n<h2>Stop when</h2>\n<ul>{rows}</ul>\n</section>\n'


def _build(card: Card) -> str:
    """Return the pulley system step by step, with what does not fit together before it."""
    if card.pulleys is None:
        return ""
    wrong = "".join(f'<p class="short"><b>{safe(one)}</b></p>\n' for one in card.pulleys.wrong)
    return f"{wrong}{build_html(card.pulleys, 'build')}"


def _step(number_: int, step: Step, card: Card) -> str:
    rows = ""
    for n, tick in enumerate(step.ticks, 1):
        words = f"{SECOND if tick.second else ''}{safe(tick.words)}"
        rows += f"<li>{signing.box_html(f'w{number_}.{n}', words)}</li>\n"
    build = _build(card) if step.builds else ""
    build += "</section>\n<section>\n" if build else ""  # two blocks, so that paper has room for each
    return f"<section>\n<h2>{number_} {safe(step.title)}</h2>\n{build}<ul>\n{rows}</ul>\n</section>\n"


def _policy(lines: Sequence[str]) -> str:
    return f"<p>{safe(' '.join(lines))}</p>" if lines else ""
