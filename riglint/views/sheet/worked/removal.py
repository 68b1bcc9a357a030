"""The sheet's table of what is left when one part goes."""

from __future__ import annotations

from riglint.loads import Loads
from riglint.loads.inputs import MissingInput, NotComputable, known
from riglint.loads.what_if.left import Removal
from riglint.loads.what_if.removal import removals
from riglint.views.blocks import Block, Column, Note, Section, Table
from riglint.views.figures import fixed, kn, number

COLUMNS = (
    Column("if this goes → this catches"),
    Column("force", "kN"),
    Column("ratio"),
    Column("drop", "m"),
    Column("clear", "m", "clear of the ground"),
)
HOW = (
    "ratio = strength in place ÷ force of the catch, with everybody on the line; "
    "below 1 the part that catches goes too"
)
WHERE = "states, catch of the backup and tie-back above; legs: T ÷ (2·cos(θ/2)) with one leg fewer"


def removal_section(loads: Loads) -> Section | None:
    """Return what catches when any one part goes; None where that cannot be computed."""
    rows: list[Removal] = []
    found = removals(loads)
    try:
        rows.extend(found)
    except (MissingInput, NotComputable):
        return None
    asked = known(lambda: loads.values.required("backup", loads.consequence.word))
    table = Table(COLUMNS, tuple(_row(one) for one in rows), "what catches when one part goes")
    blocks: list[Block] = [table, Note("ratio", HOW), Note("from", WHERE)]
    blocks += [Note("then", _then(one)) for one in rows if one.left is not None]
    if asked is not None:
        blocks.append(Note("asked", f"{number(asked)}, as of a backup in its catch"))
    flying = [f"{one.gone}: {one.flies}" for one in rows if one.caught_by is None and one.flies]
    if flying:
        blocks.append(Note("flies", "; ".join(flying)))
    return Section("If one part goes", tuple(blocks))


def _row(one: Removal) -> tuple[str, ...]:
    left = one.left
    return (
        f"{one.gone} → {one.caught_by or 'nothing'}",
        kn(left.force_n if left else None),
        fixed(left.ratio if left else None),
        fixed(one.fall_m),
        fixed(one.clearance_m),
    )


def _then(one: Removal) -> str:
    """Return what all hangs on afterwards, and which part of it keeps least."""
    weakest = one.left.words if one.left else ""
    parts = "" if one.holds else "; below 1 it goes too, and then nothing is left"
    return f"{one.gone} gone: all hangs on {one.then_on}; {weakest} keeps least{parts}"
