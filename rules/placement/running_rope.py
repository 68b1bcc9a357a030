"""No rope runs over a gate that screws: it can turn the sleeve open.

The place in a pulley where that happens is the multiplier, run over a connector or link in place of a pulley.
"""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    Case,
    Fault,
    Placed,
    Signal,
    Source,
    open_,
    review,
    rule,
    sound,
    the_haul,
)

AT = "chain[8].multiplier.pulley"


@rule(
    title="The rope runs over a screw gate",
    each=the_haul,
    signal=Signal.CAUTION,
    why="A rope that rubs on a screw sleeve opens it within a few pulls. The multiplier falls apart under load.",
    formula="the multiplier runs over a pulley, or its rope keeps clear of the sleeve",
    sources=(
        Source(
            "WAC 296-155-33905 (2): screw pins rigged so that they cannot unscrew in use",
            "standard",
            ("wac_296_155_33905",),
        ),
    ),
    prevents=("rope_turns_pin_open",),
    examples=(
        sound("long_haul"),
        sound("long_haul", {"chain[8].multiplier": REMOVE}),
        review(
            "long_haul", {AT: "CN-3", "shelf[0].items.CN-3": {"kind": "connector", "gate": "screw"}}, at=AT
        ),
        review("long_haul", {AT: "QL-3", "shelf[0].items.QL-3": {"kind": "quick_link"}}, at=AT),
        sound("long_haul", {AT: "CN-3", "shelf[0].items.CN-3": {"kind": "connector", "gate": "auto"}}),
        open_("long_haul", {AT: REMOVE}, at=AT),
    ),
)
def running_rope(case: Case, placed: Placed) -> Iterator[Fault]:
    tackle = placed.part.multiplier
    if tackle is None:
        return
    at = case.on_part(placed, "multiplier", "pulley")
    item = case.haul.gear(tackle.pulley, "multiplier", "pulley")
    if item.gear.kind == "quick_link" or item.gear.gate == "screw":
        yield Fault(
            at,
            f"The rope of the multiplier runs over {item.id}, and can unscrew its sleeve.",
            f"Turn {item.id} so that the rope runs along its back, away from the sleeve. A pulley is better.",
            kind="review",
        )
