"""The pulley system as it is reeved: one drawing with every part by number, and the same step by step."""

from __future__ import annotations

import textwrap
from html import escape

from riglint.reports.drawing.places import LARGE, PAGE, SMALL
from riglint.reports.drawing.reeved import Reeved
from riglint.reports.drawing.svg import GREY, INK, NARROW, RED, figure, text
from riglint.reports.layout.spans import together
from riglint.views.drawing.building import BuildStep
from riglint.views.drawing.haul import HaulView
from riglint.views.drawing.named import NamedPart

LETTERS, BOLD = 54, 48  # that fit beside a number, and in bold
STEP, INDENT = 15.0, 24.0
CAPTION = (
    "Not to scale. Numbers lead to the list. The point of the grip shows which way it bites. The arrow in the brake "
    "shows which way the rope goes in. On each strand: kN after hauling / while letting down, at standing tension."
)
# For every page that shows the steps; drawings keep their white ground on a dark screen.
BUILD_STYLE = """
.build { display: grid; grid-template-columns: repeat(auto-fill, minmax(9.5rem, 1fr)); gap: .6rem 1rem;
  list-style: none; margin: .4rem 0; padding: 0; }
ol.build li { display: block; break-inside: avoid; margin: 0; } .build p { margin: .2rem 0 0; font-size: .875rem; }
.build svg { display: block; width: 100%; max-width: 14rem; height: auto; background: #ffffff; }
@media print {
  .build { grid-template-columns: repeat(3, minmax(0, 1fr)); gap: 3pt 6pt; margin: 2pt 0; }
  .build p { font-size: 8pt; line-height: 1.12; margin: 1pt 0 0; } .build svg { max-height: 45mm; }
}
"""


def haul_drawing(haul: HaulView, name: str) -> str:
    """Return the whole pulley system with its list; `name` of the drawing, once a page."""
    reeved = Reeved(haul, PAGE, tuple(one.place for one in haul.named))
    marks, top = reeved.marks(), reeved.bottom + 14
    marks.append(text((PAGE.fixed + PAGE.moving) / 2, PAGE.top - 22, "kN", anchor="middle", colour=GREY))
    for n, one in enumerate(haul.named, 1):
        rows, top = _row(n, one, top)
        marks += rows
    for note in haul.notes:
        for words in textwrap.wrap(note, LETTERS + 4):
            marks.append(text(2, top, words, halo=False))
            top += STEP
    return figure(name, "Pulley system", _told(haul), marks, height=top, caption=CAPTION, width=NARROW)


def _row(n: int, one: NamedPart, top: float) -> tuple[list[str], float]:
    """Return one row of the list, and where the next one stands."""
    marks = [text(10, top, str(n), anchor="middle", colour=RED if one.wrong else INK, bold=True, halo=False)]
    for words in textwrap.wrap(together(one.words), LETTERS):
        marks.append(text(INDENT, top, words, halo=False))
        top += STEP
    for words in textwrap.wrap(together(one.wrong), BOLD):
        marks.append(text(INDENT, top, words, colour=RED, bold=True, halo=False))
        top += STEP
    return marks, top + 3


def _told(haul: HaulView) -> str:
    pull = haul.standing_tension_kn
    said = [f"line {pull:.3g} kN"] if pull is not None else []
    for one in haul.strands:
        known = one.hauled_kn is not None and one.let_down_kn is not None
        forces = (
            f": {one.hauled_kn:.3g} kN after hauling, {one.let_down_kn:.3g} kN letting down" if known else ""
        )
        said.append(f"{one.name}{forces}")
    said += [" – ".join(filter(None, (f"{n} {one.words}", one.wrong))) for n, one in enumerate(haul.named, 1)]
    return "; ".join([*said, *haul.notes])


def build_html(haul: HaulView, name: str) -> str:
    """Return the steps of the build as a list, each with its picture; `name` of the pictures, once a page."""
    rows = "".join(_step(haul, step, n, f"{name}-{n}") for n, step in enumerate(haul.steps, 1))
    return f'<ol class="build">\n{rows}</ol>\n'


def _step(haul: HaulView, step: BuildStep, n: int, name: str) -> str:
    reeved = Reeved(haul, SMALL, step.shows, step.new)
    marks, told = "\n".join(reeved.marks()), escape(together(" ".join(step.words)))
    high = reeved.highest
    box = f"0 {high:.0f} {SMALL.width:.0f} {reeved.bottom - high:.0f}"
    fresh = ", ".join(one.place.replace("_", " ") for one in haul.named if one.place in step.new)
    return (
        f'<li><svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}" role="img" '
        f'aria-labelledby="{name}-title {name}-desc" '
        f'font-family="Liberation Sans, Arial, sans-serif" font-size="{LARGE}" stroke-linejoin="round">'
        f'<title id="{name}-title">Step {n}: {escape(step.title)}</title>'
        f'<desc id="{name}-desc">New in this picture: {fresh or "nothing"}</desc>\n'
        f"{marks}\n</svg><p><b>{n} {escape(step.title)}.</b> {told}</p></li>\n"
    )
