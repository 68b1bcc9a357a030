"""The sheet's person: what a fall on the leash brings to leash and body."""

from __future__ import annotations

from riglint.loads import Loads
from riglint.loads.inputs import known
from riglint.loads.states.person import SNATCH, Arrest, Arrests
from riglint.model.values.sources import Source
from riglint.views.blocks import Block, Note, Section, Worked, WorkedInput

ARREST = Source("energy balance of leash and line in a row, quasi-static", "own")
FIXED = Source("fall of a mass into a rope (Wexler 1950, from memory)", "memory")
COVERS = (
    f"the low edge: line and leash store what the fall gives. Time simulations gave 0.9 to {SNATCH:g} times that, "
    "since the ring flies up and snatches the leash. A fixed ring is the upper bound"
)


def person_section(loads: Loads) -> Section | None:
    """Return the force on leash and body; None where nobody wears a leash or something is missing."""
    blocks = known(lambda: _blocks(Arrests(loads))) if loads.path.rig.rig.leash is not None else None
    return Section("Person", tuple(blocks)) if blocks else None


def _blocks(falls: Arrests) -> list[Block]:
    middle, hardest = falls.middle(), falls.hardest()
    modulus = WorkedInput("κ", falls.modulus_n / 1000.0, "kN", "would stretch the leash to twice its length")
    drop = WorkedInput("h", falls.height_m, "m", "from the harness above the line to the leash taut")
    factor = min(falls.height_m / falls.hang_m, 2.0)
    weight = falls.case.heaviest_kg * 9.80665 / 1000.0
    fixed = (
        WorkedInput("W", weight, "kN", "the heaviest user"),
        modulus,
        WorkedInput("f", factor, "", "fall over leash"),
    )
    working = (
        f"{weight:.3f} + √({weight:.3f}² + 2 × {weight:.3f} × {falls.modulus_n / 1000.0:.2f} × {factor:.3f})"
    )
    return [
        _place("middle", middle, modulus, drop),
        _place("hardest", hardest, modulus, drop),
        Worked(
            "bound",
            "the same, were the ring held fast",
            "F",
            "W + √(W² + 2·W·κ·f)",
            working,
            falls.held_fast_n / 1000.0,
            "kN",
            FIXED,
            fixed,
        ),
        Note("covers", COVERS),
    ]


def _place(label: str, arrest: Arrest, modulus: WorkedInput, drop: WorkedInput) -> Worked:
    where = f"force on leash and body, {arrest.from_end_m:.1f} m from the webbing's end"
    formula = "E(P) − E₀ + P²·l/(2·κ) = m·g·(h + y₀ − y(P) + P·l/κ), solved for P"
    return Worked(label, where, "P", formula, "", arrest.low_n / 1000.0, "kN", ARREST, (modulus, drop))
