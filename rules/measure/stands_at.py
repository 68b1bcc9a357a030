"""What a puller was left at agrees with the plan that everything is computed with."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Input,
    Limit,
    Placed,
    Signal,
    faulty,
    first_up,
    in_kn,
    open_,
    parts,
    rule,
    sound,
)

APART = Limit(
    name="apart",
    text="15 %",
    dimension="strain_or_ratio",
    tighter="lower",
    because=(
        "A scale at a tensioner reads the tension to about a tenth. Beyond that, the plan "
        "describes another line."
    ),
    source=PRACTICE,
)
HOIST = {"kind": "puller", "form": "lever_hoist", "mbs": "50 kN", "inspected": "2026-04-02"}


def _left_at(force: str | None) -> dict[str, object]:
    """Tension the low line, planned at 3 kN, with a hoist that was left at a force."""
    part = {"part": "puller", "gear": "PU-1"} | ({"stands_at": force} if force else {})
    return {"chain[8]": part, "shelf[0].items.PU-1": HOIST}


@rule(
    title="The tensioner isn't at the planned tension",
    each=parts("puller"),
    signal=Signal.WARNING,
    why="Every ratio here depends on the planned tension. A tighter line has less to spare in every part.",
    formula="planned tension · (1 − apart) ≤ stands_at ≤ planned tension · (1 + apart)",
    limits=(APART,),
    prevents=("tension_guessed",),
    examples=(
        sound("low"),
        sound("low", _left_at(None)),
        sound("low", _left_at("3.43 kN")),
        faulty("low", _left_at("3.47 kN"), at="chain[8].stands_at", signal=Signal.WARNING),
        sound("low", _left_at("2.57 kN")),
        faulty("low", _left_at("2.53 kN"), at="chain[8].stands_at", signal=Signal.CAUTION),
        faulty("low", _left_at("25 kN"), signal=Signal.WARNING),
        open_("low", _left_at("3 kN") | {"plan.standing_tension": REMOVE}, at="plan.standing_tension"),
    ),
)
def stands_at(case: Case, placed: Placed) -> Iterator[Fault]:
    left = placed.part.stands_at
    if left is None:
        return
    planned, apart, at = (
        case.loads.planned_standing_tension_n,
        case.limit(APART),
        case.on_part(placed, "stands_at"),
    )
    if planned * (1.0 - apart) <= left.si <= planned * (1.0 + apart):
        return
    above = left.si > planned
    yield Fault(
        at,
        f"{first_up(placed.words)} was left at {left.text}. The plan says {in_kn(planned)}.",
        (f"Lower the line to {in_kn(planned)}, or" if above else "Read it again, or")
        + f" put {in_kn(left.si)} into the plan and audit again.",
        value=left.si / 1e3,
        limit=planned / 1e3,
        unit="kN",
        inputs=(case.given("left at", "T", left, at), Input("planned", "T0", planned / 1e3, "kN")),
        signal=None if above else Signal.CAUTION,
    )
