"""The brake holds the lead strand, at standing tension and through the peaks of people on the line."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Input,
    Item,
    Limit,
    Placed,
    Signal,
    Source,
    either,
    faulty,
    in_kn,
    lighter_user,
    lower_tension,
    need,
    open_,
    rounded,
    rule,
    sound,
    the_haul_that_stays,
    when,
)

UNLABELLED = Limit(
    name="unlabelled_holds",
    text="3 kN",
    dimension="force",
    tighter="lower",
    because="A type C descender is tested to hold 3 kN. Without a label that is all we know.",
    source=Source(
        "EN 12841:2006 type C, working hold test, from a supplier's summary", "standard", ("en_12841",)
    ),
)

MARGIN = Limit(
    name="advised_margin",
    text="1.25",
    dimension=None,
    tighter="higher",
    because="A wet or worn rope, or one at the thin end of its range, slips at four fifths of the label.",
    source=PRACTICE,
)


# At standing tension a slipping brake lets the line run out by itself: DANGER. At a peak the rope slips only
# until the force has fallen, which loosens the line step by step down to the stopper: the rule's own word.
@rule(
    title="The brake is too weak for the lead strand",
    each=the_haul_that_stays,
    signal=Signal.CAUTION,
    raised={"fall": Signal.WARNING, "life": Signal.WARNING},
    worst=Signal.DANGER,
    why="A brake that slips lets the line sink under the walker. The rope runs hot, down to the stopper knot.",
    formula=(
        "holding load ≥ lead strand T/(1 + η + … + ηⁿ⁻¹), at standing tension and at the greatest peak; "
        "1.25 times that is advised"
    ),
    limits=(UNLABELLED, MARGIN),
    prevents=("brake_slips",),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("long_haul", {"shelf[0].items.BR-1.holds": "2.65 kN"}),
        faulty(
            "long_haul",
            {"shelf[0].items.BR-1.holds": "2.6 kN"},
            at="chain[8].brake.gear",
            signal=Signal.CAUTION,
        ),
        faulty("long_haul", {"shelf[0].items.BR-1.holds": "2.12 kN"}, signal=Signal.CAUTION),
        faulty(
            "long_haul",
            {"shelf[0].items.BR-1.holds": "2.08 kN"},
            at="chain[8].brake.gear",
            signal=Signal.WARNING,
        ),
        faulty(
            "low", {"shelf[0].items.BR-1.holds": "2.05 kN"}, at="chain[8].brake.gear", signal=Signal.CAUTION
        ),
        faulty("long_haul", {"shelf[0].items.BR-1.holds": "1.54 kN"}, signal=Signal.WARNING),
        faulty("long_haul", {"shelf[0].items.BR-1.holds": "1.51 kN"}, signal=Signal.DANGER),
        sound("long_haul", {"shelf[0].items.BR-1.holds": REMOVE}),
        sound("long_haul", {"shelf[0].items.BR-1.holds": REMOVE, "plan.standing_tension": "10.7 kN"}),
        faulty(
            "long_haul",
            {"shelf[0].items.BR-1.holds": REMOVE, "plan.standing_tension": "11 kN"},
            at="chain[8].brake.gear",
            signal=Signal.WARNING,
        ),
        faulty(
            "long_haul",
            {"shelf[0].items.BR-1.holds": REMOVE, "plan.standing_tension": "12 kN"},
            at="chain[8].brake.gear",
            signal=Signal.DANGER,
        ),
        open_("long_haul", {"chain[8].brake": REMOVE}, at="chain[8].brake"),
        open_("long_haul", {"chain[8].brake.gear": REMOVE}, at="chain[8].brake.gear"),
        open_("long_haul", {"chain[8].strands": REMOVE}, at="chain[8].strands"),
        open_("long_haul", {"plan.standing_tension": REMOVE}, at="plan.standing_tension"),
        open_("long_haul", {"plan.users": REMOVE}, at="plan.users"),
    ),
)
def brake(case: Case, placed: Placed) -> Iterator[Fault]:
    named = need(placed.part.brake, case.on_part(placed, "brake"))
    item = case.haul.gear(named.gear, "brake", "gear")
    label = item.gear.holds
    holds = label.si if label else case.limit(UNLABELLED)
    source = "its label" if label else "the test load of descenders, as its label gives none"
    standing = case.loads.standing_tension_n
    peaks = {state.name: case.loads.haul_tension_n(state) for state in case.loads.peaks()}
    peak = max(peaks, key=lambda name: peaks[name])
    for state, tension in (("standing", standing), (peak, peaks[peak])):
        lead = case.haul.at_rest(tension).lead_n / 1000.0
        if lead * 1e3 <= holds:
            continue
        at = case.on_part(placed, "brake", "gear")
        remedies = case.put_right(at, lower_tension, lighter_user)
        yield Fault(
            at,
            f"The lead strand pulls {lead:.3g} kN {when(state)}. The "
            f"brake holds {holds / 1e3:.3g} kN ({source}).",
            either(
                *remedies.or_else("stand at a lower tension"),
                f"use a brake labelled to hold at least {rounded(lead, 'up')} kN",
                "tie the rope off behind it",
            ),
            value=holds / 1e3,
            limit=lead,
            unit="kN",
            inputs=(
                Input("tension at the haul", "T", tension / 1e3, "kN"),
                Input("strands", "n", case.haul.strands, "", case.on_part(placed, "strands").reference),
                Input("sheave efficiency, low end", "η", case.haul.sheaves.low, ""),
            ),
            state=state,
            signal=Signal.DANGER if state == "standing" else None,
            remedies=remedies,
        )
        return
    if label is not None:
        yield from _little_more(case, placed, item, (peak, peaks[peak]))


def _little_more(case: Case, placed: Placed, item: Item, peak: tuple[str, float]) -> Iterator[Fault]:
    """Advise more than what just holds; without a label the test load of descenders is cautious enough."""
    state, tension = peak
    lead, margin = case.haul.at_rest(tension).lead_n, case.limit(MARGIN)
    holds = item.gear.holds.si if item.gear.holds else 0.0
    if holds >= margin * lead:
        return
    at = case.on_part(placed, "brake", "gear")
    remedies = case.put_right(at, lower_tension, lighter_user)
    yield Fault(
        at,
        f"The brake {item.id} holds {in_kn(holds)}. That is {rounded(holds / lead, 'down')} × the "
        f"lead strand {when(state)} ({in_kn(lead)}). {margin:g} × is advised.",
        either(
            *remedies.or_else("stand at a lower tension"),
            f"use a brake labelled to hold at least {in_kn(margin * lead, 'up')}",
            "tie the rope off behind it",
        ),
        value=holds / lead,
        limit=margin,
        unit="1",
        inputs=(
            Input("holding load", "H", holds / 1e3, "kN", case.on_item(item, "holds").reference),
            Input("lead strand", "f", lead / 1e3, "kN"),
        ),
        state=state,
        signal=Signal.CAUTION,
        source=MARGIN.source,
        remedies=remedies,
    )
