"""A fall on the leash stays within what a body may be stopped with."""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    Arrests,
    Case,
    Fault,
    Input,
    Leash,
    Limit,
    Signal,
    Source,
    faulty,
    in_kn,
    open_,
    review,
    rounded,
    rule,
    sound,
    the_leash,
)

MOST = Limit(
    name="most_on_the_body",
    text="6 kN",
    dimension="force",
    tighter="lower",
    because="Fall arrest allows no harder stop, and that in a full body harness. A sit harness spreads it less.",
    source=Source(
        "EN 355:2002 and EN 363: arrest force at most 6 kN, from test-house summaries",
        "standard",
        ("en_355",),
    ),
)
STIFF = {
    "shelf[0].items.W-1.stretch": {"10 kN": "0.6 %"},
    "shelf[0].items.W-1.stretch_in_use": {"10 kN": "0.6 %"},
}
ZONE = "plan.walk_zone"


@rule(
    title="A fall on the leash stops the body hard",
    each=the_leash,
    signal=Signal.WARNING,
    why=(
        "Near an anchor, or on a stiff line, the leash stops a fall within centimetres. Ribs, "
        "spine and pelvis break."
    ),
    formula="force in the leash by E(line) + E(leash) = m·g·(fall), quasi-static, at its low edge ≤ 6 kN",
    limits=(MOST,),
    prevents=("leash_short_or_static",),
    examples=(
        sound("low"),
        sound("highline", {ZONE: ["6 m", "6 m"]}),
        review("highline", {**STIFF, ZONE: ["2 m", "2 m"]}, at=ZONE, signal=Signal.CAUTION),
        sound("highline", {**STIFF, ZONE: ["3.2 m", "3.2 m"]}),
        review("highline", {**STIFF, ZONE: ["3.1 m", "3.1 m"]}, at=ZONE, signal=Signal.CAUTION),
        faulty("highline", {**STIFF, "plan.users[0].mass": "140 kg"}, at="leash.gear", signal=Signal.WARNING),
        open_("highline", {"leash.hang": REMOVE}, at="leash.hang"),
        open_("highline", {"plan.users[0].mass": REMOVE}, at="plan.users[0].mass"),
        open_("highline", {"shelf[0].items.W-1.stretch": REMOVE}, at="shelf[0].items.W-1.stretch"),
    ),
)
def arrest_force(case: Case, leash: Leash) -> Iterator[Fault]:
    if leash.hang is not None and leash.hang.si == 0.0:
        return  # nobody falls on a leash without a length; leash/build tells it
    falls, most = Arrests(case.loads), case.limit(MOST)
    middle, hardest = falls.middle(), falls.hardest()
    inputs = (
        Input("heaviest user", "m", falls.case.heaviest_kg, "kg"),
        Input("fall until the leash is taut", "h", falls.height_m, "m"),
        Input("force that would double the leash's length", "κ", falls.modulus_n / 1e3, "kN"),
    )
    # The gentle edge of the range: told as a fault only where even that is too hard.
    if middle.low_n > most:
        yield Fault(
            case.at("leash", "gear", part="leash"),
            f"A fall in the middle of the line pulls at least {in_kn(middle.low_n)} on the body. "
            f"Fall arrest allows at most {in_kn(most)}.",
            "Use webbing that stretches more, or a leash of dynamic rope. Let nobody that heavy on this line.",
            value=middle.low_n / 1e3,
            limit=most / 1e3,
            unit="kN",
            inputs=inputs,
        )
    elif hardest.low_n > most:
        from_m = falls.gentler_from_m(most)
        stay = "" if from_m is None else f" From {rounded(from_m, 'up')} m on it stays below {in_kn(most)}."
        yield Fault(
            case.at("plan", "walk_zone"),
            f"A fall {rounded(hardest.from_end_m)} m from the end of the webbing pulls at least "
            f"{in_kn(hardest.low_n)} on the body.{stay}",
            "Sit down or walk off before you come closer. Don't practise falls there. Use a "
            "leash of dynamic rope.",
            value=hardest.low_n / 1e3,
            limit=most / 1e3,
            unit="kN",
            inputs=inputs,
            kind="review",
            signal=Signal.CAUTION,
        )
