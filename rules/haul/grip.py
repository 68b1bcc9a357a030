"""The rope grip of the multiplier is not pulled harder than it may be."""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    At,
    Case,
    Fault,
    Limit,
    Placed,
    Remedy,
    Signal,
    Source,
    either,
    faulty,
    fewer_haulers,
    in_kn,
    lower_tension,
    open_,
    rule,
    sound,
    the_haul,
)

UNLABELLED = Limit(
    name="unlabelled_load",
    text="4 kN",
    dimension="force",
    tighter="lower",
    because=(
        "A rope clamp is tested to 4 kN on its thinnest and thickest rope. Without a label that is all we know."
    ),
    source=Source(
        "EN 567:2013, from a test house's summary; EN 12841:2006 type B tests the same",
        "standard",
        ("en_567", "en_12841"),
    ),
)

UNKNOWN = {"shelf[0].items.GR-1.max_load": REMOVE}


@rule(
    title="The rope grip is pulled too hard",
    each=the_haul,
    signal=Signal.WARNING,
    why=(
        "A grip pulled past its test load cuts the sheath or slides. The crew falls backwards with the rope."
    ),
    formula=(
        "greatest load of the grip ÷ its force ≥ 1, to reach standing tension and in a full heave of the crew"
    ),
    limits=(UNLABELLED,),
    prevents=(
        "grip_overloaded",
        "grip_overloaded_unloading",
    ),
    examples=(
        sound("long_haul"),
        sound("long_haul", {"chain[8].multiplier": REMOVE}),
        sound("long_haul", {"shelf[0].items.GR-1.max_load": "1.97 kN"}),
        faulty(
            "long_haul",
            {"shelf[0].items.GR-1.max_load": "1.95 kN"},
            at="chain[8].multiplier.grip",
            shows="grip_overloaded",
        ),
        faulty(
            "long_haul",
            {"shelf[0].items.GR-1.max_load": "1.95 kN", "plan.lowering": "haul_back"},
            shows="grip_overloaded_unloading",
        ),
        sound("long_haul", UNKNOWN),
        sound("long_haul", {**UNKNOWN, "plan.crew.haulers": 4}),
        faulty("long_haul", {**UNKNOWN, "plan.crew.haulers": 5}),
        # To reach 19.6 kN the grip alone is past 4 kN, however few haul.
        sound("long_haul", {**UNKNOWN, "plan.standing_tension": "19.2 kN", "plan.crew.haulers": 1}),
        faulty("long_haul", {**UNKNOWN, "plan.standing_tension": "19.6 kN", "plan.crew.haulers": 1}),
        open_("long_haul", {"chain[8].multiplier.grip": REMOVE}, at="chain[8].multiplier.grip"),
        open_("long_haul", {"chain[8].multiplier.ratio": REMOVE}, at="chain[8].multiplier.ratio"),
        open_("long_haul", {"chain[8].strands": REMOVE}, at="chain[8].strands"),
        open_("long_haul", {"plan.standing_tension": REMOVE}, at="plan.standing_tension"),
        open_("long_haul", {"plan.crew.haulers": REMOVE}, at="plan.crew.haulers"),
        open_("long_haul", {"shelf[0].items.SP-1.bearing": REMOVE}, at="shelf[0].items.SP-1.bearing"),
    ),
)
def grip(case: Case, placed: Placed) -> Iterator[Fault]:
    tackle = placed.part.multiplier
    if tackle is None:
        return
    at = case.on_part(placed, "multiplier", "grip")
    label = case.haul.gear(tackle.grip, "multiplier", "grip").gear.max_load
    most = label.si if label else case.limit(UNLABELLED)
    line = case.loads.standing_tension_n / 1000.0
    # Poor sheaves ask most of the grip on the way to the tension; good ones let a heave go farthest.
    reach = case.haul.to_reach_at_worst(line * 1e3).grip_n
    if reach > most:
        remedies = case.put_right(at, lower_tension)
        # 0.98: the pull at which to stop stays below the grip's limit after rounding, too.
        stop = f"stop at {0.98 * line * most / reach:.3g} kN with this grip"
        stronger = f"use one rated {in_kn(reach, 'up')}"
        yield _too_much(
            at, reach, most, f"to bring the line to {line:.3g} kN", *remedies.or_else(stop), stronger
        )
        return
    heave = case.haul.overshoot().grip_n
    if heave > most:
        remedies = case.put_right(at, fewer_haulers)
        stands = f"use a grip rated {in_kn(heave, 'up')}, enough for a full heave"
        when = "when the crew heaves as hard as it can"
        yield _too_much(at, heave, most, when, *remedies.or_else("let fewer haul"), stands)


def _too_much(at: At, force: float, most: float, when: str, *remedies: Remedy | str) -> Fault:
    return Fault(
        at,
        f"The grip takes {force / 1e3:.3g} kN {when}. At most {most / 1e3:.3g} kN.",
        either(*remedies),
        value=most / force,
        limit=1.0,
        unit="1",
        state="haul",
        remedies=tuple(one for one in remedies if isinstance(one, Remedy)),
    )
