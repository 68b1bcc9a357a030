"""The sheet's haul: strands, hands, rope, letting down, each with the numbers put into its formula."""

from __future__ import annotations

from math import exp, pi

from riglint.loads import Loads
from riglint.loads.haul import Haul
from riglint.loads.haul_sheet import HaulSheet
from riglint.mechanics.tackle import strand_sum
from riglint.model.defaults import DEFAULTS, EFFICIENCY_SOURCES
from riglint.model.sources import Source
from riglint.reports.sheet_content import (
    GEOMETRY,
    Block,
    Column,
    Input,
    Note,
    Section,
    Table,
    Worked,
    kn,
    known,
)

STRANDS = Source("statics strand by strand, one tension ratio for each sheave", "own")
ENERGY = Source("energy balance, T·(s + δ) = ½·k·δ², the line's tension taken as constant", "own")
CAPSTAN = Source("statics of a rope round a drum, e^(−2π·μ·N)", "own")


def haul_section(loads: Loads) -> Section | None:
    """Return the haul, where there is one."""
    sheet, haul = known(lambda: loads.haul_sheet), loads.haul
    tension = known(lambda: loads.planned_tension_n)
    if sheet is None or haul is None or tension is None:
        return None
    blocks: list[Block] = []
    for part in (_ratio, _strands, _overshoot, _grip):
        blocks += known(lambda part=part: part(loads, haul, sheet, tension)) or []  # type: ignore[misc]
    for length in (_travel, _rope, _let_down):
        blocks += known(lambda length=length: length(loads, haul, sheet)) or []  # type: ignore[misc]
    for force in (_hold, _tie_back):
        blocks += known(lambda force=force: force(loads, haul, sheet, tension)) or []  # type: ignore[misc]
    sheaves = known(lambda: haul.sheaves)
    if sheaves is not None:
        text = (
            f"η {sheaves.usual:g} a sheave, range {sheaves.low:g} to {sheaves.high:g}; "
            "strands and hand on the worse side where it matters"
        )
        blocks.append(Note("range", text))
    return Section("Haul", tuple(blocks)) if blocks else None


def lead_formula(haul: Haul) -> str:
    """Return the lead's force over the hand's, as a formula."""
    m, tackle = haul.multiplier, haul.part.multiplier
    if m == 1:
        return "η_b"
    if tackle is not None and tackle.strand == "tail":
        return _series(m) + "·η_b"
    if m % 2 == 0:
        return _series(m)
    last = "η_m" if m == 3 else f"η_m^{m - 2}"  # noqa: PLR2004 - three to one
    return f"({_series(m - 1)[1:-1]} + {last}·η_b)"


def _series(terms: int) -> str:
    return "(" + " + ".join(["1", "η_m", *(f"η_m^{i}" for i in range(2, terms))][:terms]) + ")"


def _ratio(loads: Loads, haul: Haul, sheet: HaulSheet, tension_n: float) -> list[Block]:
    usual, worst = haul.to_reach(tension_n), haul.to_reach_at_worst(tension_n)
    brake = loads.values["brake_redirect"]
    total = strand_sum(haul.strands, haul.sheaves.usual)
    gain = usual.actual_ratio / total
    inputs = (
        Input("n", haul.strands, "", "strands"),
        Input("multiplier", haul.multiplier, ": 1"),
        Input("η", haul.sheaves.usual, "", "usual", EFFICIENCY_SOURCES),
        Input("η_m", haul.multiplier_sheave.usual, "", "usual"),
        Input("η_b", brake, "", "brake as a redirect", DEFAULTS["brake_redirect"].source),
        Input("ideal", sheet.ideal_ratio or "–"),
    )
    ratio = Worked(
        "ratio",
        "line over hand",
        "r",
        f"{lead_formula(haul)}·Σηⁱ (i = 0 … n−1)",
        f"{gain:.3f} × {total:.3f}",
        usual.actual_ratio,
        "",
        STRANDS,
        inputs,
    )

    def hand(words: str, hand_n: float, actual: float, low_or_usual: str) -> Worked:
        return Worked(
            "hands",
            words,
            "h",
            "T/r",
            f"{kn(tension_n)} / {actual:.2f}",
            hand_n / 1000.0,
            "kN",
            STRANDS,
            (Input("T", tension_n / 1000.0, "kN", "standing"), Input("r", actual, "", low_or_usual)),
        )

    return [
        ratio,
        hand("pull that reaches the standing tension", usual.hand_n, usual.actual_ratio, "usual η"),
        hand("the same with poor sheaves", worst.hand_n, worst.actual_ratio, "low end of η"),
    ]


def _strands(loads: Loads, haul: Haul, sheet: HaulSheet, tension_n: float) -> list[Block]:
    up, down = haul.at_rest(tension_n), haul.let_down(tension_n)
    columns = (Column("strand"), Column("hauling", "kN"), Column("letting down", "kN"))
    names = ["lead", *(f"strand {n}" for n in range(1, haul.strands))]
    rows = [
        (name, kn(one), kn(other))
        for name, one, other in zip(names, up.strands_n, down.strands_n, strict=True)
    ]
    caption = "the strands at standing tension, low end of η; at rest the truth lies between, each part is judged at the worse"
    eta = haul.sheaves.low
    total = strand_sum(haul.strands, eta)
    inputs = (
        Input("T", tension_n / 1000.0, "kN", "standing"),
        Input("η", eta, "", "low end", EFFICIENCY_SOURCES),
        Input("letting down", kn(down.lead_n), "kN", "the same with 1/η"),
    )
    lead = Worked(
        "lead",
        "strand i carries f·ηⁱ",
        "f",
        "T/Σηⁱ",
        f"{kn(tension_n)} / {total:.3f}",
        up.lead_n / 1000.0,
        "kN",
        STRANDS,
        inputs,
    )
    return [lead, Table(columns, tuple(rows), caption)]


def _grip(loads: Loads, haul: Haul, sheet: HaulSheet, tension_n: float) -> list[Block]:
    if haul.part.multiplier is None:
        return []
    worst = haul.to_reach_at_worst(tension_n)
    m = haul.multiplier
    odd = m % 2 == 1
    formula = f"h·{_series(m - 1 if odd else m)}"
    inputs = (
        Input("h", worst.hand_n / 1000.0, "kN", "low end of η"),
        Input("η_m", haul.multiplier_sheave.low, "", "low end"),
    )
    factor = worst.grip_n / worst.hand_n
    working = f"{kn(worst.hand_n, 3)} × {factor:.3f}"
    return [
        Worked(
            "grip", "pull on the grip", "G", formula, working, worst.grip_n / 1000.0, "kN", STRANDS, inputs
        )
    ]


def _overshoot(loads: Loads, haul: Haul, sheet: HaulSheet, tension_n: float) -> list[Block]:
    heave = haul.overshoot()
    plan = loads.path.rig.rig.plan
    crew = plan.crew if plan else None
    haulers = crew.haulers if crew else None
    each = heave.hand_n / haulers if haulers else heave.hand_n
    inputs = (
        Input("haulers", haulers or "–", "", "plan"),
        Input("each", each / 1000.0, "kN", "at least", DEFAULTS["overshoot_pull"].source),
        Input("r", heave.actual_ratio, "", "high end of η"),
    )
    return [
        Worked(
            "heave",
            "what the crew could reach",
            "T",
            "haulers·each·r",
            f"{haulers or 1} × {kn(each)} × {heave.actual_ratio:.2f}",
            heave.line_n / 1000.0,
            "kN",
            STRANDS,
            inputs,
        )
    ]


def _travel(loads: Loads, haul: Haul, sheet: HaulSheet) -> list[Block]:
    standing, part = loads.standing, haul.part
    found: list[Block] = []
    loose, blocks, travel = standing.hand_tight_blocks_m, standing.blocks_m, standing.travel_m
    if loose is not None and blocks is not None and travel is not None:
        inputs = (
            Input("d₀", loose, "m", f"between the axles, hand-tight at {kn(standing.hand_tight_n)} kN"),
            Input("d", blocks, "m", "the same at standing tension, with the same webbing"),
        )
        found.append(
            Worked(
                "travel",
                "of the blocks, needed",
                "Δd",
                "d₀ − d",
                f"{loose:.2f} − {blocks:.2f}",
                travel,
                "m",
                GEOMETRY,
                inputs,
            )
        )
    if part.open is not None and part.closed is not None:
        first, last = part.open.si, part.closed.si
        inputs = (Input("open", first, "m", "rig file"), Input("closed", last, "m", "rig file"))
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


def _rope(loads: Loads, haul: Haul, sheet: HaulSheet) -> list[Block]:
    standing, n, reeving = loads.standing, haul.strands, loads.values["reeving"]
    extra = Input("reeving", reeving, "m", "", DEFAULTS["reeving"].source)
    found: list[Block] = []
    loose, blocks = standing.hand_tight_blocks_m, standing.blocks_m
    if loose is not None:
        inputs = (Input("n", n, "", "strands"), Input("d₀", loose, "m", "hand-tight"), extra)
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
            Input("rope", length, "m", "rig file"),
            Input("d", blocks, "m", "at standing tension"),
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


def _let_down(loads: Loads, haul: Haul, sheet: HaulSheet) -> list[Block]:
    travel = loads.standing.travel_m
    if travel is None:
        return []
    inputs = [Input("n", haul.strands, "", "strands"), Input("Δd", travel, "m", "travel needed")]
    if sheet.behind_brake_m is not None:
        inputs.append(Input("there", sheet.behind_brake_m, "m", "behind the brake"))
    words = "rope that runs out to reach zero"
    working = f"{haul.strands} × {travel:.2f}"
    run = haul.strands * travel
    return [Worked("let down", words, "", "n·Δd", working, run, "m", GEOMETRY, tuple(inputs))]


def _hold(loads: Loads, haul: Haul, sheet: HaulSheet, tension_n: float) -> list[Block]:
    plan, values = loads.path.rig.rig.plan, loads.values
    hold = haul.hold_n(tension_n)
    turns = plan.tail_wraps if plan and plan.tail_wraps is not None else 0.0
    mu, brake, n = values["bark_holds"], values["brake_redirect"], haul.strands
    factor = exp(-2.0 * pi * mu * turns)
    inputs = (
        Input("T", tension_n / 1000.0, "kN", "standing"),
        Input("n", n, "", "strands; friction in the sheaves only helps and is left out"),
        Input("η_b", brake, "", "brake as a redirect", DEFAULTS["brake_redirect"].source),
        Input("μ", mu, "", "rope on bark", DEFAULTS["bark_holds"].source),
        Input("N", turns, "", "turns round the trunk, plan"),
    )
    working = f"{kn(tension_n)} / {n} × {brake:g} × {factor:.3f}"
    formula = "T/n·η_b·e^(−2π·μ·N)"
    return [
        Worked(
            "hold", "on the tail while lowering", "F", formula, working, hold / 1000.0, "kN", CAPSTAN, inputs
        )
    ]


def _tie_back(loads: Loads, haul: Haul, sheet: HaulSheet, tension_n: float) -> list[Block]:
    catch, tie = haul.tie_back_catch_n(tension_n), haul.part.tie_back
    if tie is None or tie.slack is None:
        return []
    slack = tie.slack.si
    # The stiffness that the bound was found with, from the bound itself: ((F − T)² − T²)/(2·T·s).
    stiffness = (
        ((catch - tension_n) ** 2 - tension_n**2) / (2.0 * tension_n * slack) if slack and tension_n else None
    )
    inputs = [Input("T", tension_n / 1000.0, "kN", "standing"), Input("s", slack, "m", "slack, rig file")]
    working = ""
    if stiffness is not None:
        inputs.append(Input("k", stiffness / 1000.0, "kN/m", "of the tie-back, shelf"))
        working = f"{kn(tension_n)} + √({kn(tension_n)}² + 2 × {stiffness / 1000.0:.1f} × {kn(tension_n)} × {slack:.2f})"
    words = "an upper bound of the force when it catches"
    formula = "T + √(T² + 2·k·T·s)"
    bound = catch / 1000.0
    return [Worked("tie-back", words, "F", formula, working, bound, "kN", ENERGY, tuple(inputs))]
