"""A long line in public is marked, so that people see it."""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    Case,
    Fault,
    Limit,
    OnCard,
    Signal,
    Source,
    need,
    open_,
    review,
    rounded,
    rule,
    sound,
    the_rig,
)

SEEN = Limit(
    name="seen_without_marks",
    text="15 m",
    dimension="length",
    tighter="lower",
    because="On a shorter line you see both trees, and the line between them, at one glance.",
    source=Source("Boulder (US): flags on lines longer than 50 ft", "published", ("boulder_rules",)),
)
PUBLIC = {"plan.public": True}


@rule(
    title="The line is hard to see",
    each=the_rig,
    signal=Signal.NOTICE,
    why="A cyclist sees grey webbing at eye height only when it is at the neck.",
    formula="strangers can come near and span > 15 m: marks on the line",
    limits=(SEEN,),
    prevents=("line_not_seen",),
    on_card=OnCard(advice=True, phase="tension"),
    examples=(
        sound("low"),
        sound("highline"),
        sound("low", {**PUBLIC, "spot.span": "14.9 m"}),
        review("low", {**PUBLIC, "spot.span": "15.1 m"}, at="plan.public", signal=Signal.NOTICE),
        review("long_haul", at="plan.public"),
        open_("low", {"plan.public": REMOVE}, at="plan.public"),
        open_("low", {"plan": REMOVE}, at="plan.public"),
        open_("low", {"spot.span": REMOVE}, at="spot.span"),
        open_("low", {"spot": REMOVE}, at="spot"),
    ),
)
def visibility(case: Case, _rig: None) -> Iterator[Fault]:
    span, longest = case.loads.geometry.span_m, case.limit(SEEN)
    if span <= longest:
        return
    at = case.at("plan", "public")
    if need(case.plan.public if case.plan else None, at):
        yield Fault(
            at,
            f"The public can come near {rounded(span)} m of line. From {longest:g} m on a line is hard to see.",
            f"Hang bright tape or flags on it, at most {longest:g} m apart, before it is tight.",
            value=span,
            limit=longest,
            unit="m",
            kind="review",
        )
