"""The sheet's webbing and energy: what to cut, what the line stores, how far to keep away."""

from __future__ import annotations

from riglint.loads import Loads, State
from riglint.loads.inputs import known
from riglint.mechanics.span.line import Equilibrium
from riglint.model.values.defaults import DEFAULTS
from riglint.model.values.sources import OWN, Source
from riglint.views.blocks import GEOMETRY, Block, Note, Section, Worked, WorkedInput

KEEP_OUT = Source(
    "a free end stays tied to the other anchor and reaches no further than the line is long", "own"
)
CUT = Source("geometry, the webbing laid out unstressed", "own")


def webbing_section(loads: Loads) -> Section | None:
    """Return length, energy and keep-out length; None where the line is not known."""
    standing = known(lambda: loads.standing)
    if standing is None:
        return None
    rest, line = standing.equilibrium, standing.line
    strain = rest.stretched_m / line.unstressed_m - 1.0
    inputs = (
        WorkedInput("stretched", rest.stretched_m, "m", "between its fittings at standing tension"),
        WorkedInput("ε", strain * 100.0, "%", "its mean strain, from the stretch curve"),
    )
    webbing = Worked(
        "webbing",
        "unstressed between its fittings",
        "L",
        "stretched/(1 + ε)",
        f"{rest.stretched_m:.3f} / {1.0 + strain:.5f}",
        line.unstressed_m,
        "m",
        GEOMETRY,
        inputs,
    )
    blocks: list[Block] = [webbing, _cut(loads), _energy("energy", "the standing webbing", rest)]
    worst = worst_peak(loads)
    if worst is not None and worst.rest is not None:
        blocks.append(_energy("peak", f"the worst peak, {worst.name}", worst.rest))
    blocks.append(keep_out(loads))
    blocks.append(
        Note(
            "keep out",
            "parts that come off both anchors fly further; nothing here says how far, so keep off the line's axis",
        )
    )
    return Section("Webbing and energy", tuple(blocks))


def worst_peak(loads: Loads) -> State | None:
    """Return the peak in which the webbing stores the most."""
    peaks = [state for state in known(loads.peaks) or [] if state.rest is not None]
    return max(peaks, key=lambda state: state.rest.stretch_energy_j if state.rest else 0.0, default=None)


def _cut(loads: Loads) -> Worked:
    anchors = [placed for placed in loads.path.parts if placed.part.part == "webbing_anchor"]
    tails = sum(placed.part.webbing_tail.si for placed in anchors if placed.part.webbing_tail)
    length, wrap = loads.standing.line.unstressed_m, loads.values["webbing_anchor_wrap"]
    inputs = (
        WorkedInput("L", length, "m", "unstressed"),
        WorkedInput("tails", tails, "m", "rig file"),
        WorkedInput("webbing anchors", len(anchors)),
        WorkedInput("each takes", wrap, "m", "", DEFAULTS["webbing_anchor_wrap"].source),
    )
    working = f"{length:.2f} + {tails:.2f} + {len(anchors)} × {wrap:.2f}"
    return Worked(
        "cut",
        "webbing to cut, at least",
        "",
        "L + tails + webbing anchors·each",
        working,
        loads.cut_needed_m(),
        "m",
        CUT,
        inputs,
    )


def _energy(label: str, where: str, rest: Equilibrium) -> Worked:
    inputs = (
        WorkedInput("H", rest.horizontal_n / 1000.0, "kN"),
        WorkedInput(
            "greatest ε",
            rest.strain * 100.0,
            "%",
            "the area below the stretch curve up to there, over the length",
        ),
    )
    return Worked(
        label,
        f"stored in {where}",
        "U",
        "L·∫T dε",
        "",
        rest.stretch_energy_j / 1000.0,
        "kJ",
        OWN,
        inputs,
    )


def keep_out(loads: Loads) -> Worked:
    """Return how far from either anchor nobody should stand on the line's axis while it is loaded."""
    worst = worst_peak(loads)
    rest = worst.rest if worst is not None and worst.rest is not None else loads.standing.equilibrium
    line = loads.standing.line
    ends = line.reach_a.length_m + line.reach_b.length_m
    inputs = (
        WorkedInput("stretched", rest.stretched_m, "m", f"webbing, {worst.name if worst else 'standing'}"),
        WorkedInput("ends", ends, "m", "what lies between webbing and anchors"),
    )
    return Worked(
        "keep out",
        "from either anchor, on both sides of it, along the line's axis",
        "R",
        "stretched + ends",
        f"{rest.stretched_m:.2f} + {ends:.2f}",
        rest.stretched_m + ends,
        "m",
        KEEP_OUT,
        inputs,
    )
