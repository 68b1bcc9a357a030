"""The sheet's haul: strands, hands, rope, letting down, each with the numbers put into its formula."""

from __future__ import annotations

from riglint.loads import Loads
from riglint.loads.haul.pulleys import Haul
from riglint.loads.inputs import known
from riglint.mechanics.rope.tackle import strand_sum
from riglint.model.values.defaults import DEFAULTS, EFFICIENCY_SOURCES
from riglint.model.values.sources import Source
from riglint.views.blocks import Block, Column, Note, Section, Table, Worked, WorkedInput
from riglint.views.figures import kn
from riglint.views.sheet.worked.rope import HaulCase, hold, let_down, rope, travel

STRANDS = Source("statics strand by strand, one tension ratio for each sheave", "own")


def haul_section(loads: Loads) -> Section | None:
    """Return the haul, where there is one."""
    sheet, haul = known(lambda: loads.haul_sheet), loads.haul
    tension = known(lambda: loads.standing_tension_n)
    if sheet is None or haul is None or tension is None:
        return None
    case = HaulCase(loads, haul, sheet, tension)
    blocks: list[Block] = []
    for part in (_ratio, _strands, _overshoot, _grip, travel, rope, let_down, hold):
        blocks += known(lambda part=part: part(case)) or []  # type: ignore[misc]
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


def _ratio(case: HaulCase) -> list[Block]:
    loads, haul, sheet, tension_n = case.loads, case.haul, case.sheet, case.standing_tension_n
    usual, worst = haul.to_reach(tension_n), haul.to_reach_at_worst(tension_n)
    brake = loads.values["brake_redirect"]
    total = strand_sum(haul.strands, haul.sheaves.usual)
    gain = usual.actual_ratio / total
    inputs = (
        WorkedInput("n", haul.strands, "", "strands"),
        WorkedInput("multiplier", haul.multiplier, ": 1"),
        WorkedInput("η", haul.sheaves.usual, "", "usual", EFFICIENCY_SOURCES),
        WorkedInput("η_m", haul.multiplier_sheave.usual, "", "usual"),
        WorkedInput("η_b", brake, "", "brake as a redirect", DEFAULTS["brake_redirect"].source),
        WorkedInput("ideal", sheet.ideal_ratio or "–"),
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

    def hand(words: str, hand_n: float, actual: float, eta: tuple[float, float], end: str) -> Worked:
        return Worked(
            "hands",
            words,
            "h",
            "T/r",
            f"{kn(tension_n, 3)} / {actual:.3f}",
            hand_n / 1000.0,
            "kN",
            STRANDS,
            (
                WorkedInput("T", tension_n / 1000.0, "kN", "standing"),
                WorkedInput("r", actual, "", f"as above with η {eta[0]:g} and η_m {eta[1]:g}, {end}"),
            ),
        )

    return [
        ratio,
        hand(
            "pull that reaches the standing tension",
            usual.hand_n,
            usual.actual_ratio,
            (haul.sheaves.usual, haul.multiplier_sheave.usual),
            "usual",
        ),
        hand(
            "the same with poor sheaves",
            worst.hand_n,
            worst.actual_ratio,
            (haul.sheaves.low, haul.multiplier_sheave.low),
            "low end",
        ),
    ]


def _strands(case: HaulCase) -> list[Block]:
    haul, tension_n = case.haul, case.standing_tension_n
    up, down = haul.at_rest(tension_n), haul.let_down(tension_n)
    columns = (Column("strand"), Column("hauling", "kN"), Column("letting down", "kN"))
    names = ["lead", *(f"strand {n}" for n in range(1, haul.strands))]
    rows = [
        (name, kn(one), kn(other))
        for name, one, other in zip(names, up.strands_n, down.strands_n, strict=True)
    ]
    caption = (
        "the strands at standing tension, low end of η; "
        "at rest the truth lies between, each part is judged at the worse"
    )
    eta = haul.sheaves.low
    total = strand_sum(haul.strands, eta)
    inputs = (
        WorkedInput("T", tension_n / 1000.0, "kN", "standing"),
        WorkedInput("η", eta, "", "low end", EFFICIENCY_SOURCES),
        WorkedInput("letting down", kn(down.lead_n), "kN", "the same with 1/η"),
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


def _grip(case: HaulCase) -> list[Block]:
    haul, tension_n = case.haul, case.standing_tension_n
    if haul.part.multiplier is None:
        return []
    worst = haul.to_reach_at_worst(tension_n)
    m = haul.multiplier
    odd = m % 2 == 1
    formula = f"h·{_series(m - 1 if odd else m)}"
    inputs = (
        WorkedInput("h", worst.hand_n / 1000.0, "kN", "low end of η"),
        WorkedInput("η_m", haul.multiplier_sheave.low, "", "low end"),
    )
    factor = worst.grip_n / worst.hand_n
    working = f"{kn(worst.hand_n, 3)} × {factor:.3f}"
    return [
        Worked(
            "grip", "pull on the grip", "G", formula, working, worst.grip_n / 1000.0, "kN", STRANDS, inputs
        )
    ]


def _overshoot(case: HaulCase) -> list[Block]:
    loads, haul = case.loads, case.haul
    heave = haul.overshoot()
    plan = loads.path.rig.rig.plan
    crew = plan.crew if plan else None
    haulers = crew.haulers if crew else None
    each = heave.hand_n / haulers if haulers else heave.hand_n
    inputs = (
        WorkedInput("haulers", haulers or "–", "", "plan"),
        WorkedInput("each", each / 1000.0, "kN", "at least", DEFAULTS["overshoot_pull"].source),
        WorkedInput(
            "r",
            heave.actual_ratio,
            "",
            f"as above with η {haul.sheaves.high:g} and η_m {haul.multiplier_sheave.high:g}, high end",
        ),
    )
    return [
        Worked(
            "heave",
            "what the crew could reach",
            "T",
            "haulers·each·r",
            f"{haulers or 1} × {kn(each, 3)} × {heave.actual_ratio:.3f}",
            heave.line_n / 1000.0,
            "kN",
            STRANDS,
            inputs,
        )
    ]
