"""Stakes and other ground anchors count for what they were pulled to in a test, and for nothing else."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    End,
    Fault,
    Input,
    Limit,
    Signal,
    Source,
    either,
    ends,
    faulty,
    in_kn,
    lighter_user,
    lower_tension,
    need,
    open_,
    review,
    rounded,
    rule,
    sound,
    when,
)

LEAST = Limit(
    name="least_ratio",
    text="1.0",
    dimension=None,
    tighter="higher",
    because="Beyond its test load nobody knows whether the anchor stays in the ground.",
    source=Source("own proposal: a pull above the test is unknown ground", "own"),
)
GATE, WEST = "spot.anchors.gate", "spot.anchors.west"
MOST = Limit(
    name="most_tested",
    text="100 kN",
    dimension="force",
    tighter="lower",
    because="No crew pulls a stake or a buried beam with 10 t by hand: above it a decimal or a unit is wrong.",
    source=PRACTICE,
)


def _stakes(tested: str) -> dict[str, object]:
    return {"kind": "ground", "tested_force": tested, "tested": "2026-04-20"}


# Half of the gate's load goes to something else.
SHARED = {
    "part": "legs",
    "share": "fixed",
    "included_angle": "60 deg",
    "legs": [{"to": "gate"}, {"to": "other"}],
}


@rule(
    title="The ground anchor's test load is too low",
    each=ends("ground"),
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    worst=Signal.DANGER,
    why="A stake pulled out of soft ground flies along the line, point first.",
    formula="tested force ÷ T ≥ required ratio, T the worst pull at that end",
    limits=(LEAST, MOST),
    sources=(Source("1.5, 2 or 3 by what a failure means", "practice"),),
    prevents=("ground_anchor_pulls_out",),
    examples=(
        sound("highline"),
        sound("low", {GATE: _stakes("12.9 kN")}),
        faulty("low", {GATE: _stakes("12.5 kN")}, at=f"{GATE}.tested_force", signal=Signal.WARNING),
        faulty("low", {GATE: _stakes("8.6 kN")}, at=f"{GATE}.tested_force", signal=Signal.WARNING),
        faulty("low", {GATE: _stakes("8.3 kN")}, at=f"{GATE}.tested_force", signal=Signal.DANGER),
        sound("low", {GATE: _stakes("17.2 kN"), "plan.consequence": "fall"}),
        faulty("low", {GATE: _stakes("16.8 kN"), "plan.consequence": "fall"}, signal=Signal.WARNING),
        sound("highline", {WEST: _stakes("30.6 kN")}),
        faulty("highline", {WEST: _stakes("30 kN")}, at=f"{WEST}.tested_force", signal=Signal.DANGER),
        sound("low", {"chain[2]": SHARED, "spot.anchors.other": _stakes("7.1 kN")}),
        faulty(
            "low",
            {"chain[2]": SHARED, "spot.anchors.other": _stakes("6.9 kN")},
            at="spot.anchors.other.tested_force",
            signal=Signal.WARNING,
        ),
        review(
            "low",
            {GATE: _stakes("30 kN"), "spot.ground.soil": "wet"},
            at="spot.ground.soil",
            signal=Signal.WARNING,
        ),
        sound("low", {GATE: _stakes("99 kN")}),
        faulty("low", {GATE: _stakes("101 kN")}, at=f"{GATE}.tested_force", signal=Signal.CAUTION),
        open_("low", {GATE: {"kind": "ground"}}, at=f"{GATE}.tested_force"),
        open_("low", {GATE: _stakes("20 kN"), "plan.users": REMOVE}, at="plan.users"),
    ),
)
def ground_anchor(case: Case, end: End) -> Iterator[Fault]:
    yield from _wet(case, end)
    yield from _beyond_any(case, end)
    at = end.on_structure("tested_force")
    tested = need(end.structure.tested_force, at)
    pull, required = end.pull(), case.required("backup" if end.backup else "ground_anchor")
    ratio = tested.si / pull.tension_n
    if required is None or ratio >= required:
        return
    remedies = case.put_right(at, *((lighter_user,) if end.backup else (lower_tension, lighter_user)))
    yield Fault(
        at,
        f"The ground anchor '{end.name}' was tested to {tested.text}. That is "
        f"{rounded(ratio, 'down')} × the pull {when(pull.state)} "
        f"({in_kn(pull.tension_n)}); you need {required:g} ×.",
        either(
            f"test '{end.name}' to {in_kn(required * pull.tension_n, 'up')} in the line's direction",
            *remedies.or_else(f"bring the pull down to {in_kn(tested.si / required, 'down')}"),
        ),
        value=ratio,
        limit=required,
        unit="1",
        inputs=(
            case.given("tested force", "F", tested, at),
            Input("pull at this end", "T", pull.tension_n / 1e3, "kN"),
        ),
        state=pull.state,
        signal=Signal.DANGER if ratio < case.limit(LEAST) else None,
        remedies=remedies,
    )


def _wet(case: Case, end: End) -> Iterator[Fault]:
    """Ask for a new test where the soil is softer than it may have been on the day of the last one."""
    soil = case.spot.ground.soil if case.spot and case.spot.ground else None
    if soil not in {"wet", "shallow"}:
        return
    yield Fault(
        case.on_spot("ground", "soil", part=end.anchor.id),
        f"The ground anchor '{end.name}' is in {soil} soil, which holds much less than firm ground.",
        f"Test '{end.name}' again in the soil as it is now, in line with the pull, before anyone walks.",
        kind="review",
        source=PRACTICE,
    )


def _beyond_any(case: Case, end: End) -> Iterator[Fault]:
    """Doubt a test that no crew can have made."""
    tested, most = end.structure.tested_force, case.limit(MOST)
    if tested is not None and tested.si > most:
        yield Fault(
            end.on_structure("tested_force"),
            f"The ground anchor '{end.name}' is entered as tested to {tested.text}; {in_kn(most)} is the most "
            "that a crew can pull.",
            "Look up how it was tested and with what, and put the figure or its unit right.",
            value=tested.si / 1e3,
            limit=most / 1e3,
            unit="kN",
            signal=Signal.CAUTION,
            source=MOST.source,
        )
