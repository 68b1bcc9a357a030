"""The haul's rope reaches through blocks and brake when the line is laid out hand-tight.

Whether what lies behind the brake is enough to let the line down again is for `lowering/let_down`.
"""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Input,
    Placed,
    Signal,
    either,
    faulty,
    longer_rope,
    need,
    open_,
    open_blocks,
    rule,
    sound,
    the_haul_that_stays,
)

TO_HOLD_M = 1.0  # of the advice: room for the stopper and the hands


@rule(
    title="The rope of the pulley system is too short",
    each=the_haul_that_stays,
    signal=Signal.WARNING,
    why=(
        "With a rope that ends in front of the brake, you let go, or haul with no brake and "
        "stopper while the line is long."
    ),
    formula="rope length > n·(block distance hand-tight) + reeving",
    sources=(PRACTICE,),
    prevents=("haul_rope_too_short",),
    examples=(
        sound("low"),
        # Five strands of 7 m and 1 m of reeving.
        sound("long_haul", {"chain[8].rope.length": "36.1 m"}),
        faulty(
            "long_haul",
            {"chain[8].rope.length": "35.9 m"},
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
    # Hand-tight the blocks are farthest apart and take most rope.
    apart = case.loads.standing.block_run.hand_tight_m
    taken = case.haul.rope_in_blocks_m(apart)
    if length.si <= taken:
        remedies = case.put_right(at, longer_rope(placed), open_blocks(placed, "down"))
        longer = (
            f"use a rope of at least {taken + TO_HOLD_M + 0.05:.1f} m (with {TO_HOLD_M:g} m "
            "for stopper and hands)"
        )
        yield Fault(
            at,
            f"The rope is {length.text} long. Hand-tight, with {apart:.2f} m between the blocks, "
            f"the pulley system and the brake take {taken:.1f} m. None is left behind the brake.",
            either(*remedies.or_else(longer, "lay the line out with the blocks closer together")),
            value=length.si,
            limit=taken,
            unit="m",
            inputs=(
                Input("strands", "n", case.haul.strands, "", case.on_part(placed, "strands").reference),
                Input("between the blocks, hand-tight", "b₀", apart, "m"),
            ),
            remedies=remedies,
        )
