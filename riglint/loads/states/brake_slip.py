"""The line after its rope has run through the brake as far as it can."""

from __future__ import annotations

from dataclasses import replace

from riglint.loads.haul.pulleys import Haul
from riglint.loads.states.let_out import let_out
from riglint.loads.states.line import Band, State, force_state
from riglint.loads.states.sweep import Sweep
from riglint.model.values.sources import PRACTICE

NAME = "brake_slip"
WORDS = "the rope has run through the brake to its stopper, somebody on the line"


def after_slip(band: Band, haul: Haul) -> State:
    """Return the line after the slip, with somebody on it; no impact is computed.

    Raises:
        MissingInput: stopper, its place, the tail or the users are not given.
    """
    soft, stiff = band.soft.standing, band.stiff.standing
    slip_m = haul.slip_m(soft.blocks_m)
    if slip_m is None:
        return force_state(NAME, "the rope runs out through the brake", PRACTICE, 0.0, "runs out")
    side, by_m = haul.geometry.path.side(haul.placed), slip_m / haul.strands
    left, left_stiff = (let_out(one, side, by_m) for one in (soft, stiff))
    if left is None or left_stiff is None:
        return force_state(NAME, WORDS, PRACTICE, 0.0, "slack")
    slipped = Band(band.case, Sweep(band.soft.geometry, left), Sweep(band.stiff.geometry, left_stiff))
    state = slipped.at_rest(NAME, WORDS, band.case.heaviest_kg, 1)
    left_n = left.equilibrium.tension_n
    return replace(state, note=f"standing tension then {left_n / 1000:.3g} kN; we calculate no impact")
