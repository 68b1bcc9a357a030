"""Nobody walks so near to an end that they could fall on its metal.

Judged from the walk zone where the plan states one. Where it does not, the loads take 2 m at each end, and somebody has
to see to it that nobody walks closer. A highline's ends are reached on the leash, and have rules of their own.
"""

from collections.abc import Iterator

from riglint.rulekit import (
    LOWER_OR_LEASH,
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Limit,
    Signal,
    Source,
    faulty,
    review,
    rule,
    sound,
    the_rig,
)

NEAREST = Limit(
    name="nearest",
    text="1.5 m",
    dimension="length",
    tighter="higher",
    because="A walker who falls toward the end lands with head and knees up to a body's length closer to it.",
    source=Source(
        "EN 1176-1 by analogy: 1.5 m clear of hard parts around a fall of up to 1.5 m",
        "standard",
        ("en_1176_1",),
    ),
)
LEAST = Limit(
    name="least",
    text="1 m",
    dimension="length",
    tighter="higher",
    because="Closer than that, even a slip off the first step ends on the metal.",
    source=PRACTICE,
)
ZONE = "plan.walk_zone"


@rule(
    title="A walker can fall on metal",
    each=the_rig,
    signal=Signal.CAUTION,
    why="A pulley or ratchet hurts a head or a knee more than any fall on grass.",
    formula="walk zone at each end ≥ least, below nearest a person looks; or the hard parts are padded",
    limits=(NEAREST, LEAST),
    prevents=("hard_part_beside_the_walker",),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        sound("low", {ZONE: ["1.52 m", "1.52 m"]}),
        review("low", {ZONE: ["1.48 m", "2 m"]}, at=ZONE, signal=Signal.NOTICE),
        review("low", {ZONE: ["1.02 m", "1.02 m"]}, at=ZONE, signal=Signal.NOTICE),
        faulty("low", {ZONE: ["0.98 m", "2 m"]}, at=ZONE, signal=Signal.CAUTION),
        faulty("low", {ZONE: ["2 m", "0.98 m"]}, at=ZONE, signal=Signal.CAUTION),
        faulty("low", {ZONE: ["0.5 m", "1 m"], "plan.ends_padded": False}, at=ZONE),
        sound("low", {ZONE: ["0.5 m", "1 m"], "plan.ends_padded": True}),
        review("low", {ZONE: REMOVE}, at=ZONE, signal=Signal.NOTICE),
        sound("low", {ZONE: REMOVE, "plan.ends_padded": True}),
        sound("highline", {ZONE: ["0.5 m", "0.5 m"]}),
    ),
)
def hard_parts(case: Case, _rig: None) -> Iterator[Fault]:
    plan = case.plan
    if plan is None or plan.ends_padded or case.highline:
        return
    if plan.walk_zone is None:
        yield _nobody_said(case)
        return
    nearest, least = case.limit(NEAREST), case.limit(LEAST)
    ends = zip(case.path.anchors, plan.walk_zone, strict=True)
    near = [(zone, anchor.part.at) for anchor, zone in ends if zone.si < nearest]
    if not near:
        return
    zone, name = min(near, key=lambda one: one[0].si)
    at, too_near = case.at("plan", "walk_zone"), zone.si < least
    yield Fault(
        at,
        f"People walk up to {zone.text} from the webbing's end at '{name}', and fall on the metal there.",
        LOWER_OR_LEASH
        if case.too_high_to_land
        else f"Step off {nearest:g} m before the end, or pad the hard parts there and write `ends_padded: true`.",
        value=zone.si,
        limit=least if too_near else nearest,
        unit="m",
        inputs=(case.given("walk zone", "z", zone, at),),
        kind="fail" if too_near else "review",
        signal=None if too_near else Signal.NOTICE,
        source=LEAST.source if too_near else NEAREST.source,
    )


def _nobody_said(case: Case) -> Fault:
    """Ask how near to its ends a line is walked, where the plan leaves it out."""
    nearest = case.limit(NEAREST)
    return Fault(
        case.at("plan", "walk_zone"),
        "The plan doesn't say how near to its ends the line is walked.",
        f"Mark on site where to step off, {nearest:g} m or more before the metal, and enter it. Or pad the metal.",
        kind="review",
        signal=Signal.NOTICE,
        source=NEAREST.source,
    )
