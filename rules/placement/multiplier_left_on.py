"""The multiplier is off the rope when people walk."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    OnCard,
    Placed,
    Signal,
    faulty,
    open_,
    review,
    rule,
    sound,
    the_haul,
    tick,
)

BUILT = {"stage": "walking", "chain[8].multiplier.left_on": False}
SEEN = [{"what": "left_on", "date": "2026-05-02", "after_tension": "6 kN"}]


@rule(
    title="The multiplier stays on while people walk",
    each=the_haul,
    signal=Signal.WARNING,
    raised={"fall": Signal.WARNING, "life": Signal.DANGER},
    why=(
        "A grip left on the rope takes the peaks of walking in its teeth. It cuts the sheath and "
        "hides a slipping brake."
    ),
    formula="the multiplier is taken off before anyone walks",
    sources=(PRACTICE,),
    prevents=("multiplier_left_on",),
    on_card=OnCard(closing="Grip and multiplier are off the rope.", closing_with="multiplier"),
    examples=(
        sound("long_haul"),
        sound("long_haul", {"chain[8].multiplier": REMOVE, "stage": "walking"}),
        sound("long_haul", {**BUILT, "checks": SEEN}),
        faulty("long_haul", {"chain[8].multiplier.left_on": True}, at="chain[8].multiplier.left_on"),
        faulty(
            "long_haul",
            {"chain[8].multiplier.left_on": True, "plan.consequence": "life"},
            signal=Signal.DANGER,
        ),
        review("long_haul", {"chain[8].multiplier.left_on": REMOVE}, at="chain[8].multiplier.left_on"),
        open_(
            "long_haul",
            {"chain[8].multiplier.left_on": REMOVE, "stage": "walking"},
            at="chain[8].multiplier.left_on",
        ),
        open_("long_haul", BUILT, at="checks"),
    ),
)
def multiplier_left_on(case: Case, placed: Placed) -> Iterator[Fault]:
    tackle = placed.part.multiplier
    if tackle is None:
        return
    at = case.on_part(placed, "multiplier", "left_on")
    what = "The multiplier stays on the rope while people walk"
    do = (
        "Once the brake is locked and before anyone walks, take grip and multiplier off the rope."
        if placed.part.stays
        else "Once the line is tied off and before anyone walks, take grip, multiplier and pulley system off."
    )
    yield from tick(case, tackle.left_on, at, what, do, right=False)
