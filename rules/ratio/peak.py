"""Every part keeps enough strength over its force when somebody bounces, surfs, jumps, or a crowd stands on the line.

The ratio asked of a part stands in the table of required ratios, by what it is and by what a failure would mean.
Aluminium connectors are asked 4.0 and 5.0 here; where none is allowed at all, `placement/aluminium` says so.
"""

from collections.abc import Iterator
from math import isinf

from riglint.rulekit import (
    OWN,
    REMOVE,
    Case,
    Fault,
    Limit,
    PartLoad,
    Signal,
    Source,
    each_load,
    faulty,
    in_kn,
    open_,
    rounded,
    rule,
    sound,
    strength_inputs,
)

WHERE = {"ground": "means a stumble", "fall": "means a fall", "life": "can cost a life"}

LEAST = Limit(
    name="least_ratio",
    text="1.5",
    dimension=None,
    tighter="higher",
    because="Labels, ageing, and a bounce above the planned one together can take a third off any part.",
    source=Source("own proposal, for every part and every consequence", "own"),
)
ADVISED_GROUND = Limit(
    name="advised_ground",
    text="2.5",
    dimension=None,
    tighter="higher",
    because="Half a step above the required ratio leaves room for one bounce harder than planned.",
    source=OWN,
)
ADVISED_FALL = Limit(
    name="advised_fall",
    text="3.0",
    dimension=None,
    tighter="higher",
    because="A peak of no more than a third of the breaking strength is what highline clubs ask.",
    source=Source(
        "a highline club's safety page asks it of highlines; advised here below that height", "published"
    ),
)
SLING = "shelf[0].items.RS-1"


@rule(
    title="Too little strength for the peak",
    each=each_load,
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    worst=Signal.DANGER,
    why="A part that breaks under a bounce lets the loaded line go, with walker and hardware, all at once.",
    formula="S · r ÷ F ≥ required ratio, F the worst of bounce, surf, jump, crowd",
    limits=(LEAST, ADVISED_GROUND, ADVISED_FALL),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("low", {"shelf[0].items.SE-1.mbs": "20.5 kN"}),
        faulty("low", {"shelf[0].items.SE-1.mbs": "20.2 kN"}, at="chain[6]", signal=Signal.CAUTION),
        faulty("low", {"shelf[0].items.SE-1.mbs": "16.4 kN"}, at="chain[6]", signal=Signal.CAUTION),
        faulty("low", {"shelf[0].items.SE-1.mbs": "16.1 kN"}, at="chain[6]", signal=Signal.WARNING),
        sound("long_haul", {"shelf[0].items.SE-1.mbs": "24.9 kN"}),
        faulty("long_haul", {"shelf[0].items.SE-1.mbs": "24.6 kN"}, at="chain[6]", signal=Signal.CAUTION),
        faulty("long_haul", {"shelf[0].items.SE-1.mbs": "20.4 kN"}, at="chain[6]", signal=Signal.WARNING),
        faulty("long_haul", {"shelf[0].items.SE-1.mbs": "12.5 kN"}, at="chain[6]", signal=Signal.WARNING),
        faulty("long_haul", {"shelf[0].items.SE-1.mbs": "12.2 kN"}, at="chain[6]", signal=Signal.DANGER),
        sound("long_haul", {"plan.consequence": "life", "shelf[0].items.SE-1.mbs": "24.9 kN"}),
        faulty(
            "long_haul",
            {"plan.consequence": "life", "shelf[0].items.SE-1.mbs": "24.6 kN"},
            signal=Signal.DANGER,
        ),
        faulty("long_haul", {"shelf[0].items.RP-1.mbs": "11 kN"}, at="chain[8].rope", signal=Signal.WARNING),
        faulty("low", {f"{SLING}.length": "1.5 m"}, at="chain[2]", signal=Signal.DANGER),
        faulty("low", {"chain[3].side_load": "95 deg"}, at="chain[3]", signal=Signal.DANGER),
        open_(
            "low",
            {"shelf[0].items.SE-1": {"kind": "sewn_end"}, "shelf[0].items.W-1.mbs": REMOVE},
            at="shelf[0].items.W-1.mbs",
        ),
        open_("low", {f"{SLING}.wll": REMOVE}, at=f"{SLING}.mbs"),
        open_("low", {f"{SLING}.length": REMOVE}, at=f"{SLING}.length"),
        open_("low", {"chain[2].hitch": REMOVE}, at="chain[2].hitch"),
        open_("low", {"spot.anchors.gate.girth": REMOVE}, at="spot.anchors.gate.girth"),
        open_("low", {"spot.span": REMOVE}, at="spot.span"),
        open_("low", {"plan.standing_tension": REMOVE}, at="plan.standing_tension"),
        open_("low", {"plan.users": REMOVE}, at="plan.users"),
        open_("low", {"plan.users[0].mass": REMOVE}, at="plan.users[0].mass"),
        open_("low", {"plan.wet": REMOVE}, at="plan.wet"),
        open_("low", {"shelf[0].items.W-1.stretch": REMOVE}, at="shelf[0].items.W-1.stretch"),
        open_("low", {"shelf[0].items.W-1.mass_per_metre": REMOVE}, at="shelf[0].items.W-1.mass_per_metre"),
        open_("low", {"chain[8].open": REMOVE}, at="chain[8].open"),
        open_("low", {"chain[8].strands": REMOVE}, at="chain[8].strands"),
        open_("low", {"chain[8].rope.dead_end.ends": REMOVE}, at="chain[8].rope.dead_end.ends"),
        open_("low", {"shelf[0].items.DB-1.bearing": REMOVE}, at="shelf[0].items.DB-1.bearing"),
    ),
)
def peak(case: Case, load: PartLoad) -> Iterator[Fault]:
    if load.only_in is not None:  # the multiplier is off when people walk
        return
    if load.strength.no_rating:
        yield _unrated(load, load.strength.no_rating)
        return
    worst, required = load.worst(case.loads.peaks()), load.required_at(case.consequence)
    if worst is None or required is None or isinf(required):
        return
    asked, signal, source = required, None, load.required.source
    if worst.ratio < case.limit(LEAST):
        signal = Signal.DANGER
    elif worst.ratio >= required:
        advised = {"ground": ADVISED_GROUND, "fall": ADVISED_FALL}.get(case.consequence)
        if advised is None or worst.ratio >= case.limit(advised):
            return
        asked, signal, source = case.limit(advised), Signal.CAUTION, advised.source
    state, needed = worst.state.replace("_", " "), asked * worst.force_n
    kept = load.strength.strength_n / load.strength.breaking_n
    verb = "advised" if signal is Signal.CAUTION else "required"
    yield Fault(
        load.strength.at,
        f"In the {state}, {load.words} keeps {rounded(worst.ratio, 'down')} times its force of {in_kn(worst.force_n)}; "
        f"{asked:g} is {verb} where a failure {WHERE[case.consequence]}.",
        f"Use one that breaks at {in_kn(needed / kept, 'up')} or more ({in_kn(needed, 'up')} in its place), or bring the "
        f"{state} down to {in_kn(load.strength.strength_n / asked, 'down')} on it: less tension or a lighter user.",
        value=worst.ratio,
        limit=asked,
        unit="1",
        inputs=strength_inputs(load, worst.force_n),
        state=worst.state,
        signal=signal,
        source=source,
    )


def _unrated(load: PartLoad, reason: str) -> Fault:
    longer = "Use a longer sling: 1.07 × the girth, protector included, lays its legs at 90°."
    turned = "Turn it until the load lies in the plane of its bow, within 45° at most."
    return Fault(
        load.strength.at,
        f"The strength of {load.words} in its place is not known to anybody: {reason}.",
        longer if load.part == "sling" else turned,
        signal=Signal.DANGER,
        source=Source(
            "EN 1492 mode factors end at 120° included; side loads of shackles are rated to 90°", "standard"
        ),
    )
