"""Finds what a rig does at one value of a key."""

from __future__ import annotations

from collections.abc import Sequence

from riglint.findings.finding import Finding
from riglint.loads import Loads, State
from riglint.loads.assumed import at_each_end
from riglint.loads.inputs import known
from riglint.rulekit import Signal
from riglint.views.judged_parts import main_parts
from riglint.views.plot.content import PlotPoint


def plot_point(text: str, number: float, loads: Loads, findings: Sequence[Finding]) -> PlotPoint:
    """Return a rig at one value: its loads, and what the rules say of it."""
    said = [one for one in findings if one.kind != "review" and one.signal > Signal.NOTICE]
    gravest = max(said, key=lambda one: one.signal, default=None)
    parts = [
        (one.worst.ratio / one.asked, one.load.words) for one in main_parts(loads) if one.worst and one.asked
    ]
    share, weakest = min(parts, default=(None, ""))
    walker = _lowest([_walker(one) for one in at_each_end(loads)])
    haul = known(lambda: loads.haul_sheet)
    return PlotPoint(
        text,
        number,
        gravest.signal.name if gravest else None,
        gravest.rule if gravest else None,
        gravest.message if gravest else "",
        share,
        weakest,
        walker.least_clearance_m if walker else None,
        _sag_m(walker),
        haul.hand_force_n / 1000.0 if haul and haul.hand_force_n is not None else None,
        haul.let_down_m if haul else None,
    )


def _walker(loads: Loads) -> State | None:
    return next((one for one in loads.computable() if one.name == "walker"), None)


def _lowest(states: Sequence[State | None]) -> State | None:
    """Return the state that comes nearest to the ground.

    None where that is not known at each end of what is assumed.
    """
    found = [one for one in states if one is not None]
    heights = [one.least_clearance_m for one in found if one.least_clearance_m is not None]
    if not heights:  # of the ground nothing is known
        return states[0]
    if len(heights) < len(states):
        return None
    return next(one for one in found if one.least_clearance_m == min(heights))


def _sag_m(walker: State | None) -> float | None:
    """Return the sag under the walker as the sheet has it: of the webbing as it is listed."""
    listed = walker.soft.rest if walker is not None and walker.soft else None
    rest = listed or (walker.rest if walker is not None else None)
    return rest.sag_m if rest is not None else None
