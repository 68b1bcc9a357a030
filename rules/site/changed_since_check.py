"""What stands is still what was checked: rig, spot and gear are written as they were at the last check."""

from collections.abc import Iterator

from riglint.rulekit import (
    OWN,
    Case,
    Fault,
    Signal,
    faulty,
    review,
    rule,
    sound,
    the_rig,
)

CHECK = {"what": "hand_tight_recheck", "date": "2026-05-02", "after_tension": "3 kN"}
UP = {"stage": "built", "checks": [CHECK]}
OTHER = "0000-0000-0000"
THIRDS = ("the rig", "its spot", "gear that it uses")


@rule(
    title="The files changed after the last check",
    each=the_rig,
    signal=Signal.CAUTION,
    why="Somebody swapped a sling or corrected a span in the file. Nobody has checked the line since.",
    formula="fingerprint at the last check = fingerprint now (of rig, spot, gear)",
    sources=(OWN,),
    prevents=("file_changed_after_the_build",),
    examples=(
        sound("low"),
        sound("low", {"checks": [{**CHECK, "fingerprint": OTHER}]}),
        review("low", UP, at="checks", signal=Signal.NOTICE),
        faulty("low", {**UP, "checks": [{**CHECK, "fingerprint": OTHER}]}, at="checks[0].fingerprint"),
        faulty("low", {**UP, "checks": [CHECK, {**CHECK, "fingerprint": OTHER}]}, at="checks[1].fingerprint"),
        faulty("low", {**UP, "checks": [{**CHECK, "fingerprint": OTHER}, CHECK]}, at="checks[0].fingerprint"),
        faulty("low", {**UP, "checks": [{**CHECK, "fingerprint": "mine"}]}, at="checks[0].fingerprint"),
    ),
)
def changed_since_check(case: Case, _rig: None) -> Iterator[Fault]:
    if case.rig.stage not in {"built", "walking"} or not case.rig.checks:
        return
    stated = [(n, one.fingerprint) for n, one in enumerate(case.rig.checks) if one.fingerprint]
    if not stated:
        yield Fault(
            case.at("checks"),
            f"No check has a fingerprint, so nobody sees what has changed since. Today's is {case.fingerprint}.",
            f"Enter `fingerprint: {case.fingerprint}` in a check that was made with these files.",
            kind="review",
            signal=Signal.NOTICE,
        )
        return
    n, then = stated[-1]
    if then == case.fingerprint:
        return
    pairs = zip(THIRDS, then.split("-"), case.fingerprint.split("-"), strict=False)
    changed = [what for what, old, new in pairs if old != new]
    yield Fault(
        case.at("checks", n, "fingerprint"),
        f"The files have changed since the last check: {' and '.join(changed)}.",
        f"Check the line as it is now, and enter that check with `fingerprint: {case.fingerprint}`.",
        value=case.fingerprint,
        limit=then,
    )
