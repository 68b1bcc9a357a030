"""Roots and soil hold the tree. They are not computed: a person must look, and look harder where it leans or is wet."""

from collections.abc import Iterator
from math import degrees

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    End,
    Fault,
    Input,
    Limit,
    OnCard,
    Signal,
    Source,
    ends,
    faulty,
    need,
    open_,
    review,
    rule,
    sound,
)

LOOK = "look for cut roots and for cracked, wet or lifting ground, before and while you tension"
LOOK_FROM = Limit(
    name="lean_to_look_at",
    text="10 deg",
    dimension="angle",
    tighter="lower",
    because="Beyond this lean nobody can tell by eye whether a tree grew that way or was pushed over.",
    source=PRACTICE,
)
MOST = Limit(
    name="most_lean",
    text="20 deg",
    dimension="angle",
    tighter="lower",
    because="The tree's own weight already pulls at its roots, and the line adds to it.",
    source=PRACTICE,
)
LEAN = "spot.anchors.gate.lean"
SNAG: dict[str, object] = {
    "spot.anchors.snag": {"kind": "tree", "lean": "30 deg"},
    "backups[0].chain[0].at": "snag",
    "backups[0].chain[1]": {"part": "sling", "gear": "RS-7", "hitch": "choke"},
}


@rule(
    title="Look at the roots and soil of the tree yourself",
    each=ends("tree"),
    signal=Signal.CAUTION,
    raised={"life": Signal.WARNING},
    worst=Signal.WARNING,
    why="Trees pulled from the side usually tip over with their roots, long before the stem breaks.",
    formula="not calculated; moment at the ground M = T·h; lean ≤ most lean, above 10° a person judges it",
    limits=(LOOK_FROM, MOST),
    sources=(
        Source(
            "Detter et al. 2023, Forests 14(3) 533: tipping inferred from the moment, not from diameter",
            "published",
            ("detter_2023",),
        ),
    ),
    prevents=("roots_lift",),
    on_card=OnCard(advice=True, do_alone=True),
    examples=(
        sound("highline"),
        review("long_haul", signal=Signal.NOTICE),
        review("low", at="spot.anchors.gate", signal=Signal.NOTICE),
        review("low", {"spot.ground.soil": "wet"}, at="spot.ground.soil", signal=Signal.CAUTION),
        review("low", {"spot.ground.soil": "shallow"}, at="spot.ground.soil", signal=Signal.CAUTION),
        review("long_haul", {"spot.ground.soil": "wet", "plan.consequence": "life"}, signal=Signal.WARNING),
        review("low", {LEAN: "9.9 deg"}, at="spot.anchors.gate", signal=Signal.NOTICE),
        review("low", {LEAN: "10.1 deg"}, at=LEAN, signal=Signal.CAUTION),
        review("low", {LEAN: "19.8 deg"}, at=LEAN, signal=Signal.CAUTION),
        faulty("low", {LEAN: "20.2 deg"}, at=LEAN, signal=Signal.WARNING),
        faulty("low", {LEAN: "45 deg", "plan.consequence": "life"}, at=LEAN, signal=Signal.DANGER),
        faulty("highline", SNAG, at="spot.anchors.snag.lean", signal=Signal.DANGER),
        open_("low", {"spot.ground.soil": REMOVE}, at="spot.ground.soil"),
        open_("low", {"spot.ground": REMOVE}, at="spot.ground.soil"),
        open_("low", {"spot.ground.soil": "wet", "chain[0].height": REMOVE}, at="chain[0].height"),
    ),
)
def tree_roots(case: Case, end: End) -> Iterator[Fault]:
    if end.backup is not None and end.name in case.main_structures:
        return  # told for the main line
    name = end.name
    yield from _leaning(case, end)
    soil = case.spot.ground.soil if case.spot and case.spot.ground else None
    at = case.on_spot("ground", "soil", part=end.anchor.id)
    if soil not in {"wet", "shallow"}:
        yield Fault(
            case.on_spot("anchors", name, part=end.anchor.id),
            f"Look at the roots of '{name}': is the ground cracked, wet or lifting? We don't calculate roots.",
            f"At '{name}', {LOOK}.",
            kind="review",
            signal=Signal.NOTICE,
        )
        need(soil, at)
        return
    height, pull = end.height_m(), end.pull()
    # Roots feel pull times height. Shown for comparison only: no formula turns it into what they hold.
    moment = pull.tension_n * height / 1e3
    yield Fault(
        at,
        f"The line pulls the tree '{name}' with {moment:.3g} kNm about its foot, in {soil} soil. "
        "We don't calculate whether its roots hold.",
        f"At '{name}', {LOOK}. If the ground moves, stop and put the sling lower than {height:.3g} m.",
        value=moment,
        unit="kNm",
        inputs=(
            Input("peak at this end", "T", pull.tension_n / 1e3, "kN"),
            Input("height of the pull", "h", height, "m", end.height_at.reference),
        ),
        state=pull.state,
        kind="review",
    )


def _leaning(case: Case, end: End) -> Iterator[Fault]:
    lean, at = end.structure.lean, case.on_spot("anchors", end.name, "lean", part=end.anchor.id)
    if lean is None or lean.si <= case.limit(LOOK_FROM):
        return
    beyond = lean.si > case.limit(MOST)
    limit = MOST if beyond else LOOK_FROM
    most = degrees(case.limit(limit))
    word = (Signal.DANGER if case.consequence == "life" else Signal.WARNING) if beyond else Signal.CAUTION
    yield Fault(
        at,
        f"The tree '{end.name}' leans {degrees(lean.si):.3g}°. "
        + (
            f"{most:.3g}° is the most."
            if beyond
            else f"Above {most:.3g}° someone who knows trees must judge it."
        ),
        f"Choose another tree for '{end.name}', or have someone who knows trees judge its roots.",
        value=degrees(lean.si),
        limit=most,
        unit="deg",
        inputs=(case.given("lean", "β", lean, at),),
        kind="fail" if beyond else "review",
        signal=word,
        source=limit.source,
    )
