"""The sheet's table of what is left when one part goes."""

from __future__ import annotations

from riglint.loads import Loads
from riglint.loads.inputs import MissingInput, NotComputable, known
from riglint.loads.what_if.left import Removal
from riglint.loads.what_if.removal import all_that_may_go
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
IN_ITS_CATCH = "1 of the legs and bolts of a backup, since two things have then gone"
GOES = {
    "series": "the main line",
    "haul": "the pulley system",
    "leg": "a leg",
    "bolt": "a bolt",
    "backup leg": "a leg of a backup",
    "backup bolt": "a bolt of a backup",
    "shared": "what both lines hang on",
}


def removal_section(loads: Loads) -> Section | None:
    """Return what catches when any one part goes; None where nothing of it can be computed.

    A row that waits for a value says so below the table and holds up no other.
    """
    rows: list[Removal] = []
    waits: list[str] = []
    try:
        for one in all_that_may_go(loads):
            try:
                rows += one.rows()
            except MissingInput as missing:
                waits += [at.key_text for at in missing.fields]
            except NotComputable as unable:
                waits.append(unable.because)
    except NotComputable as unable:
        waits.append(unable.because)
    if not rows:
        return None
    asked = known(lambda: loads.values.required("backup", loads.consequence.word))
    table = Table(COLUMNS, tuple(_row(one) for one in rows), "what catches when one part goes")
    blocks: list[Block] = [table, Note("ratio", HOW), Note("from", WHERE)]
    blocks += [Note("then", _then(one)) for one in rows if one.left is not None]
    if asked is not None:
        blocks.append(Note("asked", f"{number(asked)}, as of a backup in its catch; {IN_ITS_CATCH}"))
    blocks += [Note("flies", f"{gone}: {flies}") for flies, gone in _flying(rows).items()]
    if waits:
        blocks.append(Note("waits", f"a row is missing for want of {'; '.join(dict.fromkeys(waits))}"))
    return Section("If one part goes", tuple(blocks))


def _flying(rows: list[Removal]) -> dict[str, str]:
    """Return what flies, and when which parts go."""
    found: dict[str, list[str]] = {}
    for one in rows:
        if one.flies:
            found.setdefault(one.flies, []).append(GOES.get(one.what, one.gone))
    return {flies: ", ".join(dict.fromkeys(gone)) for flies, gone in found.items()}


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
    next_one = f"{one.after} must catch" if one.after else "nothing is left"
    parts = "" if one.holds else f"; below 1 it goes too, and then {next_one}"
    return f"{one.gone} gone: all hangs on {one.then_on}; {weakest} keeps least{parts}"
