"""A short highline is rigged on webbing that gives."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Limit,
    Placed,
    Signal,
    Source,
    faulty,
    need,
    open_,
    parts,
    rounded,
    rule,
    sound,
)

SHORT = Limit(
    name="short_span",
    text="45 m",
    dimension="length",
    tighter="higher",
    because="A longer line stretches enough by its length alone.",
    source=Source("US highline handbook: avoid low-stretch webbing up to about 150 ft", "unnamed"),
)
LEAST = Limit(
    name="least_stretch",
    text="5 %",
    dimension="strain_or_ratio",
    tighter="higher",
    because="Makers call webbing low-stretch if it stretches less than this at 10 kN.",
    source=PRACTICE,
)
# Stretch of webbing is usually given at this tension.
AT_N = 10_000.0
STRETCH = "shelf[0].items.W-1.stretch"
AT_44 = {"spot.span": "44.9 m"}


@rule(
    title="Stiff webbing on a short highline",
    each=parts("webbing"),
    signal=Signal.WARNING,
    why="A short, stiff line stops a fall abruptly. Leash, harness and anchors take the blow.",
    formula="highline with L < 45 m: stretch at 10 kN ≥ 5 %",
    limits=(SHORT, LEAST),
    prevents=("stiff_webbing_short_highline",),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        sound("highline", {"spot.span": "45 m"}),
        faulty("highline", AT_44, at=STRETCH, signal=Signal.WARNING),
        sound("highline", {**AT_44, STRETCH: {"5 kN": "2.5 %", "10 kN": "5.05 %"}}),
        faulty("highline", {**AT_44, STRETCH: {"5 kN": "2.5 %", "10 kN": "4.95 %"}}, at=STRETCH),
        open_("highline", {"spot.span": REMOVE}, at="spot.span"),
        open_("highline", {**AT_44, STRETCH: REMOVE}, at=STRETCH),
        open_("highline", {**AT_44, "chain[4].gear": REMOVE}, at="chain[4].gear"),
    ),
)
def short_stiff(case: Case, placed: Placed) -> Iterator[Fault]:
    if not case.highline:
        return
    span = case.loads.geometry.span_m
    if span >= case.limit(SHORT):
        return
    item = need(placed.item, case.on_part(placed, "gear"))
    strain, least = case.loads.geometry.strain_at(placed, AT_N), case.limit(LEAST)
    if strain < least:
        yield Fault(
            case.on_item(item, "stretch", part=placed.id),
            f"{item.id} stretches {rounded(strain * 100, 'down')} % at 10 kN. A highline shorter "
            f"than {rounded(case.limit(SHORT))} m needs at least {rounded(least * 100)} %; this "
            f"one is {rounded(span)} m.",
            f"Use webbing that stretches at least {rounded(least * 100)} % at 10 kN, such as "
            f"polyamide, or span at least {rounded(case.limit(SHORT))} m.",
            value=strain * 100.0,
            limit=least * 100.0,
            unit="%",
        )
