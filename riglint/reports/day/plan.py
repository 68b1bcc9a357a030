"""The plan of a spot to scale: anchors, lines with their walk zones, guys; nothing where no plan is known."""

from __future__ import annotations

from riglint.loads.day.between_lines import laid
from riglint.loads.inputs import known
from riglint.model.documents.spot_plan import place_of
from riglint.reports.drawing.svg import (
    BLUE,
    GREY,
    INK,
    LEFT,
    RED,
    RIGHT,
    TOP,
    WIDTH,
    Frame,
    axes,
    figure,
    line,
    text,
)
from riglint.rulekit.together import Company

MARGIN_M = 3.0
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
    across = WIDTH - LEFT - RIGHT
    x0, y0 = min(xs) - MARGIN_M, min(ys) - MARGIN_M
    frame = Frame(x0, x0 + wide, y0, y0 + high, across, across * high / wide)  # one scale both ways
    marks = axes(frame, "m", "m", 8)
    for guy in spot.guys if spot else []:
        ends = [places[one] for one in guy.between if one in places]
        if len(ends) == 2:  # noqa: PLR2004 - both of its anchors
            marks.append(line(frame.path(ends), GREY, 1.5, "2 4"))
    for case in company.cases:
        laid_out = known(lambda case=case: laid(case.loads))  # type: ignore[misc]
        if laid_out is None:
            continue
        marks.append(line(frame.path([laid_out.first, laid_out.last]), BLUE, 2))
        walked = known(laid_out.walked)
        if walked is not None:
            marks.append(line(frame.path(walked), RED, 5))
        middle = ((laid_out.first[0] + laid_out.last[0]) / 2, (laid_out.first[1] + laid_out.last[1]) / 2)
        x, y = frame.at(*middle)
        marks.append(text(x + 6, y - 6, case.rig.title, colour=BLUE))
    for one, place in places.items():
        x, y = frame.at(*place)
        marks.append(f'<circle cx="{x:.1f}" cy="{y:.1f}" r="5" fill="{INK}"/>')
        marks.append(text(x + 8, y + 4, one, bold=True))
    told = f"{len(places)} anchors and {len(company.cases)} lines in plan; walk zones are drawn broad"
    caption = "To scale. Broad: where people walk. Dotted: guys and tag lines."
    return figure(name, "Plan of the spot", told, marks, height=TOP + frame.height + 44.0, caption=caption)
