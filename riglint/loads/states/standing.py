"""The line with nobody on it: how long the webbing is, and how far the blocks of a haul stand apart."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from typing import Literal, NamedTuple

from riglint.loadpath import BROKEN
from riglint.loads.inputs import At, NotComputable, need, within_range
from riglint.loads.path.geometry import G, Geometry
from riglint.mechanics.span.line import Equilibrium, Line, NoResult, Reach, hang
from riglint.mechanics.span.standing import length_for_sag, length_for_tension, reach_for_tension
from riglint.mechanics.valid_range import Numbers
from riglint.records import dataclass

End = Literal["a", "b"]

WORDS = {
    "too_slack": "the standing tension is less than the line needs to hang between the anchors",
    "no_room": "the parts between anchor and webbing are longer than the span",
}

MOST_LINES = 64  # kept of each kind; some three are found for a rig, and as many for each input that moves it
BLOCKS_MEET = "the blocks meet long before the standing tension: they start too close together"


class BlockRun(NamedTuple):
    """Distances between the blocks of a haul, axle to axle, m."""

    hand_tight_m: float
    standing_m: float
    travel_m: float


@dataclass(frozen=True, slots=True)
class Standing(Numbers):
    """The line at standing tension."""

    line: Line
    equilibrium: Equilibrium
    at: End
    blocks_m: float | None = None  # axle to axle at standing tension, where a haul stays in the chain
    hand_tight_blocks_m: float | None = None  # the same, hand-tight
    travel_m: float | None = None
    hand_tight_n: float | None = None

    @property
    def tension_n(self) -> float:
        """The tension at the end that the plan means, as the computed line has it."""
        return self.equilibrium.tension_a_n if self.at == "a" else self.equilibrium.tension_b_n

    def with_longer_reach(self, side: str, by_m: float, give_m_per_n: float = 0.0) -> Line:
        """Return the line with its end at one side, a or b, so much further from the webbing; below 0 nearer.

        With a give the end runs so much further still for each N that it bears.
        """
        name = "reach_a" if side == "a" else "reach_b"
        reach: Reach = getattr(self.line, name)
        longer = replace(reach, length_m=reach.length_m + by_m)
        if give_m_per_n:
            longer = Reach(longer.slack_length_m, reach.give_m_per_n + give_m_per_n)
        return replace(self.line, **{name: longer})  # type: ignore[arg-type]

    @property
    def block_run(self) -> BlockRun:
        """How the blocks run from hand-tight to standing tension.

        Raises:
            NotComputable: the haul does not stay, stands between webbings, or never hangs hand-tight.
        """
        if self.blocks_m is None or self.hand_tight_blocks_m is None or self.travel_m is None:
            raise NotComputable("nobody knows the distance between the blocks")
        return BlockRun(self.hand_tight_blocks_m, self.blocks_m, self.travel_m)


def found(result: Line | Equilibrium | NoResult) -> Line | Equilibrium:
    """Return a result that exists.

    Raises:
        NotComputable: it does not, and why.
    """
    if isinstance(result, NoResult):
        raise NotComputable(WORDS[result.why])
    return result


def line_of(result: Line | NoResult) -> Line:
    """Return a line that exists; see `found`."""
    line = found(result)
    assert isinstance(line, Line)  # noqa: S101 - for the type checker
    return line


def rest_of(result: Equilibrium | NoResult) -> Equilibrium:
    """Return an equilibrium that exists; see `found`."""
    if isinstance(result, Equilibrium):
        return result
    equilibrium = found(result)
    assert isinstance(equilibrium, Equilibrium)  # noqa: S101 - for the type checker
    return equilibrium


def standing_end(geometry: Geometry) -> End:
    """Return the end whose tension the plan means."""
    plan = geometry.rig.rig.plan
    meant = plan.standing_at if plan else "haul"
    if meant == "start":
        return "a"
    haul = geometry.path.haul
    return "a" if meant == "haul" and haul is not None and geometry.path.side(haul) == "a" else "b"


@within_range("the line")
def stand(geometry: Geometry, read_n: float | None = None) -> Standing:
    """Return the line at its standing tension: as planned, or as read on site where a reading is given.

    Raises:
        MissingInput: a value that this rests on is not given.
        NotComputable: there is no such line.
    """
    if not geometry.path.whole:
        raise NotComputable(BROKEN)
    standing = _stand(geometry, unfound_line(geometry), read_n)
    if not geometry.hung_n():
        return standing
    # What hangs along the line is spread over webbing whose length was not known before.
    return _stand(geometry, unfound_line(geometry, standing.line.unstressed_m), read_n)


def unfound_line(geometry: Geometry, over_m: float | None = None) -> Line:
    """Return the line before its lengths are found; errors as `Geometry.webbings`."""
    reaches = geometry.reach("a"), geometry.reach("b")
    return Line(geometry.span_m, geometry.rise_m, reaches[0], geometry.webbings(over_m), reaches[1])


def _stand(geometry: Geometry, bare: Line, read_n: float | None) -> Standing:
    haul = geometry.path.haul
    if haul is not None and haul.part.stays and geometry.path.side(haul) != "between":
        return _with_blocks(geometry, bare, read_n)
    at, floating = standing_end(geometry), geometry.floating()
    line = bare if floating is None else _floating_line(geometry, bare, floating, read_n)
    return Standing(line, rest_of(hang(line)), at)


def planned_standing_tension_n(geometry: Geometry) -> float:
    """Return the planned standing tension.

    Raises:
        MissingInput: the plan gives none.
    """
    plan = geometry.rig.rig.plan
    at = At(geometry.rig.document, ("plan", "standing_tension"))
    return need(plan.standing_tension if plan else None, at).si


def _floating_line(geometry: Geometry, bare: Line, floating: int, read_n: float | None = None) -> Line:
    plan = geometry.rig.rig.plan
    target = plan.sag_target if plan else None
    if read_n is None and plan is not None and plan.standing_tension is None and target is not None:
        weight = target.under.si * G
        return line_of(length_for_sag(bare, weight, target.at, target.depth.si, floating))
    standing_tension_n = planned_standing_tension_n(geometry) if read_n is None else read_n
    return line_of(_webbing_for(bare, standing_tension_n, standing_end(geometry), floating))


def _with_blocks(geometry: Geometry, bare: Line, read_n: float | None) -> Standing:
    """Find webbing length and block distance together: the haul takes in what the webbing stretches."""
    haul = geometry.path.haul
    assert haul is not None  # noqa: S101 - for the type checker
    side: End = "a" if geometry.path.side(haul) == "a" else "b"
    at, standing_tension_n = standing_end(geometry), read_n
    if standing_tension_n is None:
        standing_tension_n = _planned_or_from_sag_n(geometry, bare, haul.part.at_standing is not None)
    rigid, seating = geometry.side_reach_m(side), geometry.seating_m()
    hand_tight = _hand_tight_n(geometry, bare)
    floating = geometry.floating()
    if haul.part.at_standing is not None:
        # The blocks were read as the line stands: the length of the webbing follows from them.
        blocks = haul.part.at_standing.si
        placed = _with_reach(bare, side, rigid + seating + blocks)
        line = placed if floating is None else line_of(_webbing_for(placed, standing_tension_n, at, floating))
        loose = _reach_for(line, hand_tight, at, side)
        open_m = None if isinstance(loose, NoResult) else _reach_of(loose, side).length_m - rigid
    else:
        # Laid out hand-tight and then hauled: the webbing keeps its length while the blocks close.
        open_m = need(haul.part.open, geometry.on_part(haul, "open")).si
        loose = _with_reach(bare, side, rigid + open_m)
        if floating is not None:
            loose = line_of(_webbing_for(loose, hand_tight, at, floating))
        hauled = _reach_for(loose, standing_tension_n, at, side)
        if isinstance(hauled, NoResult) and hauled.why == "no_room":
            raise NotComputable(BLOCKS_MEET)
        line = line_of(hauled)
        blocks = _reach_of(line, side).length_m - rigid - seating
    line = _with_give(geometry, line, side, blocks, standing_tension_n)
    travel = None if open_m is None else open_m - blocks  # seating is in it: the blocks take it in as well
    return Standing(line, rest_of(hang(line)), at, blocks, open_m, travel, hand_tight)


def _planned_or_from_sag_n(geometry: Geometry, bare: Line, blocks_read: bool) -> float:
    """Return the planned tension; from the sag that it should leave where only that is planned."""
    plan = geometry.rig.rig.plan
    if plan is not None and plan.standing_tension is None and plan.sag_target is not None and not blocks_read:
        line = _floating_line(geometry, bare, geometry.floating() or 0)
        rest = rest_of(hang(line))
        return rest.tension_a_n if standing_end(geometry) == "a" else rest.tension_b_n
    return planned_standing_tension_n(geometry)


def _hand_tight_n(geometry: Geometry, bare: Line) -> float:
    """Return the tension of a line laid out by hand: enough that the webbing hangs at all."""
    weight = max(webbing.weight_n_per_m for webbing in bare.webbings) * bare.span_m
    values = geometry.values
    return max(values["hand_tight"], values["hand_tight_weights"] * weight)


def _with_give(geometry: Geometry, line: Line, side: End, blocks_m: float, standing_tension_n: float) -> Line:
    """Let the haul rope stretch, where its stretch is on the shelf, counted from the standing state."""
    haul = geometry.path.haul
    rope = haul.part.rope if haul else None
    item = geometry.rig.items.get(rope.gear or "") if rope else None
    strands = haul.part.strands if haul else None
    if item is None or item.gear.stretch is None or strands is None or blocks_m <= 0.0:
        return line
    # Each strand bears its share of the tension, and the blocks move as far as one strand stretches.
    slope = geometry.law(item.gear).slope(standing_tension_n / strands)
    reach = replace(
        _reach_of(line, side), give_m_per_n=blocks_m * slope / strands, reference_tension_n=standing_tension_n
    )
    return replace(line, reach_a=reach) if side == "a" else replace(line, reach_b=reach)


# Of numbers alone: whoever asks has read them. A rig with another value in it often has the same line.
_webbing_for = lru_cache(MOST_LINES)(length_for_tension)
_reach_for = lru_cache(MOST_LINES)(reach_for_tension)


def _reach_of(line: Line, side: End) -> Reach:
    return line.reach_a if side == "a" else line.reach_b


def _with_reach(line: Line, side: End, length_m: float) -> Line:
    reach = Reach(length_m)
    return replace(line, reach_a=reach) if side == "a" else replace(line, reach_b=reach)


def tension_for_sag_target(geometry: Geometry) -> float | None:
    """Return the standing tension, N, of the line that sags as the plan's sag target says; None without a target.

    The distance between the blocks of a haul is left out: it changes the tension by its share of the span.

    Raises:
        MissingInput, NotComputable: as for the standing line.
    """
    plan = geometry.rig.rig.plan
    target = plan.sag_target if plan else None
    if target is None:
        return None
    floating, weight_n = geometry.floating() or 0, target.under.si * G
    line = line_of(length_for_sag(unfound_line(geometry), weight_n, target.at, target.depth.si, floating))
    if geometry.hung_n():
        bare = unfound_line(geometry, line.unstressed_m)
        line = line_of(length_for_sag(bare, weight_n, target.at, target.depth.si, floating))
    rest = rest_of(hang(line))
    return rest.tension_a_n if standing_end(geometry) == "a" else rest.tension_b_n
