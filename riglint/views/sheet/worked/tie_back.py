"""The sheet's tie-back: how stiff it is, and how hard it catches the line."""

from __future__ import annotations

from riglint.loads import Loads
from riglint.loads.inputs import known
from riglint.loads.states.tie_back import Spring, TieBackLine
from riglint.model.values.sources import Source
from riglint.views.blocks import GEOMETRY, Block, Section, Worked, WorkedInput
from riglint.views.figures import kn

ENERGY = Source("energy balance, the line's tension taken as constant", "own")
LINE_GIVES = Source("energy balance, the line's tension falling as its end runs", "own")


def tie_back_section(loads: Loads) -> Section | None:
    """Return the catch of the tie-back; None without one, or where something that it rests on is missing."""
    tie = loads.tie_back
    blocks = known(lambda: _blocks(loads, tie)) if tie is not None else None
    return Section("Tie-back", tuple(blocks)) if blocks else None


def _blocks(loads: Loads, tie: TieBackLine) -> list[Block]:
    tension_n, slack = loads.standing_tension_n, tie.slack_m
    stiff, soft = (tie.spring(tension_n, in_use=one) for one in (True, False))
    line = tie.line_stiffness_n_per_m(loads.standing) / 1000.0
    t, k = tension_n / 1000.0, soft.stiffness_n_per_m / 1000.0
    standing = WorkedInput("T", t, "kN", "standing")
    slacks = WorkedInput("s", slack, "m", f"slack, {tie.on('slack').reference}")
    bound = tie.bound_n(tension_n) / 1000.0
    in_use = stiff.stiffness_n_per_m / 1000.0
    caught = loads.tie_back_catch.tension_n / 1000.0
    return [
        _stiffness(tie, stiff, "in use"),
        _stiffness(tie, soft, "as listed"),
        Worked(
            "tie-back",
            "an upper bound of the force when it catches",
            "F",
            "T + √(T² + 2·k·T·s)",
            f"{kn(tension_n, 3)} + √({kn(tension_n, 3)}² + 2 × {in_use:.3f} × {kn(tension_n, 3)} × {slack:.3f})",
            bound,
            "kN",
            ENERGY,
            (standing, slacks, WorkedInput("k", in_use, "kN/m", "of the tie-back in use")),
        ),
        Worked(
            "tie-back",
            "the force, the tie-back as listed and the line giving way",
            "F",
            *_catch(t, k, line, slack, caught),
            caught,
            "kN",
            LINE_GIVES,
            (
                standing,
                slacks,
                WorkedInput("k", k, "kN/m", "of the tie-back as listed"),
                WorkedInput("k_L", line, "kN/m", "of the line: how its tension falls as its end runs"),
            ),
        ),
    ]


def _catch(t: float, k: float, line: float, slack: float, caught: float) -> tuple[str, str]:
    """Return the formula and its numbers: of a line that still pulls when it is caught, or of one that is spent.

    Tension and catch in kN, stiffness of the tie-back and the line in kN/m, slack in m.
    """
    if line > 0.0 and slack + caught / k >= t / line * (1.0 - 1e-9):
        return "T·√(k/k_L), all that the line held", f"{t:.3f} × √({k:.3f} / {line:.3f})"
    left, released = t - line * slack, (t - 0.5 * line * slack) * slack
    return (
        "k·(T' + √(T'² + 2·(k + k_L)·(T − ½·k_L·s)·s))/(k + k_L), T' = T − k_L·s",
        f"{k:.3f} × ({left:.3f} + √({left:.3f}² + 2 × {k + line:.3f} × {released:.4f})) / {k + line:.3f}",
    )


def _stiffness(tie: TieBackLine, spring: Spring, how: str) -> Worked:
    slope, k = spring.strain_per_n * 1000.0, spring.stiffness_n_per_m / 1000.0
    shelf = spring.at.reference
    text = "from its fibre and strength" if spring.assumed else "slope of its stretch curve at T"
    inputs = (
        WorkedInput("ε'", slope, "1/kN", f"{text}, {shelf}"),
        WorkedInput("ℓ", spring.length_m, "m", f"its length, {shelf}"),
    )
    working = f"1 / ({slope:.5f} × {spring.length_m:.3f})"
    words = f"stiffness of {tie.entry.gear} {how}"
    return Worked("tie-back", words, "k", "1/(ε'·ℓ)", working, k, "kN/m", GEOMETRY, inputs)
