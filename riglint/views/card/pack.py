"""The card's packing list: every piece of gear by its label, spares for what breaks or is forgotten, first aid."""

from __future__ import annotations

from riglint.loads import Loads
from riglint.loads.path.used import used_names
from riglint.model.vocabulary.words import in_prose
from riglint.views.card.content import Fact

# Common practice, no source: small gear gets lost, and a spare at hand is what keeps a crew from improvising.
SPARED = {
    "round_sling": "sling",
    "flat_sling": "sling",
    "shackle": "shackle",
    "connector": "connector",
    "quick_link": "quick link",
    "pulley": "pulley",
    "cord": "cord",
    "protector": "protector",
}
NOT_LISTED = "not on the gear list"
FIRST_AID = "first aid kit, charged phone, knife or shears to cut a rope, light"  # common practice, no source


def packing(loads: Loads) -> list[Fact]:
    """Return what to bring: each piece once under its kind, then spares, then what an accident needs."""
    items = loads.path.rig.items
    by_kind: dict[str, list[str]] = {}
    for name in used_names(loads):
        kind = in_prose(items[name].gear.kind) if name in items else NOT_LISTED
        by_kind.setdefault(kind, []).append(name)
    spared = dict.fromkeys(
        f"1 {SPARED[items[name].gear.kind]}"
        for name in used_names(loads)
        if name in items and items[name].gear.kind in SPARED
    )
    found = [Fact(kind, ", ".join(names)) for kind, names in by_kind.items()]
    found += [Fact("spares", f"{', '.join(spared)}, each as strong as those above")] if spared else []
    return [*found, Fact("always", FIRST_AID)]
