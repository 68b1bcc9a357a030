"""A spot as one of its lines sees it: the span, the ground and the surroundings between that line's two anchors.

A spot with two anchors has one span. With more of them each line takes its span from `spans`, else the one `span`, else
the plan. Keys that come from another place than they are read at are told from where they stand.
"""

from __future__ import annotations

from math import hypot, pi
from typing import NamedTuple

from riglint.model.documents.rig import Rig
from riglint.model.documents.spot import Anchor, Spot, SpotSpan
from riglint.model.load import Key
from riglint.model.vocabulary.fields import Form
from riglint.read.quantity import Quantity

Moved = dict[Key, Key]  # from where a key is read to where it stands


class PlanSpan(NamedTuple):
    """The span between two anchors by the plan, m."""

    span_m: float
    plus_minus_m: float


def line_ends(rig: Rig) -> tuple[str | None, str | None]:
    """Return the names of the two anchors of a rig's main line."""
    ends = [part.at for part in rig.chain if part.part == "anchor"]
    return (ends[0], ends[-1]) if ends else (None, None)


def seen_between(spot: Spot, first: str | None, last: str | None) -> tuple[Spot, Moved]:
    """Return a spot as the line between two anchors sees it, and which keys stand elsewhere than they are read at."""
    if first is None or last is None:
        return spot, {}
    for n, one in enumerate(spot.spans):
        if {first, last} == set(one.between):
            return _with_span(*_with_own(spot, one, n), first, last)
    ground = spot.ground
    if ground is not None and ground.profile_from not in {None, first, last} and spot.spans:
        # Measured from a tree that this line does not use: the ground under another line.
        bare = ground.model_copy(update={"profile": None, "profile_from": None})
        spot = spot.model_copy(update={"ground": bare})
    return _with_span(spot, {}, first, last)


def _with_span(spot: Spot, moved: Moved, first: str, last: str) -> tuple[Spot, Moved]:
    """Return a spot with the span by its plan, where none is given."""
    spacing = by_plan(spot, first, last) if spot.span is None else None
    if spacing is None:
        return spot, moved
    span = Quantity(
        spacing.span_m, spacing.plus_minus_m, f"{spacing.span_m:.2f} m ± {spacing.plus_minus_m:.2f} m"
    )
    return spot.model_copy(update={"span": span}), moved | {("span",): ("anchors", last, "plan")}


def _with_own(spot: Spot, own: SpotSpan, n: int) -> tuple[Spot, Moved]:
    """Return a spot with what one of its spans says for itself."""
    changes: dict[str, object] = {}
    moved: Moved = {}
    if own.span is not None or by_plan(spot, *own.between) is not None:
        changes["span"] = own.span  # None: it follows from the plan
        moved["span",] = ("spans", n, "span")
    for name in ("ground", "surroundings"):
        here: Form | None = getattr(own, name)
        if here is None:
            continue
        written = {key: getattr(here, key) for key in here.model_fields_set}
        above: Form | None = getattr(spot, name)
        changes[name] = here if above is None else above.model_copy(update=written)
        moved |= {(name, key): ("spans", n, name, key) for key in written}
    return spot.model_copy(update=changes), moved


def by_plan(spot: Spot, first: str, last: str) -> PlanSpan | None:
    """Return the span between two anchors by their places on the plan; None where a place or a girth is not given.

    Between the faces of trees, unless the span is told between points: the plan says where the middle of a trunk is.
    """
    ends = [spot.anchors.get(name) for name in (first, last)]
    places = [place_of(one) for one in ends]
    if places[0] is None or places[1] is None:
        return None
    (x1, y1), (x2, y2) = places[0], places[1]
    thick = [_radius_m(one) if spot.span_between == "faces" else 0.0 for one in ends if one is not None]
    if None in thick:
        return None
    margin = sum(_margin_m(one) for one in ends if one is not None)
    length = hypot(x2 - x1, y2 - y1) - sum(one for one in thick if one is not None)
    return PlanSpan(length, margin) if length > 0.0 else None


def place_of(anchor: Anchor | None) -> tuple[float, float] | None:
    """Return where an anchor stands on the plan, m; None where the spot does not say."""
    return None if anchor is None or anchor.plan is None else (anchor.plan[0].si, anchor.plan[1].si)


def _radius_m(anchor: Anchor) -> float | None:
    if anchor.kind != "tree":
        return 0.0
    return None if anchor.girth is None else anchor.girth.si / (2.0 * pi)


def _margin_m(anchor: Anchor) -> float:
    return hypot(anchor.plan[0].plus_minus, anchor.plan[1].plus_minus) if anchor.plan is not None else 0.0
