"""Nothing weakens the tensioned line more than it must: no knot in webbing.

A sling that is hitched to a sling or to metal is judged by `placement/sling_joint`.
"""

from collections.abc import Iterator

from riglint.rulekit import (
    Case,
    Fault,
    Placed,
    Signal,
    Source,
    everywhere,
    faulty,
    insert_before,
    need,
    open_,
    rule,
    sound,
)

KNOTS = Source(
    "a federation's test story: knots in webbing keep roughly a quarter to a half; taboo",
    "published",
    ("austrian_ropes",),
)
W_2 = {"shelf[0].items.W-2": {"kind": "webbing"}}
JOINED = {"part": "webbing_join"}
KNOT = {"chain[6]": {"part": "webbing_knot", "knot": "overhand"}}


def _joined(**join: str) -> dict[str, object]:
    return {**W_2, "chain[5]": insert_before({"part": "webbing", "gear": "W-2"}, {**JOINED, **join})}


@rule(
    title="A knot that weakens the line",
    each=everywhere("webbing_knot", "webbing_join"),
    signal=Signal.WARNING,
    raised={"life": Signal.DANGER},
    why="Webbing breaks at its knot, at half its label or less.",
    formula="no knot in tensioned webbing, the main line's or a backup's",
    sources=(KNOTS,),
    prevents=("knot_in_webbing",),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        sound("low", _joined(gear="WA-2") | {"shelf[0].items.WA-2": {"kind": "webbing_anchor"}}),
        faulty("low", KNOT, at="chain[6]", signal=Signal.WARNING),
        faulty("low", {**KNOT, "plan.consequence": "life"}, at="chain[6]", signal=Signal.DANGER),
        faulty("low", _joined(knot="water_knot"), at="chain[6]"),
        faulty("highline", {"backups[0].chain[3]": {"part": "webbing_knot", "knot": "figure_eight"}}),
        open_("low", _joined(), at="chain[6].gear"),
    ),
)
def termination(case: Case, placed: Placed) -> Iterator[Fault]:
    part = placed.part
    if part.part == "webbing_knot" and part.knot == "none":
        return  # nothing holds the webbing: placement/rope_end tells it
    if part.part == "webbing_knot" or part.knot not in {None, "none"}:
        yield _knotted(case, placed)
    elif part.part == "webbing_join":
        need(part.gear, case.on_part(placed, "gear"))  # what joins them, since no knot is named


def _knotted(case: Case, placed: Placed) -> Fault:
    knot = (placed.part.knot or "not named").replace("_", " ")
    return Fault(
        case.on_part(placed),
        f"The tensioned webbing has a knot ({knot}). It keeps a quarter to a half of its strength there.",
        "Hold it in a webbing anchor, which keeps about 90 %, or by a sewn loop.",
        source=KNOTS,
    )
