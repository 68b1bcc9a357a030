"""The rope behind the brake reaches for letting the tension down to zero, once its stopper is untied.

A stopper 0.3 m behind the brake ends the letting down after 0.3 m of rope. Whoever unties it under tension without a
hand or turns on the rope holds the line by the brake alone, so the order of the three steps is said on each rig.
"""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Input,
    Limit,
    OnCard,
    Placed,
    Signal,
    either,
    faulty,
    longer_rope,
    open_,
    review,
    rounded,
    rule,
    sound,
    the_haul_that_stays,
)

KEPT = Limit(
    name="kept_in_hand",
    text="1 m",
    dimension="length",
    tighter="higher",
    because="Your hands still hold a metre of rope when the line hangs slack.",
    source=PRACTICE,
)
# The order of letting down is said where the rope lets the tension off.
CUT = {"plan.lowering": "cut"}


@rule(
    title="The rope is too short to lower the line",
    each=the_haul_that_stays,
    signal=Signal.WARNING,
    why="The stopper ends the lowering with tension still on the line, and someone reaches for a knife.",
    formula="rope behind the brake at standing tension, its stopper untied ≥ n·travel + kept in hand",
    limits=(KEPT,),
    prevents=("stopper_ends_the_letting_down", "haul_rope_too_short"),
    on_card=OnCard(advice=True),
    examples=(
        review("low", at="chain[8].tail.stopper", signal=Signal.NOTICE),
        review("low", {"plan.lowering": "haul_back"}, at="chain[8].tail.stopper", signal=Signal.NOTICE),
        sound("low", CUT),
        sound("highline"),
        review("low", {"chain[8].tail": REMOVE}, at="chain[8].tail.stopper"),
        # Five strands of 4.77 m, 1 m of reeving, then 5 times 2.23 m to let down and 1 m kept: 37.0 m.
        sound("long_haul", CUT | {"chain[8].rope.length": "37.02 m"}),
        faulty(
            "long_haul",
            CUT | {"chain[8].rope.length": "36.98 m"},
            at="chain[8].rope.length",
            signal=Signal.WARNING,
        ),
        faulty(
            "long_haul",
            CUT | {"chain[8].rope.length": "36.1 m"},
            at="chain[8].rope.length",
            shows=("stopper_ends_the_letting_down", "haul_rope_too_short"),
        ),
        # With this one the line cannot be laid out: haul/rope tells it.
        sound("long_haul", CUT | {"chain[8].rope.length": "35.9 m"}),
        open_("long_haul", CUT | {"chain[8].rope.length": REMOVE}, at="chain[8].rope.length"),
        open_("long_haul", CUT | {"chain[8].open": REMOVE}, at="chain[8].open"),
        open_("long_haul", CUT | {"chain[8].strands": REMOVE}, at="chain[8].strands"),
    ),
)
def let_down(case: Case, placed: Placed) -> Iterator[Fault]:
    if case.plan is None or case.plan.lowering in {None, "brake", "haul_back"}:
        yield _in_this_order(case, placed)
    run, strands = case.loads.standing.block_run, case.haul.strands
    # From the length of the whole rope: what the file says is left may be an old figure.
    behind = case.haul.behind_brake_m(run.standing_m)
    if case.haul.behind_brake_m(run.hand_tight_m) <= 0.0:
        return  # too short to lay the line out at all: haul/rope tells it
    wanted = strands * run.travel_m + case.limit(KEPT)
    if behind < wanted:
        at = case.on_part(placed, "rope", "length")
        remedies = case.put_right(at, longer_rope(placed))
        yield Fault(
            at,
            f"You need {rounded(wanted, 'up')} m of rope behind the brake to lower all the way. "
            f"You have {rounded(behind, 'down')} m with the stopper untied.",
            either(
                *remedies.or_else(f"use a rope {wanted - behind + 0.05:.1f} m longer"),
                "plan how to let out the last metres with a second rope",
            ),
            value=behind,
            limit=wanted,
            unit="m",
            inputs=(
                Input("strands", "n", strands, "", case.on_part(placed, "strands").reference),
                Input("travel", "x", run.travel_m, "m"),
                Input("between the blocks at standing tension", "b", run.standing_m, "m"),
            ),
            remedies=remedies,
        )


def _in_this_order(case: Case, placed: Placed) -> Fault:
    """Say how the stopper comes off before the brake lets the rope run."""
    tail, turns = placed.part.rope_tail, case.plan.tail_wraps if case.plan else None
    tree = case.path.structure(case.loads.geometry.anchor_of(placed))
    trunk = tree is not None and tree.kind == "tree"
    at = tail.stopper_at.text if tail is not None and tail.stopper_at is not None else "just"
    hold = "take the rope in a gloved hand beyond the stopper"
    if case.plan is not None and case.plan.lowering == "haul_back":
        hold = "haul until the brake is free and the crew holds the rope"
    elif turns and trunk:
        times = f"{rounded(turns)} turn{'' if turns == 1 else 's'}"
        hold = f"take {times} of the rope round the trunk, over a protector, and hold it in a gloved hand"
    return Fault(
        case.on_part(placed, "tail", "stopper"),
        f"The stopper is {at} behind the brake, and lowering ends there.",
        f"To lower, first {hold}. Then untie the stopper. Then open the brake and let the rope run.",
        kind="review",
        signal=Signal.NOTICE,
        source=PRACTICE,
    )
