"""A very long line is damped, so that wind does not set it swinging."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Input,
    Limit,
    Signal,
    faulty,
    open_,
    review,
    rounded,
    rule,
    sound,
    the_rig,
)

LONG = Limit(
    name="undamped",
    text="100 m",
    dimension="length",
    tighter="lower",
    because="Longer lines swing in slow waves that grow in a steady wind. No number is published.",
    source=PRACTICE,
)
SPAN, AT = "spot.span", "plan.damped"


@rule(
    title="Nothing damps a long line in the wind",
    each=the_rig,
    signal=Signal.CAUTION,
    why="A line that swings in the wind wears tapes, pads and fittings all day, and throws walkers off.",
    formula="damped above the limit of length",
    limits=(LONG,),
    prevents=("line_gallops",),
    examples=(
        sound("long_haul"),
        sound("highline"),
        sound("long_haul", {SPAN: "99 m", AT: False}),
        faulty("long_haul", {SPAN: "101 m", AT: False}, at=AT, signal=Signal.CAUTION),
        review("long_haul", {SPAN: "101 m"}, at=AT),
        sound("long_haul", {SPAN: "101 m", AT: True}),
        open_("long_haul", {SPAN: REMOVE}, at=SPAN),
    ),
)
def damping(case: Case, _rig: None) -> Iterator[Fault]:
    span, longest = case.loads.geometry.span_m, case.limit(LONG)
    damped = case.plan.damped if case.plan else None
    if span <= longest or damped:
        return
    do = (
        "Hang a few dampers of cloth or cord on it, unevenly, or let the tension off when it starts to swing."
    )
    told = damped is False
    yield Fault(
        case.at("plan", "damped"),
        f"{rounded(span)} m of line has no dampers. Above {longest:g} m wind can set it swinging."
        if told
        else f"The plan doesn't say whether {rounded(span)} m of line has dampers against the wind.",
        do,
        value=span,
        limit=longest,
        unit="m",
        inputs=(Input("span", "L", span, "m", case.on_spot("span").reference),),
        kind="fail" if told else "review",
        signal=None if told else Signal.NOTICE,
    )
