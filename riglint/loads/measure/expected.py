"""What a gauge, a stopwatch or a folding rule must show on site when the line stands as planned."""

from __future__ import annotations

from math import sqrt

from riglint.loads.inputs import At, NotComputable, need, within_range
from riglint.loads.path.geometry import G
from riglint.loads.rig_loads import Loads
from riglint.loads.states.standing import rest_of
from riglint.mechanics.span.line import hang
from riglint.records import dataclass

MIDDLE = 0.5  # share of the webbing


@dataclass(frozen=True, slots=True)
class ExpectedPulse:
    """The time that a pulse takes on the standing line."""

    time_s: float  # of all returns together
    returns: int
    over_m: float  # webbing between its fittings, at standing tension
    mass_per_m: float  # of the stretched webbing


@dataclass(frozen=True, slots=True)
class ExpectedSag:
    """How deep the line sags under one person at rest in the middle of the webbing."""

    mass_kg: float
    below_bare_m: float  # below where the line hangs there with nobody on it
    below_chord_m: float
    from_a_m: float  # the middle of the webbing, level from A


def expected_pulse(loads: Loads, returns: int = 10) -> ExpectedPulse:
    """Return the time of so many round trips at the standing tension: t = n·2·L·√(μ/T).

    Raises:
        MissingInput: the standing tension or the webbing are not given.
        NotComputable: the line is of more than one webbing, or nothing can be computed.
    """
    webbings = loads.standing.line.webbings  # with what hangs along the line, which swings with it
    if len(webbings) > 1:
        raise NotComputable("a pulse is timed on one webbing, and this line has several")
    tension, over = loads.standing.tension_n, loads.standing.equilibrium.stretched_m
    with within_range("the pulse"):
        # All that swings, over the length that it swings along.
        mass = webbings[0].weight_n_per_m * webbings[0].length_m / G / over
    return ExpectedPulse(returns * 2.0 * over * sqrt(mass / tension), returns, over, mass)


def expected_sags(loads: Loads) -> list[ExpectedSag]:
    """Return the sag under each planned user in the middle of the webbing, heaviest first.

    Raises:
        MissingInput: no user or no mass is named, or the line lacks a value.
        NotComputable: nothing can be computed.
    """
    document, plan, line = loads.path.rig.document, loads.path.rig.rig.plan, loads.standing.line
    users = need(plan.users if plan and plan.users else None, At(document, ("plan", "users")))
    masses = {need(user.mass, At(document, ("plan", "users", n, "mass"))).si for n, user in enumerate(users)}
    bare = rest_of(hang(line, 0.0, MIDDLE))
    found = []
    for mass in sorted(masses, reverse=True):
        rest = rest_of(hang(line, mass * G, MIDDLE))
        found.append(ExpectedSag(mass, rest.sag_m - bare.sag_m, rest.sag_m, rest.load_x_m))
    return found


def lead_strand_n(loads: Loads) -> tuple[float, float]:
    """Return the least and the greatest force in the lead strand at standing tension; friction decides where between.

    Raises:
        NotComputable: the rig has no haul that stays.
        MissingInput: something of the haul is not given.
    """
    if loads.haul is None or not loads.haul.part.stays:
        raise NotComputable("no pulley system stays in the line, so there is no lead strand to read")
    tension = loads.standing_tension_n
    return loads.haul.let_down(tension).lead_n, loads.haul.at_rest(tension).lead_n
