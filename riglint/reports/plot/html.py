"""A rig over one value, as a page: a drawing for each figure, with the words of the rules as bands."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape
from itertools import groupby

from riglint.read.problems import visible
from riglint.reports.drawing.svg import BLUE, INK, RED, TOP, Frame, Point, axes, figure, line, text
from riglint.reports.layout.html_page import html_page
from riglint.views.audit.words import CAUTION_TEXT, sealed
from riglint.views.plot.content import CURVES, Plot, PlotPoint

WIDE, HIGH = 560.0, 170.0
# Grounds of the bands; each word is written on its band, so that no colour is needed.
GROUNDS = {"DANGER": "#f0c4c3", "WARNING": "#f6dcc0", "CAUTION": "#f7f0c8", None: "#ffffff"}
STYLE = """
:root { color-scheme: light; }
body { margin: 0 auto; max-width: 50rem; padding: 1.5rem 1rem 3rem; color: #2b2b2c; background: #ffffff;
  font: 1rem/1.45 system-ui, "Liberation Sans", Arial, sans-serif; overflow-wrap: anywhere; }
h1 { font-size: 1.5rem; line-height: 1.2; margin: 0 0 .3rem; }
figure { margin: 1.4rem 0; } .drawing { overflow-x: auto; } svg { display: block; width: 100%; height: auto; }
figcaption, .quiet { font-size: .875rem; color: #55555a; } figcaption b { color: #2b2b2c; }
.caution { border: 2px solid #2b2b2c; padding: .6rem .8rem; margin-top: 2rem; }
"""


def plot_html(plot: Plot) -> str:
    """Return the page."""
    title = escape(visible(f"{plot.title} over {plot.key}"))
    body = [f"<main><h1>{title}</h1>\n<p class=quiet>{escape(visible(plot.path))}, as of {plot.on}</p>\n"]
    body += [f"<p><b>{escape(visible(one))}</b></p>\n" for one in plot.policy]
    body += [drawn for n in range(len(CURVES)) if (drawn := _drawn(plot, n))]
    body += [f"<p>{escape(visible(one))}</p>\n" for one in _bands_told(plot)]
    body.append(f"<p class=quiet>Judged by {escape(sealed(plot.seal))}.</p>\n")
    body.append(f'<p class="caution">{escape(CAUTION_TEXT)}</p></main>\n')
    return html_page(title, STYLE, "".join(body))


def _bands(points: Sequence[PlotPoint]) -> Iterator[tuple[PlotPoint, PlotPoint]]:
    """Yield the first and the last point of each run with one word."""
    for _, run in groupby(points, key=lambda one: one.word):
        there = list(run)
        yield there[0], there[-1]


def _bands_told(plot: Plot) -> Iterator[str]:
    for first, last in _bands(plot.points):
        span = first.text if first is last else f"{first.text} to {last.text}"
        yield f"{span}: {f'{first.word}: {first.because}' if first.word else 'no rule says more than NOTICE.'}"


def _drawn(plot: Plot, n: int) -> str:
    """Return one figure over the value; nothing where it is known nowhere."""
    name, unit, across, of = CURVES[n]
    limit, what = across or (None, "")
    known: list[Point] = [
        (one.number, getattr(one, of)) for one in plot.points if getattr(one, of) is not None
    ]
    if len(known) < 2:  # noqa: PLR2004 - a line has two ends
        return ""
    values = [y for _, y in known] + ([limit] if limit is not None else [])
    low, high = min(0.0, *values), max(values)
    frame = Frame(
        plot.points[0].number, plot.points[-1].number, low, high + (high - low or 1.0) * 0.08, WIDE, HIGH
    )
    marks = [*_grounds(plot, frame), *axes(frame, f"{plot.key}, {plot.unit}".strip(", "), unit, 5)]
    if limit is not None:
        marks.append(line(frame.path([(frame.x0, limit), (frame.x1, limit)]), RED, 1.5, "6 4"))
    if plot.today is not None and frame.x0 <= plot.today <= frame.x1:
        marks.append(line(frame.path([(plot.today, frame.y0), (plot.today, frame.y1)]), INK, 1, "2 3"))
    marks += [line(frame.path(known), BLUE, 2.5), *_words(plot, frame)]
    told = "; ".join(f"{x:g} {plot.unit}: {y:.3g} {unit}".strip() for x, y in known)
    caption = f"{f'Dashed: {what}. ' if what else ''}Dotted: what the file says."
    title = name[:1].upper() + name[1:]
    return figure(f"plot-{n}", title, told, marks, height=HIGH + 80, caption=caption)


def _edges(plot: Plot, frame: Frame) -> Iterator[tuple[PlotPoint, float, float]]:
    """Yield each run with one word: its first point, and its ends across, half-way to its neighbours."""
    half = (frame.x1 - frame.x0) / max(len(plot.points) - 1, 1) / 2
    for first, last in _bands(plot.points):
        left, _ = frame.at(max(first.number - half, frame.x0), 0.0)
        right, _ = frame.at(min(last.number + half, frame.x1), 0.0)
        yield first, left, right


def _grounds(plot: Plot, frame: Frame) -> Iterator[str]:
    """Yield the ground of each run with one word."""
    for first, left, right in _edges(plot, frame):
        yield (
            f'<rect x="{left:.1f}" y="{TOP:.1f}" width="{right - left:.1f}" height="{frame.height:.1f}" '
            f'fill="{GROUNDS[first.word]}"/>'
        )


def _words(plot: Plot, frame: Frame) -> Iterator[str]:
    """Yield the word above each run; where there is no room, the list below the drawings says it."""
    for first, left, right in _edges(plot, frame):
        if first.word and right - left > 60:  # noqa: PLR2004 - room for the longest word
            yield text((left + right) / 2, TOP - 6, first.word, anchor="middle", bold=True)
