"""The webbing keeps enough tail behind its anchor, and the tail is tied off."""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    Case,
    Fault,
    Limit,
    OnCard,
    Placed,
    Signal,
    Source,
    everywhere,
    faulty,
    need,
    one_value,
    open_,
    review,
    rule,
    sound,
    tick,
)

LEAST = Limit(
    name="least_tail",
    text="0.5 m",
    dimension="length",
    tighter="higher",
    because="Every load cycle draws in a little tail. Half a metre leaves you time to see it.",
    source=Source(
        "federation article on webbing slippage and tie-offs, 2016; the length is common practice", "practice"
    ),
)
GONE = Limit(
    name="as_good_as_none",
    text="0.1 m",
    dimension="length",
    tighter="higher",
    because="The first bounces pull in a hand's breadth, and then nothing holds the webbing.",
    source=Source("common practice, no source", "practice"),
)
BACKUP = "backups[0].chain"
# How grave it is where as good as nothing is left.
WITHOUT = {"ground": Signal.WARNING, "fall": Signal.WARNING, "life": Signal.DANGER}


@rule(
    title="Too little webbing behind its anchor",
    each=everywhere("webbing_anchor"),
    signal=Signal.CAUTION,
    raised={"life": Signal.WARNING},
    why="When the tail of a slipping webbing anchor has run through, the whole line lets go.",
    formula="tail ≥ least tail",
    worst=Signal.WARNING,
    limits=(LEAST, GONE),
    prevents=("webbing_tail_short", "webbing_slips_in_its_anchor"),
    on_card=OnCard(phase="connect"),
    examples=(
        sound("long_haul"),
        sound("long_haul", {"chain[4].tail": "0.51 m"}),
        faulty(
            "long_haul",
            {"chain[4].tail": "0.49 m"},
            at="chain[4].tail",
            signal=Signal.CAUTION,
            shows="webbing_tail_short",
        ),
        faulty("long_haul", {"chain[4].tail": "0.102 m"}, at="chain[4].tail", signal=Signal.CAUTION),
        faulty("long_haul", {"chain[4].tail": "0.098 m"}, at="chain[4].tail", signal=Signal.WARNING),
        faulty("low", {"chain[4].tail": "0 m"}, at="chain[4].tail", signal=Signal.WARNING),
        faulty("highline", {"chain[3].tail": "0 m"}, at="chain[3].tail", signal=Signal.DANGER),
        faulty("long_haul", {"chain[4].tail_tied": False}, at="chain[4].tail_tied"),
        open_("long_haul", {"chain[4].tail": REMOVE}, at="chain[4].tail"),
        # The backup's webbing slips as the main line's does.
        sound("highline", {f"{BACKUP}[3].tail": "0.51 m"}),
        faulty(
            "highline",
            {f"{BACKUP}[3].tail": "0.49 m"},
            at=f"{BACKUP}[3].tail",
            signal=Signal.WARNING,
            shows="webbing_slips_in_its_anchor",
        ),
        faulty("highline", {f"{BACKUP}[5].tail_tied": False}, at=f"{BACKUP}[5].tail_tied"),
        open_("highline", {f"{BACKUP}[5].tail": REMOVE}, at=f"{BACKUP}[5].tail"),
        review("long_haul", {"chain[4].tail_tied": REMOVE}, at="chain[4].tail_tied"),
        open_("long_haul", {"chain[4].tail_tied": REMOVE, "stage": "built"}, at="chain[4].tail_tied"),
    ),
)
def webbing(case: Case, placed: Placed) -> Iterator[Fault]:
    at = case.on_part(placed, "tail")
    tail = need(placed.part.webbing_tail, at)
    least = case.limit(LEAST)
    if tail.si < least:
        longer = one_value(
            at.key, "leave {} of webbing behind it: cut longer, or re-seat the anchor", "up", "m", 0.05
        )
        remedies = case.put_right(at, longer)
        yield Fault(
            at,
            f"Only {tail.text} of webbing is left behind {placed.words}. At least {least:g} m.",
            f"Leave at least {least:g} m: cut the webbing {least - tail.si:.2f} m longer, or "
            "re-seat the anchor.",
            value=tail.si,
            limit=least,
            unit="m",
            inputs=(case.given("tail", "l", tail, at),),
            signal=WITHOUT[case.consequence] if tail.si < case.limit(GONE) else None,
            remedies=remedies,
        )
    do = f"Tie the tail behind {placed.words} off to the anchor sling or round the line."
    yield from tick(
        case, placed.part.tail_tied, case.on_part(placed, "tail_tied"), "The webbing tail is not tied off", do
    )
