"""The sheet's parts: force against strength, one worked line for each."""

from __future__ import annotations

from collections.abc import Sequence

from riglint.loads import Loads, PartLoad, State
from riglint.loads.path.parts import Worst
from riglint.loads.strength.strength import Strength
from riglint.views.blocks import Block, Column, Note, Section, Table, Worked, WorkedInput, sourced
from riglint.views.figures import fixed, kn, number
from riglint.views.judged_parts import JudgedPart, main_parts
from riglint.views.kits import from_kits

PART_FORMULA = (
    "ratio = breaking strength × slinging mode × reductions ÷ force in the state that leaves the least"
)
COLUMNS = (
    Column("part"),
    Column("state", "", "governing state"),
    Column("force", "kN"),
    Column("holds", "kN", "strength in place"),
    Column("ratio"),
    Column("asked", "", "ratio asked"),
)
ENDS = {"a": "at end A", "b": "at end B", "line": "the greatest anywhere"}
# How a piece of the haul comes to its force; every other part of the chain bears the line.
SHARES = {
    "rope": "T/Σηⁱ, low end of η, the lead as it stands after hauling",
    "brake": "T/Σηⁱ, low end of η, the lead as it stands after hauling",
    "brake_connector": "T/Σηⁱ, low end of η, the lead as it stands after hauling",
    "fixed_block": "T − lead while letting down, all strands but the lead",
    "dead_end": "the last strand while letting down",
    "multiplier.pulley": "the pull of the grip in a heave, usual η",
    "multiplier.connector": "the pull of the grip in a heave, usual η",
}


def parts_section(loads: Loads) -> Section | None:
    """Return every part of the main line."""
    parts = main_parts(loads)
    kits = [Note("kits", said) for said in from_kits(loads.path.rig)]
    return Section("Parts", (*part_blocks(parts), *kits)) if parts else None


def part_blocks(parts: Sequence[JudgedPart]) -> list[Block]:
    """Return parts as a table, then worked one by one, then what is asked of them."""
    rows = tuple(_row(part) for part in parts)
    blocks: list[Block] = [Table(COLUMNS, rows, ""), Note("formula", PART_FORMULA)]
    for part in parts:
        blocks += _worked(part)
    loads = [part.load for part in parts]
    rows_asked = {load.row or load.strength_class: load.required.source for load in loads}
    blocks += [Note("asked", f"of {name}: {sourced(source)}") for name, source in rows_asked.items()]
    return blocks


def _row(part: JudgedPart) -> tuple[str, ...]:
    load, strength, worst, asked = part.load, part.strength, part.worst, part.asked
    return (
        f"{load.id} {load.words}",
        worst.state if worst else "–",
        kn(worst.force_n if worst else None),
        kn(strength.strength_n if strength else None),
        fixed(worst.ratio if worst else None),
        number(asked) if asked else "–",
    )


def _worked(part: JudgedPart) -> list[Block]:
    load, strength, worst, state = part.load, part.strength, part.worst, part.state
    if strength is None or worst is None or state is None:
        return []
    if strength.no_rating:
        return [Note(load.id, f"{load.words}: {strength.no_rating}")]
    factors = strength.reductions
    working = (
        "".join([kn(strength.breaking_n, 3), *(f" × {one.factor:.3g}" for one in factors)])
        + f" / {kn(worst.force_n, 3)}"
    )
    inputs = [_force(load, state, worst), _breaking(strength)]
    inputs += [WorkedInput("c", one.factor, "", one.why, one.source) for one in factors]
    if strength.rated_n is not None:
        share = strength.rated_n / worst.force_n
        inputs.append(WorkedInput("rated load", strength.rated_n / 1000.0, "kN", f"{share:.2f} of the force"))
    inputs.append(WorkedInput("asked", part.asked or "none", "", f"{load.row or load.strength_class}"))
    return [
        Worked(
            load.id,
            load.words,
            "ratio",
            "F_b" + ("·c" if len(factors) == 1 else "·Πc" if factors else "") + "/F",
            working,
            worst.ratio,
            "",
            load.required.source,
            tuple(inputs),
            part=load.id,
        )
    ]


def _breaking(strength: Strength) -> WorkedInput:
    words = strength.breaking_from
    return WorkedInput("F_b", strength.breaking_n / 1000.0, "kN", f"{words}, {strength.at.reference}")


def _force(load: PartLoad, state: State, worst: Worst) -> WorkedInput:
    tension = {"a": state.tension_a_n, "b": state.tension_b_n}.get(load.end, state.tension_n)
    words = f"{worst.state}: T {kn(tension, 3)} kN {ENDS[load.end]}"
    share = worst.force_n / tension if tension else 1.0
    if load.part in SHARES and "." in load.id:
        words += f", F = {share:.4f}·T = {SHARES[load.part]}"
    elif abs(share - 1.0) > 1e-9:  # noqa: PLR2004 - a share of exactly one is the line itself
        words += f", F = {share:.3f}·T, one of two legs: T/(2·cos(θ/2))"
    return WorkedInput("F", worst.force_n / 1000.0, "kN", words)
