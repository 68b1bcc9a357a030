"""Nothing hard or sharp stands where a walker lands.

Judged where people land on what lies below; a highline keeps its walkers clear of it by leash and height.
"""

from collections.abc import Iterator
from math import ceil

from riglint.rulekit import (
    LOWER_OR_LEASH,
    REMOVE,
    Case,
    Fault,
    Input,
    Limit,
    MissingInput,
    NotComputable,
    Signal,
    Source,
    faulty,
    first_up,
    need,
    need_all,
    open_,
    rounded,
    rule,
    sound,
    the_rig,
)

SOURCE = Source(
    "EN 1176-1, impact area, in the German school insurers' text; taken over for lines",
    "standard",
    ("en_1176_1",),
)
LEAST = Limit(
    name="least_aside",
    text="1.5 m",
    dimension="length",
    tighter="higher",
    because="Even from knee height a body falls its own length to the side.",
    source=SOURCE,
)
PER_METRE = Limit(
    name="aside_per_metre",
    text="0.667",
    dimension=None,
    tighter="higher",
    because="Add two thirds of the height: from higher up, a body flies further.",
    source=SOURCE,
)
BEYOND = Limit(
    name="aside_beyond",
    text="0.5 m",
    dimension="length",
    tighter="higher",
    because="Half a metre more for the arms.",
    source=SOURCE,
)
OBSTACLES = "spot.surroundings.obstacles"
FIRST = f"{OBSTACLES}[0]"
HIGH = {"chain[0].height": "2.9 m", "chain[12].height": "2.9 m"}
BENCH = {"what": "bench", "along": "8 m", "aside": "1 m", "height": "0.5 m"}


def _bench(**change: str | None) -> dict[str, object]:
    """Return the edit that puts up a bench in the zone, with changes."""
    return {OBSTACLES: [{key: value for key, value in {**BENCH, **change}.items() if value}]}


@rule(
    title="Something hard beside the line",
    each=the_rig,
    signal=Signal.CAUTION,
    raised={"fall": Signal.WARNING, "life": Signal.WARNING},
    why=("A bench, a root or a stone hurts in a fall that grass would have softened."),
    formula=(
        "along the walk zone, X beyond its ends: distance aside ≥ X = max(1.5 m, 2/3 · height of the feet "
        "+ 0.5 m)"
    ),
    limits=(LEAST, PER_METRE, BEYOND),
    prevents=("hard_thing_to_fall_on",),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        sound("highline", _bench()),
        sound("low", _bench(aside="1.51 m")),
        faulty("low", _bench(aside="1.49 m"), at=FIRST, signal=Signal.CAUTION),
        # The feet are up to 2.75 m above the meadow: 2.332 m aside.
        sound("long_haul", {**HIGH, **_bench(along="40 m", aside="2.34 m")}),
        faulty(
            "long_haul", {**HIGH, **_bench(along="40 m", aside="2.32 m")}, at=FIRST, signal=Signal.WARNING
        ),
        # From 3.2 m up no pad helps.
        faulty("low", {"chain[0].height": "3.6 m", "chain[12].height": "3.6 m", **_bench()}, at=FIRST),
        # Behind a tree nobody walks; the walk zone of the low line runs from 2.5 m to 11 m.
        sound("low", _bench(along="0.9 m")),
        faulty("low", _bench(along="1.1 m"), at=FIRST),
        sound("low", {**_bench(along="15.1 m"), "spot.ground.profile_from": "barn"}),
        faulty("low", {**_bench(along="14 m"), "spot.ground.profile_from": "barn"}, at=FIRST),
        sound("low", _bench(aside="1.6 m", along=None)),
        open_("low", _bench(aside=None), at=f"{FIRST}.aside"),
        open_("low", _bench(along=None), at=f"{FIRST}.along"),
        open_("low", {OBSTACLES: REMOVE}, at=OBSTACLES),
        open_("low", {"spot.surroundings": REMOVE}, at=OBSTACLES),
        open_("low", {"spot": REMOVE}, at="spot"),
        *(
            open_("low", {**_bench(), key: REMOVE}, at=key)
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
def fall_zone(case: Case, _rig: None) -> Iterator[Fault]:
    if case.highline:
        return
    around = need(case.spot, case.at("spot")).surroundings
    found = need(around.obstacles if around else None, case.on_spot("surroundings", "obstacles"))
    if not found:
        return
    height = _height_m(case)
    aside_m = max(case.limit(LEAST), case.limit(PER_METRE) * height + case.limit(BEYOND))
    unknown = []
    for n, obstacle in enumerate(found):
        at = case.on_spot("surroundings", "obstacles", n)
        if obstacle.aside is None:
            unknown.append(case.on_spot("surroundings", "obstacles", n, "aside"))
        elif obstacle.aside.si >= aside_m:
            continue
        elif obstacle.along is None:
            unknown.append(case.on_spot("surroundings", "obstacles", n, "along"))
        elif _walked(case, obstacle.along.si, aside_m):
            yield Fault(
                at,
                f"{first_up(obstacle.what)}: {obstacle.aside.text} beside the line at "
                f"{obstacle.along.text}. From a height of {rounded(height)} m, keep "
                f"{rounded(aside_m, 'up')} m clear.",
                LOWER_OR_LEASH if case.too_high_to_land else _out_of_the_way(aside_m - obstacle.aside.si),
                value=obstacle.aside.si,
                limit=aside_m,
                unit="m",
                inputs=(Input("height of the feet", "h", height, "m"),),
            )
    if unknown:
        raise MissingInput(*unknown)


def _out_of_the_way(further_m: float) -> str:
    return f"Move it {ceil(further_m * 100.0) / 100.0:.2f} m further away, pad it, or move the line."


def _height_m(case: Case) -> float:
    """Return the greatest height of the feet above the ground over the walk zone, in m."""
    if not case.path.whole:
        raise NotComputable("the chain does not run from anchor to anchor")
    need_all(*((one.part.height, case.on_part(one, "height")) for one in case.path.anchors))
    case.loads.geometry.ground()  # asks for a profile that reaches the far end
    # The zone is as wide as the highest place of the walk makes it.
    return max(case.loads.band.foot_heights_m())


def _walked(case: Case, along_m: float, beyond_m: float) -> bool:
    """Return whether somebody may land at a distance from the face where the profile begins."""
    ground = case.spot.ground if case.spot else None
    if (
        ground is not None
        and ground.profile_from is not None
        and ground.profile_from == case.path.anchors[1].part.at
    ):
        # Places along the line are measured from the end where the profile begins.
        along_m = case.loads.geometry.span_m - along_m
    first, last = case.loads.sweep.walked_m()
    return first - beyond_m <= along_m <= last + beyond_m
