"""No part stands above the rated load on its label, in the hitch that it is used in."""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    At,
    Case,
    Fault,
    Input,
    Limit,
    PartLoad,
    Signal,
    Source,
    each_load,
    either,
    faulty,
    in_kn,
    lower_tension,
    open_,
    rounded,
    rule,
    sound,
)

LEAST = Limit(
    name="least_ratio",
    text="1",
    dimension=None,
    tighter="higher",
    because=(
        "Above the rated load the maker guarantees nothing. Inspection rules assume that the "
        "load stays below it."
    ),
    source=Source(
        "Directive 2006/42/EC, annex I, 4.1.2.5: rated load by slinging mode",
        "standard",
        ("directive_2006_42",),
    ),
)


ASKED = (
    "chain[2].hitch",
    "chain[7].gear",
    "chain[8].brake.gear",
    "chain[8].fixed_block",
    "chain[8].moving_block",
    "chain[8].multiplier.connector",
    "chain[8].multiplier.pulley",
    "chain[8].rope.dead_end.ends",
    "chain[8].rope.gear",
    "plan.standing_tension",
    "plan.wet",
    "shelf[0].items.RS-1.length",
    "shelf[0].items.WA-1.mbs",
    "spot.anchors.gate.girth",
)


@rule(
    title="The standing line is above a rated load",
    each=each_load,
    signal=Signal.CAUTION,
    raised={"life": Signal.WARNING},
    why="A sling or shackle held above its rated load for hours loses the reserve that its maker counted on.",
    formula="rated load · mode ÷ F ≥ 1; F at the planned standing tension",
    limits=(LEAST,),
    prevents=("choke_counted_as_basket",),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        sound("long_haul", {"shelf[0].items.SH-1.wll": "6.1 kN"}),
        faulty("long_haul", {"shelf[0].items.SH-1.wll": "5.9 kN"}, at="chain[3]", signal=Signal.CAUTION),
        faulty("long_haul", {"shelf[0].items.RS-1.wll": "0.4 t"}, at="chain[2]", signal=Signal.CAUTION),
        sound("long_haul", {"shelf[0].items.RS-1.wll": "0.45 t"}),
        faulty(
            "long_haul",
            {"shelf[0].items.SH-1.wll": "5.9 kN", "plan.consequence": "life"},
            at="chain[3]",
            signal=Signal.WARNING,
        ),
        sound("long_haul", {"shelf[0].items.SH-1.wll": REMOVE, "shelf[0].items.SH-1.mbs": "160 kN"}),
        faulty(
            "long_haul",
            {"shelf[0].items.RS-1.wll": "0.7 t", "chain[2].hitch": "choke"},
            at="chain[2]",
            shows="choke_counted_as_basket",
        ),
        sound("long_haul", {"shelf[0].items.RS-1.wll": "0.7 t"}),
        *(open_("low", {key: REMOVE}, at=key) for key in ASKED),
        open_("low", {"spot.anchors.gate": {"kind": "structure"}}, at="chain[2].included_angle"),
        open_("low", {"shelf[0].items.SH-1.wll": REMOVE}, at="shelf[0].items.SH-1.mbs"),
    ),
)
def rated(case: Case, load: PartLoad) -> Iterator[Fault]:
    strength = load.strength
    if load.only_in is not None or strength.rated_n is None or strength.no_rating:
        return
    # A rated load is meant for steady loads; peaks are held against the breaking strength by `ratio/peak`.
    force = load.force_of(case.loads.standing_tension_n)
    least = case.limit(LEAST)
    if not force or strength.rated_n >= least * force:
        return
    at = At(strength.at.document, (*strength.at.key[:-1], "wll"), load.id)
    remedies = case.put_right(at, lower_tension)
    most = in_kn(case.loads.standing_tension_n * strength.rated_n / force / least, "down")
    yield Fault(
        at,
        f"With nobody on the line, {load.words} carries {in_kn(force)}. As rigged it is rated for "
        f"{in_kn(strength.rated_n)}.",
        either(
            *remedies.or_else(f"plan {most} or less"),
            f"use one with at least {rounded(least * force / strength.rated_n, 'up')} × the rated load",
        ),
        value=strength.rated_n / force,
        limit=least,
        unit="1",
        inputs=(
            Input("rated load in place", "R", strength.rated_n / 1e3, "kN", at.reference),
            Input("force on it", "F", force / 1e3, "kN"),
        ),
        state="standing",
        remedies=remedies,
    )
