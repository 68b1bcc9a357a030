"""How many people pull on how large a ratio: a prompt to stop at a set tension."""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    Case,
    Fault,
    Input,
    Limit,
    Placed,
    Signal,
    Source,
    faulty,
    need,
    open_,
    rule,
    sound,
    the_haul,
)

RULES = Source("rope rescue articles: rule of 12, rule of 18", "published")
MOST = Limit(
    "people_times_ratio", "12", None, "lower", "Rescue teams keep people × ratio to 12 or less.", RULES
)
MUCH = Limit("much", "18", None, "lower", "Other schools allow 18; beyond it no school does.", RULES)


# Only a NOTICE: nearly every 15:1 breaks it, and the tension that the crew could reach is judged by itself.
@rule(
    title="Many people on a large ratio",
    each=the_haul,
    signal=Signal.NOTICE,
    why="Many hands on a large ratio pass the planned tension within one heave and feel nothing of it.",
    formula="haulers · ideal ratio ≤ 12, at most 18",
    limits=(MOST, MUCH),
    examples=(
        sound("long_haul", {"chain[8].multiplier": REMOVE}),
        sound("long_haul", {"chain[8].multiplier.ratio": 2, "plan.crew.haulers": 1}),
        faulty("long_haul", {"plan.crew.haulers": 1}, at="plan.crew.haulers", signal=Signal.NOTICE),
        faulty("long_haul", at="plan.crew.haulers", signal=Signal.NOTICE),
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
    limit = case.limit(MUCH if product > case.limit(MUCH) else MOST)
    yield Fault(
        at,
        f"{haulers} haulers on a ratio of {ratio}:1 make {product}; rope rescue keeps to {limit:g}.",
        "Name one person who reads the tension and calls stop; pull slowly over the last strokes.",
        value=product,
        limit=limit,
        unit="1",
        inputs=(Input("ideal ratio", "n·m", ratio, "1", case.on_part(placed).reference),),
    )
