"""The tension is let off slowly, by a means that the rig has."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    At,
    Case,
    Fault,
    Placed,
    Signal,
    faulty,
    need,
    open_,
    review,
    rule,
    sound,
    the_rig,
)

HOIST = {"kind": "puller", "form": "lever_hoist", "mbs": "50 kN", "inspected": "2026-04-02"}

RATCHET = {"chain[8]": {"part": "puller", "gear": "PU-1"}, "shelf[0].items.PU-1": HOIST | {"form": "ratchet"}}


@rule(
    title="The tension comes off with a jerk",
    each=the_rig,
    signal=Signal.DANGER,
    why=("A line that is cut or tripped under tension throws webbing, blocks and shackles at people nearby."),
    formula="the tension goes off through brake or puller, or is hauled back with a multiplier that can take it",
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
        # The gear for it is not there.
        faulty("highline", {"plan.lowering": "brake"}, at="plan.lowering", signal=Signal.WARNING),
        faulty("long_haul", {"chain[8].stays": False}, at="plan.lowering", signal=Signal.WARNING),
        sound("low", {"chain[8]": {"part": "puller", "gear": "PU-1"}, "shelf[0].items.PU-1": HOIST}),
        faulty("low", RATCHET, at="plan.lowering", signal=Signal.WARNING, shows="no_way_down"),
        review("low", RATCHET | {"plan.lowering": "haul_back"}, at="plan.lowering", signal=Signal.CAUTION),
        # What is there to let it off with: no trunk, no brake, a puller, nothing.
        faulty("long_haul", {"plan.lowering": "cut", "spot.anchors.south": {"kind": "boulder"}}),
        faulty("long_haul", {"plan.lowering": "cut", "chain[8].brake": REMOVE}),
        faulty(
            "low",
            {
                "plan.lowering": "cut",
                "chain[8]": {"part": "puller", "gear": "PU-1"},
                "shelf[0].items.PU-1": HOIST,
            },
        ),
        faulty("highline", {"plan.lowering": "tripped"}),
        faulty(
            "long_haul",
            {"plan.lowering": "haul_back", "chain[8].multiplier": REMOVE, "chain[8].brake": REMOVE},
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
            f"{_slowly(case)}. Nobody stands in line with it.",
            value=lowering,
            limit="brake",
        )
    elif lowering == "brake" and not _can_let_off(case):
        yield _no_brake(case, at)
    elif lowering == "haul_back" and not _can_let_off(case) and _pullers(case):
        yield _nothing_to_haul_with(at)
    # Hauling back takes the load off brake or hook by hand; its grip is judged in haul/grip.
    elif lowering == "haul_back" and case.path.haul is not None and case.path.haul.part.multiplier is None:
        hand = case.haul.to_reach_at_worst(case.loads.standing_tension_n).hand_n / 1000.0
        braked = _has_a_brake(case)
        yield Fault(
            at,
            f"Hauling back without a multiplier takes {hand:.3g} kN at the rope. Then your hands hold the line.",
            "Lower through the brake, or put a multiplier on the lead strand to haul back."
            if braked
            else "Put a multiplier on the lead strand to haul back.",
            value=lowering,
            limit="brake" if braked else "multiplier",
            signal=Signal.CAUTION,
        )


def _nothing_to_haul_with(at: At) -> Fault:
    """Ask what takes the load off a ratchet, which itself lets go at once."""
    return Fault(
        at,
        "A ratchet can't be hauled back: opened under tension, it lets go at once.",
        "Take the load with a tackle of its own first, then open the ratchet. Bring that tackle, with its slings.",
        value="haul_back",
        limit="a tackle beside the ratchet",
        kind="review",
        signal=Signal.CAUTION,
    )


def _can_let_off(case: Case) -> bool:
    """Return whether the chain as it stands holds a pulley system, or a puller that lets out under load.

    A ratchet opens at once and holds nothing on the way: whoever lets it off hauls back first. A pulley system whose
    brake is not on file is asked for it elsewhere.
    """
    haul = case.path.haul
    stays = haul is not None and haul.part.stays
    return stays or any(_form(one) != "ratchet" for one in _pullers(case))


def _pullers(case: Case) -> list[Placed]:
    return [one for one in case.path.parts if one.part.part == "puller"]


def _form(puller: Placed) -> str | None:
    return puller.item.gear.form if puller.item is not None else None


def _no_brake(case: Case, at: At) -> Fault:
    haul = case.path.haul
    off = haul is not None and not haul.part.stays
    why = "the pulley system comes off once the line is tied off" if off else "the chain has none"
    if haul is None and _pullers(case):
        why = "a ratchet is all it has, and a ratchet opens at once"
    return Fault(
        at,
        f"The plan lowers the line through a brake, but {why}.",
        f"{_slowly(case) if haul is None else 'Enter how it really comes off, or the brake that lets it off'}.",
        value="brake",
        limit="haul_back",
        signal=Signal.WARNING,
    )


def _has_a_brake(case: Case) -> bool:
    haul = case.path.haul
    return haul is not None and haul.part.brake is not None


def _slowly(case: Case) -> str:
    """Return how this rig can let its tension off, with what it has."""
    haul, pullers = case.path.haul, _pullers(case)
    if haul is not None and _has_a_brake(case):
        structure = case.path.structure(case.loads.geometry.anchor_of(haul))
        tail = "round the trunk" if structure is not None and structure.kind == "tree" else "in hand"
        return f"Lower through the brake, turn by turn, with the tail {tail}"
    if pullers:
        return f"Lower with {pullers[0].words}, a little at a time, by its maker's instructions"
    return "Take the load with a tackle that has its own brake, and lower through that, turn by turn"
