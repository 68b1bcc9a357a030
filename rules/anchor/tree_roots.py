"""Roots and soil hold the tree. They are not computed: a person must look, and look harder on soft ground."""

from collections.abc import Iterator

from riglint.rulekit import (
    REMOVE,
    Case,
    Fault,
    Input,
    Placed,
    Signal,
    Source,
    anchors,
    need,
    open_,
    review,
    rule,
    sound,
)

LOOK = "look for cut roots, cracks in the ground and a lifting root plate, before and while tension goes on"


@rule(
    title="Roots and soil of a tree are for the eyes",
    each=anchors("tree"),
    signal=Signal.CAUTION,
    raised={"life": Signal.WARNING},
    why="Trees that fail under a side pull mostly tip over with their roots, long before the stem breaks.",
    formula="not computed; moment at the ground M = T·h",
    sources=(
        Source(
            "Detter et al. 2023, Forests 14(3) 533: tipping inferred from the moment, not from diameter",
            "published",
            ("detter_2023",),
        ),
    ),
    prevents=("roots_lift",),
    examples=(
        sound("long_haul"),
        review("low", at="spot.anchors.gate", signal=Signal.NOTICE),
        review("low", {"spot.ground.soil": "wet"}, at="spot.ground.soil", signal=Signal.CAUTION),
        review("low", {"spot.ground.soil": "shallow"}, at="spot.ground.soil", signal=Signal.CAUTION),
        review("long_haul", {"spot.ground.soil": "wet", "plan.consequence": "life"}, signal=Signal.WARNING),
        open_("low", {"spot.ground.soil": REMOVE}, at="spot.ground.soil"),
        open_("low", {"spot.ground": REMOVE}, at="spot.ground.soil"),
        open_("low", {"spot.ground.soil": "wet", "chain[0].height": REMOVE}, at="chain[0].height"),
    ),
)
def tree_roots(case: Case, anchor: Placed) -> Iterator[Fault]:
    name = anchor.part.at or ""
    soil = case.spot.ground.soil if case.spot and case.spot.ground else None
    at = case.on_spot("ground", "soil", part=anchor.id)
    if soil not in {"wet", "shallow"}:
        yield Fault(
            case.on_spot("anchors", name, part=anchor.id),
            f"Look at the roots and soil of '{name}': no lifting plate, no cracks, no wet or shallow ground; "
            "they are not computed.",
            f"At '{name}', {LOOK}.",
            kind="review",
            signal=Signal.NOTICE,
        )
        need(soil, at)
        return
    pull = case.loads.pull_on(anchor)
    yield Fault(
        at,
        f"The line pulls at the tree '{name}' with {pull.moment_nm / 1e3:.3g} kNm about its foot, in {soil} soil; "
        "whether its roots hold is not computed.",
        f"At '{name}', {LOOK}. If the ground moves, stop and sling lower than {pull.height_m:.3g} m.",
        value=pull.moment_nm / 1e3,
        unit="kNm",
        inputs=(
            Input("peak at this end", "T", pull.tension_n / 1e3, "kN"),
            Input("height of the pull", "h", pull.height_m, "m", case.on_part(anchor, "height").reference),
        ),
        state=pull.state,
        kind="review",
    )
