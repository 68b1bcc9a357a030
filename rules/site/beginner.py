"""A beginner has a spotter, and walks near the ground before walking a highline.

Over water nobody can stand beside the line; its depth and who watches are the business of other rules.
"""

from collections.abc import Iterator

from riglint.rulekit import (
    LOWER_OR_LEASH,
    REMOVE,
    Case,
    Fault,
    Limit,
    MissingInput,
    Signal,
    Source,
    faulty,
    need,
    one_value,
    open_,
    rule,
    sound,
    the_rig,
)

FEWEST = Limit(
    name="fewest_spotters",
    text="1",
    dimension=None,
    tighter="higher",
    because="With nobody beside the line a beginner lands on back or head. One person on each side is better.",
    source=Source("a community sheet: spotters for beginners, one each side", "unnamed"),
)
GATE = Source(
    "Swiss Alpine Club and ten points for highlines: 50 m near the ground come before a highline",
    "published",
    ("sac_highline", "swiss_ten_points"),
)
LEVEL, SURFACE = "plan.users[0].level", "spot.ground.surface"


@rule(
    title="A beginner without help",
    each=the_rig,
    signal=Signal.CAUTION,
    raised={"life": Signal.WARNING},
    why=("Beginners fall often, backwards and sideways. They can't yet leave the line on their feet."),
    formula="for beginners: 1 spotter or more unless over water, and no highline",
    limits=(FEWEST,),
    sources=(GATE,),
    prevents=("beginner_alone", "crew_too_small"),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        sound("low", {LEVEL: "beginner", "plan.spotters": 1}),
        faulty(
            "low",
            {LEVEL: "beginner", "plan.spotters": 0},
            at="plan.spotters",
            signal=Signal.CAUTION,
            shows="beginner_alone",
        ),
        faulty("long_haul", {LEVEL: "beginner"}, at="plan.spotters", signal=Signal.CAUTION),
        faulty(
            "highline",
            {LEVEL: "beginner", "plan.spotters": 2},
            at=LEVEL,
            signal=Signal.WARNING,
            shows="crew_too_small",
        ),
        sound("low", {LEVEL: "beginner", "plan.spotters": 0, SURFACE: "water"}),
        faulty("low", {LEVEL: "beginner", "plan.spotters": 0, SURFACE: REMOVE}, at="plan.spotters"),
        open_("low", {LEVEL: "beginner", "plan.spotters": REMOVE}, at="plan.spotters"),
        open_("low", {LEVEL: REMOVE}, at=LEVEL),
        open_("low", {"plan.users[0]": REMOVE}, at="plan.users"),
        open_("low", {"plan.users": REMOVE}, at="plan.users"),
        open_("low", {"plan": REMOVE}, at="plan.users"),
        open_("long_haul", {LEVEL: "beginner", "use": REMOVE}, at="use"),
    ),
)
def beginner(case: Case, _rig: None) -> Iterator[Fault]:
    users_at = case.at("plan", "users")
    users = need((case.plan.users if case.plan else None) or None, users_at)
    beginners = [n for n, user in enumerate(users) if user.level == "beginner"]
    if beginners and case.highline:
        yield Fault(
            case.at("plan", "users", beginners[0], "level"),
            "A beginner plans to walk this highline.",
            "Have them walk 50 m near the ground first, and fall on a leash with an expert watching.",
            value="beginner",
            limit="practised",
            source=GATE,
        )
    elif beginners and not _over_water(case):
        yield from _spotters(case)
    unknown = [case.at("plan", "users", n, "level") for n, user in enumerate(users) if user.level is None]
    if unknown:
        raise MissingInput(*unknown)


def _over_water(case: Case) -> bool:
    ground = case.spot.ground if case.spot else None
    return ground is not None and ground.surface == "water"


def _spotters(case: Case) -> Iterator[Fault]:
    at, fewest = case.at("plan", "spotters"), round(case.limit(FEWEST))
    there = need(case.plan.spotters if case.plan else None, at)
    if there < fewest:
        beside = one_value(at.key, "name {} to walk beside beginners", "up", "", 1)
        remedies = case.put_right(at, *(() if case.too_high_to_land else (beside,)))
        yield Fault(
            at,
            f"A beginner walks with {there} of {fewest} spotters.",
            LOWER_OR_LEASH if case.too_high_to_land else _beside(fewest),
            value=there,
            limit=fewest,
            remedies=remedies,
        )


def _beside(fewest: int) -> str:
    people = "person" if fewest == 1 else "people"
    return (
        f"Put {fewest} {people} beside the walker, hand at shoulder height, walking along. One "
        "on each side is better."
    )
