"""How deep somebody sinks when a part goes and what catches it lets an end of the line out."""

from __future__ import annotations

from dataclasses import replace

from riglint.loads.path.geometry import G
from riglint.loads.states.line import Band
from riglint.loads.states.standing import Standing
from riglint.loads.states.sweep import Sweep, least_clear
from riglint.mechanics.span.line import NoResult, hang
from riglint.mechanics.valid_range import Numbers
from riglint.records import dataclass

# A load let go at once dips at most twice as far as where it comes to rest, on a spring that stiffens as a line does
# (suddenly applied load, any strength-of-materials text).
FIRST_DIP = 2.0


@dataclass(frozen=True, slots=True)
class Sunk(Numbers):
    """How deep the heaviest user sinks in the first dip at most, and the least that then stays above the ground, m."""

    sink_m: float
    clearance_m: float | None  # of the line under the user; None where the ground is not known


def let_out(standing: Standing, side: str, by_m: float, give_m_per_n: float = 0.0) -> Standing | None:
    """Return the standing line with its end at one side, a or b, let out; None where it then hangs slack."""
    line = standing.with_longer_reach(side, by_m, give_m_per_n)
    rest = hang(line)
    if isinstance(rest, NoResult) or rest.tension_n < line.weight_n:
        return None
    return replace(standing, line=line, equilibrium=rest)


def sunk(band: Band, side: str, by_m: float, give_m_per_n: float = 0.0) -> Sunk | None:
    """Return how deep the heaviest user sinks, standing where it is deepest; None where the line then hangs slack.

    Args:
        band: the line before.
        side: its end that is let out, a or b.
        by_m: how far.
        give_m_per_n: how much further for each N, through what catches it.

    Raises:
        MissingInput: the users are not given.
    """
    longer = let_out(band.soft.standing, side, by_m, give_m_per_n)
    if longer is None:
        return None
    fractions, weight_n = band.soft.fractions, band.case.heaviest_kg * G
    before = band.soft.along(weight_n, fractions)
    after = Sweep(band.soft.geometry, longer).along(weight_n, fractions)
    sinks = [FIRST_DIP * (old.load_y_m - new.load_y_m) for old, new in zip(before, after, strict=True)]
    dips = [
        (new.load_x_m, old.load_y_m - sink, new.fraction)
        for old, new, sink in zip(before, after, sinks, strict=True)
    ]
    return Sunk(max(sinks), least_clear(band.soft.heights(dips))[0])
