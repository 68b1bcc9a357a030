"""The chain as a drawing: every part from anchor to anchor with force, strength, ratio and its gravest finding."""

from __future__ import annotations

from riglint.reports.drawing.signs import HIGH, sign_svg
from riglint.reports.drawing.svg import GREY, INK, NARROW, RED, figure, line, text
from riglint.views.drawing.chain import Chain, Link

INDENT, FIRST = 16.0, 14.0
TALL, SHORT, BAND = 40.0, 26.0, 50.0  # heights of rows: with figures, without, of webbing
GOES, GOES_LETTERS = 14.0, 60  # a row that says what catches: its height, the letters that fit
WORDS, WORDS_BY_SIGN, FIGURES = 46, 30, 52  # letters that fit
CAPTION = (
    "From anchor to anchor, not to scale. Under each part: its force in the state that leaves it the least, its "
    "strength in place, strength over force, and the ratio asked; then, if it goes, what catches and how many times "
    "it holds that. Beside it: its gravest finding; a dashed frame means to look at on site."
)


def chain_drawing(chain: Chain, name: str) -> str:
    """Return one chain; `name` is what the drawing's name begins with, once a page."""
    marks: list[str] = []
    top, last = 8.0, len(chain.links) - 1
    for n, link in enumerate(chain.links):
        marks += _marks(link, top, first=n == 0, last=n == last)
        top += _height(link)
    told = "; ".join(_said(link) for link in chain.links)
    title = f"{name}-{chain.name}"
    return figure(title, chain.title, told, marks, height=top + 4, caption=CAPTION, width=NARROW)


def _height(link: Link) -> float:
    more = GOES * len(link.goes)
    if link.shape == "band":
        return max(BAND, TALL + more)
    return (TALL if link.told else SHORT) + more


def _said(link: Link) -> str:
    short = ", short" if link.short else ""
    found = f", {link.finding.signal.name}: {link.finding.message}" if link.finding else ""
    goes = "".join(f", {one}" for one in link.goes)
    return f"{link.words}: {link.told}{short}{goes}{found}"


# How it is drawn


def _marks(link: Link, top: float, *, first: bool, last: bool) -> list[str]:
    x = FIRST
    middle = top + 9.0
    above, below = (middle if first else top), (middle if last else top + _height(link))
    marks = [line(f"{x},{above:.1f} {x},{below:.1f}", INK, 6 if link.shape == "band" else 2)]
    left = x + link.depth * INDENT
    if link.joined:
        marks.append(line(f"{left},{middle - TALL:.1f} {left},{middle:.1f}", INK, 1.5))
    elif link.depth:
        marks.append(line(f"{x},{middle:.1f} {left},{middle:.1f}", INK, 1.5))
    marks.append(_shape(link.shape, left, middle))
    letters = WORDS if link.finding is None else WORDS_BY_SIGN
    colour = RED if link.short else GREY
    marks.append(text(left + 14, top + 13, cut(link.words, letters - 2 * link.depth), bold=True, halo=False))
    if link.told:
        told = link.told + (" – short" if link.short else "")
        told = cut(told, FIGURES - 3 * link.depth)
        marks.append(text(left + 14, top + 28, told, colour=colour, bold=link.short, halo=False))
    row = top + (28 if link.told else 13)
    for n, one in enumerate(link.goes, 1):
        marks.append(text(left + 14, row + GOES * n, cut(one, GOES_LETTERS), colour=GREY, halo=False))
    if link.finding is not None:
        marks += sign_svg(NARROW - 2, top + 13 - HIGH + 4, link.finding)
    return marks


def _shape(shape: str, x: float, y: float) -> str:
    if shape == "anchor":
        return f'<rect x="{x - 8:.1f}" y="{y - 8:.1f}" width="16" height="16" fill="{INK}"/>'
    if shape == "band":
        return ""
    fill = "#ffffff" if shape == "idle" else INK
    return f'<circle cx="{x:.1f}" cy="{y:.1f}" r="4.5" fill="{fill}" stroke="{INK}" stroke-width="1.5"/>'


def cut(words: str, letters: int) -> str:
    """Return words with their end left out where they would run off the drawing."""
    return words if len(words) <= letters else words[: letters - 1].rstrip() + "…"
