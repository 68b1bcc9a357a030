"""The plan of a spot to scale: anchors, lines with their walk zones, guys; nothing where no plan is known."""

from __future__ import annotations

from riglint.reports.drawing.svg import (
    BLUE,
    BOTTOM,
    GREY,
    INK,
    LEFT,
    NARROW,
    RED,
    TOP,
    Frame,
    Point,
    axes,
    figure,
    line,
    text,
)
from riglint.views.day.plan import DrawnLine, SitePlan

MARGIN_M = 3.0
EDGE = 8.0  # right of the drawing
LEAST_M = 10.0  # so wide a plan is drawn at least


def plan_drawing(plan: SitePlan, name: str) -> str:
    """Return the plan of one spot on one day as SVG."""
    xs, ys = [x for x, _ in plan.places.values()], [y for _, y in plan.places.values()]
    wide, high = (
        max(max(xs) - min(xs), LEAST_M) + 2 * MARGIN_M,
        max(max(ys) - min(ys), LEAST_M) + 2 * MARGIN_M,
    )
    across = NARROW - LEFT - EDGE
    x0, y0 = min(xs) - MARGIN_M, min(ys) - MARGIN_M
    frame = Frame(x0, x0 + wide, y0, y0 + high, across, across * high / wide)  # one scale both ways
    marks = axes(frame, "m", "", 6)
    marks += [line(frame.path(guy), GREY, 1.5, "2 4") for guy in plan.guys]
    for one in plan.lines:
        marks.append(line(frame.path(one.ends), BLUE, 2))
        if one.walked is not None:
            marks.append(line(frame.path(one.walked), RED, 5))
    marks += [_anchor(frame, place) for place in plan.places.values()]
    marks += [_label(frame, one) for one in plan.lines]  # words over the lines
    marks += [_name(frame, one, place) for one, place in plan.places.items()]
    words = f"{len(plan.places)} anchors and {len(plan.lines)} lines in plan; walk zones are drawn broad"
    caption = "To scale, in metres. Broad: where people walk. Dotted: guys and tag lines."
    height = TOP + frame.height + BOTTOM
    return figure(name, "Plan of the spot", words, marks, height=height, caption=caption, width=NARROW)


def _anchor(frame: Frame, place: Point) -> str:
    x, y = frame.at(*place)
    return f'<circle cx="{x:.1f}" cy="{y:.1f}" r="5" fill="{INK}"/>'


def _name(frame: Frame, name: str, place: Point) -> str:
    """Return the name of an anchor; at the right edge it goes to the inner side."""
    x, y = frame.at(*place)
    far = x > LEFT + 0.8 * frame.width
    return text(x - 8 if far else x + 8, y + 16, name, bold=True, anchor="end" if far else "start")


def _label(frame: Frame, one: DrawnLine) -> str:
    """Return a line's title beside its middle: above one that runs across, left of one that runs up or down."""
    (x1, y1), (x2, y2) = frame.at(*one.ends[0]), frame.at(*one.ends[1])
    x, y = (x1 + x2) / 2.0, (y1 + y2) / 2.0
    if abs(x2 - x1) >= abs(y2 - y1):
        return text(x, y - 7.0, one.title, anchor="middle", colour=BLUE)
    left = x > LEFT + frame.width / 2.0  # there is room on the inner side
    return text(
        x - 7.0 if left else x + 7.0, y - 12.0, one.title, anchor="end" if left else "start", colour=BLUE
    )
