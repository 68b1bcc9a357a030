"""The pulley is short against its line, and its weight does not drag the end of the line down."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Input,
    Limit,
    Placed,
    Signal,
    Source,
    either,
    faulty,
    hanging,
    more_tension,
    open_,
    open_blocks,
    rounded,
    rule,
    sound,
    the_haul_that_stays,
)

SHARE = Limit(
    name="most_of_the_span",
    text="0.25",
    dimension=None,
    tighter="lower",
    because="Blocks and rope hang where people walk and fall, and there is little webbing left to stretch.",
    source=PRACTICE,
)
DIP = Limit(
    name="most_dip",
    text="0.2 m",
    dimension="length",
    tighter="lower",
    because=(
        "A pulley system that hangs this low meets heads, hands and the ground, and puts a bend in the line."
    ),
    source=PRACTICE,
)
BLOCK = "shelf[0].items.DB-1.mass"


@rule(
    title="The pulley system is too long or too heavy for its line",
    each=the_haul_that_stays,
    signal=Signal.CAUTION,
    why="A long pulley system is metal at head height. The walker falls onto it instead of onto grass.",
    formula="distance of the blocks ÷ span ≤ share; weight · distance from the anchor ÷ T ≤ most dip",
    limits=(SHARE, DIP),
    sources=(Source("statics: a load W at a from the end of a taut string hangs by W·a/T at most", "own"),),
    prevents=("hard_part_beside_the_walker", "slack_line_pulls_elsewhere"),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("low", {"chain[8].open": "3.95 m"}),
        faulty(
            "low",
            {"chain[8].open": "4.05 m"},
            at="chain[8].open",
            signal=Signal.CAUTION,
            shows="hard_part_beside_the_walker",
        ),
        # 5.6 kg and 11 strand metres of rope, 3 m from the trunk, at 3 kN: 0.07 m.
        sound("low", {BLOCK: "16.5 kg"}),
        faulty(
            "low",
            {BLOCK: "17.8 kg"},
            at="chain[8].moving_block",
            signal=Signal.CAUTION,
            shows="slack_line_pulls_elsewhere",
        ),
        open_("low", {"chain[8].open": REMOVE}, at="chain[8].open"),
        open_("low", {"plan.standing_tension": REMOVE}, at="plan.standing_tension"),
        open_("low", {"chain[8].strands": REMOVE}, at="chain[8].strands"),
        open_("low", {"spot.span": REMOVE}, at="spot.span"),
    ),
)
def too_long(case: Case, placed: Placed) -> Iterator[Fault]:
    run, span = case.loads.standing.block_run, case.loads.geometry.span_m
    most = case.limit(SHARE)
    if run.hand_tight_m > most * span:
        at = case.on_part(placed, "open")
        remedies = case.put_right(at, open_blocks(placed, "down"))
        yield Fault(
            at,
            f"The blocks are {rounded(run.hand_tight_m)} m apart hand-tight, "
            f"{rounded(run.hand_tight_m / span, 'up')} of the span. At most {most:g}.",
            either(
                *remedies.or_else(
                    f"lay the line out with at most {rounded(most * span, 'down')} m between the blocks"
                )
            ),
            value=run.hand_tight_m / span,
            limit=most,
            unit="1",
            inputs=(Input("span", "L", span, "m"), Input("blocks, hand-tight", "b₀", run.hand_tight_m, "m")),
            remedies=remedies,
        )
    yield from _hangs(case, placed, run.standing_m)


def _hangs(case: Case, placed: Placed, blocks_m: float) -> Iterator[Fault]:
    tension, most = case.loads.standing_tension_n, case.limit(DIP)
    weight = hanging(case.haul, blocks_m)
    dip = weight.dip_m(tension)
    if dip <= most:
        return
    at = case.on_part(placed, "moving_block")
    remedies = case.put_right(at, more_tension)
    yield Fault(
        at,
        f"The pulley system weighs {rounded(weight.mass_kg)} kg and hangs up to "
        f"{rounded(dip, 'up')} m below the line. At most {most:g} m.",
        either(*remedies.or_else("use lighter blocks"), "lay the line out with the blocks closer together"),
        value=dip,
        limit=most,
        unit="m",
        inputs=(
            Input("mass of blocks, plate, brake and rope", "m", weight.mass_kg, "kg"),
            Input("from the anchor to the webbing", "a", weight.long_m, "m"),
            Input("standing tension", "T0", tension / 1e3, "kN"),
        ),
        source=DIP.source,
        remedies=remedies,
    )
