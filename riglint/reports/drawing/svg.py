"""Pieces of a drawing as SVG: axes, words, lines; literal colours, since not every printer knows others."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape
from itertools import pairwise
from math import ceil, floor, log10

from riglint.read.problems import visible
from riglint.records import dataclass

INK, GREY, PALE, BLUE, RED, SOIL = "#2b2b2c", "#55555a", "#c6c6c8", "#005387", "#9b2423", "#e4ddd2"
WIDTH, NARROW = 720.0, 360.0  # a page; a phone, or half a page
LEFT, RIGHT, TOP, BOTTOM = 52.0, 110.0, 32.0, 44.0
Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Frame:
    """Axes: from figures to places on the paper."""

    x0: float
    x1: float
    y0: float
    y1: float
    width: float
    height: float

    def at(self, x: float, y: float) -> Point:
        """Return where a point stands on the paper."""
        across = LEFT + (x - self.x0) / (self.x1 - self.x0) * self.width
        return across, TOP + (self.y1 - y) / (self.y1 - self.y0) * self.height

    def path(self, points: Sequence[Point]) -> str:
        """Return points as an SVG list."""
        return " ".join(f"{round(x, 1):g},{round(y, 1):g}" for x, y in (self.at(*point) for point in points))


def text(
    x: float,
    y: float,
    words: str,
    *,
    anchor: str = "start",
    colour: str = INK,
    bold: bool = False,
    halo: bool = True,
) -> str:
    """Return a word on the drawing; its halo keeps lines out of it where it stands on white."""
    weight = ' font-weight="700"' if bold else ""
    ring = ' stroke="#ffffff" stroke-width="3" paint-order="stroke"' if halo else ""
    end = "" if anchor == "start" else f' text-anchor="{anchor}"'
    look = f'fill="{colour}"{weight}{ring}{end}'
    return f'<text x="{round(x, 1):g}" y="{round(y, 1):g}" {look}>{escape(visible(words))}</text>'


def line(points: str, colour: str, width: float, dash: str = "") -> str:
    """Return a line through points."""
    dashed = f' stroke-dasharray="{dash}"' if dash else ""
    return f'<polyline points="{points}" fill="none" stroke="{colour}" stroke-width="{width}"{dashed}/>'


def figure(
    name: str,
    title: str,
    told: str,
    marks: Sequence[str],
    *,
    height: float,
    caption: str,
    width: float = WIDTH,
) -> str:
    """Return a drawing with its title, what it shows in words, and its caption.

    A wide one can be reached by key, since a phone scrolls it.
    """
    scrolls = f' role="group" tabindex="0" aria-label="{escape(visible(title))}"' if width > NARROW else ""
    return (
        f'<figure><div class="drawing"{scrolls}>'
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width:.0f} {height:.0f}" '
        f'role="img" aria-labelledby="{name}-title {name}-desc" '
        'font-family="Liberation Sans, Arial, sans-serif" font-size="12" stroke-linejoin="round">'
        f'<title id="{name}-title">{escape(visible(title))}</title>'
        f'<desc id="{name}-desc">{escape(visible(told))}</desc>\n'
        + "\n".join(marks)
        + f"\n</svg></div><figcaption><b>{escape(visible(title))}.</b> {escape(visible(caption))}</figcaption></figure>"
    )


def step_for(length: float, most: int) -> float:
    """Return a round distance between ticks: 1, 2 or 5 of some power of ten."""
    rough = max(length, 1e-9) / most
    power = 10.0 ** floor(log10(rough))
    return next(power * one for one in (1.0, 2.0, 5.0, 10.0) if power * one >= rough * 0.999)


def ticks(low: float, high: float, most: int) -> list[float]:
    """Return round figures from low to high."""
    step = step_for(high - low, most)
    first = ceil(low / step - 1e-9)
    return [n * step for n in range(first, floor(high / step + 1e-9) + 1)]


def axes(frame: Frame, across: str, up: str, most_up: int) -> list[str]:
    """Return both axes with round figures and units."""
    bottom = TOP + frame.height
    marks = [text(LEFT + frame.width / 2, bottom + 36, across, anchor="middle", colour=GREY)]
    marks.append(text(4, 14, up, colour=GREY))
    for value in ticks(frame.x0, frame.x1, max(3, min(10, int(frame.width // 45)))):
        x, _ = frame.at(value, frame.y0)
        marks.append(line(f"{x:.1f},{bottom:.1f} {x:.1f},{bottom + 5:.1f}", INK, 1))
        marks.append(text(x, bottom + 18, f"{value:g}", anchor="middle"))
    for value in ticks(frame.y0, frame.y1, most_up):
        _, y = frame.at(frame.x0, value)
        marks.append(line(f"{LEFT:.1f},{y:.1f} {LEFT + frame.width:.1f},{y:.1f}", PALE, 0.7))
        marks.append(text(LEFT - 6, y + 4, f"{value:g}", anchor="end"))
    return marks


def spread(wanted: Sequence[float], gap: float = 14.0) -> list[float]:
    """Return places for words beside lines, moved apart so that none covers another."""
    order = sorted(range(len(wanted)), key=lambda n: wanted[n])
    placed = list(wanted)
    for before, after in pairwise(order):
        placed[after] = max(placed[after], placed[before] + gap)
    return placed
