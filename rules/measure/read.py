"""The tension of a line that stands was read, not guessed."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    Case,
    Fault,
    Signal,
    faulty,
    review,
    rule,
    sound,
    the_rig,
)

READ = [{"what": "force", "where": "line", "value": "6.1 kN", "date": "2026-05-02"}]


@rule(
    title="Nobody has read the tension",
    each=the_rig,
    signal=Signal.CAUTION,
    why="Arms and ears misjudge a tension by half, and every ratio of the plan goes with it.",
    formula="a line that stands has an entry under `measured`; near the ground it is only asked for",
    sources=(PRACTICE,),
    prevents=("tension_guessed",),
    examples=(
        sound("long_haul"),
        sound("low", {"measured": READ, "stage": "built"}),
        sound("long_haul", {"measured": READ, "stage": "built"}),
        faulty("long_haul", {"stage": "built"}, at="measured", signal=Signal.CAUTION),
        faulty("long_haul", {"stage": "walking"}, at="measured", signal=Signal.CAUTION),
        review("low", {"stage": "built"}, at="measured", signal=Signal.NOTICE),
    ),
)
def read(case: Case, _rig: None) -> Iterator[Fault]:
    if case.rig.stage not in {"built", "walking"} or case.rig.measured:
        return
    near = case.consequence == "ground"
    yield Fault(
        case.at("measured"),
        f"The line is {case.rig.stage} and nobody has entered how tight it stands.",
        "Read it and enter it under measured: a gauge in the line, ten returns of a pulse, or the sag under somebody "
        "whose weight is known.",
        value="no reading",
        limit="1 reading",
        kind="review" if near else "fail",
        signal=Signal.NOTICE if near else None,
    )
