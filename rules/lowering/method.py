"""The tension is let off slowly, by a means that the rig has."""

from collections.abc import Iterator

from riglint.rulekit import PRACTICE, REMOVE, Case, Fault, Signal, faulty, need, open_, rule, sound, the_rig


@rule(
    title="Tension let off hard",
    each=the_rig,
    signal=Signal.DANGER,
    why=(
        "A line that is cut or tripped under tension throws webbing, blocks and shackles at whoever "
        "stands near."
    ),
    formula="the tension goes off through the brake, or is hauled back with a multiplier that can take it",
    sources=(PRACTICE,),
    prevents=("let_off_hard", "no_way_down"),
    examples=(
        sound("long_haul"),
        sound("long_haul", {"plan.lowering": "haul_back"}),
        faulty(
            "long_haul",
            {"plan.lowering": "cut"},
            at="plan.lowering",
            signal=Signal.DANGER,
            shows="let_off_hard",
        ),
        faulty("low", {"plan.lowering": "tripped"}, at="plan.lowering", signal=Signal.DANGER),
        faulty(
            "long_haul",
            {"plan.lowering": "haul_back", "chain[8].multiplier": REMOVE},
            at="plan.lowering",
            signal=Signal.CAUTION,
        ),
        open_("long_haul", {"plan.lowering": REMOVE}, at="plan.lowering", shows="no_way_down"),
        open_("long_haul", {"plan": REMOVE}, at="plan.lowering"),
    ),
)
def method(case: Case, _: None) -> Iterator[Fault]:
    at = case.at("plan", "lowering")
    lowering = need(case.plan.lowering if case.plan else None, at)
    if lowering in {"cut", "tripped"}:
        how = "cutting the line" if lowering == "cut" else "tripping a pin or sling under load"
        yield Fault(
            at,
            f"The plan lets the tension off by {how}.",
            "Let it off through the brake, turn by turn, with the tail round the trunk; nobody in "
            "line with it.",
            value=lowering,
            limit="brake",
        )
    # Hauling back takes the load off brake or hook by hand; its grip is judged in haul/grip.
    elif lowering == "haul_back" and case.path.haul is not None and case.path.haul.part.multiplier is None:
        hand = case.haul.to_reach_at_worst(case.loads.planned_tension_n).hand_n / 1000.0
        yield Fault(
            at,
            f"Hauling back without a multiplier takes {hand:.3g} kN at the rope, and the hands then "
            "hold the line.",
            "Let it off through the brake, or put a multiplier on the lead strand for hauling back.",
            value=lowering,
            limit="brake",
            signal=Signal.CAUTION,
        )
