"""Stakes and other ground anchors count for what they were pulled to in a test, and for nothing else."""

from collections.abc import Iterator

from riglint.rulekit import (
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
    rounded,
    rule,
    sound,
)

LEAST = Limit(
    name="least_ratio",
    text="1.0",
    dimension=None,
    tighter="higher",
    because="Beyond the force of its test nobody knows whether the anchor stays in the ground.",
    source=Source("own proposal: a pull above the test is unknown ground", "own"),
)
GATE, WEST = "spot.anchors.gate", "spot.anchors.west"


def _stakes(tested: str) -> dict[str, object]:
    return {"kind": "ground", "tested_force": tested, "tested": "2026-04-20"}


@rule(
    title="The ground anchor was not tested far enough",
    each=ends("ground"),
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    worst=Signal.DANGER,
    why="A stake that pulls out of soft ground flies along the line, point first.",
    formula="tested force ÷ T ≥ required ratio, T the worst pull at that end",
    limits=(LEAST,),
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
        open_("low", {GATE: {"kind": "ground"}}, at=f"{GATE}.tested_force"),
        open_("low", {GATE: _stakes("20 kN"), "plan.users": REMOVE}, at="plan.users"),
    ),
)
def ground_anchor(case: Case, end: End) -> Iterator[Fault]:
    at = end.on_structure("tested_force")
    tested = need(end.structure.tested_force, at)
    pull, required = end.pull(), case.required("backup" if end.backup else "ground_anchor")
    ratio = tested.si / pull.tension_n
    if required is None or ratio >= required:
        return
    ways = case.put_right(at, *((lighter_user,) if end.backup else (lower_tension, lighter_user)))
    yield Fault(
        at,
        f"The ground anchor '{end.name}' was tested to {tested.text}, {rounded(ratio, 'down')} times the "
        f"{in_kn(pull.tension_n)} of the {pull.state.replace('_', ' ')}; {required:g} is required.",
        either(
            f"test '{end.name}' to {in_kn(required * pull.tension_n, 'up')} in the line's direction",
            *ways.or_else(f"bring the pull down to {in_kn(tested.si / required, 'down')}"),
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
        remedies=ways,
    )
