"""The haul's rope is long enough to lay the line out hand-tight."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Input,
    Limit,
    Placed,
    Signal,
    faulty,
    need,
    open_,
    rule,
    sound,
    the_haul_that_stays,
)

BEHIND = Limit(
    name="least_behind_brake",
    text="1 m",
    dimension="length",
    tighter="higher",
    because="With the blocks apart there must be room for the stopper and for the hands behind the brake.",
    source=PRACTICE,
)


@rule(
    title="Rope of the haul too short",
    each=the_haul_that_stays,
    signal=Signal.WARNING,
    why=(
        "A rope that ends in front of the brake is let go of, or hauled without a stopper, when the "
        "line is long."
    ),
    formula="rope length ≥ n·(block distance hand-tight) + reeving + least behind the brake",
    limits=(BEHIND,),
    examples=(
        sound("low"),
        # Five strands of 7 m, 1 m of reeving, 1 m behind the brake.
        sound("long_haul", {"chain[8].rope.length": "37.1 m"}),
        faulty(
            "long_haul",
            {"chain[8].rope.length": "36.9 m"},
            at="chain[8].rope.length",
            signal=Signal.WARNING,
        ),
        open_("long_haul", {"chain[8].rope.length": REMOVE}, at="chain[8].rope.length"),
        open_("long_haul", {"chain[8].open": REMOVE}, at="chain[8].open"),
        open_("long_haul", {"chain[8].strands": REMOVE}, at="chain[8].strands"),
    ),
)
def rope(case: Case, placed: Placed) -> Iterator[Fault]:
    at = case.on_part(placed, "rope", "length")
    length = need(placed.part.rope.length if placed.part.rope else None, at)
    apart = case.loads.standing.block_run.hand_tight_m
    wanted = case.haul.rope_in_blocks_m(apart) + case.limit(BEHIND)
    if length.si < wanted:
        yield Fault(
            at,
            f"The rope is {length.text} long; with {apart:.2f} m between the blocks {wanted:.1f} m "
            "are needed.",
            f"Use a rope of {wanted + 0.05:.1f} m or more, or lay the line out with the blocks "
            "closer together.",
            value=length.si,
            limit=wanted,
            unit="m",
            inputs=(
                Input("strands", "n", case.haul.strands, "", case.on_part(placed, "strands").reference),
                Input("between the blocks, hand-tight", "b₀", apart, "m"),
            ),
        )
