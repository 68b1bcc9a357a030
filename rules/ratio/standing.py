"""Every part keeps enough strength over its force with nobody on the line. It works without any stretch."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Limit,
    PartLoad,
    Signal,
    Source,
    each_load,
    either,
    faulty,
    in_kn,
    known,
    lower_tension,
    open_,
    rounded,
    rule,
    sound,
    strength_inputs,
)

LEAST = Limit(
    name="least_ratio",
    text="1.5",
    dimension=None,
    tighter="higher",
    because="If a line stands at two thirds of a part's strength, nothing is left for people on it.",
    source=Source("own proposal, for every part and every consequence", "own"),
)
REQUIRED = Limit(
    name="required_ratio",
    text="3",
    dimension=None,
    tighter="higher",
    because="Tension that stands for hours wears the gear and makes it creep. Every bounce comes on top.",
    source=PRACTICE,
)
ADVISED = Limit(
    name="advised_ratio",
    text="5",
    dimension=None,
    tighter="higher",
    because="For long lines that stay up, and for used gear, a fifth is common.",
    source=PRACTICE,
)
SEWN = "shelf[0].items.SE-1.mbs"
# The two ends of a line stand at tensions that its weight sets a little apart; the plan means one of them.
ALIKE = 1.02


ASKED = (
    "chain[2].hitch",
    "chain[7].gear",
    "chain[8].brake.gear",
    "chain[8].fixed_block",
    "chain[8].moving_block",
    "chain[8].rope.dead_end.ends",
    "chain[8].rope.gear",
    "chain[8].strands",
    "plan.standing_tension",
    "plan.wet",
    "shelf[0].items.DB-1.bearing",
    "shelf[0].items.RS-1.length",
    "shelf[0].items.WA-1.mbs",
    "spot.anchors.gate.girth",
)


@rule(
    title="A part is too weak for the standing tension",
    each=each_load,
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    worst=Signal.DANGER,
    why="A part that stands near its strength breaks at the first bounce, or overnight with nobody near.",
    formula="S · r ÷ F ≥ required, advised ratio; F at the planned standing tension",
    limits=(REQUIRED, ADVISED, LEAST),
    prevents=("pulled_past_its_ratio",),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        sound("long_haul", {SEWN: "30.1 kN"}),
        faulty("long_haul", {SEWN: "29.8 kN"}, at="chain[6]", signal=Signal.CAUTION),
        faulty("long_haul", {SEWN: "18.1 kN"}, at="chain[6]", signal=Signal.CAUTION),
        faulty("long_haul", {SEWN: "17.9 kN"}, at="chain[6]", signal=Signal.WARNING),
        faulty(
            "long_haul", {SEWN: "17.9 kN", "plan.consequence": "life"}, at="chain[6]", signal=Signal.DANGER
        ),
        faulty("long_haul", {SEWN: "9.1 kN"}, at="chain[6]", signal=Signal.WARNING),
        faulty("long_haul", {SEWN: "8.9 kN"}, at="chain[6]", signal=Signal.DANGER),
        faulty("long_haul", {SEWN: "17.9 kN", "shelf[0].items.W-1.stretch": REMOVE}, at="chain[6]"),
        *(open_("low", {key: REMOVE}, at=key) for key in ASKED),
        open_("low", {"spot.anchors.gate": {"kind": "structure"}}, at="chain[2].included_angle"),
    ),
)
def standing(case: Case, load: PartLoad) -> Iterator[Fault]:
    # The multiplier is off when the line stands; a part that nobody rates is told by the ratio to the peak.
    if load.only_in is not None or load.strength.no_rating:
        return
    tension, name = _stands_at(case, load)
    force = load.force_of(tension)
    if not force:
        return
    ratio = load.strength.strength_n / force
    if ratio >= case.limit(ADVISED):
        return
    broken = ratio < case.limit(REQUIRED)
    limit, verb = (REQUIRED, "required") if broken else (ADVISED, "advised")
    signal = None if broken else Signal.CAUTION
    least = case.limit(limit)
    kept, at, ends = load.strength.kept, load.strength.at, max(case.limit(REQUIRED), case.limit(ADVISED))
    remedies = case.put_right(at, lower_tension)
    so_far = f" (advised: {ends:g} ×)" if ends > least else ""
    yield Fault(
        at,
        f"With nobody on the line, at {in_kn(tension)}, {load.words} holds "
        f"{rounded(ratio, 'down')} × its load ({in_kn(force)}). {least:g} × is {verb}.",
        either(
            *remedies.or_else(f"plan {in_kn(tension * ratio / ends, 'down')} or less"),
            f"use one that breaks at {in_kn(ends * force / kept, 'up')} or more{so_far}",
        ),
        value=ratio,
        limit=least,
        unit="1",
        inputs=strength_inputs(load, force),
        state=name,
        signal=Signal.DANGER if ratio < case.limit(LEAST) else signal,
        source=limit.source,
        remedies=remedies,
    )


def _stands_at(case: Case, load: PartLoad) -> tuple[float, str]:
    """Return the greatest tension that a part stands at, N, and the state; as planned where nothing can be computed."""
    planned = case.loads.standing_tension_n
    states = known(lambda: case.loads.judged_by("standing")) or []
    found = [(force, state.tension_n, state.name) for state in states if (force := load.force_n(state))]
    force, tension, name = max(found, default=(0.0, planned, "standing"))
    return (tension, name) if force > load.force_of(planned) * ALIKE else (planned, name)
