"""One hand on the tail can hold what comes through the open brake."""

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
    more_turns,
    open_,
    rounded,
    rule,
    sound,
    the_haul_that_stays,
)

HAND = Limit(
    name="most_in_hand",
    text="0.30 kN",
    dimension="force",
    tighter="lower",
    because="One hand can hold this much on a running rope without burning or letting go.",
    source=PRACTICE,
)


@rule(
    title="Too much for the hand while lowering",
    each=the_haul_that_stays,
    signal=Signal.CAUTION,
    why="If the rope pulls harder than your hand can hold, it runs, burns the hand, and drops the line at once.",
    formula="(T/n)·η_b·e^(−2π·μ·N) ≤ most in a hand, N turns of the tail round the trunk",
    limits=(HAND,),
    prevents=("too_much_for_the_hand",),
    examples=(
        sound("low"),
        sound("long_haul"),
        # 6 kN over five strands: ln(0.60/0.30)/(2π·0.25) = 0.441 of a turn.
        sound("long_haul", {"plan.tail_wraps": 0.45}),
        faulty("long_haul", {"plan.tail_wraps": 0.43}, at="plan.tail_wraps", signal=Signal.CAUTION),
        sound("long_haul", {"plan.lowering": "haul_back", "plan.tail_wraps": REMOVE}),
        faulty("low", {"chain[8].tail.padded": False}, at="chain[8].tail.padded", signal=Signal.CAUTION),
        sound("low", {"chain[8].tail.padded": True}),
        open_("long_haul", {"plan.tail_wraps": REMOVE}, at="plan.tail_wraps"),
        open_("long_haul", {"plan.standing_tension": REMOVE}, at="plan.standing_tension"),
        open_("long_haul", {"chain[8].strands": REMOVE}, at="chain[8].strands"),
    ),
)
def hold(case: Case, placed: Placed) -> Iterator[Fault]:
    if case.plan is not None and case.plan.lowering not in {None, "brake"}:
        return
    yield from _on_bare_bark(case, placed)
    hardest = max(case.loads.judged_by("hold"), key=lambda state: state.tension_n)
    most, tension = case.limit(HAND), hardest.tension_n
    force = case.haul.hold_n(tension)
    if force > most:
        turns = case.haul.turns_to_hold(tension, most)
        at = case.at("plan", "tail_wraps")
        remedies = case.put_right(at, more_turns)
        by_hand = f"take at least {rounded(turns, 'up')} turns of the tail round the trunk"
        yield Fault(
            at,
            f"While you lower, the hand on the tail holds {force / 1e3:.2f} kN. One hand can hold "
            f"{most / 1e3:.2f} kN.",
            f"{either(*remedies.or_else(by_hand))[:-1]}; half turns are easy to count.",
            value=force / 1e3,
            limit=most / 1e3,
            unit="kN",
            inputs=(
                Input("standing tension", "T", tension / 1e3, "kN"),
                Input("strands", "n", case.haul.strands, "", case.on_part(placed, "strands").reference),
            ),
            state=hardest.name,
            remedies=remedies,
        )


def _on_bare_bark(case: Case, placed: Placed) -> Iterator[Fault]:
    """Judge the bark under the turns of the tail, where somebody says that nothing lies there."""
    tail, tree = placed.part.rope_tail, case.path.structure(case.loads.geometry.anchor_of(placed))
    if tail is None or tail.padded is not False or tree is None or tree.kind != "tree":
        return
    yield Fault(
        case.on_part(placed, "tail", "padded"),
        "The tail runs round bare bark while you lower. It burns the bark, and rough bark grips it in jerks.",
        "Put a tree protector under the turns of the tail too.",
    )
