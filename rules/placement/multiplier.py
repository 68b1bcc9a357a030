"""The multiplier pulls on the lead strand, on the brake's far side."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Placed,
    Signal,
    faulty,
    need,
    open_,
    rule,
    sound,
    the_haul,
)


# No more than CAUTION: the brake still stands between line and grip, so nothing runs out when the grip
# lets go. It costs pull, heat and rope.
@rule(
    title="The multiplier is on the wrong strand",
    each=the_haul,
    signal=Signal.CAUTION,
    why=(
        "The brake eats half of a pull that goes through it. The crew pulls in jerks, and the "
        "brake wears the rope."
    ),
    formula="the grip sits on the lead strand, between moving block and brake",
    sources=(PRACTICE,),
    prevents=("multiplier_on_the_tail",),
    examples=(
        sound("long_haul"),
        sound("long_haul", {"chain[8].multiplier": REMOVE}),
        faulty(
            "long_haul",
            {"chain[8].multiplier.strand": "tail"},
            at="chain[8].multiplier.strand",
            signal=Signal.CAUTION,
        ),
        open_("long_haul", {"chain[8].multiplier.strand": REMOVE}, at="chain[8].multiplier.strand"),
    ),
)
def multiplier(case: Case, placed: Placed) -> Iterator[Fault]:
    tackle = placed.part.multiplier
    if tackle is None:
        return
    at = case.on_part(placed, "multiplier", "strand")
    if need(tackle.strand, at) == "tail":
        passed_on = case.loads.values["brake_redirect"]
        yield Fault(
            at,
            f"The multiplier is on the tail. The brake passes on only {passed_on:g} of its pull.",
            "Set the grip on the lead strand, between moving block and brake. Then the brake "
            "only takes in slack.",
            value="tail",
            limit="lead",
        )
