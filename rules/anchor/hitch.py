"""A sling stays where it was put on the trunk, and nobody knots it.

A lark's foot on another sling or on metal is judged by `placement/termination`; what a choke takes off stands
in the sling's strength.
"""

from collections.abc import Iterator

from riglint.rulekit import (
    PRACTICE,
    REMOVE,
    Case,
    Fault,
    Placed,
    Signal,
    Source,
    each_sling,
    faulty,
    need,
    open_,
    review,
    rule,
    sound,
)

SMOOTH = {"spot.anchors.gate.bark": "smooth"}


@rule(
    title="The sling may slip down its trunk, or is knotted",
    each=each_sling,
    signal=Signal.CAUTION,
    worst=Signal.WARNING,
    why="A basket on smooth bark slides down as the line slackens, and the line comes taut with a jerk.",
    formula="no basket on smooth bark without something that stops it; no knot in a sling",
    sources=(
        PRACTICE,
        Source("lifting standards forbid a knotted or twisted sling; a knot keeps about half", "practice"),
    ),
    prevents=("sling_slides_down", "sling_knotted_or_twisted"),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        review("low", SMOOTH, at="chain[2].hitch", signal=Signal.CAUTION, shows="sling_slides_down"),
        sound("low", {**SMOOTH, "chain[2].hitch": "choke"}),
        sound("low", {**SMOOTH, "chain[2].hitch": "wrap"}),
        faulty(
            "low",
            {"chain[2].knotted": True},
            at="chain[2].knotted",
            signal=Signal.WARNING,
            shows="sling_knotted_or_twisted",
        ),
        sound("low", {"chain[2].knotted": False}),
        open_("low", {"chain[2].hitch": REMOVE}, at="chain[2].hitch"),
        open_("low", {"spot.anchors.gate.bark": REMOVE}, at="spot.anchors.gate.bark"),
    ),
)
def hitch(case: Case, sling: Placed) -> Iterator[Fault]:
    if sling.part.knotted:
        yield Fault(
            case.on_part(sling, "knotted"),
            f"The {sling.words} is knotted or twisted and keeps about half of its strength.",
            f"Lay {sling.words} flat, or take one of the right length in place of the knot.",
            signal=Signal.WARNING,
            source=Source("lifting standards forbid a knotted or twisted sling", "practice"),
        )
    end = case.loads.geometry.anchor_of(sling)
    tree = case.path.structure(end)
    if tree is None or tree.kind != "tree":
        return
    at, name = case.on_part(sling, "hitch"), end.part.at or ""
    if need(sling.part.hitch, at) != "basket":
        return
    if need(tree.bark, case.on_spot("anchors", name, "bark")) == "smooth":
        yield Fault(
            at,
            f"The {sling.words} lies in basket on the smooth bark of '{name}', where little keeps it up.",
            f"Choke it (it then holds 0.8 of its straight strength), or tie a stop cord under {sling.words}.",
            kind="review",
        )
