"""Shapes of the pulley drawings: rope, turns round sheaves, arrows, people, numbers."""

from __future__ import annotations

from collections.abc import Iterator

from riglint.reports.drawing.svg import text


def rope(x1: float, x2: float, y: float, colour: str, width: float) -> str:
    """Return one straight run of rope."""
    place = f'x1="{x1:.1f}" y1="{y:.1f}" x2="{x2:.1f}" y2="{y:.1f}"'
    return f'<line class="run" {place} stroke="{colour}" stroke-width="{width}"/>'


def turn(x: float, y1: float, y2: float, bulge: float, colour: str) -> str:
    """Return the rope round a sheave, from one height to another, to the left (-1) or to the right (1)."""
    high = abs(y2 - y1) / 2
    sweep = 1 if (y2 > y1) == (bulge > 0) else 0
    return (
        f'<path d="M{x:.1f} {y1:.1f}A{high:.1f} {high:.1f} 0 0 {sweep} {x:.1f} {y2:.1f}" fill="none" '
        f'stroke="{colour}" stroke-width="1.8"/>'
    )


def arrow(x: float, y: float, colour: str, *, left: bool = False) -> str:
    """Return the point of an arrow."""
    way = 10 if left else -10
    return f'<path d="M{x:.1f} {y:.1f}l{way} -5v10Z" fill="{colour}"/>'


def person(x: float, y: float, colour: str) -> Iterator[str]:
    """Return somebody who stands there."""
    yield f'<circle cx="{x:.1f}" cy="{y - 9:.1f}" r="3.2" fill="{colour}"/>'
    yield (
        f'<path d="M{x:.1f} {y - 6:.1f}v9m0 0l-4 8m4 -8l4 8m-8.5 -13.5l4.5 -1 4.5 1" fill="none" stroke="{colour}" '
        'stroke-width="2" stroke-linecap="round"/>'
    )


def number_mark(x: float, y: float, n: int, colour: str, *, large: bool = False) -> Iterator[str]:
    """Return the number of a part in a ring; the list below the drawing says what it is."""
    radius, drop = (9, 5) if large else (8, 4)
    yield f'<circle cx="{x:.1f}" cy="{y:.1f}" r="{radius}" fill="#ffffff" stroke="{colour}" stroke-width="1.4"/>'
    yield text(x, y + drop, str(n), anchor="middle", colour=colour, bold=True, halo=False)
