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
NOTES = (
    Note(
        "ratio",
        "strength in place ÷ force of the catch, everybody on the line. Below 1 what catches fails too",
    ),
    Note(
        "force",
        "from the states, the backup's catch and the tie-back above. Legs: T ÷ (2·cos(θ/2)), one leg fewer",
    ),
    Note(
        "drop",
        "in a backup, the harness's whole fall; with no catch, from the feet down. In a tie-back or legs: the walker's "
        "first dip, at most twice the way to rest (suddenly applied load)",
    ),
    Note("clear", "of the lowest body point where a backup catches, else of the line under the walker"),
)
IN_ITS_CATCH = "A backup's own legs and bolts need 1, since two things have then failed"
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
    blocks: list[Block] = [table, *NOTES]
    blocks += [Note("then", _then(one)) for one in rows if one.left is not None]
    blocks += [
        Note("ground", f"If {one.gone} goes, the walker meets the ground") for one in rows if _hits(one)
    ]
    if asked is not None:
        blocks.append(Note("required", f"{number(asked)}, as of a backup in its catch. {IN_ITS_CATCH}"))
    blocks += [Note("flies", f"{gone}: {flies}") for flies, gone in _flying(rows).items()]
    if waits:
        blocks.append(Note("open", f"a row is missing until the file says {'; '.join(dict.fromkeys(waits))}"))
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


def _hits(one: Removal) -> bool:
    return one.caught_by is not None and one.clearance_m is not None and one.clearance_m <= 0.0


def _then(one: Removal) -> str:
    """Return what all hangs on afterwards, and the weakest part of it."""
    weakest = one.left.words if one.left else ""
    next_one = f"{one.after} must catch" if one.after else "nothing is left"
    fails = "" if one.holds else f". It fails too, and then {next_one}"
    return f"If {one.gone} goes, everything hangs on {one.then_on}. Weakest part: {weakest}{fails}"
