"""On a highline each end is tied to a tag line before it is opened."""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Signal,
    due,
    faulty,
    open_,
    review,
    rule,
    sound,
    the_rig,
)

AT = "plan.tag_line"


@rule(
    title="No tag line holds the ends while the highline comes down",
    each=the_rig,
    signal=Signal.WARNING,
    why="An end opened without a tag line goes over the edge, with its metal, onto the people below.",
    formula="on a highline a tag line on each end before it is opened",
    sources=(PRACTICE,),
    prevents=("main_lost_over_the_edge",),
    examples=(
        sound("low"),
        sound("highline"),
        faulty("highline", {AT: False}, at=AT, signal=Signal.WARNING),
        review("highline", {AT: REMOVE}, at=AT),
        open_("highline", {AT: REMOVE, "stage": "built"}, at=AT),
        open_("long_haul", {"use": REMOVE}, at="use"),
    ),
)
def tag_line(case: Case, _rig: None) -> Iterator[Fault]:
    if not case.highline:
        return
    at, tied = case.at("plan", "tag_line"), case.plan.tag_line if case.plan else None
    do = "Have a tag line as long as the span ready. Tie it to each end before you open that end."
    if tied is None:
        yield from due(case, at, do)
    elif not tied:
        yield Fault(at, "The plan opens the ends of this highline without a tag line on them.", do)
