"""Every part keeps enough strength over its force in the worst peak: bounce, surf, jump, leash fall, crowd.

The ratio asked of a part stands in the table of required ratios, by what the part is and by what a failure
would mean. Aluminium connectors are asked 4.0 and 5.0 here; where none is allowed at all,
`placement/aluminium` says so.
"""

from collections.abc import Iterator
from math import isinf
from typing import NamedTuple

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
    either,
    faulty,
    first_up,
    in_kn,
    lighter_user,
    lower_tension,
    open_,
    rounded,
    rule,
    sound,
    strength_inputs,
    when,
)

WHERE = {"ground": "means a stumble", "fall": "means a fall", "life": "can cost a life"}

LEAST = Limit(
    name="least_ratio",
    text="1.5",
    dimension=None,
    tighter="higher",
    because="Labels, ageing and a harder bounce than planned can together take a third off any part.",
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
    because="Highline clubs ask for a peak of at most a third of the breaking strength.",
    source=Source(
        "a highline club's safety page asks it of highlines; advised here below that height", "unnamed"
    ),
)
SEWN, WEBBING = "shelf[0].items.SE-1.mbs", "shelf[0].items.W-1.mbs"
ROPE = "shelf[0].items.RP-1.mbs"
ASKED = (
    "chain[2].hitch",
    "chain[7].gear",
    "chain[8].brake.connector",
    "chain[8].brake.gear",
    "chain[8].fixed_block",
    "chain[8].moving_block",
    "chain[8].open",
    "chain[8].rope.dead_end.by",
    "chain[8].rope.dead_end.ends",
    "chain[8].rope.gear",
    "chain[8].strands",
    "plan.standing_tension",
    "plan.users",
    "plan.users[0].mass",
    "plan.wet",
    "shelf[0].items.DB-1.bearing",
    "shelf[0].items.RS-1.length",
    "shelf[0].items.W-1.mass_per_metre",
    "shelf[0].items.W-1.stretch",
    "shelf[0].items.WA-1.mbs",
    "spot.anchors.gate.girth",
    "spot.span",
)
ASKED_OF_HIGHLINES = (
    "backups[0].chain",
    "chain[1].included_angle",
    "chain[1].legs[0].chain[1].gear",
    "chain[1].legs[0].chain[1].hitch",
    "chain[1].share",
    "leash.hang",
)


@rule(
    title="A part is too weak for the peak",
    each=each_load,
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    worst=Signal.DANGER,
    why="A part that breaks in a bounce lets the line go with its full load, walker and hardware, all at once.",
    formula="S · r ÷ F ≥ required ratio, F the worst of bounce, surf, jump, leash fall, crowd",
    limits=(LEAST, ADVISED_GROUND, ADVISED_FALL),
    prevents=(
        "pulled_past_its_ratio",
        "sewn_end_counted_in_full",
        "shackle_pulled_sideways",
        "jumps_on_walking_kit",
        "strength_unknown",
        "unrated_hardware",
        "wet_nylon_counted_dry",
    ),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        sound("low", {SEWN: "20.5 kN"}),
        faulty("low", {SEWN: "20.2 kN"}, at="chain[6]", signal=Signal.CAUTION),
        faulty("low", {SEWN: "16.4 kN"}, at="chain[6]", signal=Signal.CAUTION),
        faulty("low", {SEWN: "16.1 kN"}, at="chain[6]", signal=Signal.WARNING, shows="pulled_past_its_ratio"),
        sound("long_haul", {SEWN: "24.9 kN"}),
        faulty("long_haul", {SEWN: "24.6 kN"}, at="chain[6]", signal=Signal.CAUTION),
        faulty("long_haul", {SEWN: "20.4 kN"}, at="chain[6]", signal=Signal.WARNING),
        faulty("long_haul", {SEWN: "12.5 kN"}, at="chain[6]", signal=Signal.WARNING),
        faulty("long_haul", {SEWN: "12.2 kN"}, at="chain[6]", signal=Signal.DANGER),
        sound("long_haul", {"plan.consequence": "life", SEWN: "24.9 kN"}),
        faulty(
            "long_haul",
            {"plan.consequence": "life", SEWN: "24.6 kN"},
            signal=Signal.DANGER,
        ),
        faulty("long_haul", {"shelf[0].items.RP-1.mbs": "11 kN"}, at="chain[8].rope", signal=Signal.WARNING),
        faulty(
            "low", {SEWN: REMOVE, WEBBING: "20 kN"}, signal=Signal.WARNING, shows="sewn_end_counted_in_full"
        ),
        sound("low", {SEWN: "22 kN"}),
        faulty("low", {SEWN: "22 kN", "plan.moves": ["jump"]}, at="chain[6]", shows="jumps_on_walking_kit"),
        sound("low", {ROPE: "9.6 kN"}),
        faulty("low", {ROPE: "9.6 kN", "plan.wet": True}, at="chain[8].rope", shows="wet_nylon_counted_dry"),
        open_(
            "low", {"shelf[0].items.QL-1.mbs": REMOVE}, at="shelf[0].items.QL-1.mbs", shows="unrated_hardware"
        ),
        # Too short a sling is told by anchor/sling_angle.
        sound("low", {"shelf[0].items.RS-1.length": "1.5 m"}),
        faulty(
            "low",
            {"chain[3].side_load": "95 deg"},
            at="chain[3]",
            signal=Signal.DANGER,
            shows="shackle_pulled_sideways",
        ),
        *(open_("low", {key: REMOVE}, at=key) for key in ASKED),
        *(open_("highline", {key: REMOVE}, at=key) for key in ASKED_OF_HIGHLINES),
        open_("low", {"spot.anchors.gate": {"kind": "structure"}}, at="chain[2].included_angle"),
        open_(
            "low", {"shelf[0].items.RS-1.wll": REMOVE}, at="shelf[0].items.RS-1.mbs", shows="strength_unknown"
        ),
        open_("low", {"shelf[0].items.SE-1": {"kind": "sewn_end"}, WEBBING: REMOVE}, at=WEBBING),
        open_("low", {"spot": REMOVE}, at="spot"),
    ),
)
def peak(case: Case, load: PartLoad) -> Iterator[Fault]:
    if load.only_in is not None:  # the multiplier is off when people walk
        return
    if load.strength.no_rating:
        if load.part == "sling" and "made_fast" not in load.at.key:
            return  # too short or too wide: anchor/sling_angle tells it
        if load.untied:
            return  # placement/rope_end tells it
        yield _unrated(load, load.strength.no_rating)
        return
    worst = load.worst(case.loads.peaks())
    missed = _missed(case, load, worst.ratio) if worst is not None else None
    if worst is None or missed is None:
        return
    kept, at = load.strength.kept, load.strength.at
    remedies = case.put_right(at, lower_tension, lighter_user)
    less = f"cut its load {when(worst.state)} to {in_kn(load.strength.strength_n / missed.ends, 'down')}"
    yield Fault(
        at,
        f"{first_up(when(worst.state))}, {load.named} holds {rounded(worst.ratio, 'down')} × its load "
        f"({in_kn(worst.force_n)}). Where a failure {WHERE[case.consequence]}, {missed.ratio:g} × "
        f"is {missed.verb}.",
        either(
            *remedies.or_else(f"{less} (lower tension, lighter user)"),
            f"use one that breaks at {in_kn(missed.ends * worst.force_n / kept, 'up')} or more{missed.so_far}",
        ),
        value=worst.ratio,
        limit=missed.ratio,
        unit="1",
        inputs=strength_inputs(load, worst.force_n),
        state=worst.state,
        signal=missed.signal,
        source=missed.source,
        remedies=remedies,
    )


class _MissedByPart(NamedTuple):
    """A ratio that a part does not reach."""

    ratio: float
    verb: str
    signal: Signal | None  # None: the rule's own word
    source: Source
    ends: float  # the ratio with which nothing is left to say of the part

    @property
    def so_far(self) -> str:
        """How far the advice goes, where that is further than what is required."""
        return f" (advised: {self.ends:g} ×)" if self.ends > self.ratio else ""


def _missed(case: Case, load: PartLoad, ratio: float) -> _MissedByPart | None:
    required = load.required_at(case.consequence)
    if required is None or isinf(required):
        return None
    advised = {"ground": ADVISED_GROUND, "fall": ADVISED_FALL}.get(case.consequence)
    ends = max(required, case.limit(advised)) if advised else required
    if ratio < required:
        signal = Signal.DANGER if ratio < case.limit(LEAST) else None
        return _MissedByPart(required, "required", signal, load.required.source, ends)
    if advised is None or ratio >= case.limit(advised):
        return None
    return _MissedByPart(case.limit(advised), "advised", Signal.CAUTION, advised.source, ends)


def _unrated(load: PartLoad, reason: str) -> Fault:
    longer = "Use a longer sling. At 1.07 × the girth, including the protector, its legs open to 90°."
    turned = "Turn it until the load is in the plane of its bow, at most 45° off."
    return Fault(
        load.strength.at,
        f"Nobody knows what {load.words} holds in place here: {reason}.",
        longer if load.part == "sling" else turned,
        signal=Signal.DANGER,
        source=Source(
            "EN 1492 mode factors end at 120° included; side loads of shackles are rated to 90°",
            "standard",
            ("en_1492",),
        ),
    )
