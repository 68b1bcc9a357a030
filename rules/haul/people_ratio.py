"""How many people pull on how large a ratio: a prompt to stop at a set tension."""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    Case,
    Fault,
    Input,
    Limit,
    OnCard,
    Placed,
    Signal,
    Source,
    need,
    open_,
    review,
    rule,
    sound,
    the_haul,
)

RULES = Source("rope rescue articles: rule of 12, rule of 18", "unnamed")
MOST = Limit(
    "people_times_ratio",
    "12",
    None,
    "lower",
    "Rescue teams keep people × ratio at 12 or less, some schools at 18.",
    RULES,
)
ALONE = {"chain[8].multiplier": REMOVE, "plan.crew.haulers": 1}


# Only for a person to look at: nearly every 15:1 is beyond it, and what the crew could reach is judged by itself.
@rule(
    title="Many people on a large ratio",
    each=the_haul,
    signal=Signal.NOTICE,
    why="Many hands on a large ratio pull past the planned tension within one heave and don't feel it.",
    formula="haulers · ideal ratio ≤ 12",
    limits=(MOST,),
    prevents=("too_many_hands",),
    on_card=OnCard(advice=True, do_alone=True),
    examples=(
        sound("long_haul", {"chain[8].multiplier": REMOVE}),
        sound("long_haul", {"chain[8].multiplier.ratio": 2, "plan.crew.haulers": 1}),
        # Twelve is allowed, thirteen is not: counts, for one person on a plain haul of so many strands.
        sound("long_haul", {"chain[8].strands": 12, **ALONE}),
        review("long_haul", {"chain[8].strands": 13, **ALONE}, at="plan.crew.haulers", signal=Signal.NOTICE),
        review("long_haul", {"plan.crew.haulers": 1}, at="plan.crew.haulers", signal=Signal.NOTICE),
        review("long_haul", at="plan.crew.haulers", signal=Signal.NOTICE),
        open_("long_haul", {"plan.crew.haulers": REMOVE}, at="plan.crew.haulers"),
        open_("long_haul", {"chain[8].strands": REMOVE}, at="chain[8].strands"),
        open_("long_haul", {"chain[8].multiplier.ratio": REMOVE}, at="chain[8].multiplier.ratio"),
    ),
)
def people_ratio(case: Case, placed: Placed) -> Iterator[Fault]:
    at = case.at("plan", "crew", "haulers")
    people = case.plan.crew if case.plan else None
    haulers = need(people.haulers if people else None, at)
    ratio = case.haul.strands * case.haul.multiplier
    product = haulers * ratio
    if product <= case.limit(MOST):
        return
    people_words = "1 person" if haulers == 1 else f"{haulers} people"
    limit = case.limit(MOST)
    yield Fault(
        at,
        f"{people_words} on a {ratio}:1 can pull past the plan without feeling it. People × ratio "
        f"is {product}; rope rescue keeps to {limit:g}.",
        "One person watches the tension and calls stop. Pull slowly over the last strokes.",
        value=product,
        limit=limit,
        unit="1",
        inputs=(Input("ideal ratio", "n·m", ratio, "1", case.on_part(placed).reference),),
        kind="review",
    )
