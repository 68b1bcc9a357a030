"""A line more than a metre up runs above ground that gives.

Above jump-off height the use itself is at fault, whatever lies below.
"""

from collections.abc import Iterator
from math import ceil

from riglint.rulekit import (
    REMOVE,
    Case,
    Fault,
    Input,
    Limit,
    NotComputable,
    Signal,
    Source,
    faulty,
    need,
    need_all,
    open_,
    rounded,
    rule,
    sound,
    the_rig,
)

MOST = Limit(
    name="most_above_hard_ground",
    text="1 m",
    dimension="length",
    tighter="lower",
    because="Above a metre even grass is tested for how it takes a fall; hard ground does not take one.",
    source=Source(
        "EN 1176-1 in the Danish nature agency's text: to 1 m grass or topsoil will do", "standard"
    ),
)
HARD = frozenset({"rock", "asphalt", "concrete", "gravel"})
SURFACE = "spot.ground.surface"
ASPHALT = {SURFACE: "asphalt"}


def _heights(height: str) -> dict[str, object]:
    return {**ASPHALT, "chain[0].height": height, "chain[12].height": height}


@rule(
    title="Hard ground below a line that people jump off",
    each=the_rig,
    signal=Signal.CAUTION,
    raised={"fall": Signal.WARNING, "life": Signal.WARNING},
    why="Wrists, heels and heads break on asphalt from heights that grass forgives.",
    formula="rock, asphalt, concrete or gravel and no leash: height of the feet ≤ 1 m over the walk zone",
    limits=(MOST,),
    prevents=("line_too_high_to_jump_off",),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        # The line gives: where the walk zone begins, a light user's feet are 0.28 m lower than the slings.
        sound("low", _heights("1.27 m")),
        faulty("low", _heights("1.29 m"), at=SURFACE, signal=Signal.CAUTION),
        faulty("low", {**_heights("1.5 m"), SURFACE: "gravel"}, at=SURFACE, signal=Signal.CAUTION),
        faulty("long_haul", {SURFACE: "rock"}, at=SURFACE, signal=Signal.WARNING),
        sound("low", {SURFACE: "sand"}),
        open_("low", {SURFACE: REMOVE}, at=SURFACE),
        open_("low", {"spot.ground": REMOVE}, at=SURFACE),
        open_("low", {"spot": REMOVE}, at="spot"),
        *(
            open_("low", {**ASPHALT, key: REMOVE}, at=key)
            for key in (
                "chain[0].height",
                "chain[12].height",
                "spot.ground.profile",
                "plan.standing_tension",
                "spot.span",
            )
        ),
    ),
)
def surface(case: Case, _rig: None) -> Iterator[Fault]:
    if case.rig.leash is not None or case.highline:
        return
    ground, at = need(case.spot, case.at("spot")).ground, case.on_spot("ground", "surface")
    below = need(ground.surface if ground else None, at)
    if below not in HARD:
        return
    if not case.path.whole:
        raise NotComputable("the chain does not run from anchor to anchor")
    need_all(*((one.part.height, case.on_part(one, "height")) for one in case.path.anchors))
    case.loads.geometry.ground()  # asks for a profile that reaches the far end
    height, most = max(case.loads.band.foot_heights_m()), case.limit(MOST)
    if height > most:
        yield Fault(
            at,
            f"The feet are up to {rounded(height, 'up')} m above {below}; {most:g} m is the most there.",
            f"Lower it by {ceil((height - most) * 100.0) / 100.0:.2f} m, lay mats along the walk zone, or rig above "
            "grass or sand.",
            value=height,
            limit=most,
            unit="m",
            inputs=(Input("height of the feet", "h", height, "m"),),
        )
