"""Every part bears what the crew could reach in one heave, friction being kind to them.

One finding for the rig: it names the part with the least to spare and counts the others below the ratio.
"""

from collections.abc import Iterator
from math import floor
from typing import NamedTuple

from riglint.rulekit import (
    OWN,
    REMOVE,
    At,
    Case,
    Fault,
    Input,
    Limit,
    MissingInput,
    NotComputable,
    PartLoad,
    Signal,
    Source,
    Worst,
    either,
    faulty,
    fewer_haulers,
    first_up,
    in_kn,
    need,
    open_,
    rounded,
    rule,
    sound,
    strength_inputs,
    the_rig,
    unanswered,
)

REQUIRED = Limit(
    name="required_ratio",
    text="2.0",
    dimension=None,
    tighter="higher",
    because=(
        "Nobody on the rope feels the tension. For a moment each person pulls twice their steady "
        "pull, and the brake holds each gain."
    ),
    source=OWN,
)
LEAST = Limit(
    name="least_ratio",
    text="1.5",
    dimension=None,
    tighter="higher",
    because="Below this, one more pair of hands than planned reaches the breaking strength.",
    source=Source("own proposal, for every part and every consequence", "own"),
)
SEWN = "shelf[0].items.SE-1.mbs"


ASKED = (
    "chain[2].hitch",
    "chain[7].gear",
    "chain[8].brake.gear",
    "chain[8].fixed_block",
    "chain[8].moving_block",
    "chain[8].multiplier.connector",
    "chain[8].multiplier.pulley",
    "chain[8].multiplier.ratio",
    "chain[8].rope.dead_end.ends",
    "chain[8].rope.gear",
    "chain[8].strands",
    "plan.crew.haulers",
    "plan.wet",
    "shelf[0].items.DB-1.bearing",
    "shelf[0].items.RS-1.length",
    "shelf[0].items.WA-1.mbs",
    "spot.anchors.gate.girth",
)


def _tackle(form: str = "webbing_tackle", *, haulers: object, **keys: object) -> dict[str, object]:
    """Tension the low line with a puller of 35 kN in place of its pulley."""
    item = {"kind": "puller", "form": form, "material": "mixed", "mbs": "35 kN", "inspected": "2026-04-02"}
    return {
        "chain[8]": {"part": "puller", "gear": "PU-1"} | keys,
        "shelf[0].items.PU-1": item,
        "plan.crew.haulers": haulers,
    }


@rule(
    title="The crew could overload a part while hauling",
    each=the_rig,
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    worst=Signal.DANGER,
    why="A line hauled past the strength of its weakest part breaks beside the people on the rope.",
    formula=(
        "S · r ÷ F ≥ 2; F the greatest of what every hauler keeps up at the high end of all efficiencies, one heave "
        "past the plan, and the plan itself"
    ),
    limits=(REQUIRED, LEAST),
    prevents=("too_many_hands",),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        sound("low", {SEWN: "24.5 kN"}),
        faulty("low", {SEWN: "24.1 kN"}, at="chain[6]", signal=Signal.WARNING),
        faulty("low", {SEWN: "18.4 kN"}, at="chain[6]", signal=Signal.WARNING),
        faulty("low", {SEWN: "18 kN"}, at="chain[6]", signal=Signal.DANGER),
        faulty("low", {SEWN: "24.1 kN", "plan.consequence": "life"}, at="chain[6]", signal=Signal.DANGER),
        faulty("low", {"plan.crew.haulers": 3}, at="chain[6]"),
        faulty("low", {"shelf[0].items.CN-1.mbs": "4.5 kN"}, at="chain[8].multiplier.connector"),
        sound("low", {"shelf[0].items.CN-1.mbs": "4.7 kN"}),
        *(open_("low", {key: REMOVE}, at=key) for key in ASKED),
        open_("low", {"spot.anchors.gate": {"kind": "structure"}}, at="chain[2].included_angle"),
        open_("low", {"plan.crew": REMOVE}, at="plan.crew.haulers"),
        faulty("long_haul", {"plan.crew.haulers": 9}),
        sound("low", _tackle(haulers=2)),
        sound("low", _tackle(haulers=6, ratio=5)),
        faulty("low", _tackle(haulers=9, ratio=5), at="chain[6]", signal=Signal.WARNING),
        open_("low", _tackle(haulers=9), at="chain[8].ratio"),
        open_("low", _tackle(haulers=REMOVE), at="plan.crew.haulers"),
        sound("low", _tackle("ratchet", haulers=9)),
    ),
)
def haul_overshoot(case: Case, _rig: None) -> Iterator[Fault]:
    if case.loads.haul is None and case.loads.puller is None:
        return
    found, unable = _below(case)
    if found and case.loads.haul is None:
        yield from _with_a_puller(case, found)
    elif found:
        yield _fault(case, found)
    if unable is not None:
        raise unable


class _Below(NamedTuple):
    """A part that keeps less than the required ratio."""

    load: PartLoad
    worst: Worst


def _below(case: Case) -> tuple[list[_Below], MissingInput | NotComputable | None]:
    """Return the parts below the required ratio, weakest first, and what keeps others from being judged."""
    states = case.loads.judged_by("overshoot")
    found: list[_Below] = []
    missing: dict[tuple[object, ...], At] = {}
    unable: NotComputable | None = None
    for load in case.loads.parts:
        try:
            # What nobody rates in its place is told by the ratio to the peak or by the sling's angle.
            worst = None if load.strength.no_rating else load.worst(states)
        except MissingInput as reason:
            missing |= {(at.path, at.key, at.part): at for at in reason.fields}
            continue
        except NotComputable as reason:
            unable = unable or reason
            continue
        if worst is not None and worst.ratio < case.limit(REQUIRED):
            found.append(_Below(load, worst))
    found.sort(key=lambda one: one.worst.ratio)
    return found, MissingInput(*missing.values()) if missing else unable


def _with_a_puller(case: Case, found: list[_Below]) -> Iterator[Fault]:
    """Judge what a crew reaches on a ratchet, hoist or webbing tackle.

    Raises:
        MissingInput: it is too much only by the usual ratio of such a puller, which the file does not give.
    """
    puller = case.loads.puller
    assert puller is not None  # noqa: S101 - asked for by the caller
    load, worst = found[0]
    if puller.ratio_assumed:
        at = case.on_part(puller.placed, "ratio")
        lacks = (
            f"is not filled in. {first_up(case.loads.haul_state.kind.plain)}, {load.named} would take "
            f"{in_kn(worst.force_n)}"
        )
        raise MissingInput(unanswered(at, lacks, f"Enter the ideal ratio of {puller.placed.words} there."))
    yield _fault(case, found)


def _fault(case: Case, found: list[_Below]) -> Fault:
    load, worst = found[0]
    required, at = case.limit(REQUIRED), case.at("plan", "crew", "haulers")
    haulers = need(case.plan.crew.haulers if case.plan and case.plan.crew else None, at)
    # Force on each part grows in step with the number who pull.
    most = floor(haulers * worst.ratio / required)
    remedies = case.put_right(load.strength.at, fewer_haulers)
    fewer = (
        f"let {most} haul instead of {haulers}"
        if most
        else "use a smaller ratio; even one person is too many"
    )
    others = ", ".join(one.load.words for one in found[1:])
    more = f" Below it too: {others}." if others else ""
    kept = load.strength.kept
    each = ", and the same for the others" if others else ""
    return Fault(
        load.strength.at,
        f"If the whole crew of {haulers} heaves at once, {load.words} takes "
        f"{in_kn(worst.force_n)}. It holds only {rounded(worst.ratio, 'down')} × that; you need "
        f"{required:g} ×.{more}",
        either(
            *remedies.or_else(fewer),
            f"use one that breaks at {in_kn(required * worst.force_n / kept, 'up')} or more{each}",
        ),
        value=worst.ratio,
        limit=required,
        unit="1",
        inputs=(
            *strength_inputs(load, worst.force_n),
            Input("haulers", "n", float(haulers), "1", at.reference),
        ),
        state=worst.state,
        signal=Signal.DANGER if worst.ratio < case.limit(LEAST) else None,
        remedies=remedies,
    )
