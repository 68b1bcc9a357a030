"""The rig lies within what can be computed, so that the other rules have forces to judge."""

from collections.abc import Callable, Iterator

from riglint.rulekit import (
    OWN,
    At,
    Case,
    Fault,
    MissingInput,
    NotComputable,
    Signal,
    faulty,
    rule,
    sound,
    the_rig,
)


@rule(
    title="Part of the rig can't be calculated",
    each=the_rig,
    signal=Signal.WARNING,
    raised={"fall": Signal.WARNING, "life": Signal.DANGER},
    why="No rule checked the forces that we couldn't calculate. Nothing found there doesn't mean a pass.",
    formula="the line hangs, its peaks are found, and the pulley system lies within the range of its mechanics",
    sources=(OWN,),
    prevents=("units_mixed", "span_wrong"),
    explains=True,
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("long_haul", {"chain[8].multiplier.ratio": 5}),
        faulty("long_haul", {"chain[8].multiplier.ratio": 6}, at="chain[8]", signal=Signal.WARNING),
        faulty(
            "long_haul",
            {"chain[8].multiplier.ratio": 6, "plan.consequence": "life"},
            signal=Signal.DANGER,
        ),
        faulty("long_haul", {"chain[8].strands": 21}, at="chain[8]"),
        faulty("long_haul", {"plan.tail_wraps": 11}, at="chain[8]"),
        faulty("long_haul", {"plan.standing_tension": "0 kN"}, at="plan.standing_tension"),
        faulty(
            "long_haul",
            {"plan.standing_tension": "0.001 kN"},
            at="plan.standing_tension",
            shows="units_mixed",
        ),
        faulty("long_haul", {"chain[8].open": "1.2 m"}, at="plan.standing_tension"),
        faulty("low", {"spot.span": "2 m"}, at="plan.standing_tension", shows="span_wrong"),
        faulty(
            "long_haul",
            {
                "plan.standing_from": "measured",
                "measured": [{"what": "force", "date": "2026-05-01", "where": "line", "value": "0.001 kN"}],
            },
            at="plan.standing_from",
        ),
    ),
)
def computed(case: Case, _rig: None) -> Iterator[Fault]:
    if not case.path.whole:
        return  # chain/order tells why
    told: set[str] = set()
    for at, compute in _asked(case):
        try:
            compute()
        except MissingInput:
            continue  # the rules that need the value ask for it
        except NotComputable as unable:
            if unable.because in told:
                continue
            told.add(unable.because)
            yield Fault(
                at,
                f"Nothing that depends on this is checked: {unable.because}.",
                "Correct the number. If it is right, have a competent person calculate this part "
                "of the rig by hand.",
            )


def _asked(case: Case) -> Iterator[tuple[At, Callable[[], object]]]:
    read = case.plan is not None and case.plan.standing_from == "measured"
    line = case.at("plan", "standing_from" if read else "standing_tension")
    yield line, lambda: case.loads.standing
    yield line, case.loads.peaks
    if case.path.haul is not None:
        here, haul = case.on_part(case.path.haul), case.haul
        yield here, lambda: haul.to_reach_at_worst(case.loads.standing_tension_n)
        yield here, haul.overshoot
        yield here, lambda: haul.hold_n(case.loads.standing_tension_n)
    if case.loads.tie_back is not None:
        yield case.on_part(case.loads.tie_back.placed), lambda: case.loads.tie_back_catch
