"""No aluminium connector carries the line.

It speaks of an aluminium connector being there at all, so it needs no forces. Where the ratio to the peak is
below what is asked of aluminium, `ratio/peak` tells it with the numbers and this rule keeps silent: one
fault, one finding. At `life` no ratio is enough, so `ratio/peak` leaves it to this rule.
"""

from collections.abc import Iterator

from riglint.rulekit import (
    OWN,
    REMOVE,
    At,
    Case,
    Fault,
    Limit,
    MissingInput,
    NotComputable,
    PartLoad,
    Signal,
    Source,
    each_load,
    faulty,
    first_up,
    insert_before,
    need,
    open_,
    rule,
    sound,
)

SHARE = Limit(
    name="share_of_the_line",
    text="0.5",
    dimension=None,
    tighter="lower",
    because="A connector on one strand or leg takes little of the load cycles that wear out aluminium.",
    source=OWN,
)
FATIGUE = Source(
    "Schambron & Uggowitzer 2009 (closed aluminium connectors broke at down to half in dynamic tests); a national "
    "slackline federation's principle 8: no aluminium in the tensioned chain",
    "published",
    ("schambron_uggowitzer_2009", "swiss_ten_principles"),
)
CN_9 = {
    "kind": "connector",
    "material": "aluminium",
    "gate": "screw",
    "mbs": "40 kN",
    "inspected": "2026-04-02",
}
STEEL = {**CN_9, "material": "steel"}
UNKNOWN = {"kind": "connector", "gate": "screw", "mbs": "40 kN"}
CONNECTORS = {"connector", "quick_link"}
JOINED = {
    "chain[6]": insert_before(
        {"part": "sewn_end"},
        {"part": "webbing_join", "gear": "CN-9"},
        {"part": "sewn_end"},
        {"part": "webbing"},
    ),
}
IN_LINE = {"chain[3]": insert_before({"part": "connector", "gear": "CN-9"})}
AS_LINK = {"chain[3]": insert_before({"part": "quick_link", "gear": "CN-9"})}


def _leg(angle: str, share: str = "fixed") -> dict[str, object]:
    legs = [
        {"chain": [{"part": "sling", "gear": "RS-2", "hitch": "straight"}]},
        {"chain": [{"part": "connector", "gear": "CN-9"}]},
    ]
    spread = {"part": "legs", "share": share, "included_angle": angle, "legs": legs}
    return {"shelf[0].items.CN-9": CN_9, "chain[10]": spread}


@rule(
    title="Aluminium connector in the line",
    each=each_load,
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    why=(
        "After many load cycles aluminium connectors break below their label, without warning, "
        "and fly at the crew."
    ),
    formula="an aluminium connector carries no more than half of the line",
    limits=(SHARE,),
    sources=(FATIGUE,),
    prevents=("aluminium_in_the_line",),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        sound("low", {"shelf[0].items.CN-9": STEEL, **IN_LINE}),
        sound(
            "low", {"shelf[0].items.CN-2.material": "aluminium"}
        ),  # the brake's connector carries one strand
        faulty("low", {"shelf[0].items.CN-9": CN_9, **IN_LINE}, at="chain[3]", signal=Signal.WARNING),
        faulty("low", {"shelf[0].items.CN-9": CN_9, **AS_LINK}, at="chain[3]", signal=Signal.WARNING),
        faulty("low", {"shelf[0].items.CN-9": CN_9, **JOINED}, at="chain[7]", signal=Signal.WARNING),
        sound("low", {"shelf[0].items.CN-9": {"kind": "webbing_anchor", "material": "aluminium"}, **JOINED}),
        faulty(
            "long_haul", {"shelf[0].items.CN-9": {**CN_9, "mbs": "42 kN"}, **IN_LINE}, signal=Signal.WARNING
        ),
        # Too weak for aluminium: the ratio to the peak speaks.
        sound("long_haul", {"shelf[0].items.CN-9": {**CN_9, "mbs": "41 kN"}, **IN_LINE}),
        faulty(
            "long_haul",
            {"shelf[0].items.CN-9": {**CN_9, "mbs": "24 kN"}, **IN_LINE, "plan.consequence": "life"},
            at="chain[3]",
            signal=Signal.DANGER,
        ),
        faulty("low", {"shelf[0].items.CN-9": CN_9, **IN_LINE, "plan.users": REMOVE}, at="chain[3]"),
        sound("low", _leg("0 deg")),
        faulty("low", _leg("25 deg"), at="chain[10].legs[1][0]"),
        sound("low", _leg("25 deg", "slack_spare")),
        open_("low", {"shelf[0].items.CN-9": UNKNOWN, **IN_LINE}, at="shelf[0].items.CN-9.material"),
        open_("low", {"chain[3]": insert_before({"part": "connector"})}, at="chain[3].gear"),
    ),
)
def aluminium(case: Case, load: PartLoad) -> Iterator[Fault]:
    if load.part not in {"connector", "quick_link", "shackle", "webbing_join"}:
        return
    item = case.items.get(need(load.gear, At(load.at.document, (*load.at.key, "gear"), load.id)))
    if load.part == "webbing_join" and item is not None and item.gear.kind not in CONNECTORS:
        return
    if item is None or (load.part != "connector" and item.gear.material is None):  # others are mostly steel
        return
    at = case.on_item(item, "material", part=load.id)
    if (
        need(item.gear.material, at) != "aluminium"
        or load.force_of(1.0) <= case.limit(SHARE)
        or _told_by_its_ratio(case, load)
    ):
        return
    yield Fault(
        at,
        f"{first_up(load.words)} is aluminium and carries the line, cycle after cycle.",
        f"Use a steel shackle or a steel screw link instead of {load.gear}.",
        source=FATIGUE,
    )


def _told_by_its_ratio(case: Case, load: PartLoad) -> bool:
    """Return whether `ratio/peak` speaks of this connector already."""
    required = load.required_at(case.consequence)
    if required is None or case.consequence == "life":
        return False
    try:
        worst = load.worst(case.loads.peaks())
    except (MissingInput, NotComputable):
        return False
    return worst is not None and worst.ratio < required
