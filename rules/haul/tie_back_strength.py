"""The tie-back and its sling stand the catch."""

from collections.abc import Iterator

from riglint.rulekit import (
    OWN,
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Input,
    Limit,
    Placed,
    Signal,
    either,
    faulty,
    lower_tension,
    open_,
    own_sling,
    review,
    rule,
    sound,
    the_haul_that_stays,
)

TIMES = Limit(
    name="times_standing",
    text="2",
    dimension=None,
    tighter="higher",
    because="A tension that comes on at once, with no slack at all, doubles in the tie-back.",
    source=OWN,
)
LEAST = Limit(
    name="least_strength",
    text="20 kN",
    dimension="force",
    tighter="higher",
    because=(
        "With 0.1 m to 0.2 m of slack a stiff tie-back catches some 20 kN. We ask for that where "
        "somebody would fall."
    ),
    source=PRACTICE,
)
CORD = {"kind": "cord", "material": "polyamide", "diameter": "7 mm", "mbs": "9.8 kN"}


@rule(
    title="The tie-back is too weak",
    each=the_haul_that_stays,
    signal=Signal.CAUTION,
    raised={"fall": Signal.WARNING, "life": Signal.DANGER},
    why="If the tie-back breaks in its catch, line and blocks fly on.",
    formula="strength of tie-back and of its sling ≥ 2·T, and ≥ 20 kN where the consequence is fall or life",
    limits=(TIMES, LEAST),
    prevents=("tie_back_weak_or_slack", "cord_as_load_bearer"),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("long_haul", {"chain[8].tie_back": REMOVE}),
        # 0.70 of it is left with a figure-eight in its ends: 20.02 kN, then 19.95 kN.
        sound("long_haul", {"shelf[0].items.TB-1.mbs": "28.6 kN"}),
        faulty(
            "long_haul",
            {"shelf[0].items.TB-1.mbs": "28.5 kN"},
            at="chain[8].tie_back.gear",
            signal=Signal.WARNING,
        ),
        faulty(
            "long_haul",
            {"shelf[0].items.TB-1.mbs": "28.5 kN", "plan.consequence": "life"},
            signal=Signal.DANGER,
        ),
        # At ground only twice the standing 3 kN is asked: 6.02 kN, then 5.95 kN.
        sound("low", {"shelf[0].items.TB-1.mbs": "8.6 kN"}),
        faulty(
            "low",
            {"shelf[0].items.TB-1.mbs": "8.5 kN"},
            at="chain[8].tie_back.gear",
            signal=Signal.CAUTION,
            shows="tie_back_weak_or_slack",
        ),
        faulty(
            "long_haul",
            {"shelf[0].items.TB-1": CORD},
            at="chain[8].tie_back.gear",
            shows="cord_as_load_bearer",
        ),
        faulty("long_haul", {"shelf[0].items.RS-3.wll": "0.35 t"}, at="chain[8].tie_back.sling"),
        faulty("long_haul", {"chain[8].tie_back.gear": "W-1"}, at="chain[8].tie_back.gear"),
        review("long_haul", {"chain[8].tie_back.sling": REMOVE}, at="chain[8].tie_back.sling"),
        open_("long_haul", {"chain[8].tie_back.gear": REMOVE}, at="chain[8].tie_back.gear"),
        open_("long_haul", {"shelf[0].items.TB-1.mbs": REMOVE}, at="shelf[0].items.TB-1.mbs"),
        open_("long_haul", {"plan.standing_tension": REMOVE}, at="plan.standing_tension"),
    ),
)
def tie_back_strength(case: Case, placed: Placed) -> Iterator[Fault]:
    tie = placed.part.tie_back
    if tie is None:
        return
    standing = case.loads.standing_tension_n
    asked = case.limit(TIMES) * standing
    if case.consequence != "ground":
        asked = max(asked, case.limit(LEAST))
    named = [("gear", tie.gear), ("sling", tie.sling)]
    if tie.sling is None:
        yield own_sling(case, placed)
        named = named[:1]
    enough = f"{asked / 1e3 + 0.0499:.1f} kN"
    for key, name in named:
        item = case.haul.gear(name, "tie_back", key)
        strength = case.loads.strengths.of_tie_back(item, placed)
        if strength.strength_n >= asked or strength.no_rating:  # nothing tied: placement/rope_end tells it
            continue
        kept = "".join(f" × {one.factor:g}, {one.why}" for one in strength.reductions)
        at = case.on_part(placed, "tie_back", key)
        remedies = case.put_right(at, lower_tension)
        yield Fault(
            at,
            f"{item.id} of the tie-back holds {strength.strength_n / 1e3:.3g} kN "
            f"({strength.breaking_n / 1e3:.3g} kN{kept}). It needs {asked / 1e3:.3g} kN.",
            either(f"use one that holds {enough} as it is tied", "lay it double", *remedies),
            value=strength.strength_n / 1e3,
            limit=asked / 1e3,
            unit="kN",
            inputs=(Input("standing tension", "T", standing / 1e3, "kN"),),
            remedies=remedies,
        )
