"""Every part bears what the crew could reach in one heave, friction being kind to them."""

from collections.abc import Iterator
from math import floor

from riglint.rulekit import (
    OWN,
    REMOVE,
    Case,
    Fault,
    Input,
    Limit,
    PartLoad,
    Signal,
    Source,
    each_load,
    faulty,
    in_kn,
    need,
    open_,
    rounded,
    rule,
    sound,
    strength_inputs,
)

REQUIRED = Limit(
    name="required_ratio",
    text="2.0",
    dimension=None,
    tighter="higher",
    because="Nobody on the rope feels the tension; only the number of hands on it and the gear bound it.",
    source=OWN,
)
LEAST = Limit(
    name="least_ratio",
    text="1.5",
    dimension=None,
    tighter="higher",
    because="Below it one more pair of hands than planned reaches the breaking strength.",
    source=Source("own proposal, for every part and every consequence", "own"),
)
SEWN = "shelf[0].items.SE-1.mbs"


ASKED = (
    "chain[2].hitch",
    "chain[7].gear",
    "chain[8].brake.gear",
    "chain[8].fixed_block",
    "chain[8].moving_block",
    "chain[8].multiplier.ratio",
    "chain[8].rope.dead_end.ends",
    "chain[8].rope.gear",
    "chain[8].strands",
    "plan.crew.haulers",
    "plan.wet",
    "shelf[0].items.DB-1.bearing",
    "shelf[0].items.RS-1.length",
    "shelf[0].items.WA-1.mbs",
    "spot.anchors.gate.girth",
)


@rule(
    title="The crew could overload a part while hauling",
    each=each_load,
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    worst=Signal.DANGER,
    why="A line hauled past what its weakest part bears breaks beside the people on the rope.",
    formula="S · r ÷ F ≥ 2; F when every hauler heaves at once, at the high end of the sheaves' efficiency",
    limits=(REQUIRED, LEAST),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        sound("low", {SEWN: "22.7 kN"}),
        faulty("low", {SEWN: "22.4 kN"}, at="chain[6]", signal=Signal.WARNING),
        faulty("low", {SEWN: "17 kN"}, at="chain[6]", signal=Signal.WARNING),
        faulty("low", {SEWN: "16.7 kN"}, at="chain[6]", signal=Signal.DANGER),
        faulty("low", {SEWN: "22.4 kN", "plan.consequence": "life"}, at="chain[6]", signal=Signal.DANGER),
        faulty("low", {"plan.crew.haulers": 3}, at="chain[6]"),
        faulty("low", {"shelf[0].items.CN-1.mbs": "4 kN"}, at="chain[8].multiplier.connector"),
        sound("low", {"shelf[0].items.CN-1.mbs": "4.4 kN"}),
        *(open_("low", {key: REMOVE}, at=key) for key in ASKED),
        open_("low", {"spot.anchors.gate": {"kind": "structure"}}, at="chain[2].included_angle"),
        open_("low", {"plan.crew": REMOVE}, at="plan.crew.haulers"),
    ),
)
def haul_overshoot(case: Case, load: PartLoad) -> Iterator[Fault]:
    if case.loads.haul is None or load.strength.no_rating:
        return
    worst = load.worst([case.loads.haul_state])
    required = case.limit(REQUIRED)
    if worst is None or worst.ratio >= required:
        return
    at = case.at("plan", "crew", "haulers")
    haulers = need(case.plan.crew.haulers if case.plan and case.plan.crew else None, at)
    most = floor(haulers * worst.ratio / required)
    fewer = (
        f"Let {most} haul instead of {haulers}"
        if most
        else "Haul with a smaller ratio, since even one is too many"
    )
    kept = load.strength.strength_n / load.strength.breaking_n
    yield Fault(
        load.strength.at,
        f"If all {haulers} heave at once, {load.words} sees {in_kn(worst.force_n)} and keeps only "
        f"{rounded(worst.ratio, 'down')} times that; {required:g} is required.",
        f"{fewer}, or use one that breaks at {in_kn(required * worst.force_n / kept, 'up')} or more.",
        value=worst.ratio,
        limit=required,
        unit="1",
        inputs=(
            *strength_inputs(load, worst.force_n),
            Input("haulers", "n", float(haulers), "1", at.reference),
        ),
        state="haul",
        signal=Signal.DANGER if worst.ratio < case.limit(LEAST) else None,
    )
