"""The haul in figures, for the calculation sheet: every one that can be computed."""

from __future__ import annotations

from riglint.loads.haul.pulleys import Haul
from riglint.loads.inputs import known
from riglint.loads.states.standing import Standing
from riglint.loads.states.tie_back import TieBackLine
from riglint.mechanics.valid_range import Numbers
from riglint.records import dataclass


@dataclass(frozen=True, slots=True)
class HaulSheet(Numbers):
    """The haul in figures; None where an input is missing."""

    ideal_ratio: int | None
    actual_ratio: float | None
    hand_force_n: float | None
    lead_rope_n: float | None
    strands_n: tuple[float, ...] | None
    grip_n: float | None
    overshoot_n: float | None
    travel_needed_m: float | None
    travel_available_m: float | None
    blocks_m: float | None
    rope_needed_m: float | None
    behind_brake_m: float | None
    let_down_m: float | None
    hold_force_n: float | None
    tie_back_catch_n: float | None


def haul_sheet(haul: Haul, standing: Standing, tension_n: float, tie_back: TieBackLine | None) -> HaulSheet:
    """Return every figure of the haul that can be computed."""
    blocks, part = standing.blocks_m, haul.part
    travel = standing.travel_m
    available = part.open.si - part.closed.si if part.open and part.closed else None
    widest = standing.hand_tight_blocks_m
    return HaulSheet(
        ideal_ratio=known(lambda: haul.strands * haul.multiplier),
        actual_ratio=known(lambda: haul.to_reach(tension_n).actual_ratio),
        hand_force_n=known(lambda: haul.to_reach(tension_n).hand_n),
        lead_rope_n=known(lambda: haul.at_rest(tension_n).lead_n),
        strands_n=known(lambda: haul.at_rest(tension_n).strands_n),
        grip_n=known(lambda: haul.to_reach_at_worst(tension_n).grip_n) if part.multiplier else None,
        overshoot_n=known(lambda: haul.overshoot().line_n),
        travel_needed_m=travel,
        travel_available_m=available,
        blocks_m=blocks,
        rope_needed_m=known(lambda: haul.rope_in_blocks_m(widest)) if widest is not None else None,
        behind_brake_m=known(lambda: haul.behind_brake_m(blocks)) if blocks is not None else None,
        let_down_m=known(lambda: haul.strands * travel) if travel is not None else None,
        hold_force_n=known(lambda: haul.hold_n(tension_n)),
        tie_back_catch_n=known(lambda: tie_back.bound_n(tension_n)) if tie_back is not None else None,
    )
