"""Strengths of bolts on the spot are of a size that a bolt can have."""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    Case,
    End,
    Fault,
    Limit,
    Signal,
    Source,
    ends,
    faulty,
    rule,
    sound,
)

USUAL = Source("EN 959 asks 25 and 15 kN, large glue-in bolts reach some 60 kN", "practice")
WEAKEST = Limit(
    "weakest",
    "5 kN",
    "force",
    "higher",
    ("A lower figure has the wrong unit, or is the wrong figure."),
    USUAL,
)
STRONGEST = Limit(
    "strongest",
    "100 kN",
    "force",
    "lower",
    ("A higher figure has the wrong unit, or is the wrong figure."),
    USUAL,
)
BOLT = "spot.anchors.west.points.w1"
DIRECTIONS = {"radial": "across", "axial": "along"}


@rule(
    title="A bolt's strength looks wrong",
    each=ends("bolts"),
    signal=Signal.WARNING,
    why=(
        "A bolt entered in tonnes, or with the strength of the whole anchor, passes every check "
        "and can still pull out."
    ),
    formula="weakest ≤ strength across and along a bolt ≤ strongest",
    limits=(WEAKEST, STRONGEST),
    prevents=("units_mixed",),
    examples=(
        sound("highline"),
        faulty("highline", {f"{BOLT}.radial": "25 lbf"}, at=f"{BOLT}.radial", signal=Signal.WARNING),
        sound("highline", {f"{BOLT}.axial": "5.1 kN"}),
        faulty("highline", {f"{BOLT}.axial": "4.9 kN"}, at=f"{BOLT}.axial"),
        sound("highline", {f"{BOLT}.radial": "99 kN"}),
        faulty("highline", {f"{BOLT}.radial": "101 kN"}, at=f"{BOLT}.radial"),
        faulty("highline", {f"{BOLT}.radial": "101 kN", "chain[1].legs[0].to": REMOVE}, at=f"{BOLT}.radial"),
    ),
)
def bolt_figures(case: Case, end: End) -> Iterator[Fault]:
    if end.backup is not None and end.name in case.main_structures:
        return  # told at the main line's end
    low, high = case.limit(WEAKEST), case.limit(STRONGEST)
    for name, point in end.structure.points.items():
        for key, way in DIRECTIONS.items():
            given = getattr(point, key)
            if given is None or low <= given.si <= high:
                continue
            yield Fault(
                end.on_structure("points", name, key),
                f"'{name}' is entered with {given.text} {way} the bolt, which can't be right. "
                f"Bolts usually hold {low / 1e3:g} to {high / 1e3:g} kN.",
                f"Read the marking of '{name}' again: which strength is it, and in which unit?",
                value=given.si / 1e3,
                limit=(low if given.si < low else high) / 1e3,
                unit="kN",
            )
