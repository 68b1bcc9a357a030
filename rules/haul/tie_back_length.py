"""The tie-back is long enough to reach across its haul as the line stands.

Judged where its length is on the shelf. What knots and a strand laid double take comes on top.
"""

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
    open_,
    rounded,
    rule,
    sound,
    the_haul_that_stays,
)

SHORT = Limit(
    name="most_short",
    text="0.5 m",
    dimension="length",
    tighter="lower",
    because="We calculate where the blocks end up. You know what lies beside them to 0.1 or 0.2 m.",
    source=PRACTICE,
)
TB = "shelf[0].items.TB-1.length"
SLING = "chain[8].tie_back.sling"


@rule(
    title="The tie-back is too short for its pulley system",
    each=the_haul_that_stays,
    signal=Signal.CAUTION,
    raised={"fall": Signal.WARNING, "life": Signal.DANGER},
    why="A tie-back that doesn't reach gets tied to the wrong part, or lengthened with whatever is at hand.",
    formula=(
        "length of the tie-back + its sling ≥ from the webbing side of the blocks to the anchor, at standing tension, "
        "+ slack − most short"
    ),
    limits=(SHORT,),
    prevents=("piece_shorter_than_planned", "tie_back_weak_or_slack"),
    examples=(
        sound("low"),
        sound("long_haul"),
        # 4.77 m between the axles, 0.85 m beside them, 0.1 m of slack; the sling reaches 0.9 m beyond its trunk.
        sound("long_haul", {TB: "4.33 m"}),
        faulty("long_haul", {TB: "4.3 m"}, at="chain[8].tie_back.gear", signal=Signal.WARNING),
        sound("long_haul", {TB: "4.22 m", "chain[8].tie_back.slack": REMOVE}),
        faulty("long_haul", {TB: "0.5 m", "plan.consequence": "life"}, signal=Signal.DANGER),
        # A sling that is not named may be of any length; the axles alone must be reached across.
        sound("long_haul", {TB: "4.38 m", SLING: REMOVE}),
        faulty(
            "long_haul",
            {TB: "4.35 m", SLING: REMOVE},
            at="chain[8].tie_back.gear",
            shows="tie_back_weak_or_slack",
        ),
        faulty("low", {TB: "0.4 m"}, at="chain[8].tie_back.gear", shows="piece_shorter_than_planned"),
        sound("low", {TB: REMOVE}),
        sound("low", {"chain[8].tie_back": REMOVE}),
        open_("low", {"plan.standing_tension": REMOVE}, at="plan.standing_tension"),
    ),
)
def tie_back_length(case: Case, placed: Placed) -> Iterator[Fault]:
    tie = placed.part.tie_back
    item = case.items.get(tie.gear or "") if tie is not None else None
    if tie is None or item is None or item.gear.length is None:
        return
    sling = case.items.get(tie.sling or "")
    measured = sling is not None and sling.gear.length is not None and case.loads.tie_back is not None
    sling_m = case.loads.tie_back.sling_reach_m if measured and case.loads.tie_back else None
    axles, slack = case.loads.standing.block_run.standing_m, tie.slack.si if tie.slack is not None else 0.0
    if sling_m is None:
        across, whole, there = axles, item.gear.length.si, f"{item.id} is {item.gear.length.text} long"
    else:
        across, whole = case.haul.to_anchor_m(axles), item.gear.length.si + sling_m
        there = (
            f"{item.id} is {item.gear.length.text} long and its sling {tie.sling} reaches "
            f"{rounded(sling_m, 'down')} m, together {rounded(whole, 'down')} m"
        )
    asked = across + slack
    if whole >= asked - case.limit(SHORT):
        return
    yield Fault(
        case.on_part(placed, "tie_back", "gear"),
        f"The tie-back doesn't reach. {there}. At standing tension it is {rounded(across)} m from "
        "the webbing side of the blocks to "
        f"{'the anchor' if sling_m is not None else 'the fixed block'}.",
        f"Measure {item.id}. If it is right, use one at least {rounded(asked - whole, 'up')} m "
        "longer, and add what its knots take.",
        value=whole,
        limit=asked,
        unit="m",
        inputs=(
            case.given("length of the tie-back", "ℓ", item.gear.length, case.on_item(item, "length")),
            Input("between the axles at standing tension", "b", axles, "m"),
            Input("slack", "s", slack, "m", case.on_part(placed, "tie_back", "slack").reference),
        ),
    )
