"""The plan of a spot to scale: anchors, lines with their walk zones, guys; nothing where no plan is known."""

from __future__ import annotations

from riglint.loads.day.between_lines import Laid, laid
from riglint.loads.inputs import known
from riglint.model.documents.spot_plan import place_of
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
    axes,
    figure,
    line,
    text,
)
from riglint.rulekit.together import Company

MARGIN_M = 3.0
EDGE = 8.0  # right of the drawing
LEAST_M = 10.0  # so wide a plan is drawn at least


def plan_drawing(company: Company, name: str) -> str | None:
    """Return the plan of one spot on one day as SVG; None where no anchor has a place."""
    spot = company.cases[0].spot
    places = {
        one: place for one, anchor in (spot.anchors if spot else {}).items() if (place := place_of(anchor))
    }
    if len(places) < 2:  # noqa: PLR2004 - no plan of one point
        return None
    xs, ys = [x for x, _ in places.values()], [y for _, y in places.values()]
    wide, high = (
        max(max(xs) - min(xs), LEAST_M) + 2 * MARGIN_M,
        max(max(ys) - min(ys), LEAST_M) + 2 * MARGIN_M,
    )
    across = NARROW - LEFT - EDGE
    x0, y0 = min(xs) - MARGIN_M, min(ys) - MARGIN_M
    frame = Frame(x0, x0 + wide, y0, y0 + high, across, across * high / wide)  # one scale both ways
    marks = axes(frame, "m", "", 6)
    for guy in spot.guys if spot else []:
        ends = [places[one] for one in guy.between if one in places]
        if len(ends) == 2:  # noqa: PLR2004 - both of its anchors
            marks.append(line(frame.path(ends), GREY, 1.5, "2 4"))
    words: list[str] = []
    for case in company.cases:
        laid_out = known(lambda case=case: laid(case.loads))  # type: ignore[misc]
        if laid_out is None:
            continue
        marks.append(line(frame.path([laid_out.first, laid_out.last]), BLUE, 2))
        walked = known(laid_out.walked)
        if walked is not None:
            marks.append(line(frame.path(walked), RED, 5))
        words.append(_label(frame, laid_out, case.rig.title))
    for one, place in places.items():
        x, y = frame.at(*place)
        marks.append(f'<circle cx="{x:.1f}" cy="{y:.1f}" r="5" fill="{INK}"/>')
        far = x > LEFT + 0.8 * frame.width  # its name goes to the inner side
        words.append(text(x - 8 if far else x + 8, y + 16, one, bold=True, anchor="end" if far else "start"))
    marks += words  # over the lines
    told = f"{len(places)} anchors and {len(company.cases)} lines in plan; walk zones are drawn broad"
    caption = "To scale, in metres. Broad: where people walk. Dotted: guys and tag lines."
    height = TOP + frame.height + BOTTOM
    return figure(name, "Plan of the spot", told, marks, height=height, caption=caption, width=NARROW)


def _label(frame: Frame, laid_out: Laid, title: str) -> str:
    """Return a line's title beside its middle: above one that runs across, left of one that runs up or down."""
    (x1, y1), (x2, y2) = frame.at(*laid_out.first), frame.at(*laid_out.last)
    x, y = (x1 + x2) / 2.0, (y1 + y2) / 2.0
    if abs(x2 - x1) >= abs(y2 - y1):
        return text(x, y - 7.0, title, anchor="middle", colour=BLUE)
    left = x > LEFT + frame.width / 2.0  # there is room on the inner side
    return text(x - 7.0 if left else x + 7.0, y - 12.0, title, anchor="end" if left else "start", colour=BLUE)
