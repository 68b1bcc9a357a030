"""Nobody walks so near to an end that they could fall on its metal.

Judged from the walk zone where the plan states one; where it does not, 2 m are taken everywhere and this rule says
nothing. A highline's ends are reached on the leash, and have rules of their own.
"""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    Case,
    Fault,
    Limit,
    Signal,
    Source,
    faulty,
    rule,
    sound,
    the_rig,
)

NEAREST = Limit(
    name="nearest",
    text="1.5 m",
    dimension="length",
    tighter="higher",
    because="Whoever falls toward the end lands with head and knees up to a body's length nearer to it.",
    source=Source("EN 1176-1 by analogy: 1.5 m clear of hard parts around a fall of up to 1.5 m", "standard"),
)
ZONE = "plan.walk_zone"


@rule(
    title="Metal where a walker may fall",
    each=the_rig,
    signal=Signal.CAUTION,
    why="A head or a knee that meets a pulley or ratchet is hurt worse than by any fall on grass.",
    formula="walk zone at each end ≥ nearest, or the hard parts are padded",
    limits=(NEAREST,),
    prevents=("hard_part_beside_the_walker",),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        sound("low", {ZONE: ["1.52 m", "1.52 m"]}),
        faulty("low", {ZONE: ["1.48 m", "2 m"]}, at=ZONE, signal=Signal.CAUTION),
        faulty("low", {ZONE: ["2 m", "1.48 m"]}, at=ZONE, signal=Signal.CAUTION),
        faulty("low", {ZONE: ["1 m", "1 m"], "plan.ends_padded": False}, at=ZONE),
        sound("low", {ZONE: ["1 m", "1 m"], "plan.ends_padded": True}),
        sound("low", {ZONE: REMOVE}),
        sound("highline", {ZONE: ["1 m", "1 m"]}),
    ),
)
def hard_parts(case: Case, _rig: None) -> Iterator[Fault]:
    plan = case.plan
    if plan is None or plan.walk_zone is None or plan.ends_padded or case.highline:
        return
    least = case.limit(NEAREST)
    ends = zip(case.path.anchors, plan.walk_zone, strict=True)
    near = [(zone, anchor.part.at) for anchor, zone in ends if zone.si < least]
    if not near:
        return
    zone, name = min(near, key=lambda one: one[0].si)
    at = case.at("plan", "walk_zone")
    yield Fault(
        at,
        f"People walk up to {zone.text} from the webbing's end at '{name}', and fall on the metal there.",
        f"Step off {least:g} m before the end, or pad the hard parts there and write `ends_padded: true`.",
        value=zone.si,
        limit=least,
        unit="m",
        inputs=(case.given("walk zone", "z", zone, at),),
    )
