"""A fall on the leash stays short and swings into nothing, and each of two people has a leash of their own.

That it does not reach the ground is judged by `ground/fall_room`, how the leash is made by `leash/build`.
"""

from collections.abc import Iterator
from math import ceil

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    At,
    Case,
    Fault,
    Input,
    Leash,
    Limit,
    MissingInput,
    Quantity,
    Signal,
    Source,
    either,
    faulty,
    first_up,
    need,
    one_value,
    open_,
    rounded,
    rule,
    sound,
    the_leash,
)

LONGEST = Limit(
    name="longest_hang",
    text="3 m",
    dimension="length",
    tighter="lower",
    because="From further down nobody gets back to the line alone, and the fall is longer.",
    source=Source("US highline handbook and German alpine club: hanging about 2 m", "unnamed"),
)
ROOM = Limit(
    name="room_beside",
    text="1 m",
    dimension="length",
    tighter="higher",
    because="A caught body swings to both sides, with arms and legs out.",
    source=PRACTICE,
)
OBSTACLES = "spot.surroundings.obstacles"
FIRST = f"{OBSTACLES}[0]"
PAIR = {
    "plan.at_once": 2,
    "plan.users": [{"mass": "60 kg", "level": "expert"}, {"mass": "55 kg", "level": "expert"}],
}


def _pillar(aside: str, height: str | None = "44 m") -> dict[str, object]:
    """Put a pillar beside the highline, which runs 45 m above the ground there."""
    pillar = {"what": "pillar", "along": "26 m", "aside": aside} | ({"height": height} if height else {})
    return {OBSTACLES: [pillar]}


@rule(
    title="A fall on the leash goes too far, or hits something",
    each=the_leash,
    signal=Signal.WARNING,
    raised={"life": Signal.WARNING},
    worst=Signal.DANGER,
    why="After the catch the walker swings on, into a pillar, a tree or the second walker.",
    formula="hang ≤ longest; each obstacle that a body reaches down to: aside ≥ hang + body + room; a leash each",
    limits=(LONGEST, ROOM),
    prevents=("leash_reaches_the_ground", "too_many_on_the_line", "hard_thing_to_fall_on"),
    examples=(
        sound("low"),
        sound("highline"),
        sound("highline", {"leash.hang": "2.95 m"}),
        faulty(
            "highline",
            {"leash.hang": "3.05 m"},
            at="leash.hang",
            signal=Signal.WARNING,
            shows="leash_reaches_the_ground",
        ),
        # 2.2 m of leash, 1.2 m of body and 1 m of room.
        sound("highline", _pillar("4.43 m")),
        faulty("highline", _pillar("4.37 m"), at=FIRST, signal=Signal.WARNING, shows="hard_thing_to_fall_on"),
        sound("highline", _pillar("1 m", "20 m")),  # far below whoever hangs
        faulty("highline", _pillar("1 m", None), at=FIRST),
        open_("highline", {OBSTACLES: [{"what": "pillar"}]}, at=f"{FIRST}.aside"),
        open_("highline", {OBSTACLES: REMOVE}, at=OBSTACLES),
        sound("highline", PAIR | {"leash.one_each": True}),
        faulty(
            "highline",
            PAIR | {"leash.one_each": False},
            at="leash.one_each",
            signal=Signal.DANGER,
            shows="too_many_on_the_line",
        ),
        open_("highline", PAIR, at="leash.one_each"),
    ),
)
def swing(case: Case, leash: Leash) -> Iterator[Fault]:
    yield from _too_long(case, leash)
    missing: list[At] = []
    try:
        yield from _into_something(case, leash)
    except MissingInput as untold:
        missing += untold.fields
    at = case.at("leash", "one_each", part="leash")
    if case.plan is not None and case.plan.at_once > 1:
        if leash.one_each is None:
            missing.append(at)
        elif not leash.one_each:
            yield Fault(
                at,
                f"{case.plan.at_once} people are on the line at once, and they share one leash.",
                "Give each of them a leash and rings, or let one person on at a time.",
                value=1,
                limit=case.plan.at_once,
                unit="leashes",
                signal=Signal.DANGER,
                source=PRACTICE,
            )
    if missing:
        raise MissingInput(*missing)


def _too_long(case: Case, leash: Leash) -> Iterator[Fault]:
    at, longest = case.at("leash", "hang", part="leash"), case.limit(LONGEST)
    if leash.hang is None or leash.hang.si <= longest:
        return
    remedies = case.put_right(
        at, one_value(at.key, "shorten the leash so that it hangs {}", "down", "m", 0.05)
    )
    yield Fault(
        at,
        f"The walker hangs {leash.hang.text} below the rings. At most {longest:g} m.",
        either(
            *remedies.or_else(f"shorten the leash by {ceil((leash.hang.si - longest) * 100.0) / 100.0:.2f} m")
        ),
        value=leash.hang.si,
        limit=longest,
        unit="m",
        inputs=(case.given("hang", "h", leash.hang, at),),
        remedies=remedies,
    )


def _into_something(case: Case, leash: Leash) -> Iterator[Fault]:
    around = case.spot.surroundings if case.spot else None
    obstacles = need(around.obstacles if around else None, case.on_spot("surroundings", "obstacles"))
    if leash.hang is None or not obstacles:
        return  # without a hang leash/build asks for it
    body = leash.hang.si + case.loads.values["body_below_harness"]
    reach = body + case.limit(ROOM)
    missing = []
    for n, obstacle in enumerate(obstacles):
        if obstacle.aside is None:
            missing.append(case.on_spot("surroundings", "obstacles", n, "aside"))
            continue
        room = _room_m(case, obstacle.along, body)
        below = obstacle.height is not None and room is not None and obstacle.height.si < room
        if below or obstacle.aside.si >= reach:
            continue
        yield Fault(
            case.on_spot("surroundings", "obstacles", n),
            f"{first_up(obstacle.what)}: {obstacle.aside.text} beside the line. A body on the "
            f"leash swings out by {rounded(reach, 'up')} m.",
            f"Move the line {ceil((reach - obstacle.aside.si) * 100.0) / 100.0:.2f} m further "
            "away, or choose another place.",
            value=obstacle.aside.si,
            limit=reach,
            unit="m",
            inputs=(Input("leash, body and room", "r", reach, "m"),),
            source=ROOM.source,
        )
    if missing:
        raise MissingInput(*missing)


def _room_m(case: Case, along: Quantity | None, body_m: float) -> float | None:
    """Return how far above the ground the lowest body point of a fall hangs: nearest to a place, else the least."""
    fall = case.loads.leash_fall
    if along is None:
        return fall.least_clearance_m
    ground = case.spot.ground if case.spot else None
    x = along.si
    if (
        ground is not None
        and ground.profile_from is not None
        and ground.profile_from == case.path.anchors[1].part.at
    ):
        # Places along the line are measured from the end where the profile begins.
        x = case.loads.geometry.span_m - x
    near = min(fall.soft_positions, key=lambda rest: abs(rest.load_x_m - x))
    return case.loads.sweep.clearance_m(near.load_x_m, near.load_y_m - body_m)
