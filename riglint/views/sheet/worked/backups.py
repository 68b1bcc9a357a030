"""The sheet's backups: how long each is, how far a user falls into it, what its catch does to every part."""

from __future__ import annotations

from riglint.loads import Loads, State
from riglint.loads.inputs import At, known
from riglint.loads.path.geometry import G
from riglint.loads.path.ground import elevation
from riglint.loads.states.backup import BackupLine
from riglint.loads.states.catch import Catching, Fall
from riglint.loads.states.standing import rest_of
from riglint.mechanics.span.line import Equilibrium, hang
from riglint.model.values.defaults import DEFAULTS
from riglint.model.values.sources import Source
from riglint.views.blocks import GEOMETRY, STATICS, Block, Column, Note, Section, Table, Worked, WorkedInput
from riglint.views.figures import fixed, kn, put
from riglint.views.judged_parts import in_states
from riglint.views.sheet.parts import part_blocks
from riglint.views.sheet.worked.states import definition

CATCHES = (
    Column("catch"),
    Column("T", "kN", "greatest tension"),
    Column("at A", "kN", "tension at A"),
    Column("at B", "kN", "tension at B"),
    Column("sag", "m"),
    Column("at", "", "place, share of the webbing from A"),
    Column("clear", "m", "least height over the ground"),
)
FALL = Source("geometry; the main line's loaded point and the backup's lowest from the exact lines", "own")


def backup_sections(loads: Loads) -> list[Section]:
    """Return every backup in its catch."""
    found = [(backup, known(lambda backup=backup: _backup(loads, backup))) for backup in loads.backups]  # type: ignore[misc]
    return [Section(f"Backup {one.id}", tuple(blocks)) for one, blocks in found if blocks]


def catches(loads: Loads, backup: BackupLine) -> list[tuple[str, State]]:
    """Return the catches of one backup, each with its name.

    Raises:
        MissingInput, NotComputable: something that they rest on is missing.
    """
    catch = loads.catch(backup)
    found = [("standing", catch.state), ("hanging", catch.hanging)]
    return [*found, ("near ends", catch.near_ends)] if catch.near_ends is not None else found


def fall_of(loads: Loads, backup: BackupLine, name: str, rest: Equilibrium) -> Fall:
    """Return the fall that a catch of that name ends, at its governing place."""
    leash = loads.path.rig.rig.leash
    hang = leash.hang.si if leash is not None and leash.hang is not None else 0.0
    from_line = 0.0 if name == "hanging" else loads.values["harness_above_line"] + hang
    broke_at = loads.catch(backup).near_from if name == "near ends" else None
    return Catching(backup, loads.band).fall(from_line, rest, broke_at)


def _backup(loads: Loads, backup: BackupLine) -> list[Block]:
    states = catches(loads, backup)
    rows = tuple(
        (
            name,
            kn(state.tension_n),
            kn(state.tension_a_n),
            kn(state.tension_b_n),
            fixed(state.soft.rest.sag_m if state.soft else None),
            fixed(state.rest.fraction if state.rest else None),
            fixed(state.least_clearance_m),
        )
        for name, state in states
    )
    blocks: list[Block] = [_length(backup), Table(CATCHES, rows, "clear: lowest body point over the ground.")]
    blocks += [Note(name, definition(state)) for name, state in states]
    for name, state in states:
        if state.rest is not None:
            blocks += [_fall(loads, backup, name, state.rest), _energy(loads, backup, name, state)]
            clear = known(lambda name=name, state=state: _clear(loads, backup, name, state))  # type: ignore[misc]
            blocks += [clear] if clear is not None else []
    parts, governing = backup.parts(), states[0][1]
    return [*blocks, *part_blocks(in_states(loads, parts, [governing]))]


def _length(backup: BackupLine) -> Worked:
    between, extra = backup.between_ends_m, backup.extra
    at = backup.length_at
    words = at.reference if at.key[-1] == "extra" else f"from its {at.key[-1]}, {at.reference}"
    inputs = (
        WorkedInput("D", between, "m", "between its own end fittings"),
        WorkedInput("extra", extra * 100.0, "%", words),
    )
    working = f"{between:.2f} × (1 + {extra:.4f})"
    return Worked(
        "length", "unstressed", "L", "D·(1 + extra)", working, backup.unstressed_m, "m", GEOMETRY, inputs
    )


def _fall(loads: Loads, backup: BackupLine, name: str, rest: Equilibrium) -> Worked:
    """Return the height of the fall, from the harness above the main line down to the lowest point of the catch."""
    fall = fall_of(loads, backup, name, rest)
    above, document = loads.values["harness_above_line"], loads.path.rig.document
    where = f"at {rest.fraction:.2f} of the webbing"
    inputs = [
        WorkedInput(
            "y_m", fall.main_y_m, "m", f"of the main line under the user at rest, {where}, from its A up"
        ),
        WorkedInput("o", fall.offset_m, "m", "of the backup's A over the main line's A"),
        WorkedInput("y_b", fall.backup_y_m, "m", "of the backup at the lowest point, from its A up"),
    ]
    formula, working = (
        "y_m − o − y_b",
        f"{put(fall.main_y_m, 3)} − {put(fall.offset_m, 3)} − {put(fall.backup_y_m, 3)}",
    )
    if fall.from_line_m:
        hang = fall.from_line_m - above
        inputs += [
            WorkedInput("u", above, "m", "harness above the line", DEFAULTS["harness_above_line"].source),
            WorkedInput("l", hang, "m", f"leash below the ring, {At(document, ('leash', 'hang')).reference}"),
        ]
        formula, working = f"{formula} + u + l", f"{working} + {above:g} + {hang:g}"
    words = "height of the fall, the leash taut" if name == "hanging" else "height of the fall"
    return Worked(name, words, "h", formula, working, fall.height_m, "m", FALL, tuple(inputs), 3)


def _energy(loads: Loads, backup: BackupLine, name: str, state: State) -> Worked:
    """Return what the falling user gives up; it must equal what the backup takes up."""
    rest, mass = state.rest, loads.load_case.everyone_kg
    assert rest is not None  # noqa: S101 - asked for by the caller
    height = fall_of(loads, backup, name, rest).height_m
    bare = rest_of(hang(backup.line_in_use, 0.0, rest.fraction))
    stored = (rest.energy_j - bare.energy_j) / 1000.0
    inputs = (
        WorkedInput("m", mass, "kg", "everybody on the line at once"),
        WorkedInput("h", height, "m", "height of the fall"),
        WorkedInput("E(P) − E₀", stored, "kJ", "stretch and weight of the backup; must equal the result"),
        WorkedInput("P", rest.load_n / 1000.0, "kN", "force on the backup there"),
    )
    words = "energy that the falling users give up and the backup takes up"
    working, given = f"{mass:g} × {G:.5f} × {height:.3f}", mass * G * height / 1000.0
    return Worked(name, words, "E", "m·g·h", working, given, "kJ", state.source, inputs)


def _clear(loads: Loads, backup: BackupLine, name: str, state: State) -> Worked | None:
    """Return the height of the lowest body point over the ground, where it is least."""
    if state.least_clearance_m is None or state.least_clearance_at is None:
        return None
    place = state.least_clearance_at
    rest = min(state.soft_positions, key=lambda one: abs(one.fraction - place))
    leash = loads.path.rig.rig.leash
    item = loads.path.rig.items.get(leash.gear or "") if leash is not None else None
    hang = leash.hang.si if leash is not None and leash.hang is not None else 0.0
    stretch = item.gear.stretch_per_kn if item is not None else None
    give, body = (
        hang * stretch.si * rest.load_n / 1000.0 if stretch else 0.0,
        loads.values["body_below_harness"],
    )
    height = backup.geometry.height_m(0)
    ground = elevation(backup.geometry.ground(), rest.load_x_m)
    inputs = (
        WorkedInput("y_b", rest.load_y_m, "m", f"of the backup, from its A up, at {rest.fraction:.2f} of it"),
        WorkedInput("h_A", height, "m", "of that over the ground at A"),
        WorkedInput("g", ground, "m", f"the ground {rest.load_x_m:.2f} m from A's face"),
        WorkedInput("l", hang, "m", "leash below the ring"),
        WorkedInput("δ", give, "m", "its stretch under P, shelf"),
        WorkedInput("k", body, "m", "body below the harness", DEFAULTS["body_below_harness"].source),
    )
    working = f"{put(rest.load_y_m)} + {put(height)} − {put(ground)} − {hang:.2f} − {give:.2f} − {body:.2f}"
    return Worked(
        name,
        "lowest body point over the ground",
        "c",
        "y_b + h_A − g − l − δ − k",
        working,
        state.least_clearance_m,
        "m",
        STATICS,
        inputs,
    )
