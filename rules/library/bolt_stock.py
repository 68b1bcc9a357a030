"""A bolt on the shelf is of a size that a bolt can have, and holds what an anchor for people is asked to.

Bolts that are placed are judged where they stand, by `anchor/bolt_figures` and `anchor/bolts`.
"""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    Fault,
    LibraryCase,
    Limit,
    Shared,
    Signal,
    Source,
    each_piece,
    faulty,
    in_kn,
    rule,
    sound,
)

STANDARD = Source("EN 959:2018: 25 kN across a bolt, 15 kN along it", "standard", ("en_959",))
ACROSS = Limit(
    "least_across", "25 kN", "force", "higher", "What the standard asks of a rock anchor.", STANDARD
)
ALONG = Limit("least_along", "15 kN", "force", "higher", "What the standard asks of a rock anchor.", STANDARD)
STRONGEST = Limit(
    "strongest",
    "100 kN",
    "force",
    "lower",
    "Above it a unit or a figure is wrong.",
    Source("large glue-in bolts reach some 60 kN", "practice"),
)
DIRECTIONS = (("radial", "across", ACROSS), ("axial", "along", ALONG))
BOLT = "shelf[0].items.BO-9"


def _stock(**more: object) -> dict[str, object]:
    kept = {
        "kind": "bolt",
        "material": "stainless",
        "radial": "25 kN",
        "axial": "15 kN",
        "inspected": "2026-04-02",
    }
    return {BOLT: {name: value for name, value in {**kept, **more}.items() if value is not REMOVE}}


@rule(
    title="A bolt in stock is no anchor, or its figure is wrong",
    each=each_piece,
    signal=Signal.CAUTION,
    why="A weak bolt from the box looks like the others in the rock, and nobody reads its head from below.",
    formula="least ≤ strength across and along ≤ strongest",
    limits=(ACROSS, ALONG, STRONGEST),
    prevents=("rock_or_bolt_unknown", "units_mixed"),
    examples=(
        sound("low"),
        sound("low", _stock()),
        faulty(
            "low",
            _stock(radial="24.8 kN"),
            at="items.BO-9.radial",
            signal=Signal.CAUTION,
            shows="rock_or_bolt_unknown",
        ),
        sound("low", _stock(radial="99 kN")),
        faulty("low", _stock(radial="101 kN"), at="items.BO-9.radial", shows="units_mixed"),
        sound("low", _stock(axial="15.1 kN")),
        faulty("low", _stock(axial="14.8 kN"), at="items.BO-9.axial", signal=Signal.CAUTION),
        faulty("low", _stock(axial=REMOVE), at="items.BO-9.axial"),
    ),
)
def bolt_stock(library: LibraryCase, piece: Shared) -> Iterator[Fault]:
    item = piece.item
    if item.gear.kind != "bolt":
        return
    most = library.limit(STRONGEST)
    for key, way, limit in DIRECTIONS:
        given, least = getattr(item.gear, key), library.limit(limit)
        if given is not None and least <= given.si <= most:
            continue
        says = "has no strength entered" if given is None else f"is entered to hold {given.text}"
        low = given is None or given.si < least
        yield Fault(
            library.on_item(item, key),
            f"The bolt {item.id} {says} {way} its axis. "
            + (f"At least {in_kn(least)}." if low else f"Above {in_kn(most)} a unit or figure is wrong."),
            f"Look up what {item.id} is marked with, and place none that holds less.",
            value=None if given is None else given.si / 1e3,
            limit=(least if low else most) / 1e3,
            unit="kN",
            source=limit.source if low else STRONGEST.source,
        )
