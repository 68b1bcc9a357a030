"""A sewn end that nobody has tested stands at low tension only. Its usual 0.8 is judged by the ratios."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Input,
    Limit,
    PartLoad,
    Placed,
    Signal,
    faulty,
    first_up,
    in_kn,
    open_,
    parts,
    rounded,
    rule,
    sound,
)

MOST = Limit(
    name="most_at_an_untested_end",
    text="0.2",
    dimension=None,
    tighter="lower",
    because="That a sewn end keeps 80 % is a habit of the trade, too little to rest a high tension on.",
    source=PRACTICE,
)
WEBBING = "shelf[0].items.W-1.mbs"
UNTESTED = {"shelf[0].items.SE-1.mbs": REMOVE}


@rule(
    title="High tension on a sewn end that nobody has tested",
    each=parts("sewn_end"),
    signal=Signal.CAUTION,
    why="Webbing breaks at its stitching first; how much earlier, only a test of that very end can tell.",
    formula="standing tension ÷ breaking strength of the webbing ≤ most at an untested end",
    limits=(MOST,),
    prevents=("high_tension_on_sewn_end", "sewn_end_counted_in_full"),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        sound("long_haul", {WEBBING: "20 kN"}),  # the sewn end has its own figure
        sound("long_haul", {**UNTESTED, WEBBING: "30.3 kN"}),
        faulty(
            "long_haul",
            {**UNTESTED, WEBBING: "29.7 kN"},
            at="chain[6]",
            signal=Signal.CAUTION,
            shows=("high_tension_on_sewn_end", "sewn_end_counted_in_full"),
        ),
        open_("long_haul", {**UNTESTED, WEBBING: REMOVE}, at=WEBBING),
        open_("long_haul", {**UNTESTED, "plan.standing_tension": REMOVE}, at="plan.standing_tension"),
    ),
)
def sewn_end(case: Case, placed: Placed) -> Iterator[Fault]:
    webbing = _webbing_beside(case, placed)
    if webbing is None or (placed.item is not None and placed.item.gear.mbs is not None):
        return
    strength, tension = webbing.strength.breaking_n, case.loads.standing_tension_n
    most = case.limit(MOST)
    if tension <= most * strength:
        return
    planned = case.at("plan", "standing_tension").reference
    yield Fault(
        case.on_part(placed),
        f"{first_up(placed.words)} stands at {rounded(tension / strength, 'up')} of what "
        f"{webbing.words} breaks at, {in_kn(tension)}, and is not tested; {most:g} is the most then.",
        "Write the tested strength of the sewn end on the shelf, use a webbing anchor, or plan "
        f"{in_kn(most * strength, 'down')} or less.",
        value=tension / strength,
        limit=most,
        unit="1",
        inputs=(
            Input("standing tension", "T0", tension / 1000.0, "kN", planned),
            Input("webbing strength", "S", strength / 1000.0, "kN", webbing.strength.at.reference),
        ),
        state="standing",
    )


def _webbing_beside(case: Case, placed: Placed) -> PartLoad | None:
    beside = {one.id for one in case.beside(placed) if one.part.part == "webbing"}
    return next((load for load in case.loads.parts if load.part == "webbing" and load.id in beside), None)
