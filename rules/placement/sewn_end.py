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
    because="80 % for a sewn loop is a habit of the trade, too weak a basis for a high tension.",
    source=PRACTICE,
)
WEBBING = "shelf[0].items.W-1.mbs"
UNTESTED = {"shelf[0].items.SE-1.mbs": REMOVE}


@rule(
    title="High tension on a sewn loop that nobody has tested",
    each=parts("sewn_end"),
    signal=Signal.CAUTION,
    why="Webbing breaks first at its stitching. Only a test of that very loop tells how much earlier.",
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
        f"{first_up(placed.words)} is not tested. It stands at {in_kn(tension)}, "
        f"{rounded(tension / strength, 'up')} of the breaking strength of {webbing.words}; "
        f"untested, at most {most:g}.",
        "Enter the tested strength of the sewn loop in the gear list, use a webbing anchor, or "
        f"plan at most {in_kn(most * strength, 'down')}.",
        value=tension / strength,
        limit=most,
        unit="1",
        inputs=(
            Input("standing tension", "T0", tension / 1e3, "kN", planned),
            Input("webbing strength", "S", strength / 1e3, "kN", webbing.strength.at.reference),
        ),
        state="standing",
    )


def _webbing_beside(case: Case, placed: Placed) -> PartLoad | None:
    beside = {one.id for one in case.beside(placed) if one.part.part == "webbing"}
    return next((load for load in case.loads.parts if load.part == "webbing" and load.id in beside), None)
