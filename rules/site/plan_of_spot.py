"""The span that was measured and the plan of the spot agree."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    Case,
    Fault,
    Input,
    Limit,
    Signal,
    by_plan,
    faulty,
    rounded,
    rule,
    sound,
    the_rig,
)

MOST = Limit(
    name="most_apart",
    text="2 %",
    dimension="strain_or_ratio",
    tighter="lower",
    because="A tape, a range finder and a sketch with coordinates agree that well.",
    source=PRACTICE,
)
GATE, BARN = "spot.anchors.gate.plan", "spot.anchors.barn.plan"


def _plan(x: str) -> dict[str, object]:
    """Return a plan; between the faces of the two trunks there are 0.43 m less than between their middles."""
    return {GATE: ["0 m", "0 m"], BARN: [x, "0 m"]}


@rule(
    title="The span and the plan of the spot do not agree",
    each=the_rig,
    signal=Signal.WARNING,
    why="One of the two is wrong, and with it sag, tension, webbing to cut, and where lines cross.",
    formula="|span − distance by the plan| ≤ their ± + most apart · span",
    limits=(MOST,),
    prevents=("span_wrong",),
    examples=(
        sound("low"),
        sound("low", _plan("16.43 m")),
        sound("low", _plan("16.84 m")),
        faulty("low", _plan("16.86 m"), at="spot.span", signal=Signal.WARNING),
        faulty("low", _plan("14 m"), at="spot.span"),
    ),
)
def plan_of_spot(case: Case, _rig: None) -> Iterator[Fault]:
    if case.spot is None or case.spot.span is None or not case.path.whole:
        return
    first, last = (one.part.at or "" for one in case.path.anchors)
    told, span = by_plan(case.spot, first, last), case.spot.span
    if told is None:
        return
    apart = abs(span.si - told.span_m)
    if apart <= span.plus_minus + told.plus_minus_m + case.limit(MOST) * span.si:
        return
    at = case.on_spot("span")
    yield Fault(
        at,
        f"The span between '{first}' and '{last}' is {span.text} on file and {rounded(told.span_m)} m by the plan.",
        "Measure the span again, and correct it or the places of the two anchors on the plan.",
        value=span.si,
        limit=told.span_m,
        unit="m",
        inputs=(case.given("span", "L", span, at), Input("span by the plan", "Lp", told.span_m, "m")),
    )
