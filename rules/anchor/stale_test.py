"""A test of a bolt, a ground anchor or a structure grows old: frost, rust, rain and rot go on after it."""

from collections.abc import Iterator
from datetime import date

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    At,
    Case,
    End,
    Fault,
    Limit,
    Signal,
    Source,
    ends,
    faulty,
    known,
    months_after,
    need,
    open_,
    rule,
    sound,
)


def _months(kind: str, text: str, because: str, source: Source = PRACTICE) -> Limit:
    return Limit(f"most_months_{kind}", text, None, "lower", because, source)


MOST = {
    "bolts": _months("bolts", "60", "In five winters frost and rust reach what a test found sound."),
    "ground": _months("ground", "12", "The same stake holds otherwise in wet, dry and frozen soil."),
    "structure": _months("structure", "60", "In five years wood rots, steel rusts, and somebody rebuilds."),
}
GATE, BOLT = "spot.anchors.gate", "spot.anchors.west.points.w1"


def _tested(kind: str, day: str | None, **more: object) -> dict[str, object]:
    anchor: dict[str, object] = {"kind": kind, "tested_force": "20 kN", **more}
    return {GATE: anchor | ({"tested": day} if day else {})}


@rule(
    title="The anchor's test has grown old",
    each=ends("bolts", "ground", "structure"),
    signal=Signal.CAUTION,
    raised={"fall": Signal.WARNING, "life": Signal.WARNING},
    worst=Signal.WARNING,
    why="What a test once showed is trusted long after rust, frost or rain have changed what holds.",
    formula="day of the audit ≤ day of the test + most months of its kind; no test before it was placed",
    limits=tuple(MOST.values()),
    prevents=("test_grown_old",),
    examples=(
        sound("low"),
        sound("highline"),
        sound("highline", {f"{BOLT}.tested": "2021-05-02", f"{BOLT}.placed": "2020-01"}),
        faulty(
            "highline",
            {f"{BOLT}.tested": "2021-05-01", f"{BOLT}.placed": "2020-01"},
            at=f"{BOLT}.tested",
            signal=Signal.WARNING,
        ),
        sound("highline", {f"{BOLT}.tested": REMOVE}),  # whether it needs one, anchor/bolt_origin says
        faulty("highline", {f"{BOLT}.tested": "2026-05-03"}, at=f"{BOLT}.tested", signal=Signal.WARNING),
        sound("highline", {f"{BOLT}.tested": "2026-05-02"}),
        faulty("highline", {f"{BOLT}.tested": "2023-04-30"}, at=f"{BOLT}.tested", signal=Signal.WARNING),
        sound("highline", {f"{BOLT}.tested": "2023-05-01"}),
        sound("low", _tested("ground", "2025-05-02")),
        faulty("low", _tested("ground", "2025-05-01"), at=f"{GATE}.tested", signal=Signal.CAUTION),
        faulty("low", _tested("ground", "2026-05-03"), at=f"{GATE}.tested", signal=Signal.CAUTION),
        open_("low", _tested("ground", None), at=f"{GATE}.tested"),
        sound("low", _tested("structure", "2021-05-02")),
        faulty("low", _tested("structure", "2021-05-01"), at=f"{GATE}.tested", signal=Signal.CAUTION),
        open_("low", _tested("structure", None), at=f"{GATE}.tested"),
        sound("low", {GATE: {"kind": "structure", "design_force": "20 kN"}}),
        sound("low", {GATE: {"kind": "ground"}}),  # asked for its test by anchor/ground_anchor
    ),
)
def stale_test(case: Case, end: End) -> Iterator[Fault]:
    if end.structure.kind == "bolts":
        yield from _bolts(case, end)
        return
    told = end.backup is not None and end.name in {one.part.at for one in case.path.anchors}
    if not told and end.structure.tested_force is not None:
        at = end.on_structure("tested")
        yield from _judged(case, end, f"'{end.name}'", need(end.structure.tested, at), at)


def _bolts(case: Case, end: End) -> Iterator[Fault]:
    names = known(end.point_names) or list(end.structure.points)
    for name in names:
        bolt = end.structure.points.get(name)
        if bolt is None or bolt.tested is None:
            continue
        at = end.on_structure("points", name, "tested")
        if bolt.placed is not None and bolt.tested < bolt.placed:
            yield _wrong(
                at, f"Bolt '{name}' was tested on {bolt.tested}, before it was placed on {bolt.placed}."
            )
        else:
            yield from _judged(case, end, f"bolt '{name}'", bolt.tested, at)


def _judged(case: Case, end: End, what: str, tested: date, at: At) -> Iterator[Fault]:
    limit = MOST[end.structure.kind]
    months = case.limit(limit)
    if tested > case.on:
        yield _wrong(at, f"The test of {what} is dated {tested}, after this audit ({case.on}).")
    elif case.on > (due := months_after(tested, round(months))):
        yield Fault(
            at,
            f"The test of {what} is of {tested}; it counted until {due}, {months:g} months.",
            f"Have {what} tested again in the line's direction, and enter the day.",
            value=round((case.on - tested).days / 30.44, 1),
            limit=months,
            unit="months",
            source=limit.source,
        )


def _wrong(at: At, message: str) -> Fault:
    return Fault(
        at, message, "Put the days right; until then nobody knows when it was tested.", source=PRACTICE
    )
