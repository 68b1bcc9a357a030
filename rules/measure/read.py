"""The tension of a line that stands was read, not guessed."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    Case,
    Fault,
    Signal,
    after_today,
    faulty,
    in_time,
    review,
    rule,
    sound,
    the_rig,
)

READ = [{"what": "force", "where": "line", "value": "6.1 kN", "date": "2026-05-02"}]


def _read_on(day: str) -> dict[str, object]:
    return {"measured": [{**READ[0], "date": day}], "stage": "built"}


@rule(
    title="Nobody has read the tension",
    each=the_rig,
    signal=Signal.CAUTION,
    why="Arms and ears misjudge a tension by half, and every ratio of the plan with it.",
    formula=(
        "a line that stands has an entry under `measured`, not dated after the day judged by nor long before "
        "plan.first_day; near the ground it is only asked for"
    ),
    sources=(PRACTICE,),
    prevents=("tension_guessed",),
    examples=(
        sound("long_haul"),
        sound("low", {"measured": READ, "stage": "built"}),
        sound("long_haul", {"measured": READ, "stage": "built"}),
        faulty("long_haul", {"stage": "built"}, at="measured", signal=Signal.CAUTION),
        faulty("long_haul", {"stage": "walking"}, at="measured", signal=Signal.CAUTION),
        review("low", {"stage": "built"}, at="measured", signal=Signal.NOTICE),
        faulty("long_haul", _read_on("2026-05-03"), at="measured[0].date", signal=Signal.CAUTION),
        review("low", _read_on("2026-05-03"), at="measured[0].date", signal=Signal.NOTICE),
        sound("long_haul", _read_on("2026-04-30") | {"plan.first_day": "2026-05-02"}),
        faulty("long_haul", _read_on("2026-04-29") | {"plan.first_day": "2026-05-02"}, at="measured"),
        sound("long_haul", {"measured": [{**READ[0], "date": "2026-05-03"}]}),
    ),
)
def read(case: Case, _rig: None) -> Iterator[Fault]:
    if case.rig.stage not in {"built", "walking"}:
        return
    near = case.consequence == "ground"
    signal = Signal.NOTICE if near else None
    ahead = [(n, one.date) for n, one in enumerate(case.rig.measured) if after_today(case, one.date)]
    for n, day in ahead:
        yield Fault(
            case.at("measured", n, "date"),
            f"A reading is dated {day}, after this audit ({case.on}). It doesn't count.",
            "Enter the date on which you read the tension. If nobody has read it, take the entry "
            "out and read it.",
            value=str(day),
            limit=str(case.on),
            kind="review" if near else "fail",
            signal=signal,
        )
    if ahead or any(in_time(case, one.date) for one in case.rig.measured):
        return
    yield Fault(
        case.at("measured"),
        f"The line is {case.rig.stage}, and nobody has entered its tension.",
        "Read it and enter it under `measured`. Use a gauge in the line, ten returns of a pulse, "
        "or the sag under a known weight.",
        value="no reading",
        limit="1 reading",
        kind="review" if near else "fail",
        signal=signal,
    )
