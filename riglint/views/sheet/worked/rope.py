"""The sheet's rope: travel of the blocks, rope needed, letting down, holding on, the tie-back's catch."""

from __future__ import annotations

from math import exp, pi

from riglint.loads import Loads
from riglint.loads.haul.pulleys import Haul
from riglint.loads.haul.working import HaulSheet
from riglint.model.values.defaults import DEFAULTS
from riglint.model.values.sources import Source
from riglint.records import dataclass
from riglint.views.blocks import GEOMETRY, Block, Worked, WorkedInput
from riglint.views.figures import kn

ENERGY = Source("energy balance, T·(s + δ) = ½·k·δ², the line's tension taken as constant", "own")
CAPSTAN = Source("statics of a rope round a drum, e^(−2π·μ·N)", "own")


@dataclass(frozen=True, slots=True)
class HaulCase:
    """A haul, its figures, and the standing tension that it is worked for."""

    loads: Loads
    haul: Haul
    sheet: HaulSheet
    standing_tension_n: float


def travel(case: HaulCase) -> list[Block]:
    """Return what the sheet says of: travel."""
    loads, haul = case.loads, case.haul
    standing, part = loads.standing, haul.part
    found: list[Block] = []
    loose, blocks, run = standing.hand_tight_blocks_m, standing.blocks_m, standing.travel_m
    if loose is not None and blocks is not None and run is not None:
        inputs = (
            WorkedInput("d₀", loose, "m", f"between the axles, hand-tight at {kn(standing.hand_tight_n)} kN"),
            WorkedInput("d", blocks, "m", "the same at standing tension, with the same webbing"),
        )
        found.append(
            Worked(
                "travel",
                "of the blocks, needed",
                "Δd",
                "d₀ − d",
                f"{loose:.2f} − {blocks:.2f}",
                run,
                "m",
                GEOMETRY,
                inputs,
            )
        )
    if part.open is not None and part.closed is not None:
        first, last = part.open.si, part.closed.si
        inputs = (WorkedInput("open", first, "m", "rig file"), WorkedInput("closed", last, "m", "rig file"))
        found.append(
            Worked(
                "travel",
                "there",
                "",
                "open − closed",
                f"{first:.2f} − {last:.2f}",
                first - last,
                "m",
                GEOMETRY,
                inputs,
            )
        )
    return found


def rope(case: HaulCase) -> list[Block]:
    """Return what the sheet says of: rope."""
    loads, haul, sheet = case.loads, case.haul, case.sheet
    standing, n, reeving = loads.standing, haul.strands, loads.values["reeving"]
    extra = WorkedInput("reeving", reeving, "m", "", DEFAULTS["reeving"].source)
    found: list[Block] = []
    loose, blocks = standing.hand_tight_blocks_m, standing.blocks_m
    if loose is not None:
        inputs = (WorkedInput("n", n, "", "strands"), WorkedInput("d₀", loose, "m", "hand-tight"), extra)
        found.append(
            Worked(
                "rope",
                "needed with the line hand-tight",
                "R",
                "n·d₀ + reeving",
                f"{n} × {loose:.2f} + {reeving:.2f}",
                haul.rope_in_blocks_m(loose),
                "m",
                GEOMETRY,
                inputs,
            )
        )
    if blocks is not None and sheet.behind_brake_m is not None:
        length = sheet.behind_brake_m + haul.rope_in_blocks_m(blocks)
        inputs = (
            WorkedInput("rope", length, "m", "rig file"),
            WorkedInput("d", blocks, "m", "at standing tension"),
            extra,
        )
        found.append(
            Worked(
                "rope",
                "behind the brake",
                "B",
                "rope − n·d − reeving",
                f"{length:.2f} − {n} × {blocks:.2f} − {reeving:.2f}",
                sheet.behind_brake_m,
                "m",
                GEOMETRY,
                inputs,
            )
        )
    return found


def let_down(case: HaulCase) -> list[Block]:
    """Return what the sheet says of: let down."""
    loads, haul, sheet = case.loads, case.haul, case.sheet
    moved = loads.standing.travel_m
    if moved is None:
        return []
    inputs = [WorkedInput("n", haul.strands, "", "strands"), WorkedInput("Δd", moved, "m", "travel needed")]
    if sheet.behind_brake_m is not None:
        inputs.append(WorkedInput("there", sheet.behind_brake_m, "m", "behind the brake"))
    words = "rope that runs out to reach zero, the stopper untied"
    working = f"{haul.strands} × {moved:.2f}"
    run = haul.strands * moved
    return [Worked("let down", words, "", "n·Δd", working, run, "m", GEOMETRY, tuple(inputs))]


def hold(case: HaulCase) -> list[Block]:
    """Return what the sheet says of: hold."""
    loads, haul, tension_n = case.loads, case.haul, case.standing_tension_n
    plan, values = loads.path.rig.rig.plan, loads.values
    held_n = haul.hold_n(tension_n)
    turns = plan.tail_wraps if plan and plan.tail_wraps is not None else 0.0
    mu, brake, n = values["bark_holds"], values["brake_redirect"], haul.strands
    factor = exp(-2.0 * pi * mu * turns)
    inputs = (
        WorkedInput("T", tension_n / 1000.0, "kN", "standing"),
        WorkedInput("n", n, "", "strands; friction in the sheaves only helps and is left out"),
        WorkedInput("η_b", brake, "", "brake as a redirect", DEFAULTS["brake_redirect"].source),
        WorkedInput("μ", mu, "", "rope on bark", DEFAULTS["bark_holds"].source),
        WorkedInput("N", turns, "", "turns round the trunk, plan"),
    )
    working = f"{kn(tension_n)} / {n} × {brake:g} × {factor:.3f}"
    formula = "T/n·η_b·e^(−2π·μ·N)"
    return [
        Worked(
            "hold",
            "on the tail while lowering",
            "F",
            formula,
            working,
            held_n / 1000.0,
            "kN",
            CAPSTAN,
            inputs,
        )
    ]
