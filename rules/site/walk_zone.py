"""The walk zone leaves a stretch of line to walk on."""

from collections.abc import Iterator

from riglint.rulekit import PRACTICE, REMOVE, Case, Fault, Input, Signal, faulty, open_, rule, sound, the_rig

ZONE = "plan.walk_zone"


@rule(
    title="The walk zone is longer than the line",
    each=the_rig,
    signal=Signal.WARNING,
    why="We calculate nothing outside the walk zone. People who walk there anyway meet other forces.",
    formula="nearest to one end + nearest to the other < length of the webbing between its fittings",
    sources=(PRACTICE,),
    prevents=("span_wrong",),
    examples=(
        sound("low"),
        sound("highline"),
        sound("low", {ZONE: ["6 m", "6 m"]}),
        faulty("low", {ZONE: ["8 m", "7 m"]}, at=ZONE, signal=Signal.WARNING),
        faulty("highline", {ZONE: ["60 m", "2 m"]}, at=ZONE, signal=Signal.WARNING),
        sound("low", {ZONE: REMOVE}),
        open_("low", {"plan.standing_tension": REMOVE}, at="plan.standing_tension"),
        open_("low", {"spot.span": REMOVE}, at="spot.span"),
    ),
)
def walk_zone(case: Case, _rig: None) -> Iterator[Fault]:
    zone = case.plan.walk_zone if case.plan else None
    if zone is None:
        return
    left_out, length = sum(one.si for one in zone), case.loads.standing.line.unstressed_m
    if left_out < length:
        return
    yield Fault(
        case.at("plan", "walk_zone"),
        f"The walk zone begins {zone[0].text} from one end and ends {zone[1].text} from the "
        f"other. The line is {length:.3g} m long, so nobody can walk on any of it.",
        "Measure again how close people come to each end of the webbing, and enter both distances.",
        value=left_out,
        limit=length,
        unit="m",
        inputs=(Input("webbing between its fittings", "L", length, "m"),),
    )
