"""The crew can pull the line up to its standing tension."""

from collections.abc import Iterator
from math import ceil

from riglint.rulekit import (
    OWN,
    REMOVE,
    Case,
    Fault,
    Input,
    Placed,
    Signal,
    either,
    faulty,
    lower_tension,
    more_haulers,
    need,
    need_all,
    open_,
    rule,
    sound,
    the_haul,
)


@rule(
    title="The crew is too small for the pulley system",
    each=the_haul,
    signal=Signal.CAUTION,
    why=("A crew that can't reach the tension pulls in jerks, leans into the rope and calls in bystanders."),
    formula="haulers · pull of each ≥ T ÷ actual ratio, at the low end of the sheaves' efficiency",
    sources=(OWN,),
    prevents=("crew_too_small",),
    examples=(
        sound("low"),
        sound("long_haul"),
        # 657 N bring the long line to 6 kN at the low end: two with 329 N each.
        sound("long_haul", {"plan.crew.pull_each": "0.332 kN"}),
        faulty("long_haul", {"plan.crew.pull_each": "0.325 kN"}, at="plan.crew", signal=Signal.CAUTION),
        faulty("long_haul", {"plan.crew.haulers": 0}, at="plan.crew"),
        faulty("long_haul", {"plan.crew.pull_each": "0 kN"}, at="plan.crew"),
        faulty("long_haul", {"chain[8].multiplier": REMOVE}, at="plan.crew"),
        open_("long_haul", {"plan.crew.haulers": REMOVE}, at="plan.crew.haulers"),
        open_("long_haul", {"plan.crew.pull_each": REMOVE}, at="plan.crew.pull_each"),
        open_("long_haul", {"plan.crew": REMOVE}, at="plan.crew.pull_each"),
        open_("long_haul", {"plan.standing_tension": REMOVE}, at="plan.standing_tension"),
        open_("long_haul", {"chain[8].strands": REMOVE}, at="chain[8].strands"),
        open_("long_haul", {"chain[8].multiplier.ratio": REMOVE}, at="chain[8].multiplier.ratio"),
        open_("long_haul", {"shelf[0].items.DB-1.bearing": REMOVE}, at="shelf[0].items.DB-1.bearing"),
    ),
)
def crew(case: Case, placed: Placed) -> Iterator[Fault]:
    people = case.plan.crew if case.plan else None
    haulers_at, each_at = case.at("plan", "crew", "haulers"), case.at("plan", "crew", "pull_each")
    haulers, each = (people.haulers, people.pull_each) if people else (None, None)
    need_all((haulers, haulers_at), (each, each_at))
    pull = need(each, each_at)
    tension = case.loads.standing_tension_n
    # With sheaves at the poor end of their range: no crew should find out half-way up that it is too small.
    hand = case.haul.to_reach_at_worst(tension).hand_n
    together = need(haulers, haulers_at) * pull.si
    if together >= hand:
        return
    more = f"let {ceil(hand / pull.si)} haul" if pull.si > 0.0 else "enter what each person can pull"
    at = case.at("plan", "crew")
    remedies = case.put_right(at, more_haulers, lower_tension)
    yield Fault(
        at,
        f"The crew pulls {together / 1e3:.3g} kN. With poor sheaves you need {hand / 1e3:.3g} kN "
        f"to reach {tension / 1e3:.3g} kN in the line.",
        either(*remedies.or_else(more), "use a larger ratio; better sheaves help too"),
        value=together / 1e3,
        limit=hand / 1e3,
        unit="kN",
        inputs=(
            case.given("pull of each", "h", pull, each_at),
            Input(
                "ideal ratio",
                "n·m",
                case.haul.strands * case.haul.multiplier,
                "",
                case.on_part(placed).reference,
            ),
        ),
        state="haul",
        remedies=remedies,
    )
