"""Whoever fills in a rig file is told what labels and tapes tell and the file does not say.

No verdict waits for these values: a rule holds something against each of them where it stands, and has nothing to hold
against it where it does not. A value that a verdict needs is an open question of its own rule.
"""

from collections import Counter
from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Signal,
    each_item,
    not_filled_in,
    review,
    rule,
    sound,
    the_rig,
)


@rule(
    title="Values that labels and tapes tell are not in the file",
    each=the_rig,
    signal=Signal.NOTICE,
    why="A wrong label, an old piece or a borrowed plan shows where two values disagree; one alone agrees with itself.",
    formula="each value that a rule compares with another is on file",
    sources=(PRACTICE,),
    prevents=("values_left_out",),
    examples=(
        review("low", signal=Signal.NOTICE),
        review("low", {"shelf[0].items.SH-1.pin": REMOVE}),
        review("highline", {"edges[0].from_anchor": REMOVE}),
        review("low", {"plan": REMOVE}),
        review("low", {"spot": REMOVE}),
        sound("low"),  # what every rig is told is no fault
    ),
)
def left_out(case: Case, _rig: None) -> Iterator[Fault]:
    lacking = Counter(not_filled_in(case, each_item().of(case)))
    if not lacking:
        return
    several = [f"{key} ({times} times)" if times > 1 else key for key, times in sorted(lacking.items())]
    yield Fault(
        case.at(),
        f"{lacking.total()} values are not filled in that no verdict waits for: {', '.join(several)}.",
        "Fill in what labels, tape and gear book tell; where two values disagree, a rule then says so.",
        value=float(lacking.total()),
        limit=0.0,
        kind="review",
    )
