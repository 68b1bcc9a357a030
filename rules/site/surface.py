"""What lies below a line gives as much as a fall from it needs, and children walk lower than grown-ups.

Above jump-off height the use itself is at fault, whatever lies below.
"""

from collections.abc import Iterator
from math import ceil

from riglint.rulekit import (
    PRACTICE,
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
    review,
    rounded,
    rule,
    sound,
    the_rig,
)

HARD_MOST = Limit(
    name="most_above_hard_ground",
    text="0.6 m",
    dimension="length",
    tighter="lower",
    because="From this height on the standard asks for soft ground. Asphalt, concrete and rock are not.",
    source=Source(
        "EN 1176-1 in the Danish nature agency's text: damping ground from 0.6 m on",
        "standard",
        ("en_1176_1",),
    ),
)
GRASS_MOST = Limit(
    name="most_above_grass_for_children",
    text="1 m",
    dimension="length",
    tighter="lower",
    because=(
        "Up to a metre, grass or topsoil is enough for a child. Above that, the ground has "
        "to be tested for falls."
    ),
    source=Source(
        "EN 1176-1 in the Danish nature agency's text: up to 1 m grass or topsoil is enough",
        "standard",
        ("en_1176_1",),
    ),
)
CHILDREN_MOST = Limit(
    name="most_for_children",
    text="0.6 m",
    dimension="length",
    tighter="lower",
    because="A line for children is about 50 cm up. We allow a hand's breadth for the tape measure.",
    source=Source("German school accident insurers: a low line hangs at about 50 cm", "unnamed"),
)
CHILD = Limit(
    name="child_mass",
    text="45 kg",
    dimension="mass",
    tighter="higher",
    because="Few adults weigh less with clothes and shoes. If one does, say so in an acceptance.",
    source=Source("common practice, no source: who is lighter counts as a child", "practice"),
)
HARD = frozenset({"rock", "asphalt", "concrete", "gravel"})
TURF = frozenset({"grass", "soil"})
SURFACE = "spot.ground.surface"
ASPHALT = {SURFACE: "asphalt"}
CHILDREN = {"plan.users": [{"mass": "30 kg", "level": "practised"}]}


def _heights(height: str) -> dict[str, object]:
    return {"chain[0].height": height, "chain[12].height": height}


@rule(
    title="The ground is too hard for a fall, or the line too high",
    each=the_rig,
    signal=Signal.CAUTION,
    raised={"fall": Signal.WARNING, "life": Signal.WARNING},
    why="Asphalt breaks wrists, heels and heads in falls that grass forgives. Children fall on their heads.",
    formula=(
        "no leash: height of the feet ≤ 0.6 m above hard ground; for children ≤ 0.6 m, never above 1 m on grass or soil"
    ),
    limits=(HARD_MOST, GRASS_MOST, CHILDREN_MOST, CHILD),
    prevents=("line_too_high_to_jump_off",),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        # The line gives under the walker: where the walk zone begins, the feet are 0.28 m lower than the slings.
        sound("low", ASPHALT | _heights("0.87 m")),
        faulty("low", ASPHALT | _heights("0.89 m"), at=SURFACE, signal=Signal.CAUTION),
        faulty("low", {SURFACE: "gravel"} | _heights("1.1 m"), at=SURFACE, signal=Signal.CAUTION),
        faulty("long_haul", {SURFACE: "rock"}, at=SURFACE, signal=Signal.WARNING),
        sound("low", {SURFACE: "sand"}),
        # Of 30 kg the line gives less: 0.17 m.
        sound("low", CHILDREN | _heights("0.76 m")),
        faulty("low", CHILDREN | _heights("0.78 m"), at="chain[0].height", signal=Signal.CAUTION),
        faulty("low", CHILDREN | _heights("1.15 m"), at="chain[0].height", signal=Signal.CAUTION),
        faulty("low", CHILDREN | _heights("1.18 m"), at="chain[0].height", signal=Signal.WARNING),
        faulty("low", {**CHILDREN, SURFACE: "sand"} | _heights("1.18 m"), signal=Signal.CAUTION),
        review("low", CHILDREN | ASPHALT | _heights("0.6 m"), at=SURFACE, signal=Signal.CAUTION),
        faulty("low", CHILDREN | ASPHALT | _heights("0.81 m"), at=SURFACE, signal=Signal.WARNING),
        faulty("low", {"plan.users[0].mass": "44 kg"}, at="chain[0].height"),
        sound("low", {"plan.users[0].mass": "46 kg"}),
        faulty("long_haul", {SURFACE: "rock"} | _heights("3.2 m"), at=SURFACE, signal=Signal.WARNING),
        faulty("long_haul", {SURFACE: "rock"} | _heights("3.6 m"), at=SURFACE, signal=Signal.WARNING),
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
    children = _children(case)
    # Grown-ups may fall on soft ground from up to jump-off height, which `peak/discipline` judges.
    if below not in HARD and not children:
        return
    if not case.path.whole:
        raise NotComputable("the chain does not run from anchor to anchor")
    need_all(*((one.part.height, case.on_part(one, "height")) for one in case.path.anchors))
    case.loads.geometry.ground()  # asks for a profile that reaches the far end
    height = max(case.loads.band.foot_heights_m())
    if below in HARD and height > case.limit(HARD_MOST):
        yield _too_hard(case, height, below, children=children)
    elif children and below in HARD:
        yield _over_hard_ground(case, below)
    elif children and below != "water":
        yield from _too_high(case, height, below)


def _children(case: Case) -> bool:
    """Return whether somebody so light is to walk that it must be a child."""
    users = (case.plan.users if case.plan else None) or []
    return any(user.mass is not None and user.mass.si < case.limit(CHILD) for user in users)


def _too_hard(case: Case, height: float, below: str, *, children: bool) -> Fault:
    most = case.limit(HARD_MOST)
    lower = f"Lower it by {ceil((height - most) * 100.0) / 100.0:.2f} m"
    softer = f"{lower}, put mats along the walk zone, or rig above grass or sand."
    leashed = f"{lower}, or rig it as a highline, with a leash and a backup."  # no mat saves a life
    return Fault(
        case.on_spot("ground", "surface"),
        f"{'Children' if children else 'Walkers'} have their feet up to {rounded(height, 'up')} m above {below}. "
        f"At most {most:g} m there.",
        leashed if case.consequence == "life" else softer,
        value=height,
        limit=most,
        unit="m",
        inputs=(Input("height of the feet", "h", height, "m"),),
        signal=Signal.WARNING if children else None,
        source=HARD_MOST.source,
    )


def _over_hard_ground(case: Case, below: str) -> Fault:
    """Ask for mats under children, at heights that the standard allows over hard ground to feet that land first."""
    return Fault(
        case.on_spot("ground", "surface"),
        f"Children walk above {below}. From a line they fall backward, on their heads.",
        "Lay mats along the walk zone, or rig above grass, sand or bark chips. One person walks beside each child.",
        kind="review",
        signal=Signal.CAUTION,
        source=PRACTICE,
    )


def _too_high(case: Case, height: float, below: str) -> Iterator[Fault]:
    """Judge a line for children above ground that gives."""
    turf = below in TURF and height > case.limit(GRASS_MOST)
    limit = GRASS_MOST if turf else CHILDREN_MOST
    most = case.limit(limit)
    if height <= most:
        return
    lower = case.limit(CHILDREN_MOST)
    yield Fault(
        case.on_part(case.path.anchors[0], "height"),
        f"The plan has children walking up to {rounded(height, 'up')} m above {below}. At most "
        f"{most:g} m for them.",
        f"Lower the line by {ceil((height - lower) * 100.0) / 100.0:.2f} m.",
        value=height,
        limit=most,
        unit="m",
        inputs=(Input("height of the feet", "h", height, "m"),),
        signal=Signal.WARNING if turf else None,
        source=limit.source,
    )
