"""No line in the meadow stands at more than the club's trees are used to."""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    Case,
    Fault,
    Limit,
    Signal,
    Source,
    faulty,
    need,
    open_,
    rule,
    sound,
    the_rig,
)

MOST = Limit(
    name="most_standing",
    text="8 kN",
    dimension="force",
    tighter="lower",
    because="The maples along the brook are rooted in shallow gravel.",
    source=Source("the club's own agreement with the owner of the meadow", "own"),
)


@rule(
    title="More standing tension than the meadow's trees are used to",
    each=the_rig,
    signal=Signal.WARNING,
    why="A root plate that begins to lift gives no warning that a walker would feel.",
    formula="standing tension ≤ most standing tension of the meadow",
    limits=(MOST,),
    examples=(
        sound("long_haul", {"plan.standing_tension": "7.9 kN"}),
        faulty("long_haul", {"plan.standing_tension": "8.1 kN"}, at="plan.standing_tension"),
        open_("long_haul", {"plan.standing_tension": REMOVE}, at="plan.standing_tension"),
    ),
)
def tension_cap(case: Case, _: object) -> Iterator[Fault]:
    at = case.at("plan", "standing_tension")
    planned = need(case.plan.standing_tension if case.plan else None, at)
    most = case.limit(MOST)
    if planned.si > most:
        yield Fault(
            at,
            f"{planned.text} of standing tension is planned; in the meadow {most / 1000:g} kN is the most.",
            f"Plan {most / 1000:g} kN or less, or rig between the poles behind the barn.",
            value=planned.si / 1000,
            limit=most / 1000,
            unit="kN",
            inputs=(case.given("standing tension", "T0", planned, at),),
        )
