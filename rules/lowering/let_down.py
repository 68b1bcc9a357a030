"""The rope behind the brake reaches for letting the tension down to zero."""

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
    either,
    faulty,
    longer_rope,
    open_,
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
    because="Stopper and hands still hold a metre of rope when the line hangs slack.",
    source=PRACTICE,
)


@rule(
    title="Rope too short to let the line down",
    each=the_haul_that_stays,
    signal=Signal.WARNING,
    why="Letting down ends at the stopper with tension still on the line, and somebody reaches for a knife.",
    formula="rope behind the brake at standing tension ≥ n·travel + kept in hand",
    limits=(KEPT,),
    prevents=("stopper_ends_the_letting_down", "haul_rope_too_short"),
    examples=(
        sound("low"),
        # Five strands of 4.77 m, 1 m of reeving, then 5 times 2.23 m to let down and 1 m kept: 37.0 m.
        sound("long_haul", {"chain[8].rope.length": "37.02 m"}),
        faulty(
            "long_haul",
            {"chain[8].rope.length": "36.98 m"},
            at="chain[8].rope.length",
            signal=Signal.WARNING,
        ),
        faulty(
            "long_haul",
            {"chain[8].rope.length": "36.1 m"},
            at="chain[8].rope.length",
            shows=("stopper_ends_the_letting_down", "haul_rope_too_short"),
        ),
        # With this one the line cannot be laid out: haul/rope tells it.
        sound("long_haul", {"chain[8].rope.length": "35.9 m"}),
        open_("long_haul", {"chain[8].rope.length": REMOVE}, at="chain[8].rope.length"),
        open_("long_haul", {"chain[8].open": REMOVE}, at="chain[8].open"),
        open_("long_haul", {"chain[8].strands": REMOVE}, at="chain[8].strands"),
    ),
)
def let_down(case: Case, placed: Placed) -> Iterator[Fault]:
    run, strands = case.loads.standing.block_run, case.haul.strands
    behind = case.haul.behind_brake_m(run.standing_m)
    if case.haul.behind_brake_m(run.hand_tight_m) <= 0.0:
        return  # too short to lay the line out at all: haul/rope tells it
    wanted = strands * run.travel_m + case.limit(KEPT)
    if behind < wanted:
        at = case.on_part(placed, "rope", "length")
        ways = case.put_right(at, longer_rope(placed))
        yield Fault(
            at,
            f"Letting down to zero takes {rounded(wanted, 'up')} m of rope behind the brake; there are "
            f"{rounded(behind, 'down')} m.",
            either(
                *ways.or_else(f"use a rope {wanted - behind + 0.05:.1f} m longer"),
                "plan how the last metres are let out with a second rope",
            ),
            value=behind,
            limit=wanted,
            unit="m",
            inputs=(
                Input("strands", "n", strands, "", case.on_part(placed, "strands").reference),
                Input("travel", "x", run.travel_m, "m"),
                Input("between the blocks at standing tension", "b", run.standing_m, "m"),
            ),
            remedies=ways,
        )
