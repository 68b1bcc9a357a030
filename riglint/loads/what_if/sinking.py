"""How far somebody on the line comes down when a part goes, and what then stays above the ground."""

from __future__ import annotations

from riglint.loads.inputs import MissingInput, NotComputable, known
from riglint.loads.rig_loads import Loads
from riglint.loads.states.let_out import Sunk, sunk
from riglint.loads.states.tie_back import TieBackLine


def to_the_ground(loads: Loads) -> Sunk | None:
    """Return the fall of somebody whom nothing catches: from as high as the feet are; None where that is not known."""
    feet = known(lambda: max(loads.band.foot_heights_m(), default=None))
    return None if feet is None else Sunk(feet, 0.0)


def sinks(loads: Loads, side: str, by_m: float, give_m_per_n: float = 0.0) -> Sunk | None:
    """Return how deep the walker sinks when one end of the line is let out; None where users or tension are not known.

    A line that then hangs slack lets the walker down to the ground.
    """
    try:
        return sunk(loads.band, side, by_m, give_m_per_n) or to_the_ground(loads)
    except (MissingInput, NotComputable):
        return None


def when_tie_back_catches(loads: Loads, tie: TieBackLine) -> Sunk | None:
    """Return how deep the walker sinks when the tie-back catches: the line runs through its slack, and stretches it."""
    stiffness = known(lambda: tie.spring(loads.standing_tension_n, in_use=False).stiffness_n_per_m)
    slack = tie.entry.slack
    if stiffness is None or slack is None:
        return None
    return sinks(loads, loads.path.side(tie.placed), slack.si, 1.0 / stiffness)
