"""Water below a line is deep enough for whoever drops into it."""

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
    Remedies,
    Signal,
    Source,
    either,
    faulty,
    lower_anchors,
    need,
    need_all,
    open_,
    rounded,
    rule,
    sound,
    the_rig,
)

LEAST = Limit(
    name="least_depth",
    text="2 m",
    dimension="length",
    tighter="higher",
    because="A person who drops in from 1 m must not reach the bottom. Pools ask for 3.4 m there, for divers.",
    source=PRACTICE,
)
PER_METRE = Limit(
    name="depth_per_metre",
    text="0.5",
    dimension=None,
    tighter="higher",
    because="Each further metre of height drives a body deeper. Pools add less, for straight dives.",
    source=PRACTICE,
)
HIGHEST = Limit(
    name="highest",
    text="6 m",
    dimension="length",
    tighter="lower",
    because="From higher up people hit the water at more than 40 km/h, and the water itself hurts them.",
    source=Source("coasteering pages: 40 km/h from 6 m, with injuries", "unnamed"),
)
POOLS = Source("pool pages: 3.4 m below a 1 m board, 3.7 m below a 3 m board", "unnamed")
REFERENCE_M = 1.0  # the height that the least depth is meant for
DEPTH, SURFACE = "spot.ground.water_depth", "spot.ground.surface"


def _lake(depth: str, height: str = "0.9 m") -> dict[str, object]:
    """Return the edits for a waterline; the water lies 0.1 m below the foot of the trees in the middle."""
    line = {"chain[0].height": height, "chain[12].height": height}
    return {"use": "waterline", SURFACE: "water", DEPTH: depth, **line}


@rule(
    title="The water is too shallow to fall into",
    each=the_rig,
    signal=Signal.DANGER,
    why="A person who falls head first into shallow water breaks their neck on the bottom.",
    formula="depth ≥ 2 m, and 0.5 m more for each metre that the feet are above 1 m; feet ≤ 6 m above the water",
    limits=(LEAST, PER_METRE, HIGHEST),
    sources=(POOLS,),
    prevents=("water_shallow_or_trapping",),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        sound("highline", {SURFACE: "water"}),
        sound("low", _lake("2.02 m")),
        faulty("low", _lake("1.98 m"), at=DEPTH, signal=Signal.DANGER),
        # The feet are up to 4.62 m above the water: 3.82 m.
        sound("low", _lake("3.84 m", "4.9 m")),
        faulty("low", _lake("3.8 m", "4.9 m"), at=DEPTH, signal=Signal.DANGER),
        sound("low", _lake("9 m", "6.22 m")),
        faulty("low", _lake("9 m", "6.32 m"), at="chain[0].height", signal=Signal.WARNING),
        faulty("low", {**_lake("1.5 m"), "use": "longline"}, at=DEPTH),
        faulty("low", {**_lake("3 m"), SURFACE: "grass"}, at=SURFACE, signal=Signal.DANGER),
        *(
            open_("low", {**_lake("2.5 m"), key: REMOVE}, at=key)
            for key in (
                DEPTH,
                SURFACE,
                "chain[0].height",
                "chain[12].height",
                "spot.ground.profile",
                "spot.span",
            )
        ),
        open_("low", {"use": "waterline", "spot.ground": REMOVE}, at=SURFACE),
        open_("low", {"use": "waterline", "spot": REMOVE}, at="spot"),
        open_("low", {**_lake("2.5 m"), "plan.standing_tension": REMOVE}, at="plan.standing_tension"),
        faulty("low", _lake("2 m", "4.9 m"), at=DEPTH),
    ),
)
def water(case: Case, _rig: None) -> Iterator[Fault]:
    ground = case.spot.ground if case.spot else None
    surface, depth = (ground.surface, ground.water_depth) if ground else (None, None)
    if case.rig.use == "waterline":
        need(case.spot, case.at("spot"))
        surface_at = case.on_spot("ground", "surface")
        if need(surface, surface_at) != "water":
            yield Fault(
                surface_at,
                f"This waterline has {surface} below it.",
                "Enter water and its depth under ground, or say what else the line is used for.",
                value=surface,
                limit="water",
            )
            return
    elif surface != "water" or case.rig.leash is not None or case.highline:
        return
    at = case.on_spot("ground", "water_depth")
    deep, height = need(depth, at), _height_m(case)
    least = case.limit(LEAST) + case.limit(PER_METRE) * max(height - REFERENCE_M, 0.0)
    highest = case.limit(HIGHEST)
    if height > highest:
        yield _too_high(case, height, highest)
    elif deep.si < least:
        remedies = case.put_right(at, lower_anchors)
        yield Fault(
            at,
            f"The water is {deep.text} deep. Falling from {rounded(height)} m you need at least "
            f"{rounded(least, 'up')} m.",
            _put_right(case, remedies, deep.si, least),
            value=deep.si,
            limit=least,
            unit="m",
            inputs=(Input("height of the feet", "h", height, "m"), case.given("depth", "d", deep, at)),
            remedies=remedies,
        )


def _too_high(case: Case, height: float, highest: float) -> Fault:
    at = case.on_part(case.path.anchors[0], "height")
    remedies = case.put_right(at, lower_anchors)
    return Fault(
        at,
        f"The feet are up to {rounded(height, 'up')} m above the water. At most {highest:g} m to fall into it.",
        either(*remedies.or_else(f"lower the line by {ceil((height - highest) * 100.0) / 100.0:.2f} m")),
        value=height,
        limit=highest,
        unit="m",
        inputs=(Input("height of the feet", "h", height, "m"),),
        signal=Signal.WARNING,
        source=HIGHEST.source,
        remedies=remedies,
    )


def _height_m(case: Case) -> float:
    """Return the greatest height of the feet above the water over the walk zone, in m."""
    if not case.path.whole:
        raise NotComputable("the chain does not run from anchor to anchor")
    need_all(*((one.part.height, case.on_part(one, "height")) for one in case.path.anchors))
    case.loads.geometry.ground()  # asks for a profile that reaches the far end
    return max(case.loads.band.foot_heights_m())


def _put_right(case: Case, remedies: Remedies, deep_m: float, least_m: float) -> str:
    """Say how much lower the line may go, where that alone would do."""
    per_metre = case.limit(PER_METRE)
    place = f"choose a place at least {rounded(least_m, 'up')} m deep all along, sounded with a line"
    if per_metre == 0.0 or deep_m < case.limit(LEAST):  # no height at all would do
        return either(place, *remedies.or_else())
    lower = (least_m - deep_m) / per_metre
    return either(place, *remedies.or_else(f"lower the line by {ceil(lower * 100.0) / 100.0:.2f} m"))
