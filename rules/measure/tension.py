"""What was read on site agrees with the planned standing tension."""

from collections.abc import Iterator, Mapping

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Each,
    Fault,
    Input,
    Limit,
    Reading,
    Signal,
    Source,
    faulty,
    open_,
    review,
    rule,
    set_to,
    sound,
)

APART = Limit(
    name="apart",
    text="15 %",
    dimension="strain_or_ratio",
    tighter="lower",
    because=(
        "A stopwatch and a folding rule give a tension to about a tenth. Beyond that, "
        "something else is going on."
    ),
    source=PRACTICE,
)
STRING = Source(
    "wave speed on a string, OpenStax University Physics 1, section 16.3; sag by the exact line model",
    "published",
    ("openstax_physics_1",),
)
PULSE = {"what": "pulse", "date": "2026-05-01", "returns": 10, "time": "4.5 s ± 0.1 s", "over": "73 m"}
SAG = {
    "what": "sag",
    "date": "2026-05-01",
    "under": "75 kg",
    "at": "41 m",
    "depth": "2.35 m",
    "from": "still_line",
}
LEAD = {"what": "force", "date": "2026-05-01", "where": "lead_strand", "value": "1.3 kN"}
each_reading: Each[int] = Each("every reading", lambda case: range(len(case.rig.measured)))


def _without(entry: Mapping[str, object], key: str) -> dict[str, object]:
    return {name: value for name, value in entry.items() if name != key}


@rule(
    title="A reading doesn't match the plan",
    each=each_reading,
    signal=Signal.CAUTION,
    raised={"fall": Signal.WARNING, "life": Signal.WARNING},
    why=("Every ratio here depends on the planned tension. A tighter line has less to spare in every part."),
    formula=(
        "pulse T = μ·(2·L·n/t)²; sag: T of the line that sags by that depth; lead strand: between lead·Σηⁱ and "
        "lead·Σ(1/η)ⁱ"
    ),
    limits=(APART,),
    sources=(STRING,),
    prevents=("tension_guessed",),
    judges_reading=True,
    examples=(
        sound("long_haul", {"measured": [PULSE]}),
        sound("long_haul", {"measured": [SAG]}),
        review("long_haul", {"measured": [LEAD]}, at="measured[0]", signal=Signal.CAUTION),
        # However unsure a reading is, one that lies too far off the plan is told.
        faulty("long_haul", {"measured": [{**LEAD, "value": "1.5 kN ± 0.5 kN"}]}, at="measured[0]"),
        sound("long_haul", {"measured": [{"what": "force", "where": "line", "value": "6.87 kN"}]}),
        faulty(
            "long_haul",
            {"measured": [{"what": "force", "where": "line", "value": "6.93 kN"}]},
            at="measured[0]",
            signal=Signal.WARNING,
        ),
        faulty(
            "long_haul",
            {"measured": [{"what": "force", "where": "end", "value": "5.07 kN"}]},
            at="measured[0]",
            signal=Signal.CAUTION,
        ),
        sound("long_haul", {"measured": [{"what": "force", "where": "end", "value": "5.13 kN"}]}),
        faulty("long_haul", {"measured": [{**PULSE, "time": "4.0 s"}]}, at="measured[0]"),
        faulty("long_haul", {"measured": [{**SAG, "depth": "1.9 m"}]}, at="measured[0]"),
        open_("long_haul", {"measured": [_without(PULSE, "time")]}, at="measured[0].time"),
        open_("long_haul", {"measured": [_without(PULSE, "over")]}, at="measured[0].over"),
        open_("long_haul", {"measured": [_without(SAG, "under")]}, at="measured[0].under"),
        open_("long_haul", {"measured": [_without(SAG, "depth")]}, at="measured[0].depth"),
        open_("long_haul", {"measured": [_without(LEAD, "where")]}, at="measured[0].where"),
        open_("long_haul", {"measured": [LEAD], "plan.standing_tension": REMOVE}, at="plan.standing_tension"),
        faulty("long_haul", {"measured": [{**LEAD, "value": "3 kN"}]}, at="measured[0]"),
    ),
)
def tension(case: Case, number: int) -> Iterator[Fault]:
    planned = case.loads.planned_standing_tension_n
    read = case.loads.reading(number)
    allowed = case.limit(APART)
    high, low = planned * (1.0 + allowed), planned * (1.0 - allowed)
    best, plan = read.tension_n / 1e3, planned / 1000.0
    if low <= read.tension_n <= high:
        # Only the tight side is told: a looser line loads every part less.
        if read.high_n > high:
            yield _may_be_tighter(read, plan, allowed)
        return
    above = read.tension_n > planned
    spread = (
        f", between {max(read.low_n, 0.0) / 1e3:.3g} and {read.high_n / 1e3:.3g} kN"
        if read.high_n > read.low_n
        else ""
    )
    key = ("plan", "standing_tension")
    remedies = case.put_right(
        read.at, set_to(key, "put {} into the plan, as it was read", "kN", read.tension_n)
    )
    yield Fault(
        read.at,
        f"The {read.what} you read means {best:.3g} kN{spread}. The plan says {plan:.3g} kN.",
        f"Lower the line to {plan:.3g} kN, or put {best:.3g} kN into the plan and audit again."
        if above
        else f"Read again. If it stays the same, put {best:.3g} kN into the plan and find out what slipped.",
        value=best,
        limit=plan,
        unit="kN",
        inputs=(Input("reading", "T", best, "kN", read.at.reference), Input("planned", "T0", plan, "kN")),
        signal=None if above else Signal.CAUTION,
        remedies=remedies,
    )


def _may_be_tighter(read: Reading, plan_kn: float, allowed: float) -> Fault:
    """Say that a reading fits, but not over its whole range."""
    most = read.high_n / 1000.0
    return Fault(
        read.at,
        f"The {read.what} you read means {read.tension_n / 1e3:.3g} kN, and up to {most:.3g} kN "
        f"by its range. The plan says {plan_kn:.3g} kN; at most {allowed * 100.0:g} % apart.",
        "Read the tension another way too, or more closely.",
        value=most,
        limit=plan_kn * (1.0 + allowed),
        unit="kN",
        kind="review",
        signal=Signal.CAUTION,
    )
