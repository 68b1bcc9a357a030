"""What the plan of a spot shows on one day: anchors, lines with their walk zones, guys; in metres."""

from __future__ import annotations

from riglint.loads.day.between_lines import laid
from riglint.loads.inputs import known
from riglint.mechanics.anchors.vector_sum import Vector
from riglint.model.documents.spot_plan import place_of
from riglint.records import dataclass
from riglint.rulekit.case import Case
from riglint.rulekit.together import Company

Stretch = tuple[Vector, Vector]


@dataclass(frozen=True, slots=True)
class DrawnLine:
    """One line in plan, and the part of it that is walked as far as it is known."""

    title: str
    ends: Stretch
    walked: Stretch | None


@dataclass(frozen=True, slots=True)
class SitePlan:
    """The plan of one spot."""

    places: dict[str, Vector]
    lines: tuple[DrawnLine, ...]
    guys: tuple[Stretch, ...]


def site_plan(company: Company) -> SitePlan | None:
    """Return the plan of one spot on one day; None where fewer than two anchors have a place."""
    spot = company.cases[0].spot
    if spot is None:
        return None
    places = {one: place for one, anchor in spot.anchors.items() if (place := place_of(anchor)) is not None}
    if len(places) < 2:  # noqa: PLR2004 - no plan of one point
        return None
    lines = [one for case in company.cases if (one := _line(case)) is not None]
    guys = [
        (places[guy.between[0]], places[guy.between[1]])
        for guy in spot.guys
        if set(guy.between) <= set(places)
    ]
    return SitePlan(places, tuple(lines), tuple(guys))


def _line(case: Case) -> DrawnLine | None:
    laid_out = known(lambda: laid(case.loads))
    if laid_out is None:
        return None
    return DrawnLine(case.rig.title, (laid_out.first, laid_out.last), known(laid_out.walked))
