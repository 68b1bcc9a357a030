"""The test of a ground anchor or a structure grows old: rain, frost, rust and rot go on after it.

Bolts are judged by `anchor/bolt_state`.
"""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    Case,
    End,
    Fault,
    Limit,
    Signal,
    ends,
    faulty,
    months_after,
    need,
    open_,
    rule,
    sound,
)


def _months(kind: str, text: str, because: str) -> Limit:
    return Limit(f"most_months_{kind}", text, None, "lower", because, PRACTICE)


MOST = {
    "ground": _months("ground", "12", "The same stake holds differently in wet, dry and frozen soil."),
    "structure": _months("structure", "60", "In five years wood rots, steel rusts, and people rebuild."),
}
GATE = "spot.anchors.gate"


def _tested(kind: str, day: str | None) -> dict[str, object]:
    anchor = {"kind": kind, "tested_force": "20 kN"}
    return {GATE: anchor | ({"tested": day} if day else {})}


@rule(
    title="The anchor's test is too old",
    each=ends("ground", "structure"),
    signal=Signal.CAUTION,
    raised={"fall": Signal.WARNING, "life": Signal.WARNING},
    worst=Signal.WARNING,
    why="People trust a test long after rain, frost or rot have changed the ground.",
    formula="day of the audit ≤ day of the test + most months of its kind",
    limits=tuple(MOST.values()),
    prevents=("test_grown_old",),
    examples=(
        sound("low"),
        sound("highline"),
        sound("low", _tested("ground", "2025-05-02")),
        faulty("low", _tested("ground", "2025-05-01"), at=f"{GATE}.tested", signal=Signal.CAUTION),
        faulty("low", _tested("ground", "2020-05-01") | {"plan.consequence": "fall"}, signal=Signal.WARNING),
        faulty("low", _tested("ground", "2026-05-03"), at=f"{GATE}.tested", signal=Signal.CAUTION),
        sound("low", _tested("ground", "2026-05-02")),
        faulty("low", {GATE: {"kind": "ground", "tested": "2025-05-01"}}, at=f"{GATE}.tested"),
        open_("low", _tested("ground", None), at=f"{GATE}.tested"),
        sound("low", _tested("structure", "2021-05-02")),
        faulty("low", _tested("structure", "2021-05-01"), at=f"{GATE}.tested", signal=Signal.CAUTION),
        open_("low", _tested("structure", None), at=f"{GATE}.tested"),
        sound("low", {GATE: {"kind": "structure", "design_force": "20 kN"}}),
        sound("low", {GATE: {"kind": "ground"}}),  # asked for its test by anchor/ground_anchor
    ),
)
def stale_test(case: Case, end: End) -> Iterator[Fault]:
    told = end.backup is not None and end.name in {one.part.at for one in case.path.anchors}
    untested = end.structure.tested_force is None and end.structure.tested is None
    if told or untested or end.structure.design_force is not None:
        return
    at, limit = end.on_structure("tested"), MOST[end.structure.kind]
    tested, months = need(end.structure.tested, at), case.limit(limit)
    due = months_after(tested, round(months))
    if tested > case.on:
        yield Fault(
            at,
            f"The test of '{end.name}' is dated {tested}. That is after this audit ({case.on}).",
            "Correct the date. Until then nobody knows when it was tested.",
        )
    elif case.on > due:
        yield Fault(
            at,
            f"'{end.name}' was tested on {tested}. The test counted for {months:g} months, until {due}.",
            f"Have '{end.name}' tested again in line with the pull, and enter the date.",
            value=round((case.on - tested).days / 30.44, 1),
            limit=months,
            unit="months",
            source=limit.source,
        )
